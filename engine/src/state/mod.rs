//! State: what a possession is made of, as components of one entity. It holds data and the plainest questions about it
//! (where is he, who has it); what becomes of it is decided in the stages, by the laws of `law`.
//!
//! A possession is one entity and not ten: each component is a row or an array with a slot for every player
//! ([`crate::slots`]), so that a stage goes over all of them in one loop. Nothing here grows while a possession is played.
//! What is true and what is believed are kept apart: [`Bodies`], [`Ball`] and [`History`] are true, [`Minds`] and what
//! [`EventQueue`] has told are what a player may act upon.
//!
//! | file | components | written by (`start` writes all) |
//! | --- | --- | --- |
//! | `clocks` | [`Clocks`]: status, time, shot clock, counts | `clock`, `ball`, `officiate`, `measure` |
//! | `bodies` | [`Bodies`], [`History`]: where everybody is and was | `motion`, `contact`; the ball's slot `ball` |
//! | `bodies` | [`Traits`]: what each can do | nobody |
//! | `minds` | [`Minds`]: what each believes | `perceive` |
//! | `minds` | [`EventQueue`]: events of the ball that may be learned | `ball`; fakes `decide` |
//! | `plans` | [`Plans`]: what each is about | `decide`; when he decides next also `perceive`, `ball` |
//! | `plans` | [intents]: what each wants of this step | `decide` |
//! | `ball` | [`Ball`]: in hands, in the air or loose | `ball`, `officiate` |
//! | `hold` | [`Hold`]: what the man with the ball does and may do with it | `ball` from a catch on, `decide` |
//! | `progress` | [`Progress`]: how the ball came to where it is | `ball`, `decide` |
//! | `signals` | [`Menu`]: the last decision on the ball | `decide` |
//! | `signals` | [`Signals`]: what happened in this step | all that has something to say; `clock` clears them |
//! | `tally`, `marks` | [`Tally`]: what the measures have counted | `measure` |
//! | here | [`Touches`]: the contacts of this step; [`Side`]: the rover's | `contact`; nobody |
//!
//! Of a whole world, not of one possession: `given` (the setup and its tables), `places` with `shots` and `ends`, and `returns` (counts
//! over all its possessions). `ending` ends a possession; `parts` is the query of all components that its start fills in.

mod ball;
mod bodies;
mod clocks;
mod ending;
pub mod ends;
mod given;
mod hold;
mod marks;
mod minds;
mod parts;
pub mod places;
mod plans;
mod progress;
pub mod returns;
pub mod shots;
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

/// The contacts of this step, for the officials.
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
    pub events: EventQueue,
    pub ball: Ball,
    pub hold: Hold,
    pub allowance: Allowance,
    pub progress: Progress,
    pub plans: Plans,
    pub intents: Intents,
    pub menu: Menu,
    pub signals: Signals,
    pub tally: Tally,
    pub touches: Touches,
    pub side: Side,
    pub streams: crate::random::Streams,
}
