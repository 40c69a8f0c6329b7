//! Effects of factors over the cells of an experiment: which of them matters, how much, and whether one depends on another.
//!
//! A *main effect* says how much a measure changes when a factor goes from one value to another, averaged over the cells. An
//! *interaction* says by how much that differs when a second factor goes from one value to another. Both are coefficients of
//! a least-squares fit to the cells' figures: main effects of one with main effects only, interactions of one with the
//! interactions that are asked for beside them. A factor of listed values has a column for each value but the first; one
//! that goes over a range has one column, from -1/2 at its low end to 1/2 at its high end, so that its effect is that of the
//! whole range. Effects that the cells do not tell apart are left out, all of them, and named: a coefficient is told only where
//! it is the same however those left out are chosen. In a full design main effects are differences of averages of cells, and interactions differences of such.
//!
//! Each coefficient is a weighted sum of cells. Where all cells are played on the same possessions, their figures are not
//! independent: the variance is that of one possession's weighted sum, over the possessions. Where each cell has possessions
//! of its own, the variances of their parts add up. It says how far another sample of possessions would move the effect over
//! *these* cells. How far other cells would move it, where a straight line is not
//! the truth, says `error_over_cells`.

mod least_squares;
mod lines;
mod terms;

pub(crate) use lines::effect_lines;
pub use terms::{Effect, Side, Sought, effects};

use scenarios::Experiment;

use crate::columns::{COLUMNS, Column};
use crate::stats::normal::two_sided_z;
use crate::stats::{Correction, Difference, Totals, benjamini_hochberg, holm, weighted_contrast};

/// Effects of an experiment, on several columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Effects {
    /// Which effects there are, main ones first.
    pub effects: Vec<Effect>,
    /// What was found, effect by effect.
    pub found: Vec<Found>,
    /// What the design cannot tell, in sentences.
    pub remarks: Vec<String>,
}

/// An effect on a column.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Place in [`Effects::effects`].
    pub effect: usize,
    /// On which column.
    pub column: &'static Column,
    /// How much, with its 95 % interval by itself; p of no effect. By Student's distribution.
    pub difference: Difference,
    /// Its degrees of freedom.
    pub degrees: f64,
    /// Holm's p over all effects: ranking column, where there are possessions enough to claim by it.
    pub p_holm: Option<f64>,
    /// Benjamini and Hochberg's of the same.
    pub p_bh: Option<f64>,
    /// What playing all cells on the same possessions saved: the variance apart over the variance that there is.
    pub variance_ratio: Option<f64>,
    /// Standard error over cells, if they are seen as a sample of all that there might be.
    pub error_over_cells: Option<f64>,
}

impl Found {
    /// The p that a correction came to.
    pub fn corrected(&self, correction: Correction) -> Option<f64> {
        match correction {
            Correction::Holm => self.p_holm,
            Correction::BenjaminiHochberg => self.p_bh,
        }
    }
}

/// Fits to the figures of variants, with the cell of each.
pub(crate) struct Fit<'a> {
    effects: &'a [Effect],
    cells: Vec<usize>,
}

impl<'a> Fit<'a> {
    /// Of these effects of an experiment.
    pub fn new(effects: &'a [Effect], experiment: &Experiment) -> Self {
        Self { effects, cells: experiment.variants.iter().map(|variant| variant.cell).collect() }
    }

    /// The standard error of an effect over cells: the sandwich of sums over cells, `sum_c (sum_v w_v e_v)^2 C / (C - 1)
    /// (n - 1) / (n - p)` with residuals e of n variants in C cells, as if cells had been drawn independently. Holds what a
    /// straight line leaves, and chance of possessions besides. None where there are no more cells than coefficients.
    /// Source: H. White, Econometrica 48, 1980, 817-838; by clusters: K.-Y. Liang and S. L. Zeger, Biometrika 73, 1986, 13-22
    /// (from memory).
    pub fn error_over_cells(&self, effect: usize, figures: &[f64]) -> Option<f64> {
        let effect = &self.effects[effect];
        let (n, p) = (figures.len() as f64, effect.model.columns() as f64);
        let mut sums = vec![0.0; self.cells.iter().max()? + 1];
        let left = effect.model.left(figures);
        for ((cell, w), e) in self.cells.iter().zip(&effect.weights).zip(&left) {
            sums[*cell] += w * e;
        }
        let cells = sums.len() as f64;
        let sum: f64 = sums.iter().map(|sum| sum * sum).sum();
        (cells > p).then(|| (sum * cells / (cells - 1.0) * (n - 1.0) / (n - p)).sqrt())
    }
}

/// The effects of an experiment whose variants were totalled together, on every column.
pub fn of_totals(
    (experiment, sought): (&Experiment, Sought),
    totals: &Totals,
    (rank_by, confidence): (&Column, f64),
) -> Effects {
    let Sought { effects, remarks } = sought;
    let z = two_sided_z(confidence);
    let degrees = totals.possessions().saturating_sub(1) as f64;
    let fit = Fit::new(&effects, experiment);
    let mut found = Vec::new();
    for column in COLUMNS {
        let figures: Option<Vec<f64>> = (0..totals.variants())
            .map(|v| column.interval(totals, v, z).map(|interval| interval.estimate))
            .collect();
        let Some(figures) = figures else { continue };
        for (place, effect) in effects.iter().enumerate() {
            let Some(difference) =
                weighted_contrast(totals, column.figure(), &effect.weights, column.scale(), z)
            else {
                continue;
            };
            let paired = difference.deviation * difference.deviation;
            let apart: f64 = effect
                .weights
                .iter()
                .enumerate()
                .map(|(v, w)| w * w * column.figure().covariance(totals, v, v))
                .sum::<f64>()
                * column.scale()
                * column.scale();
            found.push(Found {
                effect: place,
                column,
                difference: difference.by_student(degrees, confidence),
                degrees,
                p_holm: None,
                p_bh: None,
                variance_ratio: (paired > 0.0).then(|| apart / paired),
                error_over_cells: fit.error_over_cells(place, &figures),
            });
        }
    }
    corrected(Effects { effects, found, remarks }, rank_by)
}

/// The same with corrected p on the ranking column, in the order of effects and columns.
pub(crate) fn corrected(mut effects: Effects, rank_by: &Column) -> Effects {
    effects.found.sort_by_key(|found| found.effect);
    let of_rank = |found: &Found| found.column.key == rank_by.key;
    let raw: Vec<f64> =
        effects.found.iter().filter(|found| of_rank(found)).map(|found| found.difference.p).collect();
    let adjusted = holm(&raw).into_iter().zip(benjamini_hochberg(&raw));
    for (found, (by_holm, by_bh)) in effects.found.iter_mut().filter(|found| of_rank(found)).zip(adjusted) {
        if found.difference.is_claimable(found.degrees) {
            (found.p_holm, found.p_bh) = (Some(by_holm), Some(by_bh));
        }
    }
    effects
}

impl Effects {
    /// What was found on a column, in the order of the effects.
    pub fn on<'a>(&'a self, column: &'a Column) -> impl Iterator<Item = (&'a Effect, &'a Found)> {
        let own = self.found.iter().filter(|found| found.column.key == column.key);
        own.map(|found| (&self.effects[found.effect], found))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_error_over_cells_is_that_of_the_differences_within_them() {
        // Two variants in each of four cells, and no effect but theirs: their difference is a mean of four differences.
        let text = "scenario = \"plain-122\"\n[[variant]]\nname = \"a\"\n[[variant]]\nname = \"b\"\nset = { \"attack.rover.route\" = \"seam-cross\" }\n\
                    [factors]\n\"zone.sink_back_m\" = [0.0, 0.4]\n\"zone.sink_front_m\" = [0.0, 0.3, 0.6, 0.9]\n";
        let experiment = scenarios::experiment_of(text.into(), std::path::Path::new("made-up.toml"))
            .unwrap_or_else(|faults| panic!("{faults}"));
        let effects = effects(&experiment).unwrap().effects;
        let fit = Fit::new(&effects, &experiment);
        let differences = [0.3, 0.1, -0.2, 0.5, 0.2, 0.6, 0.0, 0.4];
        let figure = |v: usize| {
            let variant = &experiment.variants[v];
            let of_cell = [1.0, 4.0, 2.0, 8.0, 5.0, 7.0, 1.0, 3.0][variant.cell];
            of_cell + if variant.own == "b" { differences[variant.cell] } else { 0.0 }
        };
        let figures: Vec<f64> = (0..experiment.variants.len()).map(figure).collect();
        let mean = differences.iter().sum::<f64>() / 8.0;
        let squares: f64 = differences.iter().map(|d| (d - mean) * (d - mean)).sum();
        // Sixteen variants and six coefficients: the variants', one sink's and three of the other, and the constant.
        let wanted = (squares / 64.0 * 8.0 / 7.0 * 15.0 / 10.0).sqrt();
        let got = fit.error_over_cells(0, &figures).unwrap();
        assert!((got / wanted - 1.0).abs() < 1e-9, "{got}, {wanted}");
    }
}
