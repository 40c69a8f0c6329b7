//! How often players decide.

/// Time between decisions where nothing is learned, s. (assumed)
pub const DECISION_PERIOD_S: f32 = 0.1;
/// What deciding in periods adds to a reaction on average, s: half of the period. (computed)
pub const HALF_DECISION_PERIOD_S: f32 = 0.5 * DECISION_PERIOD_S;
