//! Defence of an attacker without the ball: in the post by stance, outside by sag and denial.

/// An attacker nearer to the rim than this is played as a post, m. (assumed)
pub const POST_WITHIN_M: f32 = 3.2;
/// An attacker nearer to the ball's block than this is on it, m. (assumed)
pub const ON_BLOCK_WITHIN_M: f32 = 1.2;
/// Room between the torsos of a post and his defender, m: in touch. (assumed)
pub const POST_TOUCH_ROOM_M: f32 = 0.05;
/// Three-quarter stance: weight of the way from the post to the ball in where the defender stands. (assumed)
pub const THREE_QUARTER_BALL: f32 = 0.6;
/// Three-quarter stance: weight of the way from the post to the rim in where the defender stands. (assumed)
pub const THREE_QUARTER_RIM: f32 = 0.4;

// Outside, a defender sags off his man toward the rim as far as the man is out beyond a distance, within bounds.

/// The distance from the rim beyond which he sags, m. (assumed)
pub const SAGS_BEYOND_M: f32 = 3.0;
/// Least sag off a man outside, m. (assumed)
pub const LEAST_SAG_M: f32 = 0.6;
/// Most sag off a man outside, m. (assumed)
pub const MOST_SAG_M: f32 = 1.4;
/// How far a full denial (a share of 1) moves him toward the ball, into the passing lane, m. (assumed)
pub const FULL_DENIAL_M: f32 = 1.2;
