//! What a design comes to: totals of each cell, and the sums of each effect.

use std::collections::BTreeMap;

use scenarios::Experiment;
use serde::{Deserialize, Serialize};

use super::plan::{Part, Sketch};
use crate::columns::Column;
use crate::crash::Crash;
use crate::digest::ResultDigest;
use crate::effects::{Effect, Effects, Fit, Found, Sought, corrected};
use crate::row;
use crate::stats::normal::two_sided_z;
use crate::stats::{Difference, Totals, whole_weights};

/// Parts of one that weights are whole numbers of: of 65,536 variants the smallest weight still has seven digits. A sum of
/// weighted values stays far below 2^127.
pub const PARTS: f64 = (1_u64 << 40) as f64;

/// What a part came to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartSums {
    /// Exact totals, by cell of the part.
    pub totals: Vec<Totals>,
    /// `[possession][effect][measure]`: weighted sums over the part's variants.
    pub weighted: Vec<i128>,
    /// Digest of every possession.
    pub digest: ResultDigest,
    /// Possessions that panicked.
    pub crashes: Vec<Crash>,
}

/// What all parts came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Sums {
    /// Exact totals, by cell.
    pub cells: Vec<Totals>,
    /// Digest of every possession.
    pub digest: ResultDigest,
    /// Possessions that panicked, in order.
    pub crashes: Vec<Crash>,
    /// By block: `[effect][measure]` sums of the possessions' weighted sums, and of their squares.
    blocks: BTreeMap<usize, Vec<(i128, f64)>>,
    /// Blocks of which some parts are there: how many cells are missing, and the weighted sums so far.
    open: BTreeMap<usize, (usize, Vec<i128>)>,
}

impl PartSums {
    /// Of a part nothing of which has been played.
    pub(super) fn nothing(sketch: &Sketch<'_>, part: &Part) -> Self {
        let possessions = (part.possessions.end - part.possessions.start) as usize;
        Self {
            totals: vec![Totals::new(sketch.variants, row::WIDTH, sketch.ratios); part.cells.len()],
            weighted: vec![0; possessions * sketch.weights.len() * sketch.measures.len()],
            digest: ResultDigest::default(),
            crashes: Vec::new(),
        }
    }

    /// Whether it has the shape that a part of the design has.
    pub(super) fn fits(&self, sketch: &Sketch<'_>, part: &Part) -> bool {
        let possessions = part.possessions.end - part.possessions.start;
        let is_whole = |totals: &Totals| {
            totals.is_well_formed()
                && (totals.variants(), totals.ratios()) == (sketch.variants, sketch.ratios)
                && (totals.measures(), totals.possessions()) == (row::WIDTH, possessions)
        };
        self.totals.len() == part.cells.len()
            && self.totals.iter().all(is_whole)
            && self.weighted.len() == possessions as usize * sketch.weights.len() * sketch.measures.len()
            && self.crashes.iter().all(|crash| crash.variant < sketch.cells * sketch.variants)
    }
}

impl Sums {
    /// Of a design nothing of which has been played.
    #[must_use]
    pub fn nothing(sketch: &Sketch<'_>) -> Self {
        Self {
            cells: vec![Totals::new(sketch.variants, row::WIDTH, sketch.ratios); sketch.cells],
            digest: ResultDigest::default(),
            crashes: Vec::new(),
            blocks: BTreeMap::new(),
            open: BTreeMap::new(),
        }
    }

    /// Takes in a part: exact, in any order. A block whose last cell it brings is squared and let go.
    pub fn take(&mut self, sketch: &Sketch<'_>, part: &Part, sums: &PartSums) {
        self.cells[part.cells.clone()].iter_mut().zip(&sums.totals).for_each(|(own, more)| own.merge(more));
        self.digest.merge(sums.digest);
        self.crashes.extend_from_slice(&sums.crashes);
        let none = || (sketch.cells, vec![0; sums.weighted.len()]);
        let (missing, weighted) = self.open.entry(part.block).or_insert_with(none);
        *missing -= part.cells.len();
        weighted.iter_mut().zip(&sums.weighted).for_each(|(own, more)| *own += more);
        if *missing > 0 {
            return;
        }
        let Some((_, weighted)) = self.open.remove(&part.block) else { return };
        let each = sketch.weights.len() * sketch.measures.len();
        let mut sums = vec![(0, 0.0); each];
        if each > 0 {
            for possession in weighted.chunks_exact(each) {
                for (sum, &value) in sums.iter_mut().zip(possession) {
                    sum.0 += value;
                    let value = value as f64 / PARTS;
                    sum.1 += value * value;
                }
            }
        }
        self.blocks.insert(part.block, sums);
    }

    /// What is told one by one, in order, so that the order of playing cannot be seen.
    pub fn in_order(mut self) -> Self {
        self.crashes.sort_by_key(|crash| (crash.possession, crash.variant));
        self
    }

    /// The effects, with intervals of a `confidence` (0-1): all blocks are there.
    #[must_use]
    pub fn effects(
        &self,
        experiment: &Experiment,
        (sought, columns): (Sought, &[(&'static Column, usize)]),
        (rank_by, confidence): (&Column, f64),
    ) -> Effects {
        let Sought { effects, remarks } = sought;
        let n = self.cells.first().map_or(0, Totals::possessions);
        if n < 2 {
            return Effects { effects, found: Vec::new(), remarks };
        }
        let z = two_sided_z(confidence);
        let own_draws = experiment.design.as_ref().is_some_and(|design| design.own_draws);
        let whole = in_parts(&effects);
        let mut found = Vec::new();
        for (measure, &(column, place)) in columns.iter().enumerate() {
            let figures: Vec<f64> =
                self.by_variant(experiment, |totals, v| totals.mean(place, v, column.scale()));
            let variances: Vec<f64> =
                self.by_variant(experiment, |totals, v| totals.variance(place, v, column.scale()));
            let fit = Fit::new(&effects, experiment);
            for (nth, effect) in effects.iter().enumerate() {
                let (mean, variance, degrees) = if own_draws {
                    self.of_cells(&whole[nth], place)
                } else {
                    self.of_possessions(nth * columns.len() + measure)
                };
                let (mean, variance) = (mean * column.scale(), variance * column.scale() * column.scale());
                let apart: f64 = effect.weights.iter().zip(&variances).map(|(w, own)| w * w * own).sum();
                found.push(Found {
                    effect: nth,
                    column,
                    difference: Difference::new(mean, variance.sqrt(), n, z).by_student(degrees, confidence),
                    degrees,
                    p_holm: None,
                    p_bh: None,
                    variance_ratio: (variance > 0.0).then(|| apart / variance),
                    error_over_cells: fit.error_over_cells(nth, &figures),
                });
            }
        }
        corrected(Effects { effects, found, remarks }, rank_by)
    }

    /// Mean and variance of one possession's weighted sum over all cells, which share their possessions, with the degrees of
    /// freedom of that variance.
    fn of_possessions(&self, place: usize) -> (f64, f64, f64) {
        let n = self.cells[0].possessions() as f64;
        let sums = self.blocks.values().map(|block| block[place]);
        let (sum, squares) = sums.fold((0, 0.0), |all, one| (all.0 + one.0, all.1 + one.1));
        let mean = sum as f64 / PARTS / n;
        (mean, ((squares - mean * mean * n) / (n - 1.0)).max(0.0), n - 1.0)
    }

    /// The same where each cell has possessions of its own: variances of the cells' weighted sums add up, each with what its
    /// variants share. Degrees of freedom of such a sum: F. E. Satterthwaite, Biometrics Bulletin 2, 1946, 110-114.
    fn of_cells(&self, weights: &[i64], measure: usize) -> (f64, f64, f64) {
        let n = self.cells[0].possessions() as f64;
        let (mut sum, mut variance, mut squares) = (0_i128, 0.0, 0.0);
        for (totals, weights) in self.cells.iter().zip(weights.chunks_exact(weights.len() / self.cells.len()))
        {
            let mut own = 0.0;
            for (v, a) in weights.iter().enumerate() {
                sum += i128::from(*a) * totals.sum(measure, v);
                for (w, b) in weights.iter().enumerate() {
                    let both = (*a as f64 / PARTS) * (*b as f64 / PARTS);
                    own += both * totals.covariance(measure, v, w, 1.0);
                }
            }
            variance += own.max(0.0);
            squares += own * own;
        }
        let degrees = if squares > 0.0 { (n - 1.0) * variance * variance / squares } else { n - 1.0 };
        (sum as f64 / PARTS / n, variance, degrees)
    }

    /// A figure of each variant, in plan order.
    fn by_variant(&self, experiment: &Experiment, figure: impl Fn(&Totals, usize) -> f64) -> Vec<f64> {
        let each = experiment.variants.len() / self.cells.len();
        (0..experiment.variants.len()).map(|v| figure(&self.cells[v / each], v % each)).collect()
    }
}

/// Weights of effects as whole parts of one.
#[must_use]
pub fn in_parts(effects: &[Effect]) -> Vec<Vec<i64>> {
    effects.iter().map(|effect| whole_weights(&effect.weights, PARTS)).collect()
}
