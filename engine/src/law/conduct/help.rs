//! Help: stepping into a drive, the stunt at a driver, the dig at a post, and the lob over a fronted post.

// Stepping in front of a driver who has beaten the man on the ball.

/// A holder who comes at the rim faster than this drives, m/s. (assumed)
pub const DRIVE_FROM_M_S: f32 = 2.0;
/// Nearer to the rim than this a driver cannot be stepped in front of any more, m. (assumed)
pub const STEPS_IN_FROM_M: f32 = 0.8;
/// The on-ball defender is not beaten while he is nearer to the rim than the driver by more than this, m, and ahead of him
/// by more than [`NOT_BEATEN_AHEAD_M`]. (assumed)
pub const NOT_BEATEN_NEARER_M: f32 = 0.4;
/// The on-ball defender is not beaten while he is ahead of the driver on his way to the rim by more than this, m, and
/// nearer to it by more than [`NOT_BEATEN_NEARER_M`]. (assumed)
pub const NOT_BEATEN_AHEAD_M: f32 = 0.3;
/// How far in front of the driver a helper steps in, m; with less than twice this to the rim, half-way there. (assumed)
pub const STEPS_IN_AHEAD_M: f32 = 1.6;

// The stunt: a neighbour steps at a driver and recovers.

/// From this speed toward the rim a holder is stunted at, m/s. (assumed)
pub const STUNTS_AT_M_S: f32 = 1.5;
/// Only a defender anchored within this distance of the driver's way stunts, m. (assumed)
pub const STUNTS_WITHIN_M: f32 = 4.0;
/// How far ahead of the driver his way is taken for that, m. (assumed)
pub const STUNT_AHEAD_M: f32 = 1.2;
/// How many of the defenders nearest to the driver's way stunt, the on-ball defender aside. (assumed)
pub const STUNTERS: usize = 2;

// The dig.

/// A full dig brings a defender this near to the post with the ball, so that his hand is on it, m. (assumed)
pub const DIGS_FROM_M: f32 = 0.7;

// Help behind a fronted post.

/// A lob over the front comes down this far behind the post, m. (assumed)
pub const LOB_BEHIND_M: f32 = 0.9;
/// With the ball nearer to the middle of the floor than this the helper looks after his own side, m. (assumed)
pub const LOB_BALL_WIDE_M: f32 = 3.5;
/// A post this far toward the ball's side of the middle, or farther, is a ball-side post, m. (assumed)
pub const BALL_SIDE_POST_X_M: f32 = 0.8;
/// Share of the way to where the lob would come down that the helper goes while the ball is held; he goes all of it
/// once a pass flies. (assumed)
pub const LOB_SHADE_SHARE: f32 = 0.5;
