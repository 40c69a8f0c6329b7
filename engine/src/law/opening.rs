//! Where and how a possession starts.

use crate::math::{Vec2, vec2};

// In the set.

/// How far apart the ends of each coordinate's scatter round a place are, m: a player starts up to half of it off.
/// (assumed)
pub const SCATTER_M: f32 = 0.6;
/// Nobody starts nearer to a line than this, m. (assumed)
pub const STARTS_INSIDE_M: f32 = 0.3;
/// Longest that an attacker waits before his first program, s: nobody starts his cuts on the same count in every
/// possession. (assumed)
pub const LONGEST_FIRST_WAIT_S: f32 = 0.6;
/// The first glance-back comes after this share of its period and up to a whole one more. (assumed)
pub const FIRST_GLANCE_SHARE: f32 = 0.3;

// Arriving over midcourt.

/// How far inside midcourt the dribbler starts, m. (assumed)
pub const INSIDE_MIDCOURT_M: f32 = 1.0;
/// The dribbler arrives at this share of his place's distance from the middle of the floor. (assumed)
pub const DRIBBLER_X_SHARE: f32 = 0.7;
/// The others come from this share of their places' distance from the middle of the floor. (assumed)
pub const RUNNER_X_SHARE: f32 = 0.8;
/// Speed of the dribbler, m/s. (assumed)
pub const DRIBBLE_M_S: f32 = 3.5;
/// Speed of the others on the way to their places, m/s. (assumed)
pub const RUN_M_S: f32 = 4.5;
/// Share of the way from midcourt to their places that attackers have left at least. (assumed)
pub const ATTACK_LEFT_LEAST: f32 = 0.2;
/// Attackers have up to this share of it more left, evenly drawn. (assumed)
pub const ATTACK_LEFT_MORE: f32 = 0.4;
/// Share of it that defenders have left at least: on average they are behind, or this would be the set. (assumed)
pub const DEFENCE_LEFT_LEAST: f32 = 0.4;
/// Defenders have up to this share of it more left, evenly drawn. (assumed)
pub const DEFENCE_LEFT_MORE: f32 = 0.6;
/// Posts and the back line are ahead of the others: they have this share of that left. (assumed)
pub const AHEAD_SHARE: f32 = 0.5;

// Round a rebound, the ball in an attacker's hands on the block.

/// How far from the middle of the floor the rebounder has the ball, m. (assumed)
pub const REBOUND_X_M: f32 = 1.1;
/// How high on the floor the rebounder has it, m. (assumed)
pub const REBOUND_Y_M: f32 = 0.9;
/// A collapsed zone has gone this share of the way from its anchors to where it collapses. (assumed)
pub const COLLAPSED_SHARE: f32 = 0.45;
/// Where a collapsed zone collapses to, m from under the rim. (assumed)
pub const COLLAPSE_AT: Vec2 = vec2(0.0, 1.0);
/// The rover has gone this share of the way from his place to the glass. (assumed)
pub const ROVER_TO_GLASS_SHARE: f32 = 0.5;
/// The guards are this share of that way inside their places. (assumed)
pub const GUARDS_TO_GLASS_SHARE: f32 = 0.1;
/// A post without the ball is on the other side, at this many times the ball's distance from the middle. (assumed)
pub const OTHER_POST_X_SHARE: f32 = 1.3;
/// How high on the floor that post is, m. (assumed)
pub const OTHER_POST_Y_M: f32 = 1.2;
/// Where the rover has the ball the post on his side is above him, at this share of the ball's distance from the
/// middle. (assumed)
pub const UPPER_POST_X_SHARE: f32 = 0.3;
/// How high on the floor that post is, m. (assumed)
pub const UPPER_POST_Y_M: f32 = 2.4;

// Individual differences. Normal draws are cut off in standard deviations.

/// Nobody differs from the mean of his team's level by more standard deviations than this. (assumed)
pub const MOST_DEVIATIONS: f32 = 2.5;
/// Nobody's reaction is quicker than the mean by more standard deviations than this. (assumed)
pub const MOST_DEVIATIONS_QUICK: f32 = 2.0;
/// Slowest sprint that anybody may be drawn with, m/s. (assumed)
pub const SLOWEST_SPRINT_M_S: f32 = 0.1;
/// A longer standing reach is longer arms by this share of it. (assumed)
pub const ARM_SHARE_OF_REACH: f32 = 0.5;
