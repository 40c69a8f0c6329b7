//! What officials let go and what they call, beside their strictness (which is the rule set's).

/// Touches softer than this are never looked at, as impulse over the attacker's mass, m/s. (assumed)
pub const LIGHT_M_S: f32 = 0.5;
/// Away from the ball officials let more go: the threshold of a call is this many times as high. (common practice, no
/// source)
pub const OFF_BALL_FACTOR: f32 = 1.8;
/// One contact of a defender is judged once: a shove that lasts this long is no new foul, s. (assumed)
pub const EPISODE_S: f32 = 0.6;
/// An offensive foul needs the two to close faster than this, m/s. (assumed)
pub const CHARGE_M_S: f32 = 1.8;
/// An attacker who brings more speed into a contact than the defender by this has sought it himself, m/s. (assumed)
pub const SOUGHT_BY_M_S: f32 = 1.8;
/// A defender slower than this who faces the attacker has a legal position, m/s. (assumed)
pub const SET_M_S: f32 = 0.8;
/// A defender faces the attacker where the cosine between his facing and the way from the attacker to him is below
/// this, within 73 degrees; a pure number. (assumed)
pub const FACES_COSINE: f32 = -0.3;
/// Three seconds are called so much late, s. (common practice, no source)
pub const LANE_LENIENCE_S: f32 = 0.3;
/// Who moves toward the nearest way out of the lane faster than this is leaving it, and is not called, m/s. (assumed: the
/// speed; that whoever makes an attempt to leave is let go: FIBA rules 2022, article 26.1.2, from memory)
pub const LEAVES_LANE_FROM_M_S: f32 = 0.5;
/// A holder who moves faster than this after his first dribble is not counted as closely guarded, m/s. (assumed)
pub const NOT_COUNTED_FROM_M_S: f32 = 0.5;
/// A shooter's feet leave the floor this long before the ball does, s: while he is in the air he is where he left the floor
/// (FIBA rules 2022, article 11.1). (assumed: the time)
pub const JUMPS_BEFORE_S: f32 = 0.15;
