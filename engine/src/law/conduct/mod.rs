//! How people play, in numbers: what players see and learn, when they move, where they stand, what they weigh.
//! Constants only, one theme a file; the decisions and stages that use them hold none of their own.

pub mod deciding;
pub mod help;
pub mod on_ball_defence;
pub mod post_defence;
pub mod zone_shape;
