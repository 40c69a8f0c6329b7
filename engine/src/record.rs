//! What one possession leaves behind.

use crate::measures::Measure;
use crate::random::GOLDEN;

/// How a possession ended: exactly one of six.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Outcome {
    /// A made shot.
    Made,
    /// A missed shot and a defensive rebound.
    Missed,
    /// A turnover of any kind.
    Turnover,
    /// Free throws.
    FreeThrows,
    /// The cap, where no shot clock is in force.
    Expired,
    /// A fault of the model, never expected: a number that is none, or a body far off the floor.
    Fault,
}

impl Outcome {
    /// All outcomes; their measures are the first six of [`Measure::ALL`] in the same order.
    pub const ALL: [Outcome; 6] = [
        Outcome::Made,
        Outcome::Missed,
        Outcome::Turnover,
        Outcome::FreeThrows,
        Outcome::Expired,
        Outcome::Fault,
    ];
    /// Name in files.
    pub const fn key(self) -> &'static str {
        Measure::ALL[self as usize].key()
    }
}

/// Kinds of turnover.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TurnoverKind {
    /// A defender took a pass.
    Intercepted,
    /// A pass went out of bounds or was lost.
    BadPass,
    /// The ball was lost from the hands.
    Handling,
    /// Travelling and the like.
    Travel,
    /// The man with the ball stepped on a line or over it.
    SteppedOut,
    /// Offensive foul.
    OffensiveFoul,
    /// Three seconds in the lane.
    ThreeSeconds,
    /// Five seconds closely guarded.
    FiveSeconds,
    /// Shot clock.
    ShotClock,
}

/// The record of one possession. It depends on the setup, the master seed and the possession's number only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PossessionRecord {
    /// The possession's number.
    pub possession: u64,
    /// How it ended.
    pub outcome: Outcome,
    /// Values by [`Measure`], in integers of its unit's scale.
    pub values: [i64; Measure::COUNT],
    /// Digest of its trajectories, events and values.
    pub digest: u64,
    /// A look of the plan was forced ([`crate::setup::Forced`]), whether or not it would have been taken anyway.
    pub forced: bool,
}

impl PossessionRecord {
    /// One value as an integer of its unit's scale.
    pub fn value(&self, m: Measure) -> i64 {
        self.values[m as usize]
    }

    /// One value in its unit.
    pub fn real(&self, m: Measure) -> f64 {
        self.values[m as usize] as f64 / m.unit().scale()
    }
}

/// Mixed into the digest at every step, so that a step in which nothing moved changes it too. (computed: 2^64 / pi, odd)
pub(crate) const STEP_MARK: u64 = 0x517C_C1B7_2722_0A95;
/// How far a digest is shifted into itself as positions are folded in, bits.
pub(crate) const POSITION_SHIFT: u32 = 29;
/// How far, as the values of a record are.
pub(crate) const VALUE_SHIFT: u32 = 31;

/// Takes a value into a digest. The shifts are part of what a digest is: with another one every record looks like another.
#[inline]
pub(crate) fn fold(digest: u64, value: u64, shift: u32) -> u64 {
    let digest = (digest ^ value).wrapping_mul(GOLDEN);
    digest ^ (digest >> shift)
}
