//! Writes down the events of possessions as they are played: reads a possession as a step has left it and changes nothing
//! in it, so that a possession that is recorded is the one that is not.

use crate::camera::leaning;
use crate::events::{Detail, Event, EventKind as Kind};
use crate::law::floor::{HIGH_POST, LANE, LOW_POST, SHORT_CORNER};
use crate::math::Vec2;
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::*;
use bevy_ecs::prelude::{Entity, World};

/// Two bodies that come apart for less than this and lean on each other again are one screen, s. (assumed; for records only)
const SAME_SCREEN_S: f32 = 0.5;

/// What has been written of one possession.
#[derive(Clone, Debug, Default)]
pub(crate) struct Page {
    events: Vec<Event>,
    /// Who had the ball at the last step, and in which areas of the floor.
    touch: (Option<Slot>, u8),
    /// When each attacker stood braced last, s.
    braced_s: [Option<f32>; 5],
    /// Where the shot was taken that has not come down yet.
    shot_at: Option<Vec2>,
    /// When the ball became dead that the attack keeps, s, until play begins again.
    dead_s: Option<f32>,
}

impl Page {
    /// Begins anew with a possession that has just been set up.
    pub fn begin(&mut self, world: &World, possession: Entity) {
        self.events.clear();
        (self.touch, self.braced_s, self.dead_s, self.shot_at) = ((None, 0), [None; 5], None, None);
        self.write(world, possession);
    }

    /// Adds what happened in the present step.
    pub fn write(&mut self, world: &World, possession: Entity) {
        let entity = world.entity(possession);
        let given = world.resource::<Given>();
        let (Some(clocks), Some(signals), Some(tally), Some(intents)) =
            (entity.get::<Clocks>(), entity.get::<Signals>(), entity.get::<Tally>(), entity.get::<Intents>())
        else {
            return;
        };
        if clocks.status == Status::Idle {
            return;
        }
        let braces = ATTACK.into_iter().any(|slot| intents.brace[slot] > 0.0);
        let touch = (tally.holder, tally.touch);
        if signals.count == 0 && !braces && touch == self.touch && self.dead_s.is_none() {
            return;
        }
        let (Some(bodies), Some(traits), Some(ball), Some(progress), Some(side)) = (
            entity.get::<Bodies>(),
            entity.get::<Traits>(),
            entity.get::<Ball>(),
            entity.get::<Progress>(),
            entity.get::<Side>(),
        ) else {
            return;
        };
        let seen = Seen { given, clocks, bodies, progress, points: tally.points, side: side.0 };
        let dead_s = std::mem::replace(&mut self.dead_s, clocks.reset_set.then_some(clocks.now));
        if let (Some(dead_s), Some(by)) = (dead_s, ball.holder()) {
            self.events.push(seen.event(dead_s, bodies.at(by), Kind::Restart, Some(by)));
        }
        for (time_s, at, signal) in signals.all() {
            let at = match signal {
                Signal::Shot { .. } => *self.shot_at.insert(*at),
                // Whether it came down to the rim or was fouled on the way up, it is one shot from one place.
                Signal::Made { .. } | Signal::Missed { .. } => self.shot_at.take().unwrap_or(*at),
                _ => *at,
            };
            self.events.extend(seen.told(*time_s, at, *signal));
        }
        // A finished possession has counted no more touches.
        if clocks.status == Status::Playing {
            self.touches(&seen, touch);
            if braces {
                self.screens(&seen, intents, traits, ball.holder());
            }
        }
    }

    /// Those who have the ball in an area where it was not.
    fn touches(&mut self, seen: &Seen<'_>, now: (Option<Slot>, u8)) {
        let before = if now.0 == self.touch.0 { self.touch.1 } else { 0 };
        self.touch = now;
        let Some(by) = now.0 else { return };
        for (bit, area) in [
            (LANE, Detail::Lane),
            (LOW_POST, Detail::LowPost),
            (HIGH_POST, Detail::HighPost),
            (SHORT_CORNER, Detail::ShortCorner),
        ] {
            if now.1 & !before & bit != 0 {
                let at = seen.bodies.at(by);
                let event = seen.event(seen.clocks.now, at, Kind::Touch, Some(by));
                self.events.push(Event { detail: Some(area), ..event });
            }
        }
    }

    /// Those who begin to stand braced with a defender against them.
    fn screens(&mut self, seen: &Seen<'_>, intents: &Intents, traits: &Traits, holder: Option<Slot>) {
        for slot in ATTACK {
            let stands = holder != Some(slot) && intents.brace[slot] > 0.0;
            let Some(against) = leaning(seen.bodies, traits, slot).filter(|_| stands) else { continue };
            let now = seen.clocks.now;
            let before = self.braced_s[slot].replace(now);
            if before.is_none_or(|before| now - before > SAME_SCREEN_S) {
                let event = seen.event(now, seen.bodies.at(slot), Kind::Screen, Some(slot));
                self.events.push(Event { other: Some(against), ..event });
            }
        }
    }

    /// All events, in order of time; stages of one step speak in their own order.
    pub fn events(&mut self) -> &[Event] {
        self.events.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
        &self.events
    }
}

/// What an event is told from.
struct Seen<'a> {
    given: &'a Given,
    clocks: &'a Clocks,
    bodies: &'a Bodies,
    progress: &'a Progress,
    points: u8,
    side: f32,
}

impl Seen<'_> {
    /// An event without what only some kinds have.
    fn event(&self, time_s: f32, at: Vec2, kind: Kind, by: Option<Slot>) -> Event {
        let (nearest, nearest_m) = self.bodies.nearest_defender(at);
        let turned = at.sided(self.side);
        Event {
            time_s,
            shot_clock_s: self.clocks.shot_clock,
            // Either zero is the middle, whichever side the rover is on.
            x_m: turned.x + 0.0,
            y_m: turned.y,
            kind,
            detail: None,
            by,
            other: None,
            nearest,
            nearest_m,
            length_m: None,
            chance: None,
            points: None,
            program: None,
        }
    }

    /// A signal as records have it; those of the mind are left to the film.
    fn told(&self, time_s: f32, at: Vec2, signal: Signal) -> Option<Event> {
        let of = |kind, by| self.event(time_s, at, kind, Some(by));
        Some(match signal {
            Signal::Start { holder } => of(Kind::Start, holder),
            Signal::Pass { from, to, kind, metres, .. } => Event {
                other: Some(to),
                detail: Some(kind.into()),
                length_m: Some(metres),
                ..of(Kind::Pass, from)
            },
            Signal::Catch { by, .. } => of(Kind::Catch, by),
            Signal::Tip { by } => of(Kind::Tip, by),
            Signal::Pickup { by } => of(Kind::Pickup, by),
            Signal::OutOfBounds { retained } => {
                let detail = Some(if retained { Detail::Kept } else { Detail::Lost });
                Event { detail, ..self.event(time_s, at, Kind::OutOfBounds, None) }
            }
            Signal::Fake { by, toward, bitten: 0 } => Event { other: Some(toward), ..of(Kind::Fake, by) },
            Signal::Fake { toward, bitten, .. } => {
                let by = DEFENCE.into_iter().find(|slot| bitten & slot.bit() != 0);
                Event { other: Some(toward), ..self.event(time_s, at, Kind::Bite, by) }
            }
            Signal::DriveStart { by } => of(Kind::Drive, by),
            Signal::DriveStop { by } => of(Kind::DriveEnd, by),
            Signal::Shot { by, metres, chance, three, .. } => Event {
                detail: Some(if three { Detail::Three } else { Detail::Two }),
                length_m: Some(metres),
                chance: Some(chance),
                program: self.progress.credit,
                ..of(Kind::Shot, by)
            },
            Signal::Made { by, points } => Event { points: Some(points), ..of(Kind::Made, by) },
            Signal::Missed { by } => of(Kind::Missed, by),
            Signal::Rebound { by, offensive } => {
                let detail = Some(if offensive { Detail::Offensive } else { Detail::Defensive });
                Event { detail, ..of(Kind::Rebound, by) }
            }
            Signal::ProgramStart { by, program } => {
                Event { program: Some(program), ..of(Kind::RouteStart, by) }
            }
            Signal::ProgramStep { by, program, .. } => {
                Event { program: Some(program), ..of(Kind::RouteLeg, by) }
            }
            Signal::ProgramEnd { by, program } => Event { program: Some(program), ..of(Kind::RouteEnd, by) },
            Signal::TakesBall { by, of: whom } => Event { other: Some(whom), ..of(self.taken(by, whom), by) },
            Signal::Helps { by, on } => Event { other: Some(on), ..of(Kind::Helps, by) },
            Signal::Foul { by, on, offensive, shooting } => {
                let detail = match (offensive, shooting) {
                    (true, _) => Detail::Offensive,
                    (_, true) => Detail::Shooting,
                    _ => Detail::Common,
                };
                Event { other: Some(on), detail: Some(detail), ..of(Kind::Foul, by) }
            }
            Signal::FreeThrows { by, made, .. } => Event { points: Some(made), ..of(Kind::FreeThrows, by) },
            Signal::Turnover { kind, by } => Event { detail: Some(kind.into()), ..of(Kind::Turnover, by) },
            Signal::End { .. } => {
                Event { points: Some(self.points), ..self.event(time_s, at, Kind::End, None) }
            }
            Signal::Decision { .. } | Signal::Loses { .. } => return None,
        })
    }

    /// How a defender takes the ball: by a closeout where he is as far from it as his zone has him run from.
    fn taken(&self, by: Slot, whom: Slot) -> Kind {
        let far_m = self.bodies.at(by).distance(self.bodies.at(whom));
        if far_m > self.given.setup.zone_of(by).closeout_from_m { Kind::Closeout } else { Kind::PicksUp }
    }
}
