//! What possessions brought from each state on, counted on demand: the material of [`crate::setup::Continuation`].
//!
//! Everything is an integer, so that parts of a run add up to the same totals in any order. Nothing here changes a
//! possession or its record.

use crate::setup::{ENTRIES, MISSES};
use bevy_ecs::prelude::Resource;

/// Everything that has a mean: the states, the misses, a pass that the zone takes.
const COUNT: usize = ENTRIES + MISSES + 1;
const LOSS: usize = ENTRIES + MISSES;

/// A count and a sum in millionths of a point.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Return {
    /// Possessions that came this way.
    pub count: i64,
    /// Their net points from there on, in millionths.
    pub sum: i64,
}

/// Counts and sums of all states; empty where nobody asked for them.
#[derive(Resource, Clone, Debug, Default, PartialEq, Eq)]
pub struct Returns(Vec<Return>);

impl Returns {
    /// Starts counting from nothing, or stops it.
    pub(crate) fn begin(&mut self, on: bool) {
        self.0.clear();
        self.0.resize(if on { COUNT } else { 0 }, Return::default());
    }

    /// True while possessions are counted.
    pub(crate) fn on(&self) -> bool {
        !self.0.is_empty()
    }

    /// Adds the counts of other possessions.
    pub fn merge(&mut self, other: &Self) {
        if !self.on() {
            self.clone_from(other);
            return;
        }
        for (own, more) in self.0.iter_mut().zip(&other.0) {
            own.count += more.count;
            own.sum += more.sum;
        }
    }

    /// What followed a state, by [`crate::setup::entry`].
    pub fn state(&self, entry: usize) -> Return {
        self.0.get(entry).copied().unwrap_or_default()
    }

    /// What followed a missed shot, by [`crate::setup::miss_of`].
    pub fn miss(&self, kind: usize) -> Return {
        self.state(ENTRIES + kind)
    }

    /// What followed a pass that the zone took.
    pub fn loss(&self) -> Return {
        self.state(LOSS)
    }
}

/// How many different states of a possession are kept; the rest is not counted. (a possession of 35 s meets about
/// sixty)
const KEPT: usize = 128;

/// The states that one possession has been in, each once, with the expected points so far.
#[derive(Clone, Debug)]
pub struct Trail {
    met: [u64; COUNT.div_ceil(64)],
    kept: usize,
    states: [(u16, f32); KEPT],
    /// A shot in the air or off the rim: its kind.
    pub shot: Option<usize>,
}

impl Trail {
    /// Before the first state.
    pub const NEW: Trail =
        Trail { met: [0; COUNT.div_ceil(64)], kept: 0, states: [(0, 0.0); KEPT], shot: None };

    /// Notes a state, unless it is known.
    pub fn meet(&mut self, entry: usize, expected: f32) {
        let (word, bit) = (entry / 64, 1 << (entry % 64));
        if self.met[word] & bit == 0 && self.kept < KEPT {
            self.met[word] |= bit;
            self.states[self.kept] = (entry as u16, expected);
            self.kept += 1;
        }
    }

    /// Notes that the shot in the air was missed.
    pub fn miss(&mut self, expected: f32) {
        if let Some(kind) = self.shot.take() {
            self.meet(ENTRIES + kind, expected);
        }
    }

    /// Notes that the zone took a pass.
    pub fn lose(&mut self, expected: f32) {
        self.meet(LOSS, expected);
    }

    /// Counts every state noted, now that the possession's net points are known (millionths).
    pub fn close(&self, net: i64, returns: &mut Returns) {
        for (entry, before) in &self.states[..self.kept] {
            let own = &mut returns.0[usize::from(*entry)];
            own.count += 1;
            own.sum += net - (f64::from(*before) * 1e6) as i64;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_state_counts_once_with_what_came_after_it() {
        let mut trail = Trail::NEW;
        trail.meet(7, 0.0);
        trail.meet(7, 0.5);
        trail.shot = Some(2);
        trail.miss(0.5);
        trail.miss(0.9);
        trail.meet(8, 0.5);
        let mut returns = Returns::default();
        returns.begin(true);
        trail.close(800_000, &mut returns);
        assert_eq!(returns.state(7), Return { count: 1, sum: 800_000 });
        assert_eq!(returns.state(8), Return { count: 1, sum: 300_000 });
        assert_eq!(returns.miss(2), Return { count: 1, sum: 300_000 });
        assert_eq!(returns.loss(), Return::default());
        let mut twice = returns.clone();
        twice.merge(&returns);
        assert_eq!(twice.state(8), Return { count: 2, sum: 600_000 });
    }

    #[test]
    fn a_long_possession_stops_counting_at_the_last_place() {
        let mut trail = Trail::NEW;
        (0..300).for_each(|entry| trail.meet(entry, 0.0));
        let mut returns = Returns::default();
        returns.begin(true);
        trail.close(1, &mut returns);
        assert_eq!((0..300).map(|entry| returns.state(entry).count).sum::<i64>(), KEPT as i64);
    }
}
