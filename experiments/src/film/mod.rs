//! One possession again: its told trace.

mod narrate;
mod words;

pub use narrate::narrate;
pub use words::{SetupWords, Words};
