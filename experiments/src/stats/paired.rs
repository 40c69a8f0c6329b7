//! Paired differences between two variants: same possession indices, same random draws.
//!
//! Formula: `difference -+ z sqrt(var(x_v - x_w) / n)` with the variance of the paired difference from the
//! Gram matrix; ratios by their linear parts. `z = difference / standard error`, p two-sided from the normal.
//! Source: paired comparison with common random numbers, A. M. Law, Simulation Modeling and Analysis, 5th
//! ed., section 11.2. Known limit: with fewer than about ten possessions that differ at all, the normal p is
//! rough. Where there are few possessions and many comparisons, [`Difference::by_student`] goes by Student's distribution.

use super::figure::Figure;
use super::interval::Interval;
use super::totals::Totals;
use super::{normal, student};

/// Degrees of freedom below which nothing is corrected for its number, and so nothing claimed: whole possessions do not scatter
/// normally, and of so few of them neither do their sums in the tails that a correction asks for. (a choice)
pub const DEGREES_LEAST: f64 = 29.0;

/// A difference between two variants, with what can be said about it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// The difference and its ends, in the figure's unit.
    pub interval: Interval,
    /// Standard error of the difference.
    pub standard_error: f64,
    /// Standard deviation of one possession's paired difference.
    pub deviation: f64,
    /// Difference over standard error: 0 for a difference of 0, infinite for a constant other one.
    pub z: f64,
    /// Two-sided p-value: 1 for a difference of 0.
    pub p: f64,
}

impl Difference {
    /// From the estimate and the `deviation` of one possession's difference over `n` possessions; the
    /// interval reaches `critical` standard errors to each side.
    pub(crate) fn new(estimate: f64, deviation: f64, n: u64, critical: f64) -> Self {
        let standard_error = deviation / (n as f64).sqrt();
        let half = critical * standard_error;
        // 0 / 0 for identical variants: no difference, no doubt.
        let z = if estimate == 0.0 { 0.0 } else { estimate / standard_error };
        Self {
            interval: Interval { estimate, low: estimate - half, high: estimate + half },
            standard_error,
            deviation,
            z,
            p: normal::two_sided_p(z),
        }
    }

    /// The same with interval and p by Student's distribution of so many degrees of freedom: right where the standard error is
    /// of few possessions. Where nothing scatters p is 1, as no standard error is known.
    #[must_use]
    pub fn by_student(self, degrees: f64, confidence: f64) -> Self {
        let (estimate, half) =
            (self.interval.estimate, student::two_sided_t(confidence, degrees) * self.standard_error);
        let interval = Interval { estimate, low: estimate - half, high: estimate + half };
        let p = if self.standard_error > 0.0 { student::two_sided_p(self.z, degrees) } else { 1.0 };
        Self { interval, p, ..self }
    }

    /// Whether a p of so many degrees of freedom may be corrected for its number and claimed by.
    #[must_use]
    pub fn is_claimable(&self, degrees: f64) -> bool {
        degrees >= DEGREES_LEAST && (self.standard_error > 0.0 || self.interval.estimate == 0.0)
    }
}

/// Variant `v` less variant `w`, in units of `scale` (as in [`super::normal_interval`]); the interval reaches
/// `z` standard errors. None below two possessions or with a denominator of 0. Source: see the file's head.
pub fn paired_difference(
    totals: &Totals,
    figure: Figure,
    (v, w): (usize, usize),
    scale: f64,
    z: f64,
) -> Option<Difference> {
    let estimate = figure.difference(totals, v, w)? * scale;
    let n = totals.possessions();
    let deviation = figure.contrast_covariance(totals, v, v, w).sqrt() * scale;
    (n > 1).then(|| Difference::new(estimate, deviation, n, z))
}

/// How many times smaller pairing made the variance of the difference: `(var v + var w) / var(v - w)`, to be
/// reported as achieved. None where the paired variance is 0 (identical variants) or there is no data.
pub fn pairing_gain(totals: &Totals, figure: Figure, v: usize, w: usize) -> Option<f64> {
    let paired = figure.contrast_covariance(totals, v, v, w);
    let apart = figure.covariance(totals, v, v) + figure.covariance(totals, w, w);
    (paired > 0.0).then(|| apart / paired)
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::*;

    /// Variants 0 and 1 identical, 2 nearly so, 3 with draws of its own; measures: x, y.
    fn sample(n: usize, seed: u64) -> Totals {
        let mut random = Generator::new(seed);
        let mut totals = Totals::new(4, 2, &[(0, 1)]);
        for _ in 0..n {
            let mut draw = || [1 + (random.uniform() * 3.0) as i64, (random.normal() * 1e5 + 7e5) as i64];
            let ([y, x], [other_y, other_x]) = (draw(), draw());
            let nudged = x + i64::from(random.uniform() < 0.1) * 1000;
            totals.add(&[x, y, x, y, nudged, y, other_x, other_y]);
        }
        totals
    }

    #[test]
    fn identical_variants_differ_by_exactly_zero() {
        for n in [2, 3, 1000, 1777] {
            let totals = sample(n, n as u64);
            for figure in [Figure::Mean(0), Figure::Mean(1), Figure::Ratio(0)] {
                for pair in [(0, 1), (1, 0), (3, 3)] {
                    let difference = paired_difference(&totals, figure, pair, 1e-6, 1.96).unwrap();
                    let zero = Interval { estimate: 0.0, low: 0.0, high: 0.0 };
                    let Difference { interval, standard_error, z, p, .. } = difference;
                    assert_eq!(
                        (interval, standard_error, z, p),
                        (zero, 0.0, 0.0, 1.0),
                        "{figure:?}, n = {n}"
                    );
                    assert_eq!(pairing_gain(&totals, figure, pair.0, pair.1), None);
                }
            }
        }
    }

    #[test]
    fn a_paired_difference_matches_a_hand_example() {
        // Differences 2, 0, 1: mean 1, variance 1, standard error 1 / sqrt 3.
        let mut totals = Totals::new(2, 1, &[]);
        [[5, 3], [1, 1], [4, 3]].iter().for_each(|row| totals.add(row));
        let difference = paired_difference(&totals, Figure::Mean(0), (0, 1), 1.0, 2.0).unwrap();
        let error = (1.0_f64 / 3.0).sqrt();
        assert!((difference.standard_error - error).abs() < 1e-15);
        assert!((difference.z - 3.0_f64.sqrt()).abs() < 1e-14);
        assert!((difference.p - 0.083_264_516_663_550_4).abs() < 1e-12, "p = {}", difference.p);
        assert!((difference.interval.low - (1.0 - 2.0 * error)).abs() < 1e-15);
        // Variances 13/3 and 4/3 apart, 1 paired.
        assert!((pairing_gain(&totals, Figure::Mean(0), 0, 1).unwrap() - 17.0 / 3.0).abs() < 1e-14);
    }

    #[test]
    fn pairing_gains_where_chance_is_shared_and_not_where_it_is_not() {
        let totals = sample(4000, 2);
        for figure in [Figure::Mean(0), Figure::Ratio(0)] {
            assert!(pairing_gain(&totals, figure, 0, 2).unwrap() > 1000.0);
            assert!((pairing_gain(&totals, figure, 0, 3).unwrap() - 1.0).abs() < 0.1);
        }
    }

    #[test]
    fn swapping_the_variants_turns_the_sign_and_nothing_else() {
        let totals = sample(500, 4);
        for figure in [Figure::Mean(0), Figure::Ratio(0)] {
            let there = paired_difference(&totals, figure, (0, 3), 1.0, 1.96).unwrap();
            let back = paired_difference(&totals, figure, (3, 0), 1.0, 1.96).unwrap();
            assert_eq!((there.z, there.p, there.interval.low), (-back.z, back.p, -back.interval.high));
        }
    }

    #[test]
    fn ratio_difference_covers_the_truth() {
        // Same denominators, success chances 0.5 and 0.4 decided by the same draws: the truth is 0.1.
        let mut random = Generator::new(11);
        let mut covered = 0;
        for _ in 0..1000 {
            let mut totals = Totals::new(2, 2, &[(0, 1)]);
            for _ in 0..300 {
                let y = (random.uniform() * 3.0) as i64;
                let draw = random.uniform();
                totals.add(&[i64::from(draw < 0.5) * y, y, i64::from(draw < 0.4) * y, y]);
            }
            let difference = paired_difference(&totals, Figure::Ratio(0), (0, 1), 1.0, 1.96).unwrap();
            covered += usize::from(difference.interval.contains(0.1));
        }
        assert!((925..=975).contains(&covered), "{covered} of 1000");
    }

    #[test]
    fn few_possessions_and_those_that_all_differ_alike_claim_nothing() {
        // Differences 2, 0, 1: two degrees of freedom, t = sqrt 3, and p = 1 - t / sqrt(2 + t^2) is 0.2254.
        let own = Difference::new(1.0, 1.0, 3, 1.96).by_student(2.0, 0.95);
        assert!((own.p - (1.0 - 3.0_f64.sqrt() / 5.0_f64.sqrt())).abs() < 1e-12, "{own:?}");
        assert!((own.interval.high - (1.0 + 4.302_653 / 3.0_f64.sqrt())).abs() < 1e-5, "{own:?}");
        assert!(!own.is_claimable(2.0) && own.is_claimable(29.0));
        let alike = Difference::new(1.0, 0.0, 64, 1.96).by_student(63.0, 0.95);
        assert!(alike.p == 1.0 && !alike.is_claimable(63.0), "one possession as all others is no proof");
        let same = Difference::new(0.0, 0.0, 64, 1.96).by_student(63.0, 0.95);
        assert!(same.p == 1.0 && same.is_claimable(63.0));
    }

    #[test]
    fn below_two_possessions_nothing_is_said() {
        let mut totals = Totals::new(2, 1, &[]);
        totals.add(&[1, 2]);
        assert_eq!(paired_difference(&totals, Figure::Mean(0), (0, 1), 1.0, 1.96), None);
    }
}
