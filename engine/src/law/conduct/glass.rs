//! A shot in the air or a loose ball: how far players go for it, where they crash, box out and wait.

/// How far from where the ball comes down a player still goes for it, m. (assumed)
pub const CHASE_M: f32 = 5.0;
/// How many of a team go for the ball, players: the nearest, as each believes. (assumed)
pub const CHASERS: usize = 3;

/// Who stays out waits this far above the arc until the ball has come down, m. (assumed)
pub const SAFETY_M: f32 = 1.6;
/// Top speed at which who stays out goes to where he waits, m/s. (assumed)
pub const SAFETY_M_S: f32 = 3.0;
/// How far to the side who stays out waits, as a share of his home's distance from the middle of the floor. (assumed)
pub const SAFETY_WIDTH_SHARE: f32 = 0.6;
/// Top speed at which an attacker who does not go for a loose ball goes home, m/s. (assumed)
pub const BACK_HOME_M_S: f32 = 3.0;

/// How much wider the attackers' places on the glass are for each metre of the shot's length, m/m. (common practice, no
/// source: long shots bring long rebounds)
pub const WIDER_PER_M: f32 = 0.1;
/// Length of a shot from which on the places get no wider, m. (assumed)
pub const WIDER_UP_TO_M: f32 = 8.0;
/// Place of a rebounder beside the rim, far and near side alike: distance from the middle of the floor for a shot of
/// length 0, to which [`WIDER_PER_M`] adds, m. (common practice, no source)
pub const SIDE_X_M: f32 = 1.2;
/// Place of a rebounder on the far side of the shot: distance out from the rim (y), m. (common practice, no source)
pub const FAR_SIDE_Y_M: f32 = 0.8;
/// Place of a rebounder on the near side of the shot: distance out from the rim (y), m. (common practice, no source)
pub const NEAR_SIDE_Y_M: f32 = 1.0;
/// Place of a rebounder in front of the rim: distance out from it (y) for a shot of length 0, to which [`WIDER_PER_M`]
/// adds, m. (common practice, no source)
pub const FRONT_PLACE_Y_M: f32 = 1.8;
/// A place on the glass to which a team-mate is nearer counts as this much farther away, m. (assumed)
pub const TAKEN_COSTS_M: f32 = 1.5;

/// A defender boxes out only a man nearer to himself than this, m. (assumed)
pub const BOX_OUT_MAN_M: f32 = 4.5;
/// A defender boxes out only a man nearer to the rim than this, m. (assumed)
pub const BOX_OUT_RIM_M: f32 = 7.0;
/// A man who is farther than this outside the distance at which the shot comes down is waited for there instead of met
/// where he is, m. (assumed)
pub const MEETS_OUTSIDE_M: f32 = 1.8;
/// A defender stands this far from the man he boxes out, centre to centre, m. (assumed)
pub const BOX_OUT_BODY_M: f32 = 0.6;
/// Nobody boxes out nearer to a line than this, m. (assumed)
pub const BOX_OUT_EDGE_M: f32 = 0.4;
