//! What a helper on the bench wrote down against what was predicted: where the model was wrong, how little so few possessions
//! say, and what the players' counts are now. See [`Rate`] for what is held against what.

mod best_fit;
mod ends;
mod form;
mod judged;
mod predicted;
mod rate;
mod roster;
mod told;
mod written;

pub use best_fit::{Change, Fits, changes, fits, play};
pub(crate) use ends::end_lines;
pub use form::{blank_csv, blank_page};
pub use judged::{Judged, by_session, judged, needed};
pub use predicted::{Predicted, leader};
pub use rate::Rate;
pub use roster::{Updated, updated};
pub(crate) use roster::{rows_of, wearers};
pub use told::{told, told_fits};
pub use written::{charted_lines, question};
