//! Getting about without the ball: round bodies, inside the lines, out of the lane in time, and how fast.

/// A leg of a program that is walked, m/s. (assumed)
pub const WALK_M_S: f32 = 1.6;
/// A leg of a program that is jogged, m/s. (assumed)
pub const JOG_M_S: f32 = 3.2;

/// How far ahead a player looks for bodies in his way, m. (assumed)
pub const LOOKS_AHEAD_M: f32 = 1.7;
/// Room that he leaves beyond the two bodies' radii, m. (assumed)
pub const STEER_ROOM_M: f32 = 0.10;
/// What is believed longer than this ago is not steered round, s. (assumed)
pub const STEER_FRESH_S: f32 = 0.7;
/// On a way shorter than this nobody steers, m. (assumed)
pub const STEER_SHORTEST_M: f32 = 0.8;
/// A body nearer than this along the way is beside him, not in the way, m. (assumed)
pub const STEER_BESIDE_M: f32 = 0.2;
/// A body so near the end of the way stands where he is going and is not in the way, m. (assumed)
pub const STEER_END_M: f32 = 0.3;

/// A player slows down who would stop beyond a line by so much, m. (assumed)
pub const OVER_LINE_M: f32 = 0.5;
/// What he reckons to brake at, m/s2. (assumed)
pub const LINE_BRAKES_M_S2: f32 = 4.0;
/// What he slows down to, m/s. (assumed)
pub const LINE_SLOWS_TO_M_S: f32 = 1.5;

/// A player begins to leave the lane this much before it would be too late, s. (assumed)
pub const LANE_MARGIN_S: f32 = 0.3;
/// He goes so far beyond its line, m. (assumed: a foot and a body's half width)
pub const LANE_CLEAR_M: f32 = 0.45;
/// He is out within so much of that place, m: on the line itself. (computed: the same distance)
pub const LANE_OUT_WITHIN_M: f32 = 0.45;
/// What he is doing leads out of the lane in time if he gets within so much of its end, m. (assumed)
pub const LEADS_OUT_WITHIN_M: f32 = 0.3;
/// Who clears out of the lane for want of anything to do there goes no slower than this, m/s. (assumed: a jog)
pub const CLEARS_M_S: f32 = 3.2;

/// A receiver meets a pass no nearer to a line than this, m. (assumed)
pub const MEET_EDGE_M: f32 = 0.25;
/// A receiver so near where a pass comes down stands and shows his hands, m. (assumed)
pub const MEET_STANDS_M: f32 = 0.5;
