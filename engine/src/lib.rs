//! The possession model of Zoneprobe: values in, values out; no files, clock, threads or printing.
//!
//! `Arena::play` plays a range of possessions of one [`setup::Setup`]; [`film::Film`] is one of them again,
//! move for move.

pub mod arena;
pub mod arrange;
mod ball;
mod camera;
mod clock;
mod contact;
mod decide;
pub mod film;
pub mod law;
pub mod math;
mod measure;
pub mod measures;
mod motion;
pub mod names;
mod officiate;
mod perceive;
pub mod random;
pub mod record;
pub mod setup;
pub mod slots;
mod start;
mod state;
pub mod step;

#[doc(hidden)]
pub use decide::view;

pub use arena::{Arena, film as film_possession};
pub use law::gait::gait_of;
pub use law::shot::{OPEN_M, WIDE_OPEN_M, flight_s as shot_flight_s};
pub use measures::{Measure, Unit};
pub use record::{Outcome, PossessionRecord};
pub use start::starting_places;
pub use state::places::{self, Places};
pub use state::returns::{self, Returns};
