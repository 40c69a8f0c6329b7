//! How people play, in numbers: what players see and learn, when they move, where they stand, what they weigh.
//! Constants only, one theme a file; the decisions and stages that use them hold none of their own.

pub mod attention;
pub mod ball_events;
pub mod choice;
pub mod deciding;
pub mod dribbling;
pub mod driving;
pub mod fakes;
pub mod glass;
pub mod help;
pub mod holding;
pub mod judging;
pub mod on_ball_defence;
pub mod pass_chance;
pub mod passing;
pub mod post_defence;
pub mod programs;
pub mod shooting;
pub mod spacing;
pub mod taught;
pub mod walking;
pub mod zone_shape;
