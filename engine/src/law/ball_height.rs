//! How high the ball is while it does not fly as a pass. Hands reach for passes only, so elsewhere the height is for the
//! eye: it settles nothing.

use super::flight::GRAVITY_M_S2;
use super::shot::{BELOW_RIM_M, RELEASE_HEIGHT_M};

/// Held in both hands, m. (assumed)
pub const HELD_M: f32 = 1.2;
/// In the hands of the one who starts the possession, before its first step, m. (assumed)
pub const AT_THE_START_M: f32 = 1.1;
/// Dribbled, on the mean of a bounce, m. (assumed)
pub const DRIBBLED_M: f32 = 0.6;
/// Loose on the floor, on the mean of its bounces, m. (assumed)
pub const LOOSE_M: f32 = 0.3;
/// Height of a shot as it leaves the hands, m. (derived from [`RELEASE_HEIGHT_M`])
const SHOT_RELEASE_M: f32 = RELEASE_HEIGHT_M as f32;
/// A rebound as it can be had, m: at the height of hands that go up for it. (assumed)
const REBOUND_M: f32 = 2.6;
/// A rebound comes down at this mean speed, m/s. (assumed)
const REBOUND_FALLS_M_S: f32 = 1.2;

/// A shot that flies for `span_s` when a share of that is `gone`, m: a parabola from the hands to the rim.
pub fn of_shot_m(span_s: f32, gone: f32) -> f32 {
    SHOT_RELEASE_M + BELOW_RIM_M * gone + 0.5 * GRAVITY_M_S2 * span_s * span_s * gone * (1.0 - gone)
}

/// A rebound that comes down in `left_s`, m.
pub fn of_rebound_m(left_s: f32) -> f32 {
    REBOUND_M + REBOUND_FALLS_M_S * left_s
}
