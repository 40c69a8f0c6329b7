//! When a shot is thought of, how it is begun and when it is given up.

use crate::law::floor::INSIDE_M;

/// From farther from the rim than this a shot is a jump shot: it can be too early, be shown first, or be brought down
/// again, m. (derived from [`INSIDE_M`]: the edge of the inside)
pub const JUMP_SHOT_FROM_M: f32 = INSIDE_M;
/// A shot that promises no more than this is not weighed at all, points. (assumed)
pub const WORTH_A_THOUGHT_POINTS: f32 = 0.3;
/// A shot from so far beyond the three-point arc is not weighed, m. (assumed)
pub const BEYOND_ARC_M: f32 = 2.0;
/// Shortest time from the decision to shoot off the catch to the release, s. (assumed)
pub const LEAST_TO_RELEASE_S: f32 = 0.25;

/// With this much or less left to its release a shot is not brought down any more, s. (assumed)
pub const NOT_STOPPED_WITHIN_S: f32 = 0.15;
/// An early shot from outside is brought down again where a defender will be nearer than this at the release, m.
/// (assumed)
pub const SPOILT_WITHIN_M: f32 = 1.25;
/// An early shot is brought down only where the defender will be nearer by this than was expected when it was chosen,
/// m. (assumed)
pub const SPOILT_IF_NEARER_BY_M: f32 = 0.2;

/// Share of the way at his present speed that the last steps of a lay-up carry a driver on, during the gather.
/// (assumed)
pub const LAY_UP_CARRIES_SHARE: f32 = 0.7;
