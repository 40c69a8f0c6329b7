//! Where a possession stands, and its clocks.

use crate::record::Outcome;
use bevy_ecs::prelude::Component;

/// Where the possession stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// The entity holds no possession.
    Idle,
    /// Being played.
    Playing,
    /// Over; its record may be taken.
    Done(Outcome),
}

/// Clocks and the state of play.
#[derive(Component, Clone, Debug)]
pub struct Clocks {
    /// Idle, playing or done.
    pub status: Status,
    /// The possession's number.
    pub possession: u64,
    /// Time since the start at the end of this step, s.
    pub now: f32,
    /// Steps played.
    pub steps: u32,
    /// Shot clock left, s (infinite without one).
    pub shot_clock: f32,
    /// Time that each attacker has been in the lane, s.
    pub in_lane: [f32; 5],
    /// Time that the holder has held (not dribbled) the ball closely guarded, s.
    pub guarded: f32,
    /// The attack shoots free throws on a common foul.
    pub bonus: bool,
    /// The zone shifts on the passer's release rather than on the catch, when only the on-ball defender goes with the pass.
    pub shift_on_release: bool,
    /// When contact with each defender was last judged, s.
    pub judged_s: [f32; 5],
    /// A dead ball: everyone goes back to his place before this step goes on.
    pub reset_set: bool,
    /// No offensive rebound yet.
    pub first_chance: bool,
    /// The measures of a finished possession are closed.
    pub counted: bool,
}

impl Default for Clocks {
    fn default() -> Self {
        Self {
            status: Status::Idle,
            possession: 0,
            now: 0.0,
            steps: 0,
            shot_clock: 0.0,
            in_lane: [0.0; 5],
            guarded: 0.0,
            bonus: false,
            shift_on_release: true,
            judged_s: [f32::NEG_INFINITY; 5],
            reset_set: false,
            first_chance: true,
            counted: false,
        }
    }
}
