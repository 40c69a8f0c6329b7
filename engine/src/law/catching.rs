//! What begins with a catch, a pick-up or a rebound: how soon he is ready, what is offered to him, and who made it.

/// An attacker who gets the ball in the lane has at most this much of his three seconds counted: officials give him
/// time to do something with it, s. (common practice, no source)
pub const LANE_COUNT_MOST_S: f32 = 1.2;

/// Nearer to the rim than this an offensive rebounder goes straight up again, without a look around, m. (assumed)
pub const PUT_BACK_WITHIN_M: f32 = 2.2;
/// Time from the rebound until such a shot can be let go, s. (assumed)
pub const PUT_BACK_READY_S: f32 = 0.35;

/// Chance of a pass fake of a player who is no guard, as a share of the habit's. (assumed)
pub const FAKES_OFF_GUARD_SHARE: f32 = 0.5;

/// Without a shot clock the attack may lose its patience once a possession has lasted so long, s. (assumed)
pub const PATIENT_FOR_S: f32 = 15.0;
/// Time of one hold and its pass, over which a rate of losing patience becomes a chance a catch, s. (assumed)
pub const HOLD_AND_PASS_S: f32 = 1.2;

/// The program that a catcher has ended still made his catch for this long, s. (by definition of the measures)
pub const CREDIT_CATCHER_S: f32 = 1.2;
/// What made the passer's catch made this one too if he held the ball no longer than this from his catch to the next,
/// s. (by definition of the measures)
pub const CREDIT_PASSER_S: f32 = 2.5;
