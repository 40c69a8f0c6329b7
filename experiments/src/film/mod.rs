//! One possession again: its told trace, and a page that plays it.

mod beside;
mod beside_page;
mod clip;
mod court;
mod drawn;
mod gif;
mod guards;
mod moments;
mod narrate;
mod page;
mod parting;
mod reel;
mod restarts;
mod scene;
mod shot_clock;
mod storyboard;
mod telling;
mod track;
mod words;

pub use beside::{Side, narrate_beside, never_part};
pub use beside_page::page_beside;
pub use clip::Clip;
pub use court::{floor_painted, floor_svg};
pub use narrate::narrate;
pub use page::{Caption, page};
pub use storyboard::storyboard;
pub use words::{SetupWords, Words};
