//! Takes the frames of a film: reads a possession as a step has left it and changes nothing in it.

use crate::film::{Air, Event, Film, Frame, PassLane, View, What};
use crate::math::to_segment;
use crate::measure::{self, Seen};
use crate::setup::Setup;
use crate::slots::{ALL, ATTACK, DEFENCE, Slot};
use crate::state::*;
use bevy_ecs::prelude::{Entity, World};

/// With no more than this between them two bodies lean on each other, m. (assumed; for the picture only)
const LEANS_WITHIN_M: f32 = 0.12;

/// Adds the present step of a possession to a film.
pub fn shoot(world: &World, possession: Entity, reel: &mut Film) {
    let entity = world.entity(possession);
    let given = world.resource::<Given>();
    let (Some(clocks), Some(bodies), Some(traits), Some(ball), Some(signals), Some(menu), Some(side)) = (
        entity.get::<Clocks>(),
        entity.get::<Bodies>(),
        entity.get::<Traits>(),
        entity.get::<Ball>(),
        entity.get::<Signals>(),
        entity.get::<Menu>(),
        entity.get::<Side>(),
    ) else {
        return;
    };
    let (Some(minds), Some(intents), Some(tally)) =
        (entity.get::<Minds>(), entity.get::<Intents>(), entity.get::<Tally>())
    else {
        return;
    };
    let (Some(hold), Some(progress)) = (entity.get::<Hold>(), entity.get::<Progress>()) else {
        return;
    };
    let seen = Seen { given, clocks, bodies, traits, ball, hold, progress, side: side.0 };
    let (look, stress) = match clocks.status {
        Status::Playing => measure::shown(&seen),
        _ => (None, None),
    };
    let holder = ball.holder();
    reel.side = side.0;
    reel.frames.push(Frame {
        time_s: clocks.now,
        players: ALL.map(|slot| bodies.at(slot)),
        facing: ALL.map(|slot| bodies.facing(slot)),
        ball: bodies.ball(),
        ball_height_m: ball.height,
        holder,
        air: air(ball),
        look,
        stress,
        lanes: holder.map_or([None; 5], |by| passing_lanes(bodies, hold, menu, by)),
        braced: ATTACK.map(|slot| {
            holder != Some(slot) && intents.brace[slot] > 0.0 && leaning(bodies, traits, slot).is_some()
        }),
        views: ALL.map(|slot| view(given, slot, &minds.0[slot])),
    });
    for (time_s, at, signal) in signals.all() {
        let what = tell(*signal, menu, &given.setup, tally.points);
        reel.events.push(Event { time_s: *time_s, at: *at, what });
    }
}

/// Where a ball that nobody holds is going.
fn air(ball: &Ball) -> Option<Air> {
    match ball.state {
        BallState::Pass(f) => {
            Some(Air::Pass { from: f.from, to: f.to, kind: f.kind, start: f.start, end: f.end })
        }
        BallState::Shot { by, from, .. } => Some(Air::Shot { by, start: from }),
        BallState::Rebound { down, .. } => Some(Air::Rebound { down }),
        BallState::Loose { at, .. } => Some(Air::Loose { at }),
        BallState::Held { .. } | BallState::Dead => None,
    }
}

/// The passing lanes of an attacker with the ball.
fn passing_lanes(bodies: &Bodies, hold: &Hold, menu: &Menu, by: Slot) -> [Option<PassLane>; 5] {
    // The menu stays as the last holder left it until the next one thinks.
    let fresh = menu.stretch.0 == hold.caught_s;
    let weighed = if fresh { &menu.options[..menu.count] } else { &[] };
    ATTACK.map(|mate| {
        if !by.attacks() || mate == by {
            return None;
        }
        let mut lane = PassLane { clear_m: f32::INFINITY, nearest: DEFENCE[0], thought: None };
        for defender in DEFENCE {
            let (off, _) = to_segment(bodies.at(defender), bodies.at(by), bodies.at(mate));
            if off < lane.clear_m {
                lane = PassLane { clear_m: off, nearest: defender, thought: None };
            }
        }
        let to_him = |option: &&Weighed| matches!(option.action, Action::Pass(to, _) if to == mate);
        lane.thought = weighed.iter().find(to_him).copied();
        Some(lane)
    })
}

/// The defender who stands against an attacker, body to body; of several the nearest.
pub(crate) fn leaning(bodies: &Bodies, traits: &Traits, slot: Slot) -> Option<Slot> {
    debug_assert!(slot.attacks());
    let far2 = |d: &Slot| (bodies.at(*d) - bodies.at(slot)).len2();
    let touches = |d: &Slot| {
        let touch = traits.radius[slot] + traits.radius[*d] + LEANS_WITHIN_M;
        far2(d) < touch * touch
    };
    DEFENCE.into_iter().filter(touches).min_by(|one, other| far2(one).total_cmp(&far2(other)))
}

/// What a player sees and believes.
fn view(given: &Given, slot: Slot, mind: &Belief) -> View {
    let memory_s = given.player(slot).head.memory_s;
    let mut lost = 0;
    for other in ALL {
        if other != slot && mind.age[other] > memory_s {
            lost |= other.bit();
        }
    }
    View {
        gaze: mind.gaze,
        players: ALL.map(|other| mind.at(other)),
        age_s: ALL.map(|other| mind.age[other]),
        ball: mind.ball,
        sees_ball: mind.sees_ball,
        lost,
    }
}

/// A signal as the film tells it.
fn tell(signal: Signal, menu: &Menu, setup: &Setup, points: u8) -> What {
    match signal {
        Signal::Start { holder } => What::Start { holder },
        Signal::Decision { by, chosen } => {
            let taken = menu.options[usize::from(chosen)];
            let mut options = menu.options[..menu.count].to_vec();
            options.sort_by(|a, b| b.value_points.total_cmp(&a.value_points));
            let chosen = options.iter().position(|o| o.action == taken.action).unwrap_or(0);
            What::Decision { by, options, chosen }
        }
        Signal::Pass { from, to, kind, metres, look_off, .. } => {
            What::Pass { from, to, kind, metres, look_off }
        }
        Signal::Catch { by, late_s, .. } => What::Catch { by, late_s },
        Signal::Tip { by } => What::Tip { by },
        Signal::Pickup { by } => What::Pickup { by },
        Signal::OutOfBounds { retained } => What::OutOfBounds { retained },
        Signal::Fake { by, toward, bitten } => What::Fake { by, toward, bitten },
        Signal::DriveStart { by } => What::DriveStart { by },
        Signal::DriveStop { by } => What::DriveStop { by },
        Signal::Shot { by, metres, space_m, chance, three } => {
            let open = space_m >= crate::law::shot::OPEN_M;
            What::Shot { by, metres, space_m, chance, three, open }
        }
        Signal::Made { by, points } => What::Made { by, points },
        Signal::Missed { by } => What::Missed { by },
        Signal::Rebound { by, offensive } => What::Rebound { by, offensive },
        Signal::ProgramStart { by, program } => {
            let kind = setup.attack.programs[usize::from(program)].kind;
            What::ProgramStart { by, program, kind }
        }
        Signal::ProgramStep { by, program, step } => What::ProgramStep { by, program, step },
        Signal::ProgramEnd { by, program } => What::ProgramEnd { by, program },
        Signal::TakesBall { by, of } => What::TakesBall { by, of },
        Signal::Helps { by, on } => What::Helps { by, on },
        Signal::Loses { by, whom } => What::Loses { by, whom },
        Signal::Foul { by, on, offensive, shooting } => What::Foul { by, on, offensive, shooting },
        Signal::FreeThrows { by, made, of, .. } => What::FreeThrows { by, made, of },
        Signal::Turnover { kind, by } => What::Turnover { kind, by },
        Signal::End { outcome } => What::End { outcome, points },
    }
}
