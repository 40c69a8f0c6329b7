//! The commands, one file each; [`crate::app`] picks one.

mod again;
mod beside;
mod catalog;
mod chart;
mod check;
mod compare;
mod completions;
mod film;
mod handed;
mod input;
mod keys;
mod man;
mod plan;
mod scout;
mod sheet;
mod show;
mod varied;
mod verify;
mod watched;
mod worth;

pub use catalog::catalog;
pub use chart::chart;
pub use check::check;
pub use compare::{compare, simulate};
pub use completions::completions;
pub use film::film;
pub use keys::{keys, schema};
pub use man::man;
pub use scout::scout;
pub use sheet::sheet;
pub use show::show;
pub use verify::verify;
pub use worth::worth;
