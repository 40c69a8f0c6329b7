//! One thread of a run: takes batches and plays them for all variants.

use std::ops::Range;

use engine::events::Event;
use engine::{Arena, Measure, PossessionRecord};

use super::blocks::Blocks;
use super::{FIRST, First, Plan, Played, Player, Watch};
use crate::crash::{Crash, caught, culprits};
use crate::digest::ResultDigest;
use crate::records::{Recorded, Records};
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
    /// What is wanted of each possession, and the possessions of the variant at hand.
    wanted: Option<Records>,
    recorded: Vec<Recorded>,
}

impl<'a, P: Player> Worker<'a, P> {
    pub(super) fn new(plan: &'a Plan, player: &'a P, watch: &'a dyn Watch) -> Self {
        let done = plan.nothing();
        let (seat, rows, recorded) = (player.seat(width(plan)), Vec::new(), Vec::new());
        Self { plan, player, watch, seat, rows, done, wanted: None, recorded }
    }

    /// Takes batch after batch until none is left.
    pub(super) fn work(mut self, blocks: &Blocks<'_>) {
        self.wanted = blocks.records();
        while let Some((block, batch)) = blocks.take() {
            self.play_batch(batch.clone(), &mut |variant, rows| blocks.record(&block, variant, rows));
            let done = std::mem::replace(&mut self.done, self.plan.nothing());
            blocks.give(&block, &batch, &done);
        }
    }

    /// Plays one batch for all variants and adds it up; hands over each variant's possessions where they are wanted.
    fn play_batch(&mut self, batch: Range<u64>, record: &mut dyn FnMut(usize, &[Recorded])) {
        let played = batch.end - batch.start;
        let wide = self.plan.variants.len() * row::WIDTH;
        self.rows.resize(played as usize * wide, 0);
        for variant in 0..self.plan.variants.len() {
            let broken = culprits(batch.clone(), |range| self.play_range(variant, range, batch.start));
            broken.into_iter().for_each(|(possession, message)| {
                self.count_broken((variant, possession), message, batch.start);
            });
            if self.wanted.is_some() {
                self.recorded.sort_unstable_by_key(|row| row.possession);
                record(variant, &self.recorded);
                self.recorded.clear();
            }
            self.watch.played(played);
        }
        self.rows.chunks_exact(wide).for_each(|row| self.done.totals.add(row));
    }

    /// Plays possessions of the batch that begins at `start`, and counts their digests if all went well.
    fn play_range(&mut self, variant: usize, range: Range<u64>, start: u64) -> Result<(), String> {
        let (mut digest, mut first, mut recorded) = (ResultDigest::default(), Vec::new(), Vec::new());
        let (plan, player, seat, rows) = (self.plan, self.player, &mut self.seat, &mut self.rows);
        let wanted = self.wanted;
        // What was written before something broke down must not be taken for a record.
        range.clone().for_each(|possession| place(rows, plan, variant, possession - start).fill(0));
        caught(|| {
            let mut take = |record: &PossessionRecord, events: &[Event]| {
                let possession = record.possession;
                assert!(range.contains(&possession), "possession {possession} was not asked for");
                row::fill(place(rows, plan, variant, possession - start), record);
                digest.add(variant, possession, record.digest);
                if possession < FIRST {
                    let worth = record.value(Measure::ExpectedNetPoints);
                    first.push(First { variant, worth, possession });
                }
                recorded.extend(wanted.map(|wanted| Recorded::of(record, events, wanted)));
            };
            match wanted {
                None => player.play(seat, variant, range.clone(), &mut |record| take(record, &[])),
                Some(_) => player.play_with_events(seat, variant, range.clone(), &mut take),
            }
        })
        // A world in which something panicked is not to be trusted.
        .inspect_err(|_| self.seat = player.seat(width(plan)))?;
        self.done.digest.merge(digest);
        self.done.first.extend(first);
        self.recorded.append(&mut recorded);
        player.add_places(&self.seat, &mut self.done.places[variant]);
        Ok(())
    }

    /// Counts a possession of the batch that begins at `start` as broken down, and as nothing else.
    fn count_broken(&mut self, (variant, possession): (usize, u64), message: String, start: u64) {
        let row = place(&mut self.rows, self.plan, variant, possession - start);
        row.fill(0);
        row[Measure::Fault as usize] = 1;
        self.done.digest.add(variant, possession, 0);
        self.recorded.extend(self.wanted.map(|_| Recorded::broken(possession)));
        self.done.crashes.push(Crash { variant, possession, message });
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
