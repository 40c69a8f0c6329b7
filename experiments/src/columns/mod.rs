//! The one list of table columns: names, kinds and words. Every file, table and sentence is drawn from it.
//!
//! Names are those of the measures, a rate's with `_rate`, a share's with `_share`; files add `_low` and `_high`
//! for the ends of the interval. Everything that the engine measures is reachable through some column.

mod column;
mod list;
mod reference;

pub use column::{CONFIDENCE, Column, Kind, Told, keys, ratios};
pub use list::COLUMNS;
pub use reference::reference;
