//! Plays the parts of a design over threads.

use std::ops::Range;
use std::sync::{Mutex, PoisonError};

use engine::{Arena, Outcome};

use super::plan::{Part, Sketch};
use super::sums::{PartSums, Sums};
use crate::crash::{Crash, WORKER, caught, culprits};
use crate::error::Error;
use crate::row;
use crate::run::{self, Player, Watch};
use crate::stats::Totals;

/// Is handed each part as it becomes whole.
pub type Keep<'a> = &'a (dyn Fn(&Part, &PartSums) -> Result<(), Error> + Sync);

struct State<'a> {
    left: std::slice::Iter<'a, Part>,
    sums: Sums,
    failed: Option<Error>,
}

/// Plays the parts that are not among the sums yet, and hands each over.
///
/// # Errors
/// No threads could be started, a possession has no outcome, or a part could not be kept.
pub fn play<P: Player>(
    sketch: &Sketch<'_>,
    (left, sums): (&[Part], Sums),
    (player, watch): (&P, &dyn Watch),
    keep: Keep<'_>,
) -> Result<Sums, Error> {
    let threads = rayon::ThreadPoolBuilder::new()
        .num_threads(sketch.threads)
        .thread_name(|_| WORKER.into())
        .build()
        .map_err(|error| Error::Threads(error.to_string()))?;
    let state = Mutex::new(State { left: left.iter(), sums, failed: None });
    let lock = || state.lock().unwrap_or_else(PoisonError::into_inner);
    threads.broadcast(|_| {
        loop {
            let mut held = lock();
            let part = if held.failed.is_none() { held.left.next() } else { None };
            drop(held);
            let Some(part) = part else { return };
            // A new seat for each part: one keeps a table for every kind of player that it has seen.
            let sums = Worker { sketch, player, watch, seat: player.seat(Arena::WIDTH) }.part(part);
            let kept = keep(part, &sums);
            let mut held = lock();
            held.sums.take(sketch, part, &sums);
            if let Err(error) = kept {
                held.failed.get_or_insert(error);
            }
        }
    });
    let State { sums, failed, .. } = state.into_inner().unwrap_or_else(PoisonError::into_inner);
    match failed {
        Some(error) => Err(error),
        None => Ok(sums.in_order()),
    }
}

struct Worker<'a, P: Player> {
    sketch: &'a Sketch<'a>,
    player: &'a P,
    watch: &'a dyn Watch,
    seat: P::Seat,
}

impl<P: Player> Worker<'_, P> {
    fn part(mut self, part: &Part) -> PartSums {
        let mut sums = PartSums::nothing(self.sketch, part);
        let each = self.sketch.variants;
        let wide = each * row::WIDTH;
        let mut rows = Vec::new();
        for (place, cell) in part.cells.clone().enumerate() {
            rows.clear();
            rows.resize((part.possessions.end - part.possessions.start) as usize * wide, 0);
            for own in 0..each {
                self.variant((cell * each + own, own), part, &mut rows, &mut sums);
                self.watch.played(part.possessions.end - part.possessions.start);
            }
            for (possession, row) in rows.chunks_exact(wide).enumerate() {
                sums.totals[place].add(row);
                self.weigh(cell, row, possession, &mut sums.weighted);
            }
        }
        sums
    }

    /// Adds a possession of a cell to the weighted sums of all effects.
    fn weigh(&self, cell: usize, row: &[i64], possession: usize, weighted: &mut [i128]) {
        let Sketch { variants, weights, measures, .. } = self.sketch;
        let each = weights.len() * measures.len();
        let sums = weighted[possession * each..][..each].iter_mut();
        let terms =
            weights.iter().flat_map(|weights| measures.iter().map(move |&measure| (weights, measure)));
        for (sum, (weights, measure)) in sums.zip(terms) {
            for own in 0..*variants {
                let value = row[own * row::WIDTH + measure];
                *sum += i128::from(weights[cell * variants + own]) * i128::from(value);
            }
        }
    }

    /// Plays a variant of a cell; its possessions that break down are counted as such.
    fn variant(
        &mut self,
        (variant, own): (usize, usize),
        part: &Part,
        rows: &mut [i64],
        sums: &mut PartSums,
    ) {
        let first = self.sketch.first(variant / self.sketch.variants);
        let all = first + part.possessions.start..first + part.possessions.end;
        let from = all.start;
        let play = |range| self.range((variant, own), range, from, (&mut *rows, &mut *sums));
        for (possession, message) in culprits(all, play) {
            let row = place(rows, self.sketch, own, possession - from);
            row.fill(0);
            row[Outcome::Fault as usize] = 1;
            sums.digest.add(variant, possession, 0);
            sums.crashes.push(Crash { variant, possession, message });
        }
    }

    fn range(
        &mut self,
        (variant, own): (usize, usize),
        range: Range<u64>,
        from: u64,
        (rows, sums): (&mut [i64], &mut PartSums),
    ) -> Result<(), String> {
        let mut digest = crate::digest::ResultDigest::default();
        let (player, seat, sketch) = (self.player, &mut self.seat, self.sketch);
        // What was written before something broke down must not be taken for a record.
        range.clone().for_each(|possession| place(rows, sketch, own, possession - from).fill(0));
        caught(|| {
            player.play(seat, variant, range.clone(), &mut |record| {
                let possession = record.possession;
                assert!(range.contains(&possession), "possession {possession} was not asked for");
                row::fill(place(rows, sketch, own, possession - from), record);
                digest.add(variant, possession, record.digest);
            });
        })
        // A world in which something panicked is not to be trusted.
        .inspect_err(|_| self.seat = player.seat(Arena::WIDTH))?;
        sums.digest.merge(digest);
        Ok(())
    }
}

/// Where a variant's quantities of one possession of the part stand.
fn place<'a>(rows: &'a mut [i64], sketch: &Sketch<'_>, own: usize, possession: u64) -> &'a mut [i64] {
    &mut rows[(possession as usize * sketch.variants + own) * row::WIDTH..][..row::WIDTH]
}

/// Every possession ends as exactly one of the six outcomes.
///
/// # Errors
/// One does not.
pub fn check_outcomes(cells: &[Totals], mut names: &[String]) -> Result<(), Error> {
    for totals in cells {
        let (own, others) = names.split_at(totals.variants());
        run::check_outcomes(totals, own)?;
        names = others;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use engine::Measure;

    use super::super::plan::tests::sketch;
    use super::*;
    use crate::columns::Column;
    use crate::effects::effects;
    use crate::stats::normal::two_sided_z;
    use crate::stats::weighted_contrast;
    use crate::stub::{Stub, Unwatched};

    const RATIOS: [(usize, usize); 1] = [(Measure::OffensiveRebounds as usize, Measure::Rebounds as usize)];

    fn made_up(threads: usize) -> Sketch<'static> {
        let weights = vec![vec![4, -4, 1, -1, 0, 0], vec![0, 0, 5, 0, 0, -5]];
        let measures = vec![Measure::ExpectedNetPoints as usize, Measure::Turnover as usize];
        Sketch { threads, ratios: &RATIOS, weights, measures, ..sketch(3, 2, 200) }
    }

    fn played(sketch: &Sketch<'_>, stub: &Stub, order: impl Fn(&mut Vec<Part>)) -> Sums {
        let mut parts = sketch.parts();
        order(&mut parts);
        play(sketch, (&parts, Sums::nothing(sketch)), (stub, &Unwatched), &|_, _| Ok(())).unwrap()
    }

    #[test]
    fn neither_threads_nor_order_nor_parts_that_are_there_already_can_be_seen() {
        let mut stub = Stub::new(5);
        stub.panics = vec![(1, 100), (4, 70)];
        let whole = played(&made_up(1), &stub, |_| {});
        assert_eq!(whole.cells.iter().map(Totals::possessions).collect::<Vec<_>>(), [200; 3]);
        assert_eq!(
            whole.crashes.iter().map(|crash| (crash.variant, crash.possession)).collect::<Vec<_>>(),
            [(4, 70), (1, 100)]
        );
        for threads in [1, 2, 5] {
            assert!(played(&made_up(threads), &stub, |parts| parts.reverse()) == whole, "{threads} threads");
        }
        let kept = Mutex::new(BTreeMap::new());
        let (sketch, keep) = (made_up(2), |part: &Part, sums: &PartSums| {
            kept.lock().unwrap().insert(part.nth, (part.clone(), sums.clone()));
            Ok(())
        });
        let parts = sketch.parts();
        play(&sketch, (&parts, Sums::nothing(&sketch)), (&stub, &Unwatched), &keep).unwrap();
        let kept = kept.into_inner().unwrap();
        let mut half = Sums::nothing(&sketch);
        kept.values().step_by(2).for_each(|(part, sums)| half.take(&sketch, part, sums));
        let left: Vec<Part> = parts.iter().skip(1).step_by(2).cloned().collect();
        assert!(play(&sketch, (&left, half), (&stub, &Unwatched), &|_, _| Ok(())).unwrap() == whole);
    }

    #[test]
    fn cells_have_the_totals_and_effects_the_variances_of_a_run_of_all_variants_together() {
        let text = "scenario = \"plain-122\"\n[[variant]]\nname = \"a\"\n[[variant]]\nname = \"b\"\nset = { \"attack.rover.route\" = \"seam-cross\" }\n\
                    [design]\nkind = \"full\"\n[[design.factor]]\nkey = \"zone.sink_back_m\"\nvalues = [0.0, 0.5, 1.0]\n";
        let experiment = scenarios::experiment_of(text.into(), std::path::Path::new("made-up.toml"))
            .unwrap_or_else(|f| panic!("{f}"));
        let sought = effects(&experiment).unwrap();
        let columns = super::super::means(
            &["expected_net_points", "turnover_rate"].map(|key| Column::named(key).unwrap()),
        );
        let ratios = crate::columns::ratios();
        let sketch = Sketch {
            ratios: &ratios,
            weights: super::super::sums::in_parts(&sought.effects),
            measures: columns.iter().map(|(_, place)| *place).collect(),
            ..made_up(2)
        };
        let stub = Stub::new(7);
        let sums = played(&sketch, &stub, |_| {});
        let plan = crate::run::Plan {
            variants: (0..6).map(|v| v.to_string()).collect(),
            possessions: 0..200,
            batch: None,
            threads: 1,
            ratios: &ratios,
        };
        let together = crate::run::run(&plan, &stub, &Unwatched).unwrap();
        assert_eq!(together.digest, sums.digest);
        let z = two_sided_z(0.95);
        let (column, _) = columns[0];
        for cell in 0..3 {
            let own = column.difference(&sums.cells[cell], 1, 0, z);
            assert_eq!(own, column.difference(&together.totals, 2 * cell + 1, 2 * cell, z));
        }
        let found = sums.effects(&experiment, (sought.clone(), &columns), (column, 0.95));
        assert_eq!(found.found.len(), 2 * sought.effects.len());
        for found in &found.found {
            let weights = &sought.effects[found.effect].weights;
            let exact =
                weighted_contrast(&together.totals, found.column.figure(), weights, found.column.scale(), z)
                    .unwrap();
            let (a, b) = (found.difference, exact);
            assert!((a.interval.estimate - b.interval.estimate).abs() < 1e-6, "{a:?}, {b:?}");
            assert!(
                (a.standard_error - b.standard_error).abs() < 1e-6 + 1e-4 * b.standard_error,
                "{a:?}, {b:?}"
            );
        }
    }

    #[test]
    fn cells_with_possessions_of_their_own_have_independent_errors_and_variants_in_them_paired_ones() {
        let text = "scenario = \"plain-122\"\n[[variant]]\nname = \"a\"\n[[variant]]\nname = \"b\"\nset = { \"attack.rover.route\" = \"seam-cross\" }\n\
                    [design]\nkind = \"full\"\ndraws = \"own\"\n[[design.factor]]\nkey = \"zone.sink_back_m\"\nvalues = [0.0, 0.5, 1.0]\n";
        let experiment = scenarios::experiment_of(text.into(), std::path::Path::new("made-up.toml"))
            .unwrap_or_else(|f| panic!("{f}"));
        let sought = effects(&experiment).unwrap();
        let columns = super::super::means(&[Column::named("expected_net_points").unwrap()]);
        let sketch = Sketch { own_draws: true, weights: Vec::new(), ..made_up(2) };
        let stub = Stub::new(7);
        let sums = played(&sketch, &stub, |_| {});
        // The cells' possessions follow one another.
        for (cell, totals) in sums.cells.iter().enumerate() {
            let mut points = 0;
            let from = 200 * cell as u64;
            stub.play(&mut stub.seat(1), 2 * cell, from..from + 200, &mut |record| {
                points += i128::from(record.value(Measure::ExpectedNetPoints));
            });
            assert_eq!(totals.sum(Measure::ExpectedNetPoints as usize, 0), points);
        }
        let z = two_sided_z(0.95);
        let (column, _) = columns[0];
        let found = sums.effects(&experiment, (sought, &columns), (column, 0.95));
        // The variants' effect is the mean of the differences within cells.
        let within: Vec<_> =
            sums.cells.iter().map(|totals| column.difference(totals, 1, 0, z).unwrap()).collect();
        let mean = within.iter().map(|d| d.interval.estimate).sum::<f64>() / 3.0;
        let error = within.iter().map(|d| d.standard_error * d.standard_error).sum::<f64>().sqrt() / 3.0;
        let own = found.found[0].difference;
        assert!((own.interval.estimate - mean).abs() < 1e-9, "{own:?}, {mean}");
        assert!((own.standard_error / error - 1.0).abs() < 1e-6, "{own:?}, {error}");
        // Three variances that are much alike have nearly three times the degrees of one.
        let degrees = found.found[0].degrees;
        assert!((2.0 * 199.0..=3.0 * 199.0).contains(&degrees), "{degrees}");
    }
}
