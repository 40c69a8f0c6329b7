//! From a plan to exact totals, in parallel, in memory that does not grow with the number of possessions.
//!
//! Possessions are cut into blocks of fixed numbers, and these into batches. A worker plays one batch for *all* variants,
//! so that the rows of a possession index meet in one place and pairing needs no storage beyond the batch. Workers take
//! batches as they come free; a block is handed over once its last batch has been played, and goes into the totals.
//! Integer totals merge exactly, so neither the number of threads nor the size of a batch can be seen in a block or in
//! the result.

mod blocks;
mod worker;

use std::collections::BTreeSet;
use std::ops::Range;

use engine::events::Event;
use engine::{Outcome, Places, PossessionRecord};
use serde::{Deserialize, Serialize};

use crate::crash::{Crash, WORKER};
use crate::digest::ResultDigest;
use crate::error::Error;
use crate::records::{Recorded, Records};
use crate::row;
use crate::stats::Totals;

use blocks::Blocks;
use worker::Worker;

pub use blocks::{BLOCK, blocks};

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
    /// The same, each record with its events. A player that knows of none hands over none.
    fn play_with_events(
        &self,
        seat: &mut Self::Seat,
        variant: usize,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord, &[Event]),
    ) {
        self.play(seat, variant, possessions, &mut |record| each(record, &[]));
    }
    /// Adds the counts by place of the last call of either.
    fn add_places(&self, seat: &Self::Seat, places: &mut Places);
}

/// Hears of progress.
pub trait Watch: Sync {
    /// So many more possessions have been played (all variants counted).
    fn played(&self, possessions: u64);
}

/// Is handed the blocks of a run as they become whole.
pub trait Keeper: Sync {
    /// What it wants of each possession beside what they come to.
    fn records(&self) -> Option<Records> {
        None
    }
    /// Takes the possessions of a batch of a variant, in order, where it wants them, before their block is whole.
    ///
    /// # Errors
    /// They cannot be kept, and the run is to end.
    fn record(&self, _block: &Range<u64>, _variant: usize, _rows: &[Recorded]) -> Result<(), Error> {
        Ok(())
    }
    /// Takes what the possessions of a block came to, all variants.
    ///
    /// # Errors
    /// It cannot be kept, and the run is to end.
    fn keep(&self, block: &Range<u64>, played: &Played) -> Result<(), Error>;
}

/// Keeps nothing: the totals are all that is wanted.
struct Forgetful;

impl Keeper for Forgetful {
    fn keep(&self, _: &Range<u64>, _: &Played) -> Result<(), Error> {
        Ok(())
    }
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

/// What a run leaves, or a part of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
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

/// What is there of a plan already.
#[derive(Clone, Debug)]
pub struct There {
    /// Where its blocks begin.
    pub blocks: BTreeSet<u64>,
    /// What they came to together.
    pub played: Played,
}

/// Possessions of each variant with a number below this one are kept with their worth, to choose films from.
pub const FIRST: u64 = 256;

/// One of the first possessions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
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

    /// No block of it.
    pub fn nothing_there(&self) -> There {
        There { blocks: BTreeSet::new(), played: self.nothing() }
    }

    /// What no possession at all comes to.
    pub fn nothing(&self) -> Played {
        Played {
            totals: Totals::new(self.variants.len(), row::WIDTH, self.ratios),
            digest: ResultDigest::default(),
            crashes: Vec::new(),
            places: vec![Places::default(); self.variants.len()],
            first: Vec::new(),
        }
    }
}

impl Played {
    /// Takes in what other possessions of the same plan came to: exact, in any order.
    pub fn merge(&mut self, other: &Self) {
        self.totals.merge(&other.totals);
        self.digest.merge(other.digest);
        self.crashes.extend_from_slice(&other.crashes);
        self.first.extend_from_slice(&other.first);
        self.places.iter_mut().zip(&other.places).for_each(|(own, more)| own.merge(more));
    }

    /// Puts what is told one by one in order, so that the order of playing cannot be seen.
    pub(crate) fn in_order(mut self) -> Self {
        self.first.sort_unstable();
        self.crashes.sort_by_key(|crash| (crash.possession, crash.variant));
        self
    }
}

/// Plays the plan.
///
/// # Errors
/// No threads could be started, or a possession has no outcome.
pub fn run<P: Player>(plan: &Plan, player: &P, watch: &dyn Watch) -> Result<Played, Error> {
    resume(plan, plan.nothing_there(), player, watch, &Forgetful)
}

/// Plays the blocks of a plan that are not there yet, and hands each over as soon as it is whole.
///
/// # Errors
/// No threads could be started, a possession has no outcome, or a block could not be kept.
pub fn resume<P: Player>(
    plan: &Plan,
    there: There,
    player: &P,
    watch: &dyn Watch,
    keeper: &dyn Keeper,
) -> Result<Played, Error> {
    let threads = rayon::ThreadPoolBuilder::new()
        .num_threads(plan.threads)
        .thread_name(|_| WORKER.into())
        .build()
        .map_err(|error| Error::Threads(error.to_string()))?;
    let blocks = Blocks::new(plan, there, keeper);
    threads.broadcast(|_| Worker::new(plan, player, watch).work(&blocks));
    let all = blocks.played()?.in_order();
    check_outcomes(&all.totals, &plan.variants)?;
    Ok(all)
}

/// Every possession ends as exactly one of the six outcomes.
pub(crate) fn check_outcomes(totals: &Totals, variants: &[String]) -> Result<(), Error> {
    for (v, name) in variants.iter().enumerate() {
        let ended: i128 = Outcome::ALL.iter().map(|&outcome| totals.sum(outcome as usize, v)).sum();
        if ended != i128::from(totals.possessions()) {
            return Err(Error::Outcomes { variant: name.clone(), ended, played: totals.possessions() });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::sync::Mutex;

    use engine::Measure;

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
            let kept = FIRST - plan(1, None).possessions.start;
            assert_eq!([firsts(0), firsts(1), firsts(2)], [kept, kept - 2, kept - 1]);
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

    /// Notes the blocks that it is handed, and refuses one of them.
    #[derive(Default)]
    struct Notes {
        blocks: Mutex<BTreeMap<u64, Played>>,
        refuses: Option<u64>,
    }

    impl Keeper for Notes {
        fn keep(&self, block: &Range<u64>, played: &Played) -> Result<(), Error> {
            if self.refuses == Some(block.start) {
                return Err(Error::Threads("told to".into()));
            }
            assert_eq!(played.totals.possessions(), block.end - block.start);
            assert!(self.blocks.lock().unwrap().insert(block.start, played.clone()).is_none());
            Ok(())
        }
    }

    fn long(threads: usize, batch: u64) -> Plan<'static> {
        Plan { possessions: 900..4000, ..plan(threads, Some(batch)) }
    }

    #[test]
    fn blocks_are_the_same_whatever_the_threads_and_any_of_them_may_be_there_already() {
        let mut stub = Stub::new(5);
        stub.panics = vec![(1, 2001)];
        let notes = Notes::default();
        let whole = resume(&long(1, 64), long(1, 64).nothing_there(), &stub, &Unwatched, &notes).unwrap();
        let blocks = notes.blocks.into_inner().unwrap();
        assert_eq!(blocks.keys().copied().collect::<Vec<_>>(), [900, 1024, 2048, 3072]);
        for (threads, batch, there) in
            [(3, 7, 0b0101_u32), (2, 1024, 0b1000), (8, 100, 0b0010), (1, 64, 0b1111)]
        {
            let own = |nth: &usize| there >> nth & 1 == 1;
            let plan = long(threads, batch);
            let mut done = plan.nothing_there();
            for (_, (start, block)) in blocks.iter().enumerate().filter(|(nth, _)| own(nth)) {
                done.blocks.insert(*start);
                done.played.merge(block);
            }
            let notes = Notes::default();
            let all = resume(&plan, done, &stub, &Unwatched, &notes).unwrap();
            assert!(all == whole, "{threads} threads, batches of {batch}, {there:b} there");
            let noted = notes.blocks.into_inner().unwrap();
            assert_eq!(noted.len(), 4 - there.count_ones() as usize);
            assert!(noted.iter().all(|(start, block)| blocks[start] == *block));
        }
    }

    #[test]
    fn a_block_that_cannot_be_kept_ends_the_run() {
        // One thread comes to nothing else; of two, the other may have been at later blocks already.
        for (threads, kept) in [(1, Some(1)), (2, None)] {
            let notes = Notes { refuses: Some(1024), ..Notes::default() };
            let plan = long(threads, 64);
            let ended = resume(&plan, plan.nothing_there(), &Stub::new(5), &Unwatched, &notes);
            assert!(matches!(ended, Err(Error::Threads(_))), "{ended:?}");
            let blocks = notes.blocks.into_inner().unwrap();
            assert!(
                !blocks.contains_key(&1024) && kept.is_none_or(|kept| blocks.len() == kept),
                "{blocks:?}"
            );
        }
    }
}
