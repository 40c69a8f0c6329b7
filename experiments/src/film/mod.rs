//! One possession again: its told trace, and a page that plays it.

mod beside;
mod beside_page;
mod court;
mod drawn;
mod guards;
mod moments;
mod narrate;
mod page;
mod parting;
mod reel;
mod restarts;
mod shot_clock;
mod telling;
mod track;
mod words;

pub use beside::{Side, narrate_beside};
pub use beside_page::page_beside;
pub use court::floor_svg;
pub use narrate::narrate;
pub use page::{Caption, page};
pub use words::{SetupWords, Words};
