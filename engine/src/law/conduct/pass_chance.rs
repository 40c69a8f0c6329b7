//! How a passer judges whether a pass arrives: how sure he is of a defender's reach, and of a pass's landing.
//!
//! The doubt is the logistic scale of the margin by which a defender's hand falls short of the ball. Its values are
//! assumed such that believed and true completion of passes lie near each other.

/// A hand that falls short by so much takes nothing, m. (assumed)
pub const SAFE_BY_M: f32 = 3.66;

// --- How sure he is.

/// Passes that end farther from the rim than this stay outside, m. (assumed)
pub const ENDS_OUTSIDE_M: f32 = 5.2;
/// Passes that end nearer to it than this come down in the crowd about the rim, m. (assumed)
pub const ENDS_IN_CROWD_M: f32 = 3.4;
/// Doubt of a pass that stays outside, where he judges one hand in the open, m. (assumed)
pub const DOUBT_OUTSIDE_M: f32 = 0.20;
/// Doubt of a pass that ends between the crowd and the outside, m. (assumed)
pub const DOUBT_BETWEEN_M: f32 = 0.34;
/// Doubt of a pass into the crowd, m. (assumed)
pub const DOUBT_CROWD_M: f32 = 0.40;
/// A pass in the air for longer than this gives a defender more ways to get there: from here on the doubt grows, s.
/// What goes over the hands to a man outside is spared. (assumed)
pub const DOUBT_GROWS_AFTER_S: f32 = 0.45;
/// Growth of the doubt with every second more, in units of itself, 1/s. (assumed)
pub const DOUBT_GROWS_PER_S: f32 = 3.0;

// --- One defender.

/// A defender who is farther from the ball's way than his run, his lunge and this is out of the pass, m. (assumed)
pub const OUT_OF_PASS_M: f32 = 0.5;
/// A ball clears a hand that it passes by this much or more, m. (assumed: a ball's radius, nearly)
pub const CLEARS_HAND_M: f32 = 0.1;
/// Share of a pass's way from which on a hand behind the receiver could meet it. (assumed)
pub const RECEIVERS_END_SHARE: f32 = 0.85;
/// What the receiver's body is worth against a hand from behind him that goes for the ball in the air, m. (assumed)
pub const SHIELDS_WAY_M: f32 = 0.6;

// --- Where it comes down.

/// A defender farther than this from where a pass comes down does not get there, m. (assumed)
pub const LANDING_WITHIN_M: f32 = 3.0;
/// What the receiver's body is worth against a hand from behind him where the ball comes down, m. (assumed)
pub const SHIELDS_LANDING_M: f32 = 1.4;
/// Share of a run that a defender makes under a lob: he reads it late and has bodies to go round. (assumed)
pub const RUNS_UNDER_LOB_SHARE: f32 = 0.7;
/// Nearer than this nobody comes to the man he jumps against, m. (assumed: two bodies, and a little)
pub const LEAST_BETWEEN_JUMPERS_M: f32 = 0.5;
/// A pass that spreads no wider than this at its end is taken to be on the mark, standard deviation, m. (assumed)
pub const NO_SPREAD_M: f32 = 0.05;
