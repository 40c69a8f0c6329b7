//! Continuation values, computed: possessions are played with one table, what followed each state makes the next, and so
//! on for a fixed number of sweeps.
//!
//! Each sweep has random streams of its own. The last half of the sweeps is averaged, so that a table does not
//! follow the chance of one. Sums are integers and merge in any order: the number of threads cannot be seen.

mod text;

use std::ops::Range;
use std::sync::Arc;

use engine::math::{max, min};
use engine::random::keyed;
use engine::setup::{BallPlace, CLOCK_S, Continuation, ENTRIES, HELD_S, MISSES, Moved, Setup, entry};
use engine::{Arena, Returns};
use rayon::prelude::*;

pub use text::toml;

use crate::error::Error;
use crate::run::Watch;

/// Where the first sweep begins: about what a half-court possession against a set defence brings, points.
const BEGIN_POINTS: f32 = 0.85;
/// So many possessions' worth of what it has in common with its neighbours goes into an entry.
const COMMON: f64 = 60.0;
/// With so much left on the shot clock possessions begin, s, in turn: as played, few get far down the clock.
const BEGIN_WITH_S: [f32; 6] = [30.0, 24.0, 17.0, 12.0, 8.0, 5.0];
/// Possessions in a piece of work.
const PIECE: u64 = 128;

/// How a table is computed.
#[derive(Clone, Copy, Debug)]
pub struct Sweeps {
    /// How many.
    pub sweeps: u64,
    /// Possessions of each setup in each.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
}

/// The table for a mixture of setups that share their attackers.
pub fn compute(setups: &[Arc<Setup>], how: &Sweeps, watch: &dyn Watch) -> Result<Continuation, Error> {
    let threads = rayon::ThreadPoolBuilder::new()
        .num_threads(how.threads)
        .build()
        .map_err(|error| Error::Threads(error.to_string()))?;
    let mut table = Continuation::flat(BEGIN_POINTS);
    let mut kept: Vec<Continuation> = Vec::new();
    for sweep in 0..how.sweeps {
        let seed = keyed(how.seed, sweep, 0, 0, 0, 0);
        let returns = threads.install(|| play(setups, &table, seed, how.possessions, watch));
        let next = fitted(&returns);
        if sweep >= how.sweeps / 2 {
            kept.push(next.clone());
            table = mean(&kept);
        } else {
            table = next;
        }
    }
    Ok(table)
}

/// Plays all setups with a table and counts what followed each state.
fn play(
    setups: &[Arc<Setup>],
    table: &Continuation,
    seed: u64,
    possessions: u64,
    watch: &dyn Watch,
) -> Returns {
    let with_table = |(setup, begin_with_s): (&Arc<Setup>, f32)| {
        let mut setup = Setup::clone(setup);
        if let Some(full_s) = setup.officials.shot_clock_s {
            setup.officials.clock_used_s = max(full_s - begin_with_s, 0.0);
        }
        let impatience_per_s = setup.attackers.skill.continuation.impatience_per_s;
        setup.attackers.skill.continuation = Continuation { impatience_per_s, ..table.clone() };
        Arc::new(setup)
    };
    let begins = |setup| BEGIN_WITH_S.into_iter().map(move |begin_with_s| (setup, begin_with_s));
    let setups: Vec<Arc<Setup>> = setups.iter().flat_map(begins).map(with_table).collect();
    let share = BEGIN_WITH_S.len();
    let pieces: Vec<(usize, Range<u64>)> = (0..setups.len())
        .flat_map(|setup| {
            let nth = (setup % share) as u64;
            let (from, to) = (possessions * nth / share as u64, possessions * (nth + 1) / share as u64);
            let starts = (from..to).step_by(PIECE as usize);
            starts.map(move |start| (setup, start..(start + PIECE).min(to)))
        })
        .collect();
    let seat = || {
        let mut arena = Arena::new(Arena::WIDTH);
        arena.count_returns(true);
        arena
    };
    let counted = |arena: &mut Arena, (setup, range): &(usize, Range<u64>)| {
        arena.play(&setups[*setup], seed, range.clone(), &mut |_| {});
        watch.played(range.end - range.start);
        arena.returns().clone()
    };
    pieces.par_iter().map_init(seat, counted).reduce(Returns::default, |mut all, part| {
        all.merge(&part);
        all
    })
}

/// A mean that leans on a wider one where there is little to go by, in points.
#[derive(Clone, Copy, Default)]
struct Pool {
    count: f64,
    sum: f64,
}

impl Pool {
    fn add(&mut self, other: Pool) {
        self.count += other.count;
        self.sum += other.sum;
    }

    fn toward(self, wider: f64) -> f64 {
        (self.sum + COMMON * wider) / (self.count + COMMON)
    }
}

/// The table that follows from what was counted.
fn fitted(returns: &Returns) -> Continuation {
    let of = |place, moved, held, clock| {
        let found = returns.state(entry(place, moved, held, clock));
        Pool { count: found.count as f64, sum: found.sum as f64 / 1e6 }
    };
    let mut table = Continuation::flat(0.0);
    let all = Pool::default();
    let mut wider_clock = 0.0;
    for clock in 0..CLOCK_S.len() {
        // Wider and wider: this place and hold, this place, this time on the clock, a little less time.
        let mut by_clock = all;
        let mut by_place = [all; BallPlace::COUNT];
        let mut by_hold = [[all; HELD_S.len()]; BallPlace::COUNT];
        for (place, holds) in by_hold.iter_mut().enumerate() {
            for (held, by_hold) in holds.iter_mut().enumerate() {
                for moved in 0..Moved::COUNT {
                    let own = of(place, moved, held, clock);
                    by_clock.add(own);
                    by_place[place].add(own);
                    by_hold.add(own);
                }
            }
        }
        wider_clock = by_clock.toward(wider_clock);
        for (place, holds) in by_hold.iter().enumerate() {
            let here = by_place[place].toward(wider_clock);
            for (held, by_hold) in holds.iter().enumerate() {
                let so_long = by_hold.toward(here);
                for moved in 0..Moved::COUNT {
                    table.points[entry(place, moved, held, clock)] =
                        of(place, moved, held, clock).toward(so_long) as f32;
                }
            }
        }
    }
    let points = |found: engine::returns::Return| (found.sum as f64 / 1e6 / found.count.max(1) as f64) as f32;
    table.after_miss = std::array::from_fn::<_, MISSES, _>(|kind| points(returns.miss(kind)));
    table.after_loss = min(points(returns.loss()), 0.0);
    table
}

/// The mean of tables.
fn mean(tables: &[Continuation]) -> Continuation {
    let share = 1.0 / tables.len() as f32;
    let mut all = Continuation::flat(0.0);
    (all.after_miss, all.after_loss) = ([0.0; MISSES], 0.0);
    for table in tables {
        for nth in 0..ENTRIES {
            all.points[nth] += share * table.points[nth];
        }
        for nth in 0..MISSES {
            all.after_miss[nth] += share * table.after_miss[nth];
        }
        all.after_loss += share * table.after_loss;
    }
    all
}
