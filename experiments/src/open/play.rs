//! A run that is watched: block after block until it is stopped, nobody listens any more, or all has been played.

use std::ops::Range;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use crate::commands::open::Asking;
use crate::error::Error;
use crate::run::{BLOCK, Played, Watch};

/// Possessions of each that are played before anything is said at first: too few to judge by, soon enough to be seen.
const FIRST: u64 = 128;
/// So often something is said while it plays.
const PERIOD: Duration = Duration::from_millis(1500);
/// Saying it takes no more than about a fifth of the time, unless a stop would be heard too late by that.
const PLAYED_TO_TOLD: u32 = 4;
/// A stop is heard after about so long at most.
const LONGEST: Duration = Duration::from_secs(5);

/// How far a run has come.
pub struct Standing<'a> {
    /// What was played of each, from the first possession on.
    pub played: &'a Played,
    /// Since it began.
    pub taken: Duration,
}

/// What a run has left.
pub struct Ended {
    /// All of it.
    pub played: Played,
    /// The same in blocks, as a folder keeps them.
    pub blocks: Vec<(Range<u64>, Played)>,
}

/// What ends a run before its time, and how fast it goes.
#[derive(Debug)]
pub struct Reins {
    /// Told to stop: what was played counts.
    pub stopped: AtomicBool,
    /// Nobody listens: what was played is thrown away.
    pub dropped: AtomicBool,
    done: AtomicU64,
    begun: Instant,
}

impl Default for Reins {
    fn default() -> Self {
        let (stopped, dropped, done) = (AtomicBool::default(), AtomicBool::default(), AtomicU64::default());
        Self { stopped, dropped, done, begun: Instant::now() }
    }
}

impl Reins {
    fn are_drawn(&self) -> bool {
        self.stopped.load(Ordering::Relaxed) || self.dropped.load(Ordering::Relaxed)
    }

    /// Possessions played so far, of all variants together.
    pub fn done(&self) -> u64 {
        self.done.load(Ordering::Relaxed)
    }

    /// Possessions a second since the run began, of all variants together.
    pub fn speed(&self) -> f64 {
        self.done() as f64 / self.begun.elapsed().as_secs_f64().max(1e-3)
    }
}

impl Watch for Reins {
    fn played(&self, possessions: u64) {
        self.done.fetch_add(possessions, Ordering::Relaxed);
    }
}

/// The blocks in which a run is kept, each cut into pieces so that it can be stopped, and seen, about as often as it should
/// be: `pace` is how many possessions of each are played in that time.
fn piece(from: u64, most: u64, pace: u64) -> Range<u64> {
    let block = (from / BLOCK + 1) * BLOCK;
    from..(from + pace.max(32)).min(block).min(most)
}

/// Plays up to `most` possessions of each; `tell` hears how far it has come, the last time when it is over. None where it was
/// dropped.
///
/// How long it goes on is decided here and nowhere else: a rule by which a run may end before `most` without spoiling what is
/// claimed has its place in the condition of the loop.
///
/// # Errors
/// Those of a run.
pub fn play(
    asking: &Asking,
    most: u64,
    reins: &Reins,
    tell: &mut dyn FnMut(&Standing<'_>),
) -> Result<Option<Ended>, Error> {
    let start = Instant::now();
    let (mut all, mut blocks) = (asking.nothing(), Vec::new());
    let mut block = (0..0, asking.nothing());
    let (mut from, mut pace) = (0, FIRST);
    while from < most && !reins.are_drawn() {
        let (own, begun) = (piece(from, most, pace), Instant::now());
        let played = asking.play(own.clone(), reins)?;
        all.merge(&played);
        block.0.end = own.end;
        block.1.merge(&played);
        if own.end % BLOCK == 0 || own.end == most {
            blocks.push(std::mem::replace(&mut block, (own.end..own.end, asking.nothing())));
        }
        from = own.end;
        let speed = (own.end - own.start) as f64 / begun.elapsed().as_secs_f64().max(1e-3);
        let told = Instant::now();
        tell(&Standing { played: &all, taken: start.elapsed() });
        let period = PERIOD.max(PLAYED_TO_TOLD * told.elapsed()).min(LONGEST);
        pace = (speed * period.as_secs_f64()) as u64;
    }
    if block.0.start < block.0.end {
        blocks.push(block);
    }
    let counts = from > 0 && !reins.dropped.load(Ordering::Relaxed);
    Ok(counts.then(|| Ended { played: all.in_order(), blocks }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_end_where_blocks_end() {
        let mut from = 0;
        let mut ends = Vec::new();
        while from < 2500 {
            let own = piece(from, 2500, 700);
            assert!(own.start == from && own.end > from);
            from = own.end;
            ends.push(from);
        }
        assert_eq!(ends, [700, 1024, 1724, 2048, 2500]);
        assert_eq!(piece(0, 65_536, 0), 0..32, "however slow");
    }

    /// What was played piece by piece is what is played at once, and a run that is stopped keeps what it has.
    #[test]
    fn a_run_in_pieces_is_the_run_and_may_be_stopped() {
        let asking = Asking::new(None, (200, 3, 2)).unwrap();
        let reins = Reins::default();
        let mut told = Vec::new();
        let ended = play(&asking, 200, &reins, &mut |standing| {
            told.push(standing.played.totals.possessions());
        });
        let ended = ended.unwrap().unwrap();
        assert!(told.len() > 1 && told[0] == FIRST && told.last() == Some(&200), "{told:?}");
        let whole = asking.play(0..200, &Reins::default()).unwrap();
        assert!(ended.played == whole);
        assert_eq!(reins.done(), 200 * asking.question.variants.len() as u64);
        assert!(ended.blocks.len() == 1 && ended.blocks[0].0 == (0..200));
        let reins = Reins::default();
        let stopped = play(&asking, 200, &reins, &mut |_| reins.stopped.store(true, Ordering::Relaxed));
        assert_eq!(stopped.unwrap().unwrap().played.totals.possessions(), FIRST);
        let reins = Reins::default();
        let dropped = play(&asking, 200, &reins, &mut |_| reins.dropped.store(true, Ordering::Relaxed));
        assert!(dropped.unwrap().is_none());
    }
}
