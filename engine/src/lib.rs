//! The possession model of Zoneprobe: values in, values out; no files, clock, threads or printing.
//!
//! [`Arena::play`] plays a range of possessions of one [`setup::Setup`]; [`film::Film`] is one of them again,
//! move for move.
//!
//! The rooms, from below to above; each may use only those before it, so no import points upwards:
//!
//! 1. `math`, `slots`, `random`, `measures`, `record`: numbers, players, draws, and what a possession leaves behind.
//! 2. `setup`: what is played, checked before it comes here.
//! 3. `law`: laws of the world, pure functions and every number of the world under a name.
//! 4. `state`: what a possession is made of, as components.
//! 5. `start`: how one begins.
//! 6. The stages of a step, in order: `clock`, `perceive`, `decide`, `motion`, `contact`, `ball`, `officiate`, `measure`.
//!    None uses another; a decision is handed beliefs, never the true state.
//! 7. `step` (the order of the stages), `film` and `camera` (what can be seen of it), `events` and `scribe` (what is written
//!    down of it), `arena` (plays it), `arrange` (scenes for tests), `names` (words for players and places).

pub mod arena;
pub mod arrange;
mod ball;
mod camera;
mod clock;
mod contact;
mod decide;
pub mod events;
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
mod scribe;
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
pub use state::ends::{self, Ends};
pub use state::places::{self, Places};
pub use state::returns::{self, Returns};
pub use state::shots::{self, Shots};
