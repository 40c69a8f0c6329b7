//! The possession model of Zoneprobe: values in, values out; no files, clock, threads or printing.
//!
//! `Arena::play` plays a range of possessions of one [`setup::Setup`]; [`film::Film`] is one of them again,
//! move for move.

pub mod arena;
pub mod arrange;
mod ball;
mod camera;
mod clock;
mod components;
pub mod contact;
pub mod film;
mod given;
mod lanes;
pub mod math;
mod measure;
pub mod measures;
pub mod motion;
pub mod names;
mod officiate;
mod perceive;
pub mod places;
pub mod random;
mod reach;
mod read;
pub mod record;
pub mod returns;
pub mod setup;
mod spawn;
mod start;
pub mod step;

pub use arena::{Arena, film as film_possession};
pub use ball::shot_flight_s;
pub use given::gait_of;
pub use measure::{OPEN_M, WIDE_OPEN_M};
pub use measures::{Measure, Unit};
pub use places::Places;
pub use record::{Outcome, PossessionRecord};
pub use returns::Returns;
pub use start::starting_places;
