//! Players who are known by themselves, told back in words and as rows of files, and what everybody shot.

mod lines;
mod shooting;
mod told;

pub(crate) use lines::{PlayerLine, player_lines};
pub(crate) use shooting::{ShootingLine, shooting_lines};
pub(crate) use told::shares;
pub use told::told;
