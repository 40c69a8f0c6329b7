//! How people play, in numbers: what players see and learn, when they move, where they stand, what they weigh.
//! Constants only, one theme a file; the decisions and stages that use them hold none of their own.

pub mod attention;
pub mod ball_events;
pub mod deciding;
pub mod glass;
pub mod programs;
pub mod spacing;
pub mod walking;
