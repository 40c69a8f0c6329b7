//! Takes the frames of a film: reads a slot as a step has left it and changes nothing in it.

use crate::film::{Action, Air, Event, Film, Frame, PassLane, Player, View, What};
use crate::math::to_segment;
use crate::measure::{self, Seen};
use crate::setup::Setup;
use crate::slots::{ATTACK, BALL, DEFENCE, PLAYERS, attacks};
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Entity, World};

/// Bodies nearer than this to touching lean on each other, m. (assumed)
const AGAINST_M: f32 = 0.12;

/// Adds the present step of a slot to a film.
pub fn shoot(world: &World, slot: Entity, reel: &mut Film) {
    let entity = world.entity(slot);
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
    let (Some(minds), Some(wishes), Some(tally)) =
        (entity.get::<Minds>(), entity.get::<Wishes>(), entity.get::<Tally>())
    else {
        return;
    };
    let seen = Seen { given, clocks, bodies, traits, ball, side: side.0 };
    let (look, stress) = match clocks.status {
        Status::Playing => measure::shown(&seen),
        _ => (None, None),
    };
    let holder = match ball.state {
        BallState::Held { by } => Some(by),
        _ => None,
    };
    reel.side = side.0;
    reel.frames.push(Frame {
        time_s: clocks.now,
        players: core::array::from_fn(|lane| bodies.at(lane)),
        facing: core::array::from_fn(|lane| bodies.facing(lane)),
        ball: bodies.at(BALL),
        ball_height_m: ball.height,
        holder,
        air: air(ball),
        look,
        stress,
        lanes: holder.map_or([None; 5], |by| lanes(bodies, ball, menu, usize::from(by))),
        braced: core::array::from_fn(|lane| {
            holder != Some(lane as Player) && wishes.brace[lane] > 0.0 && leans(bodies, traits, lane)
        }),
        views: core::array::from_fn(|lane| view(given, lane, &minds.0[lane])),
    });
    for (time_s, at, signal) in signals.all() {
        let what = tell(*signal, menu, &given.setup, tally.points);
        reel.events.push(Event { time_s: *time_s, at: *at, what });
    }
}

fn air(ball: &Ball) -> Option<Air> {
    match ball.state {
        BallState::Pass(f) => {
            Some(Air::Pass { from: f.from, to: f.to, kind: f.kind, start: f.start, end: f.end })
        }
        BallState::Shot { by, .. } => Some(Air::Shot { by, start: ball.last_shot }),
        BallState::Rebound { down, .. } => Some(Air::Rebound { down }),
        BallState::Loose { at, .. } => Some(Air::Loose { at }),
        BallState::Held { .. } | BallState::Dead => None,
    }
}

/// The passing lanes of an attacker with the ball.
fn lanes(bodies: &Bodies, ball: &Ball, menu: &Menu, by: usize) -> [Option<PassLane>; 5] {
    // The menu stays as the last holder left it until the next one thinks.
    let fresh = menu.stretch.0 == ball.caught_s;
    let weighed = if fresh { &menu.options[..menu.count] } else { &[] };
    core::array::from_fn(|mate| {
        if !attacks(by) || mate == by {
            return None;
        }
        let mut lane = PassLane { clear_m: f32::INFINITY, nearest: 0, thought: None };
        for defender in DEFENCE {
            let (off, _) = to_segment(bodies.at(defender), bodies.at(by), bodies.at(mate));
            if off < lane.clear_m {
                lane = PassLane { clear_m: off, nearest: defender as Player, thought: None };
            }
        }
        let to_him = |option: &&_| matches!(option, crate::film::Weighed { action: Action::Pass(to, _), .. } if usize::from(*to) == mate);
        lane.thought = weighed.iter().find(to_him).copied();
        Some(lane)
    })
}

/// Whether a defender stands against an attacker, body to body.
fn leans(bodies: &Bodies, traits: &Traits, lane: usize) -> bool {
    debug_assert!(ATTACK.contains(&lane));
    DEFENCE.into_iter().any(|d| {
        let touch = traits.radius[lane] + traits.radius[d] + AGAINST_M;
        (bodies.at(d) - bodies.at(lane)).len2() < touch * touch
    })
}

fn view(given: &Given, lane: usize, mind: &Belief) -> View {
    let memory_s = given.team(lane).head.memory_s;
    let mut lost = 0;
    for other in 0..PLAYERS {
        lost |= u16::from(other != lane && mind.age[other] > memory_s) << other;
    }
    View {
        gaze: mind.gaze,
        players: core::array::from_fn(|other| mind.at(other)),
        age_s: core::array::from_fn(|other| mind.age[other]),
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
