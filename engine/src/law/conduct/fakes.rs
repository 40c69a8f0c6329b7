//! Fakes by the man with the ball: a pass shown, a shot shown to a defender who closes out too fast.

/// A pass fake is shown to a team-mate farther than this from the one who is to get the ball, m. (assumed)
pub const FAKE_AWAY_FROM_RECEIVER_M: f32 = 4.0;
/// How long a pass fake takes, s. (assumed)
pub const PASS_FAKE_S: f32 = 0.4;

/// A defender nearer than this rushes out if he runs at the ball at [`RUSHES_FROM_M_S`], m. (assumed)
pub const RUSHES_WITHIN_M: f32 = 3.2;
/// Speed toward the ball above which a closeout is a rush that a shown shot or a drive beats, m/s. (assumed)
pub const RUSHES_FROM_M_S: f32 = 2.8;
/// How long a shown shot takes, s. (assumed)
pub const SHOWN_SHOT_S: f32 = 0.35;
/// How long the ball takes back up to a real shot after a shown one, s. (assumed)
pub const UP_AGAIN_S: f32 = 0.35;
