//! How a passer judges whether a pass arrives. The law of the hand is the true one; these are what he reckons with besides.

/// How sure a passer is of a hand's time at the ball: the logistic scale, s. (assumed: such that believed and true
/// completion lie near each other)
pub const DOUBT_S: f32 = 0.12;
/// How sure he is that a body is not where the ball goes, m. (assumed, likewise)
pub const DOUBT_M: f32 = 0.2;
/// How much less sure he is of that the faster its owner moves, m for each m/s. (assumed, likewise)
pub const DOUBT_MOVING_S: f32 = 0.08;
/// How sure he is that a body between keeps a hand off the ball, m. (assumed, likewise)
pub const DOUBT_ROUND_M: f32 = 0.2;
/// A defender who is farther from the ball's way than his run, his lunge and this is out of the pass, m. (assumed)
pub const OUT_OF_PASS_M: f32 = 0.5;
/// A ball clears a hand that it passes by this much or more, m. (assumed: a ball's radius, nearly)
pub const CLEARS_HAND_M: f32 = 0.1;
/// Share of a pass's way from which on the receiver's end begins, where a hand has had most of its time. (assumed)
pub const RECEIVERS_END_SHARE: f32 = 0.85;
/// Share of a run that a defender makes under a lob: he reads it late and has bodies to go round. (assumed)
pub const RUNS_UNDER_LOB_SHARE: f32 = 0.7;
/// Nearer than this nobody comes to the man he jumps against, m. (assumed: two bodies, and a little)
pub const LEAST_BETWEEN_JUMPERS_M: f32 = 0.5;
/// A pass that spreads no wider than this at its end is taken to be on the mark, standard deviation, m. (assumed)
pub const NO_SPREAD_M: f32 = 0.05;
