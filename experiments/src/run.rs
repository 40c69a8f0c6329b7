//! From a plan to exact totals, in parallel, in memory that does not grow with the number of possessions.
//!
//! Possessions are cut into batches. A worker plays one batch for *all* variants, so that the rows of a possession
//! index meet in one place and pairing needs no storage beyond the batch. Workers take batches as they come free
//! and their totals are merged at the end; integer totals merge exactly, so neither the number of threads nor the
//! size of a batch can be seen in the result.

use std::ops::Range;
use std::sync::atomic::{AtomicU64, Ordering};

use engine::{Arena, Measure, Outcome, Places, PossessionRecord};

use crate::crash::{Crash, WORKER, caught};
use crate::digest::ResultDigest;
use crate::error::Error;
use crate::row;
use crate::stats::Totals;

/// Plays possessions. The engine does; tests put a stub in its place.
pub trait Player: Sync {
    /// What a worker keeps from batch to batch (the engine's world).
    type Seat;
    /// A new seat, which plays up to `width` possessions side by side.
    fn seat(&self, width: usize) -> Self::Seat;
    /// Plays a variant's possessions and hands each record over, in any order.
    fn play(
        &self,
        seat: &mut Self::Seat,
        variant: usize,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord),
    );
    /// Adds the counts by place of the last call of [`Player::play`].
    fn add_places(&self, seat: &Self::Seat, places: &mut Places);
}

/// Hears of progress.
pub trait Watch: Sync {
    /// So many more possessions have been played (all variants counted).
    fn played(&self, possessions: u64);
}

/// What is run.
#[derive(Clone, Debug)]
pub struct Plan<'a> {
    /// Names of the variants, in plan order.
    pub variants: Vec<String>,
    /// Possession numbers, the same for each variant.
    pub possessions: Range<u64>,
    /// Possessions in a batch; None: so that each thread has several.
    pub batch: Option<u64>,
    /// Worker threads.
    pub threads: usize,
    /// The ratios that the table needs, as pairs of row places.
    pub ratios: &'a [(usize, usize)],
}

/// What a run leaves.
#[derive(Clone, Debug)]
pub struct Played {
    /// Exact totals.
    pub totals: Totals,
    /// Digest of every possession.
    pub digest: ResultDigest,
    /// Possessions that panicked, in order; counted in the totals as faults.
    pub crashes: Vec<Crash>,
    /// Counts by place, by variant.
    pub places: Vec<Places>,
    /// What the first possessions were worth, by variant and number.
    pub first: Vec<First>,
}

/// Possessions of each variant whose worth is kept by number, to choose films from.
pub const FIRST: u64 = 256;

/// One of the first possessions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct First {
    /// Variant's place in the plan.
    pub variant: usize,
    /// Expected net points, in millionths.
    pub worth: i64,
    /// Possession number.
    pub possession: u64,
}

impl Plan<'_> {
    /// Length of a batch: long enough to keep a world busy, short enough to share out evenly.
    fn batch(&self) -> u64 {
        let played = self.possessions.end - self.possessions.start;
        self.batch.unwrap_or_else(|| (played / (8 * self.threads.max(1) as u64)).clamp(64, 256)).max(1)
    }

    fn nothing(&self) -> Played {
        Played {
            totals: Totals::new(self.variants.len(), row::WIDTH, self.ratios),
            digest: ResultDigest::default(),
            crashes: Vec::new(),
            places: vec![Places::default(); self.variants.len()],
            first: Vec::new(),
        }
    }
}

/// Plays the plan.
pub fn run<P: Player>(plan: &Plan, player: &P, watch: &dyn Watch) -> Result<Played, Error> {
    let threads = rayon::ThreadPoolBuilder::new()
        .num_threads(plan.threads)
        .thread_name(|_| WORKER.into())
        .build()
        .map_err(|error| Error::Threads(error.to_string()))?;
    let next = AtomicU64::new(plan.possessions.start);
    let parts = threads.broadcast(|_| Worker::new(plan, player, watch).work(&next));
    let mut all = plan.nothing();
    for part in parts {
        all.totals.merge(&part.totals);
        all.digest.merge(part.digest);
        all.crashes.extend(part.crashes);
        all.first.extend(part.first);
        all.places.iter_mut().zip(&part.places).for_each(|(own, more)| own.merge(more));
    }
    all.first.sort_unstable();
    all.crashes.sort_by_key(|crash| (crash.possession, crash.variant));
    check_outcomes(&all.totals, &plan.variants)?;
    Ok(all)
}

/// Every possession ends as exactly one of the six outcomes.
fn check_outcomes(totals: &Totals, variants: &[String]) -> Result<(), Error> {
    for (v, name) in variants.iter().enumerate() {
        let ended: i128 = Outcome::ALL.iter().map(|&outcome| totals.sum(outcome as usize, v)).sum();
        if ended != i128::from(totals.possessions()) {
            return Err(Error::Outcomes { variant: name.clone(), ended, played: totals.possessions() });
        }
    }
    Ok(())
}

/// One thread's share of the work.
struct Worker<'a, P: Player> {
    plan: &'a Plan<'a>,
    player: &'a P,
    watch: &'a dyn Watch,
    seat: P::Seat,
    /// `[possession in the batch][variant][quantity]`
    rows: Vec<i64>,
    done: Played,
}

impl<'a, P: Player> Worker<'a, P> {
    fn new(plan: &'a Plan, player: &'a P, watch: &'a dyn Watch) -> Self {
        let done = plan.nothing();
        Self { plan, player, watch, seat: player.seat(width(plan)), rows: Vec::new(), done }
    }

    /// Takes batch after batch until none is left.
    fn work(mut self, next: &AtomicU64) -> Played {
        let length = self.plan.batch();
        loop {
            let start = next.fetch_add(length, Ordering::Relaxed);
            if start >= self.plan.possessions.end {
                return self.done;
            }
            let batch = start..(start + length).min(self.plan.possessions.end);
            self.play_batch(batch);
        }
    }

    /// Plays one batch for all variants and adds it to the totals.
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
        let kept = plan.possessions.start + FIRST;
        caught(|| {
            player.play(seat, variant, range.clone(), &mut |record| {
                let possession = record.possession;
                assert!(range.contains(&possession), "possession {possession} was not asked for");
                row::fill(place(rows, plan, variant, possession - start), record);
                digest.add(variant, possession, record.digest);
                if possession < kept {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stub::{Stub, Unwatched};

    const RATIOS: [(usize, usize); 1] = [(Measure::OffensiveRebounds as usize, Measure::Rebounds as usize)];

    fn plan(threads: usize, batch: Option<u64>) -> Plan<'static> {
        let variants = ["a", "b", "c"].map(String::from).to_vec();
        Plan { variants, possessions: 10..341, batch, threads, ratios: &RATIOS }
    }

    #[test]
    fn threads_and_batches_cannot_be_seen_in_the_result() {
        let stub = Stub::new(5);
        let whole = run(&plan(1, None), &stub, &Unwatched).unwrap();
        assert_eq!(whole.totals.possessions(), 331);
        for threads in [1, 2, 3, 8] {
            for batch in [1, 7, 64] {
                let part = run(&plan(threads, Some(batch)), &stub, &Unwatched).unwrap();
                assert!(part.totals == whole.totals, "{threads} threads, batches of {batch}");
                assert_eq!(part.digest, whole.digest);
                assert_eq!(part.first, whole.first);
            }
        }
        let other = run(&plan(1, None), &Stub::new(6), &Unwatched).unwrap();
        assert_ne!(other.digest, whole.digest, "another seed is another result");
    }

    #[test]
    fn a_panic_hits_its_own_possession_only() {
        let mut stub = Stub::new(5);
        let sound = run(&plan(2, None), &stub, &Unwatched).unwrap();
        stub.panics = vec![(1, 200), (1, 201), (2, 15)];
        let mut before = None;
        for (threads, batch) in [(1, 64), (3, 7), (2, 1)] {
            let played = run(&plan(threads, Some(batch)), &stub, &Unwatched).unwrap();
            let named: Vec<_> =
                played.crashes.iter().map(|crash| (crash.variant, crash.possession)).collect();
            assert_eq!(named, [(2, 15), (1, 200), (1, 201)]);
            assert!(played.crashes[0].message.starts_with("stub: told to"), "{:?}", played.crashes[0]);
            let faults = |v| played.totals.sum(Measure::Fault as usize, v);
            assert_eq!([faults(0), faults(1), faults(2)], [0, 2, 1]);
            let firsts = |v| played.first.iter().filter(|first| first.variant == v).count() as u64;
            assert_eq!([firsts(0), firsts(1), firsts(2)], [FIRST, FIRST - 2, FIRST - 1]);
            let points = |totals: &Totals| totals.sum(Measure::Points as usize, 0);
            assert_eq!(points(&played.totals), points(&sound.totals), "other variants are untouched");
            let same = before.get_or_insert_with(|| played.clone());
            assert!(same.totals == played.totals && same.digest == played.digest);
        }
    }

    #[test]
    fn outcomes_that_do_not_add_up_stop_the_run() {
        let mut stub = Stub::new(5);
        stub.loses = Some((2, 100));
        match run(&plan(2, None), &stub, &Unwatched) {
            Err(Error::Outcomes { variant, ended: 330, played: 331 }) => assert_eq!(variant, "c"),
            other => panic!("{other:?}"),
        }
    }
}
