//! The components of a possession entity: its ten players as lanes, its ball, clocks, minds and tally.

mod ball;
mod bodies;
mod clocks;
mod ending;
mod given;
mod hold;
mod marks;
mod minds;
mod parts;
pub mod places;
mod plans;
mod progress;
pub mod returns;
mod signals;
mod tally;

pub use ball::*;
pub use bodies::*;
pub use clocks::*;
pub use ending::*;
pub use given::*;
pub use hold::*;
pub use minds::*;
pub use parts::{Parts, PartsItem};
pub use places::Places;
pub use plans::*;
pub use progress::*;
pub use returns::Returns;
pub use signals::*;
pub use tally::*;

use bevy_ecs::prelude::{Bundle, Component};

/// The touches of the step, for the officials.
#[derive(Component, Clone, Debug, Default)]
pub struct Touches(pub crate::law::solver::ContactLog);

/// The side on which the rover started: +1 right, -1 left.
#[derive(Component, Clone, Copy, Debug)]
pub struct Side(pub f32);

impl Default for Side {
    fn default() -> Self {
        Side(1.0)
    }
}

/// All components of a possession, as they are before its first one.
#[derive(Bundle, Default)]
pub struct Possession {
    pub clocks: Clocks,
    pub bodies: Bodies,
    pub traits: Traits,
    pub history: History,
    pub minds: Minds,
    pub board: Board,
    pub ball: Ball,
    pub hold: Hold,
    pub progress: Progress,
    pub plans: Plans,
    pub wishes: Wishes,
    pub menu: Menu,
    pub signals: Signals,
    pub tally: Tally,
    pub touches: Touches,
    pub side: Side,
    pub streams: crate::random::Streams,
}
