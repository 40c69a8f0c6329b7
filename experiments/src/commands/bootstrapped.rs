//! `--bootstrap`: intervals of one column by drawing possessions again, for figures that are rare or skewed.

use engine::Arena;
use rayon::prelude::*;
use serde::Serialize;

use super::result::Asked;
use crate::arena::EnginePlayer;
use crate::columns::{CONFIDENCE, Column, ratios};
use crate::compare::Comparison;
use crate::crash::{WORKER, caught, culprits};
use crate::error::Error;
use crate::output::{Decimal, FileLine};
use crate::row;
use crate::run::Player;
use crate::stats::normal::two_sided_z;
use crate::stats::{BOOTSTRAP_SEED, BOOTSTRAPPED_MOST, Figure, RESAMPLES, Totals, bootstrap};

/// One row of `bootstrap.csv`: a variant's figure, or how far it is from the one that it is compared with.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct BootstrapLine {
    variant: String,
    reference: String,
    measure: &'static str,
    possessions: u64,
    estimate: Decimal,
    bootstrap_low: Decimal,
    bootstrap_high: Decimal,
    resamples: u64,
    usual_low: Decimal,
    usual_high: Decimal,
}

impl FileLine for BootstrapLine {
    const FILE: &'static str = "bootstrap.csv";
}

/// What each possession of a variant adds to a figure: above and below the line of a ratio; below 1 for a mean.
type Parts = Vec<[f64; 2]>;

/// The rows of a column; the first possessions are played once more for them.
pub(super) fn bootstrap_lines(
    asked: &Asked<'_>,
    comparison: &Comparison,
    column: &'static Column,
) -> Result<Vec<BootstrapLine>, Error> {
    let possessions = comparison.possessions.min(BOOTSTRAPPED_MOST);
    let parts = parts(asked, column, possessions)?;
    let (names, baseline) = (&comparison.question.variants, comparison.question.baseline);
    let (totals, z) = (totals(&parts, column), two_sided_z(CONFIDENCE));
    let mut lines = Vec::new();
    let pool = pool(asked)?;
    let figure = |v: usize, drawn: &[u32]| ratio(&parts[v], drawn).map(|value| value * column.scale());
    let row = |v: usize, reference: Option<usize>| {
        let of = |drawn: &[u32]| match reference {
            None => figure(v, drawn),
            Some(w) => Some(figure(v, drawn)? - figure(w, drawn)?),
        };
        let found =
            pool.install(|| bootstrap(possessions as usize, &of, CONFIDENCE, (RESAMPLES, BOOTSTRAP_SEED)));
        let usual = match reference {
            None => column.interval(&totals, v, z),
            Some(w) => column.difference(&totals, v, w, z).map(|difference| difference.interval),
        };
        let ends = found.as_ref().and_then(|drawn| drawn.ends);
        let [_, usual_low, usual_high] = Decimal::of(usual);
        BootstrapLine {
            variant: names[v].clone(),
            reference: reference.map_or_else(String::new, |w| names[w].clone()),
            measure: column.key,
            possessions,
            estimate: Decimal(found.as_ref().map(|drawn| drawn.estimate)),
            bootstrap_low: Decimal(ends.map(|(low, _)| low)),
            bootstrap_high: Decimal(ends.map(|(_, high)| high)),
            resamples: found.map_or(0, |drawn| drawn.figures.len() as u64),
            usual_low,
            usual_high,
        }
    };
    lines.extend((0..names.len()).map(|v| row(v, None)));
    lines.extend((0..names.len()).filter(|&v| v != baseline).map(|v| row(v, Some(baseline))));
    Ok(lines)
}

/// Exact totals of the same possessions, in which only the column's own measures are filled.
fn totals(parts: &[Parts], column: &Column) -> Totals {
    let (above, below) = measures(column);
    let mut totals = Totals::new(parts.len(), row::WIDTH, &ratios());
    let mut values = vec![0; parts.len() * row::WIDTH];
    for possession in 0..parts.first().map_or(0, Vec::len) {
        for (own, parts) in values.chunks_exact_mut(row::WIDTH).zip(parts) {
            own[above] = parts[possession][0] as i64;
            if let Some(below) = below {
                own[below] = parts[possession][1] as i64;
            }
        }
        totals.add(&values);
    }
    totals
}

/// The measures of a row above and below a column's line.
fn measures(column: &Column) -> (usize, Option<usize>) {
    match column.figure() {
        Figure::Mean(measure) => (measure, None),
        Figure::Ratio(ratio) => (ratios()[ratio].0, Some(ratios()[ratio].1)),
    }
}

/// Sum over sum; None without anything below the line.
fn ratio(parts: &Parts, drawn: &[u32]) -> Option<f64> {
    let (above, below) = drawn.iter().fold((0.0, 0.0), |(above, below), &possession| {
        let [x, y] = parts[possession as usize];
        (above + x, below + y)
    });
    (below > 0.0).then(|| above / below)
}

fn pool(asked: &Asked<'_>) -> Result<rayon::ThreadPool, Error> {
    let threads =
        rayon::ThreadPoolBuilder::new().num_threads(asked.options.threads).thread_name(|_| WORKER.into());
    threads.build().map_err(|error| Error::Threads(error.to_string()))
}

/// The parts of all variants; a possession that breaks down adds nothing, as in the run itself.
fn parts(asked: &Asked<'_>, column: &'static Column, possessions: u64) -> Result<Vec<Parts>, Error> {
    let setups = asked.experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
    let player = EnginePlayer::new(setups, asked.options.seed);
    let (above, below) = measures(column);
    let of = |variant: usize| {
        let nothing = [0.0, f64::from(u8::from(below.is_none()))];
        let mut parts: Parts = vec![nothing; possessions as usize];
        let mut seat = player.seat(Arena::WIDTH);
        let broken = culprits(0..possessions, |range| {
            caught(|| {
                player.play(&mut seat, variant, range, &mut |record| {
                    let mut row = [0; row::WIDTH];
                    row::fill(&mut row, record);
                    let below = below.map_or(1.0, |below| row[below] as f64);
                    parts[record.possession as usize] = [row[above] as f64, below];
                });
            })
            // A world in which something panicked is not to be trusted.
            .inspect_err(|_| seat = player.seat(Arena::WIDTH))
        });
        broken.into_iter().for_each(|(possession, _)| parts[possession as usize] = nothing);
        parts
    };
    Ok(pool(asked)?.install(|| (0..asked.experiment.variants.len()).into_par_iter().map(of).collect()))
}
