//! The coach's sheet: a printed page of what to run and how it is answered, one of pictures and statistics, and a card for
//! each position.
//!
//! `compare` leaves tables and pictures ([`tables`], [`pictures`]); the sheet is put together from their rows
//! ([`Results`]) and from nothing else, so every number on it stands in a file.

mod adjusted;
mod ball;
mod calls;
pub mod cards;
mod costs;
mod lesson;
mod model;
mod named;
pub mod page;
pub mod paper;
mod pdf;
mod pen;
mod pictures;
mod ranked;
mod results;
mod tables;
mod told;
mod words;

pub use calls::Call;
pub use model::{Drawn, Game, Leader, Position, Sheet, Shown};
pub use paper::Paper;
pub use pdf::pdf;
pub use pen::{BOLD, REGULAR};
pub use pictures::pictures;
pub use ranked::Ranked;
pub use results::Results;
pub use tables::{PositionRow, by_net, positions, tables};
