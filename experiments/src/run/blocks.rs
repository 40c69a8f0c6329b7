//! The blocks of a run: fixed ranges of possession numbers, whatever the threads and the batches.
//!
//! A block begins at a multiple of [`BLOCK`]; the first and the last of a range may be shorter. What several workers play
//! of it is put together here, and once it is whole it is handed over and added to the totals. Only those that workers are
//! at are held, so that memory does not grow with the possessions.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::{Keeper, Plan, Played, There};
use crate::error::Error;
use crate::records::{Recorded, Records};

/// Possessions of each variant in a block.
pub const BLOCK: u64 = 1024;

/// The blocks of a range of possession numbers, in order.
pub fn blocks(possessions: Range<u64>) -> impl Iterator<Item = Range<u64>> {
    let end = possessions.end;
    let block = move |start: u64| (start < end).then(|| block_at(start, end));
    std::iter::successors(block(possessions.start), move |last| block(last.end))
}

/// The block that begins at a number, of a range that ends there.
fn block_at(start: u64, end: u64) -> Range<u64> {
    start..((start / BLOCK + 1) * BLOCK).min(end)
}

/// What is still to be played of a plan, and what has been.
pub(super) struct Blocks<'a> {
    plan: &'a Plan<'a>,
    keeper: &'a dyn Keeper,
    /// Where blocks begin that need not be played.
    there: BTreeSet<u64>,
    state: Mutex<State>,
}

struct State {
    /// The next block, and how much of it has been taken.
    block: Range<u64>,
    taken: u64,
    /// Blocks that are being played, by where they begin.
    open: BTreeMap<u64, Open>,
    all: Played,
    failed: Option<Error>,
}

struct Open {
    /// Possessions that are not in it yet.
    left: u64,
    played: Played,
}

impl<'a> Blocks<'a> {
    /// Of a plan, of which some blocks are there already.
    pub fn new(plan: &'a Plan<'a>, there: There, keeper: &'a dyn Keeper) -> Self {
        let There { blocks: there, played: all } = there;
        let start = plan.possessions.start;
        let block = block_at(start, plan.possessions.end);
        let state = State { block, taken: 0, open: BTreeMap::new(), all, failed: None };
        Self { plan, keeper, there, state: Mutex::new(state) }
    }

    fn state(&self) -> MutexGuard<'_, State> {
        // A worker that broke down has taken nothing with it but its own batch.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The next batch and its block; None when all have been taken, or a block could not be kept.
    pub fn take(&self) -> Option<(Range<u64>, Range<u64>)> {
        let mut state = self.state();
        let end = self.plan.possessions.end;
        while state.failed.is_none() && state.block.start < end {
            let from = state.block.start + state.taken;
            if from == state.block.end || self.there.contains(&state.block.start) {
                state.block = block_at(state.block.end, end);
                state.taken = 0;
                continue;
            }
            let (block, batch) = (state.block.clone(), from..(from + self.plan.batch()).min(state.block.end));
            state.taken += batch.end - batch.start;
            let open = || Open { left: block.end - block.start, played: self.plan.nothing() };
            state.open.entry(block.start).or_insert_with(open);
            return Some((block, batch));
        }
        None
    }

    /// What is wanted of each possession.
    pub fn records(&self) -> Option<Records> {
        self.keeper.records()
    }

    /// Hands over the possessions of a batch of a variant.
    pub fn record(&self, block: &Range<u64>, variant: usize, rows: &[Recorded]) {
        if let Err(error) = self.keeper.record(block, variant, rows) {
            self.state().failed.get_or_insert(error);
        }
    }

    /// Adds what a batch came to. A block that is whole by that is handed over.
    pub fn give(&self, block: &Range<u64>, batch: &Range<u64>, played: &Played) {
        let mut state = self.state();
        let Some(open) = state.open.get_mut(&block.start) else { return };
        open.played.merge(played);
        open.left -= batch.end - batch.start;
        if open.left > 0 {
            return;
        }
        let whole = state.open.remove(&block.start).map(|open| open.played.in_order());
        // Nobody waits while it is written.
        drop(state);
        let Some(whole) = whole else { return };
        let kept = self.keeper.keep(block, &whole);
        let mut state = self.state();
        state.all.merge(&whole);
        if let Err(error) = kept {
            state.failed.get_or_insert(error);
        }
    }

    /// All that was played.
    ///
    /// # Errors
    /// A block could not be kept.
    pub fn played(self) -> Result<Played, Error> {
        let state = self.state.into_inner().unwrap_or_else(PoisonError::into_inner);
        state.failed.map_or(Ok(state.all), Err)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_lie_at_fixed_numbers_whatever_the_range() {
        let of = |range: Range<u64>| blocks(range).collect::<Vec<_>>();
        assert_eq!(of(0..2500), [0..1024, 1024..2048, 2048..2500]);
        assert_eq!(of(1000..2049), [1000..1024, 1024..2048, 2048..2049]);
        assert_eq!(of(1024..3072), [1024..2048, 2048..3072]);
        assert!(of(5..5).is_empty());
    }
}
