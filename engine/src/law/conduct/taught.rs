//! Working a plan: which passes it leaves out of account, and when it gives way to whatever is worth most.

/// Believed chance below which no look at a man inside is on, whatever it promises: a post on whose back nobody is, at
/// least. (common practice, no source)
pub const LEAST_CHANCE_INSIDE: f32 = 0.6;
/// Believed chance below which no lob is on. (common practice, no source)
pub const LEAST_CHANCE_LOB: f32 = 0.5;
/// Believed chance below which no other pass is on. (common practice, no source)
pub const LEAST_CHANCE_OUTSIDE: f32 = 0.75;
/// A defender within this distance of a receiver is his man, m. (assumed: an arm's length and a step)
pub const HIS_MAN_WITHIN_M: f32 = 1.3;
/// Cosine of the least angle, at the receiver, between the ball and his man at which he has him on his hip or back (75
/// degrees). (assumed)
pub const ON_HIS_HIP_COS: f32 = 0.26;
/// Who has had nothing for the plan's time and finds no guard does after so much more whatever he believes to be worth
/// most, s. (assumed)
pub const LOST_AFTER_S: f32 = 1.0;
/// A ball no farther than this from the middle is on neither side, m. (assumed)
pub const NEITHER_SIDE_M: f32 = 1.0;
/// Chance that a player who does not know the plan at all does not think of a look on one hold. (assumed)
pub const SKIPPED_UNDRILLED: f32 = 0.5;
