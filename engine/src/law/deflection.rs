//! A defender's hand and a pass in the air: when the hand starts out, and which bodies stop it. How far and how high it
//! then gets is in [`super::reach`].

/// The hand of a defender who does not have the ball in view starts out so much later, s. (assumed)
pub const UNSEEN_LATER_S: f32 = 0.3;
/// For this long after a hand has started out the passer's own body does not stop it, s: the ball is out in front of
/// him. (assumed)
pub const PASSER_IN_THE_WAY_FROM_S: f32 = 0.1;
