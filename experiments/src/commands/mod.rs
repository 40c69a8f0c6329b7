//! The commands, one file each; [`crate::app`] picks one.

mod catalog;
mod check;
mod compare;
mod film;

pub use catalog::catalog;
pub use check::check;
pub use compare::{compare, simulate};
pub use film::film;
