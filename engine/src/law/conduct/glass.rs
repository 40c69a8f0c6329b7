//! A shot in the air or a loose ball: how far players go for it, where they crash, box out and wait.

/// How far from where the ball comes down a player still goes for it, m. (assumed)
pub const CHASE_M: f32 = 5.0;
/// So many of a team go for it: the nearest, as each believes. (assumed)
pub const CHASERS: usize = 3;

/// Who stays out waits so far above the arc until the ball has come down, m. (assumed)
pub const SAFETY_M: f32 = 1.6;
/// Speed at which he goes there, m/s. (assumed)
pub const SAFETY_M_S: f32 = 3.0;
/// He goes as far to the side as this share of his home's distance from the middle. (assumed)
pub const SAFETY_WIDTH_SHARE: f32 = 0.6;
/// Speed at which an attacker who does not go for a loose ball goes home, m/s. (assumed)
pub const BACK_HOME_M_S: f32 = 3.0;

/// Attackers on the glass stand wider by this share of the shot's length. (common practice, no source: long shots bring
/// long rebounds)
pub const LONG_SHARE: f32 = 0.1;
/// The shot's length counts up to so much, m. (assumed)
pub const LONG_M: f32 = 8.0;
/// Place of a rebounder beside the rim, the far and the near one alike: to the side of it, a long shot aside, m. (common
/// practice, no source)
pub const SIDE_X_M: f32 = 1.2;
/// The place on the far side of the shot, out from the rim, m. (common practice, no source)
pub const FAR_SIDE_Y_M: f32 = 0.8;
/// The place on the near side, out from the rim, m. (common practice, no source)
pub const NEAR_SIDE_Y_M: f32 = 1.0;
/// The place in front of the rim, out from it, a long shot aside, m. (common practice, no source)
pub const FRONT_Y_M: f32 = 1.8;
/// So much farther a rebounder would run to a place to which no team-mate is nearer, m. (assumed)
pub const TAKEN_COSTS_M: f32 = 1.5;

/// A defender has a man to box out within so far of himself, m. (assumed)
pub const BOX_OUT_MAN_M: f32 = 4.5;
/// And within so far of the rim, m. (assumed)
pub const BOX_OUT_RIM_M: f32 = 7.0;
/// Who has nobody to box out waits so far from the rim, a long shot aside, m. (assumed)
pub const RING_M: f32 = 1.4;
/// A man who is so far outside the place where such a shot comes down is waited for there, m. (assumed)
pub const MEETS_OUTSIDE_M: f32 = 1.8;
/// A defender stands so far from the man he boxes out, centre to centre, m. (assumed)
pub const BOX_OUT_BODY_M: f32 = 0.6;
/// Nobody boxes out nearer to a line than this, m. (assumed)
pub const BOX_OUT_EDGE_M: f32 = 0.4;
