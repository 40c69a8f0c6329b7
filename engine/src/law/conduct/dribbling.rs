//! Dribbling at a team-mate, who makes way.

/// Speed of a dribble that keeps the eyes up, m/s. (assumed)
pub const DRIBBLE_AT_M_S: f32 = 3.2;
/// A shorter way is no dribble-at, m. (common practice, no source)
pub const SHORTEST_DRIBBLE_AT_M: f32 = 2.5;
/// A way as long as this or longer is none either, m. (common practice, no source)
pub const LONGEST_DRIBBLE_AT_M: f32 = 8.0;
/// A team-mate not seen for longer than this is not dribbled at, s. (assumed)
pub const LAST_SEEN_WITHIN_S: f32 = 1.0;
/// A defender nearer to the way than this is in it, m; and he must be within twice as much of the ball. (assumed)
pub const DEFENDER_IN_WAY_M: f32 = 0.9;
/// The dribble is over within this distance of where it leads, m. (assumed)
pub const THERE_WITHIN_M: f32 = 0.7;

/// A hand is near the dribble where the nearest defender is nearer than this, m. (assumed)
pub const HAND_NEAR_M: f32 = 1.2;
/// With a hand near, a dribble is taken to be lost this many times as easily as a held ball with a hand on it.
/// (assumed)
pub const LOST_NEAR_HAND: f32 = 2.0;
/// With no hand near, a dribble is taken to be lost this many times as easily as a held ball with a hand on it.
/// (assumed)
pub const LOST_IN_OPEN: f32 = 0.5;
/// Largest chance of losing a dribble that is reckoned with. (assumed)
pub const LOST_MOST: f32 = 0.5;
