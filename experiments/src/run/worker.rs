//! One thread of a run: takes batches and plays them for all variants.

use std::ops::Range;

use engine::{Arena, Measure};

use super::blocks::Blocks;
use super::{FIRST, First, Plan, Played, Player, Watch};
use crate::crash::{Crash, caught};
use crate::digest::ResultDigest;
use crate::row;

/// One thread's share of the work.
pub(super) struct Worker<'a, P: Player> {
    plan: &'a Plan<'a>,
    player: &'a P,
    watch: &'a dyn Watch,
    seat: P::Seat,
    /// `[possession in the batch][variant][quantity]`
    rows: Vec<i64>,
    done: Played,
}

impl<'a, P: Player> Worker<'a, P> {
    pub(super) fn new(plan: &'a Plan, player: &'a P, watch: &'a dyn Watch) -> Self {
        let done = plan.nothing();
        Self { plan, player, watch, seat: player.seat(width(plan)), rows: Vec::new(), done }
    }

    /// Takes batch after batch until none is left.
    pub(super) fn work(mut self, blocks: &Blocks<'_>) {
        while let Some((block, batch)) = blocks.take() {
            self.play_batch(batch.clone());
            let done = std::mem::replace(&mut self.done, self.plan.nothing());
            blocks.give(&block, &batch, &done);
        }
    }

    /// Plays one batch for all variants and adds it up.
    fn play_batch(&mut self, batch: Range<u64>) {
        let played = batch.end - batch.start;
        let wide = self.plan.variants.len() * row::WIDTH;
        self.rows.clear();
        self.rows.resize(played as usize * wide, 0);
        for variant in 0..self.plan.variants.len() {
            if self.play_range(variant, batch.clone(), batch.start).is_err() {
                batch.clone().for_each(|possession| self.play_alone(variant, possession, batch.start));
            }
            self.watch.played(played);
        }
        self.rows.chunks_exact(wide).for_each(|row| self.done.totals.add(row));
    }

    /// Plays possessions of the batch that begins at `start`, and counts their digests if all went well.
    fn play_range(&mut self, variant: usize, range: Range<u64>, start: u64) -> Result<(), String> {
        let (mut digest, mut first) = (ResultDigest::default(), Vec::new());
        let (plan, player, seat, rows) = (self.plan, self.player, &mut self.seat, &mut self.rows);
        caught(|| {
            player.play(seat, variant, range.clone(), &mut |record| {
                let possession = record.possession;
                assert!(range.contains(&possession), "possession {possession} was not asked for");
                row::fill(place(rows, plan, variant, possession - start), record);
                digest.add(variant, possession, record.digest);
                if possession < FIRST {
                    let worth = record.value(Measure::ExpectedNetPoints);
                    first.push(First { variant, worth, possession });
                }
            });
        })
        // A world in which something panicked is not to be trusted.
        .inspect_err(|_| self.seat = player.seat(width(plan)))?;
        self.done.digest.merge(digest);
        self.done.first.extend(first);
        player.add_places(&self.seat, &mut self.done.places[variant]);
        Ok(())
    }

    /// Plays one possession by itself, so that a panic is counted against it alone, whatever the batch.
    fn play_alone(&mut self, variant: usize, possession: u64, start: u64) {
        // What the batch may have written before it broke down must not be taken for a record.
        place(&mut self.rows, self.plan, variant, possession - start).fill(0);
        if let Err(message) = self.play_range(variant, possession..possession + 1, start) {
            let row = place(&mut self.rows, self.plan, variant, possession - start);
            row.fill(0);
            row[Measure::Fault as usize] = 1;
            self.done.digest.add(variant, possession, 0);
            self.done.crashes.push(Crash { variant, possession, message });
        }
    }
}

/// Possessions that a seat plays side by side: no more than a batch has, and no more than caches like.
fn width(plan: &Plan) -> usize {
    plan.batch().min(Arena::WIDTH as u64) as usize
}

/// Where a variant's quantities of one possession of the batch stand.
fn place<'a>(rows: &'a mut [i64], plan: &Plan, variant: usize, in_batch: u64) -> &'a mut [i64] {
    &mut rows[(in_batch as usize * plan.variants.len() + variant) * row::WIDTH..][..row::WIDTH]
}
