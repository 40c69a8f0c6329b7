//! One possession again: its told trace, and a page that plays it.

mod court;
mod narrate;
mod page;
mod reel;
mod track;
mod words;

pub use court::floor_svg;
pub use narrate::narrate;
pub use page::{Caption, page};
pub use words::{SetupWords, Words};
