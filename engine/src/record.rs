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
    /// A numerical fault, never expected.
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

/// Takes a value into a digest. Positions and counts are folded in with different `shift`s, which are part of the digest's
/// definition: changed, every record looks like another.
#[inline]
pub(crate) fn fold(digest: u64, value: u64, shift: u32) -> u64 {
    let digest = (digest ^ value).wrapping_mul(GOLDEN);
    digest ^ (digest >> shift)
}
