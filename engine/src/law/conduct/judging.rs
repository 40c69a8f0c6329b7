//! What attackers reckon with when they judge a defender: how soon he starts, how he goes on, how he comes at a shot.
//! Beliefs of the man with the ball, not what the defender really does.

/// A defender's reaction as passers, shooters and drivers count on it, s. (assumed)
pub const REACTION_COUNTED_ON_S: f32 = 0.2;
/// How old what he sees is to one who judges by it, s: he knows that others have gone on since. (assumed: his own reaction, taken
/// to be as long as a defender's)
pub const SEEN_AGO_S: f32 = REACTION_COUNTED_ON_S;

/// A defender who was seen to move away from where the ball will be, or from a shooter, goes on as far as he would in this
/// time, s. (derived: in possessions against the 1-2-2 he has gone 0.31 m for each m/s seen, however long one waits: he was
/// nearly there; from a man outside with the ball 0.20 to 0.35 m, where he was seen at 1 m/s or more)
pub const GOES_ON_FOR_S: f32 = 0.3;
/// One who was seen to come toward it goes on as far as he would in this time, s. (derived likewise: 0.48 m after 0.4 s,
/// 0.54 m after 0.6 s)
pub const COMES_ON_FOR_S: f32 = 0.5;

/// Share of the way run at full speed that a defender who comes at a shooter is taken to make. (assumed)
pub const COMES_AT_SHOT_SHARE: f32 = 0.85;
/// Share of a defender's present speed toward the shooter that is counted on while he gets up speed. (assumed)
pub const SPEED_COUNTED_SHARE: f32 = 0.6;
/// Slowest speed toward the shooter that is counted (below 0: away from him), m/s. (assumed)
pub const SLOWEST_COMING_M_S: f32 = -1.0;
/// Fastest speed toward the shooter that is counted, m/s. (assumed)
pub const FASTEST_COMING_M_S: f32 = 5.0;
/// A defender farther than 7.75 m from a shooter does not come into the shot; the constant is that distance squared,
/// m2. (assumed)
pub const TOO_FAR_FOR_SHOT_M2: f32 = 60.0;
/// A defender nearer than this gives no direction to come from: in the quotient the distance is held above it, m.
/// (assumed: it only keeps the quotient finite)
pub const LEAST_DIRECTION_M: f32 = 0.1;
/// Nobody is believed nearer to a shooter than this at the release, m. (assumed)
pub const LEAST_SPACE_M: f32 = 0.3;
/// Speed toward the shooter at which a contest's foul is judged beforehand, m/s. (assumed)
pub const CONTEST_CLOSING_M_S: f32 = 0.5;
