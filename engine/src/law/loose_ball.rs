//! A loose ball: who can have it, and when.

/// Within this distance a player can pick the ball up, m. (assumed)
pub const PICK_UP_M: f32 = 0.75;
/// Longest time from when a loose ball could first be had until the nearest player has it, however far he is, s.
/// (assumed)
pub const LONGEST_S: f32 = 2.5;
/// What bending down for it costs the one who picks it up, s. (assumed)
pub const PICK_UP_S: f32 = 0.2;

/// A pass that nobody catches flies on this far before it can be had, m. (assumed)
pub const MISSED_PASS_FLIES_ON_M: f32 = 0.8;
/// Time that a pass which nobody catches takes to fly on by [`MISSED_PASS_FLIES_ON_M`], s. (assumed)
pub const MISSED_PASS_FLIES_ON_S: f32 = 0.3;
/// A tipped ball falls off the hand by this much on each axis of the floor, standard deviation, m. (assumed)
pub const TIP_SPREAD_M: f32 = 0.9;
/// Time from a tip until the ball can be had, s. (assumed)
pub const TIP_FALLS_S: f32 = 0.35;
