//! The components of a possession entity: its ten players as lanes, its ball, clocks, minds and tally.

mod ball;
mod bodies;
mod clocks;
mod given;
mod marks;
mod minds;
pub mod places;
mod plans;
pub mod returns;
mod signals;
mod tally;

pub use ball::*;
pub use bodies::*;
pub use clocks::*;
pub use given::*;
pub use minds::*;
pub use places::Places;
pub use plans::*;
pub use returns::Returns;
pub use signals::*;
pub use tally::*;

use crate::math::Vec2;
use bevy_ecs::prelude::Component;

/// The touches of the step, for the officials.
#[derive(Component, Clone, Debug, Default)]
pub struct Touches(pub crate::law::solver::ContactLog);

/// The side on which the rover started: +1 right, -1 left.
#[derive(Component, Clone, Copy, Debug)]
pub struct Side(pub f32);

/// Everything that one slot of a world needs, as it is before its first possession.
pub fn empty_slot() -> (
    (Clocks, Bodies, Traits, History, Minds, Board, Ball),
    (Plans, Wishes, Menu, Signals, Tally, Touches, Side, crate::random::Streams),
) {
    (
        (
            Clocks {
                status: Status::Idle,
                possession: 0,
                now: 0.0,
                steps: 0,
                shot_clock: 0.0,
                in_lane: [0.0; 5],
                guarded: 0.0,
                bonus: false,
                shift_on_release: true,
                judged_s: [f32::NEG_INFINITY; 5],
                reset_set: false,
                first_chance: true,
                counted: false,
            },
            Bodies::default(),
            Traits::default(),
            History { ring: [Sample::EMPTY; History::LENGTH], newest: 0 },
            Minds(core::array::from_fn(|_| empty_belief())),
            Board { news: [(0.0, News::Shot); Board::LENGTH], count: 0 },
            empty_ball(),
        ),
        (
            Plans {
                attack: [empty_plan(); 5],
                defence: [empty_duty(); 5],
                next_s: [0.0; 10],
                rest: [[0.0; PROGRAMS]; 5],
            },
            Wishes::default(),
            Menu {
                options: [Menu::EMPTY; Menu::LENGTH],
                count: 0,
                noise: [0.0; Menu::IDENTITIES],
                stretch: (f32::NEG_INFINITY, 0),
            },
            Signals { list: [(0.0, Vec2::RIM, Signal::Start { holder: 0 }); Signals::LENGTH], count: 0 },
            empty_tally(),
            Touches::default(),
            Side(1.0),
            crate::random::Streams::new(0, 0),
        ),
    )
}
