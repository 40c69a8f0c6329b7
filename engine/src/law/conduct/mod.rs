//! How players behave: one named constant for everything that a decision weighs, one file a theme.

pub mod decision_period;
pub mod help;
pub mod on_ball_defence;
pub mod post_defence;
pub mod zone_shape;
