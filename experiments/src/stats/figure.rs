//! A figure: one column of the table, as a function of the totals, with its exact paired variance.
//!
//! Mean: `sum x / n`; the covariance of two variants is the sample covariance over possession indices. Ratio
//! of totals (offensive rebounds over misses): `R = sum x / sum y`, whose denominator is random too. Each
//! possession is one cluster, and R behaves as the mean of its linear part `(x - R y) / mean(y)` (delta
//! method).
//! Source: W. G. Cochran, Sampling Techniques, 3rd ed. 1977, sections 2.11 and 6.4.
//!
//! All values here are in integer units; `scale` is applied by the callers. Differences and the variances of
//! differences of means are formed in integers before anything is rounded, and those of ratios from terms
//! that are equal bit by bit for equal columns, so identical variants differ by exactly 0 with variance
//! exactly 0.

use super::totals::Totals;

/// What a column of the table is estimated from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Mean a possession of the measure with this index (a rate, if the measure is 0 or 1).
    Mean(usize),
    /// Ratio of totals: index into [`Totals::ratios`].
    Ratio(usize),
}

impl Figure {
    /// The figure of one variant, in integer units (of numerator over denominator). None without data: no
    /// possession, or a denominator of 0.
    pub fn estimate(self, totals: &Totals, variant: usize) -> Option<f64> {
        let (above, below) = self.parts(totals, variant);
        (below != 0).then(|| above as f64 / below as f64)
    }

    /// Variant `v` less variant `w`, in integer units, rounded once at the end. None without data.
    pub fn difference(self, totals: &Totals, v: usize, w: usize) -> Option<f64> {
        let ((above_v, below_v), (above_w, below_w)) = (self.parts(totals, v), self.parts(totals, w));
        if below_v == 0 || below_w == 0 {
            return None;
        }
        Some(match self {
            Self::Mean(_) => (above_v - above_w) as f64 / below_v as f64,
            Self::Ratio(_) => {
                (above_v * below_w - above_w * below_v) as f64 / (below_v as f64 * below_w as f64)
            }
        })
    }

    /// Covariance between variants of one possession's contribution; over n it is that of the estimates.
    /// Squared integer units; NaN below two possessions or with a denominator of 0.
    pub fn covariance(self, totals: &Totals, v: usize, w: usize) -> f64 {
        match self {
            Self::Mean(measure) => totals.covariance(measure, v, w, 1.0),
            Self::Ratio(ratio) => linear_covariance(totals, ratio, v, w),
        }
    }

    /// Covariance of the paired differences `v - reference` and `w - reference` of one possession.
    /// With `v == w` this is the variance of a paired difference: never below 0.
    pub fn contrast_covariance(self, totals: &Totals, v: usize, w: usize, reference: usize) -> f64 {
        let covariance = match self {
            Self::Mean(measure) => {
                let centred = |a, b| totals.centred(measure, a, b);
                totals.per_pair(
                    centred(v, w) - centred(v, reference) - centred(w, reference)
                        + centred(reference, reference),
                )
            }
            Self::Ratio(ratio) => {
                let linear = |a, b| linear_covariance(totals, ratio, a, b);
                // In this grouping equal columns cancel to exactly 0.
                (linear(v, w) + linear(reference, reference)) - (linear(v, reference) + linear(w, reference))
            }
        };
        if v == w { covariance.max(0.0) } else { covariance }
    }

    /// What is divided by what.
    fn parts(self, totals: &Totals, variant: usize) -> (i128, i128) {
        match self {
            Self::Mean(measure) => (totals.sum(measure, variant), i128::from(totals.possessions())),
            Self::Ratio(ratio) => {
                let (numerator, denominator) = totals.ratios()[ratio];
                (totals.sum(numerator, variant), totals.sum(denominator, variant))
            }
        }
    }
}

/// Which way a figure is good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// More is better: points, open looks.
    Higher,
    /// Less is better: turnovers.
    Lower,
}

impl Better {
    /// A value turned so that higher is better.
    pub fn turned(self, value: f64) -> f64 {
        match self {
            Self::Higher => value,
            Self::Lower => -value,
        }
    }
}

/// Covariance of the linear parts `(x - R y) / mean(y)` of two variants; the same bits with `v` and `w`
/// swapped.
fn linear_covariance(totals: &Totals, ratio: usize, v: usize, w: usize) -> f64 {
    let (numerator, denominator) = totals.ratios()[ratio];
    let n = totals.possessions() as f64;
    let parts = |variant| {
        let (above, below) = (totals.sum(numerator, variant) as f64, totals.sum(denominator, variant) as f64);
        (above / below, below / n)
    };
    let ((ratio_v, mean_v), (ratio_w, mean_w)) = (parts(v), parts(w));
    let above = totals.per_pair(totals.centred(numerator, v, w));
    let below = totals.per_pair(totals.centred(denominator, v, w));
    let crossed = ratio_w * totals.per_pair(totals.centred_cross(ratio, v, w))
        + ratio_v * totals.per_pair(totals.centred_cross(ratio, w, v));
    ((above + ratio_v * ratio_w * below) - crossed) / (mean_v * mean_w)
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::*;

    #[test]
    fn ratio_covariance_equals_that_of_the_written_out_linear_parts() {
        let mut random = Generator::new(8);
        let rows: Vec<[i64; 4]> = (0..400)
            .map(|_| {
                let common = random.uniform();
                let misses = [(common * 4.0) as i64, (common * 2.0 + 2.0 * random.uniform()) as i64];
                let rebounds = misses.map(|m| (0..m).filter(|_| random.uniform() < 0.3).count() as i64);
                [rebounds[0], misses[0], rebounds[1], misses[1]]
            })
            .collect();
        let mut totals = Totals::new(2, 2, &[(0, 1)]);
        rows.iter().for_each(|row| totals.add(row));
        let figure = Figure::Ratio(0);
        let parts = |v: usize| -> Vec<f64> {
            let ratio = figure.estimate(&totals, v).unwrap();
            let mean = totals.mean(1, v, 1.0);
            rows.iter().map(|row| (row[2 * v] as f64 - ratio * row[2 * v + 1] as f64) / mean).collect()
        };
        for (v, w) in [(0, 0), (1, 1), (0, 1), (1, 0)] {
            // The linear parts sum to 0, so their products need no centring.
            let direct = parts(v).iter().zip(parts(w)).map(|(a, b)| a * b).sum::<f64>() / 399.0;
            assert!((figure.covariance(&totals, v, w) - direct).abs() < 1e-12);
        }
        let direct: f64 = parts(0).iter().zip(parts(1)).map(|(a, b)| (a - b) * (a - b)).sum::<f64>() / 399.0;
        assert!((figure.contrast_covariance(&totals, 0, 0, 1) - direct).abs() < 1e-12);
    }

    #[test]
    fn without_data_there_is_no_estimate() {
        let mut totals = Totals::new(1, 2, &[(0, 1)]);
        assert_eq!(Figure::Mean(0).estimate(&totals, 0), None);
        totals.add(&[3, 0]);
        assert_eq!(Figure::Mean(0).estimate(&totals, 0), Some(3.0));
        assert_eq!(Figure::Ratio(0).estimate(&totals, 0), None);
        assert_eq!(Figure::Ratio(0).difference(&totals, 0, 0), None);
    }
}
