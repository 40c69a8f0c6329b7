//! Programs of movement: when one may be run, when its conditions hold, where its places are.

/// A chance at a program that was not taken, or was left to a team-mate, comes again no sooner than this, s. (assumed)
pub const NEXT_CHANCE_S: f32 = 1.5;
/// A place with a team-mate this near, or on his way there, is taken, m. (common practice, no source)
pub const OCCUPIED_M: f32 = 1.6;
/// A post waits while the other one is in the lane within this distance of his way, m. (assumed)
pub const POST_CLEAR_M: f32 = 2.0;
/// A player does not wait beside a team-mate this near, m. (common practice, no source)
pub const CROWDED_M: f32 = 1.2;
/// No leg ends nearer to a line than this, m. (assumed)
pub const LEG_EDGE_M: f32 = 0.4;
/// A sprinter farther than this from the end of his leg looks where he runs instead of at the ball, m. (assumed)
pub const RUNS_BLIND_M: f32 = 1.2;

/// The gap between the lines reaches so far to either side of the middle, m. (common practice, no source: the lane and a
/// step)
pub const GAP_X_M: f32 = 2.4;
/// The gap between the lines begins so far in front of the rim (y), m. (assumed)
pub const GAP_FROM_Y_M: f32 = 1.9;
/// The gap between the lines ends so far in front of the rim (y), m. (assumed)
pub const GAP_TO_Y_M: f32 = 5.2;

/// A defender farther away than this does not watch a player off the ball, m. (assumed)
pub const WATCHES_M: f32 = 4.5;
/// A defender turned away by more than this does not see what a player does: cosine of 60 degrees. (assumed)
pub const WATCHES_COS: f32 = 0.5;
/// A defender whom he has not seen for longer than this is no longer in sight, s. (assumed)
pub const IN_SIGHT_S: f32 = 0.5;

/// A man with the ball who comes on faster than this is seen to dribble at his team-mate, m/s. (assumed)
pub const DRIBBLED_AT_FROM_M_S: f32 = 1.2;
/// A man with the ball dribbles at a team-mate no farther away than this, m. (assumed)
pub const DRIBBLED_AT_WITHIN_M: f32 = 6.5;
/// Largest angle between the way of a man who dribbles at his team-mate and the straight way to him, 37 degrees, as the
/// square of its cosine; a pure number. (assumed)
pub const DRIBBLED_AT_COS2: f32 = 0.64;

/// A man of the back line this far from the middle on the ball's side has come out, m. (assumed)
pub const BACK_OUT_X_M: f32 = 3.4;
/// A ball no farther than this from the middle is on neither side, m. (assumed)
pub const MIDDLE_X_M: f32 = 0.3;

/// A helper to be sealed is no nearer to the ball than this: nearer is the on-ball defender, m. (assumed)
pub const HELPER_OFF_BALL_M: f32 = 1.5;
/// Room left between two bodies of which one seals the other, m. (assumed: in touch)
pub const SEAL_GAP_M: f32 = 0.02;
/// How far along the arc one looks to tell which way is the roomier, m: far enough to tell the sides apart, without
/// looking past the next man. (assumed)
pub const ARC_LOOK_M: f32 = 2.0;
