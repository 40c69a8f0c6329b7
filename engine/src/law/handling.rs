//! Keeping the ball in one's hands: the pressure of defenders' hands on a holder.

/// A hand is on the ball where its owner is within his arm's length of the holder and this much more, centre to centre,
/// m: the holder's own arms hold the ball out. (assumed)
pub const BALL_HELD_OUT_M: f32 = 0.25;
/// A dribble is lost this many times as easily as a held ball. (assumed)
pub const DRIBBLE_LOST_FACTOR: f32 = 2.0;
/// A holder faster than this can lose the ball as a dribbler does, whatever he is about, m/s. (assumed)
pub const LOSES_AS_DRIBBLER_FROM_M_S: f32 = 1.0;

/// How fast an allowance for handling wears down under some hands, 1/s; `loss_per_s` under one hand, ball held.
#[inline]
pub fn wear_per_s(loss_per_s: f32, dribbles: bool, hands: f32) -> f32 {
    loss_per_s * if dribbles { DRIBBLE_LOST_FACTOR } else { 1.0 } * hands
}
