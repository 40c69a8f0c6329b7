//! Getting about without the ball: round bodies, inside the lines, out of the lane in time, and how fast.

use crate::law::floor::LANE_CLEAR_M;

/// Top speed on a leg of a program that is walked, m/s. (assumed)
pub const WALK_M_S: f32 = 1.6;
/// Top speed on a leg of a program that is jogged, m/s. (assumed)
pub const JOG_M_S: f32 = 3.2;

/// How far ahead a player looks for bodies in his way, m. (assumed)
pub const LOOKS_AHEAD_M: f32 = 1.7;
/// Room that a player who goes round a body leaves beyond the two radii, m. (assumed)
pub const STEER_ROOM_M: f32 = 0.10;
/// A body last seen longer ago than this is not steered round, s. (assumed)
pub const STEER_FRESH_S: f32 = 0.7;
/// On a way shorter than this nobody steers, m. (assumed)
pub const STEER_SHORTEST_M: f32 = 0.8;
/// A body nearer than this along the way is beside him, not in the way, m. (assumed)
pub const STEER_BESIDE_M: f32 = 0.2;
/// A body nearer to the end of the way than this stands where he is going and is not in the way, m. (assumed)
pub const STEER_END_M: f32 = 0.3;

/// A player goes nowhere nearer to a line than this, m. (assumed: a foot beside him, and a hand's breadth to spare, so that
/// he can run along a line)
pub const LINE_CLEAR_M: f32 = 0.3;

/// A player begins to leave the lane this much before it would be too late, s. (assumed)
pub const LANE_MARGIN_S: f32 = 0.3;
/// A player is out of the lane once he is this near to the place beyond its line that he goes to, so on the line itself,
/// m. (derived from [`LANE_CLEAR_M`]: the same distance)
pub const LANE_OUT_WITHIN_M: f32 = LANE_CLEAR_M;
/// What a player is doing leads out of the lane in time if he gets within this distance of its end in time, m.
/// (assumed)
pub const LEADS_OUT_WITHIN_M: f32 = 0.3;
/// Least top speed of a player who clears out of the lane for want of anything to do there, m/s: a jog. (derived from
/// [`JOG_M_S`])
pub const CLEARS_M_S: f32 = JOG_M_S;

/// A receiver nearer than this to where a pass comes down stands and shows his hands, m. (assumed)
pub const MEET_STANDS_WITHIN_M: f32 = 0.5;
