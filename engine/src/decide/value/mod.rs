//! What things are worth to an attacker, in points, as he believes: a shot, a pass's chance, keeping the possession going.

mod continuation;
mod pass;
mod shot;

pub use continuation::continuation;
pub use pass::PassTry;
pub use shot::{Prospect, shot, shot_with_space, space_ahead};
