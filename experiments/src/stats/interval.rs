//! Intervals for one figure of one variant, and for two independent rates.
//!
//! - Wilson score: `(p + z^2/2n -+ z sqrt(p q / n + z^2/4n^2)) / (1 + z^2/n)`. Source: R. G. Newcombe,
//!   Statistics in Medicine 17, 1998, 857-872, method 3.
//! - Newcombe's hybrid for the difference of independent rates: the two Wilson intervals' arms added in
//!   squares. Source: the same volume, 873-890, method 10. Not for variants of one run, which are paired.
//! - Normal: `estimate -+ z sqrt(variance / n)`, for means and, by the linear part, for ratios of totals. A
//!   run has a thousand possessions or more, where Student's t would be wider by less than 0.2 %.
//! - Share: a ratio whose numerator events are each one of the denominator's. Wilson with the number of
//!   trials that would give the cluster variance. Source: E. L. Korn and B. I. Graubard, Survey Methodology
//!   24, 1998, 193-201 (theirs around Clopper-Pearson).
//!
//! `z` is the half width in standard errors: [`super::normal::two_sided_z`] of the confidence.

use serde::{Deserialize, Serialize};

use super::figure::Figure;
use super::totals::Totals;

/// An estimate and the two ends of its interval, all in the figure's unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interval {
    /// The estimate itself.
    pub estimate: f64,
    /// Lower end, at most the estimate.
    pub low: f64,
    /// Upper end, at least the estimate.
    pub high: f64,
}

impl Interval {
    /// Whether a value lies inside, ends included.
    pub fn contains(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// The interval of the same difference taken the other way round.
    pub fn turned(&self) -> Self {
        Self { estimate: -self.estimate, low: -self.high, high: -self.low }
    }
}

/// Wilson score interval of a rate (0-1): `successes` in `trials`. None without trials. Source: Newcombe
/// 1998.
pub fn wilson_interval(successes: u64, trials: u64, z: f64) -> Option<Interval> {
    assert!(successes <= trials, "{successes} successes in {trials} trials");
    (trials > 0).then(|| wilson(successes as f64 / trials as f64, trials as f64, z))
}

/// Wilson interval of a measure that is 0 or 1 in each possession. None without possessions.
pub fn rate_interval(totals: &Totals, measure: usize, variant: usize, z: f64) -> Option<Interval> {
    let successes = u64::try_from(totals.sum(measure, variant)).expect("a rate's measure is 0 or 1");
    wilson_interval(successes, totals.possessions(), z)
}

/// Normal interval of a mean, or cluster interval of a ratio of totals, in units of `scale` (the size of one
/// integer unit, or of one numerator unit over one denominator unit). None below two possessions or with a
/// denominator of 0. For a ratio that is a share use [`share_interval`], which does not close up at 0 and 1.
pub fn normal_interval(
    totals: &Totals,
    figure: Figure,
    variant: usize,
    scale: f64,
    z: f64,
) -> Option<Interval> {
    let estimate = figure.estimate(totals, variant)? * scale;
    let half = z * standard_error(totals, figure, variant)? * scale;
    Some(Interval { estimate, low: estimate - half, high: estimate + half })
}

/// Interval of a share (0-1): ratio `ratio` of [`Totals::ratios`] where each event of the numerator is one of
/// the denominator's (offensive rebounds among misses). None without data. Source: Korn and Graubard 1998.
pub fn share_interval(totals: &Totals, ratio: usize, variant: usize, z: f64) -> Option<Interval> {
    let figure = Figure::Ratio(ratio);
    let share = figure.estimate(totals, variant)?;
    assert!((0.0..=1.0).contains(&share), "a share lies in 0-1, not at {share}");
    let error = standard_error(totals, figure, variant)?;
    let (_, denominator) = totals.ratios()[ratio];
    // At 0 and 1 the data say nothing about the clustering: the plain count has to do.
    let plain = totals.sum(denominator, variant) as f64;
    let spread = share * (1.0 - share);
    let trials = if spread > 0.0 && error > 0.0 { spread / (error * error) } else { plain };
    Some(wilson(share, trials, z))
}

/// Interval for the difference `p1 - p2` of two *independent* rates, each given as (successes, trials).
/// None without trials. Source: Newcombe 1998, method 10.
pub fn newcombe_interval(first: (u64, u64), second: (u64, u64), z: f64) -> Option<Interval> {
    let (a, b) = (wilson_interval(first.0, first.1, z)?, wilson_interval(second.0, second.1, z)?);
    let estimate = a.estimate - b.estimate;
    let below = libm::hypot(a.estimate - a.low, b.high - b.estimate);
    let above = libm::hypot(a.high - a.estimate, b.estimate - b.low);
    Some(Interval { estimate, low: estimate - below, high: estimate + above })
}

/// Standard error of a figure, in integer units; None below two possessions.
fn standard_error(totals: &Totals, figure: Figure, variant: usize) -> Option<f64> {
    let n = totals.possessions();
    // Rounding may leave the variance of a constant ratio a hair below 0.
    (n > 1).then(|| (figure.covariance(totals, variant, variant).max(0.0) / n as f64).sqrt())
}

/// Wilson's formula with a number of trials that need not be whole.
fn wilson(rate: f64, trials: f64, z: f64) -> Interval {
    let square = z * z / trials;
    let centre = rate + 0.5 * square;
    let arm = (square * (rate * (1.0 - rate) + 0.25 * square)).sqrt();
    let end = |value: f64| (value / (1.0 + square)).clamp(0.0, 1.0);
    // The ends that are 0 and 1 by algebra are set so, not left to rounding.
    let low = if rate == 0.0 { 0.0 } else { end(centre - arm) };
    let high = if rate == 1.0 { 1.0 } else { end(centre + arm) };
    Interval { estimate: rate, low, high }
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::super::normal::two_sided_z;
    use super::*;

    fn agrees(interval: Interval, low: f64, high: f64) {
        let near = |a: f64, b: f64| (a - b).abs() < 0.5e-4 + 1e-9;
        assert!(near(interval.low, low) && near(interval.high, high), "{interval:?}, not {low}, {high}");
    }

    #[test]
    fn wilson_matches_newcombes_table() {
        for (successes, trials, low, high) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            agrees(wilson_interval(successes, trials, two_sided_z(0.95)).unwrap(), low, high);
        }
        assert_eq!(wilson_interval(0, 0, 1.96), None);
        assert_eq!(wilson_interval(0, 7, 1.96).unwrap().low, 0.0);
        assert_eq!(wilson_interval(7, 7, 1.96).unwrap().high, 1.0);
    }

    #[test]
    fn newcombe_matches_his_table() {
        for (first, second, low, high) in [
            ((56, 70), (48, 80), 0.0524, 0.3339),
            ((9, 10), (3, 10), 0.1705, 0.8090),
            ((6, 7), (2, 7), 0.0582, 0.8062),
            ((5, 56), (0, 29), -0.0381, 0.1926),
            ((0, 10), (0, 20), -0.1611, 0.2775),
            ((0, 10), (0, 10), -0.2775, 0.2775),
            ((10, 10), (0, 20), 0.6791, 1.0),
            ((10, 10), (0, 10), 0.6075, 1.0),
        ] {
            agrees(newcombe_interval(first, second, two_sided_z(0.95)).unwrap(), low, high);
        }
    }

    #[test]
    fn wilson_coverage_is_the_exact_one() {
        const TRIALS: u64 = 100;
        const REPEATS: usize = 20_000;
        let z = two_sided_z(0.95);
        let mut random = Generator::new(100);
        for p in [0.02, 0.35, 0.98_f64] {
            let mut chance = libm::pow(1.0 - p, TRIALS as f64);
            let (mut exact, mut all) = (0.0, 0.0);
            for k in 0..=TRIALS {
                all += chance;
                exact += if wilson_interval(k, TRIALS, z).unwrap().contains(p) { chance } else { 0.0 };
                chance *= (TRIALS - k) as f64 / (k + 1) as f64 * p / (1.0 - p);
            }
            assert!((all - 1.0).abs() < 1e-9);
            let covered = (0..REPEATS)
                .filter(|_| {
                    let k = (0..TRIALS).filter(|_| random.uniform() < p).count() as u64;
                    wilson_interval(k, TRIALS, z).unwrap().contains(p)
                })
                .count() as f64
                / REPEATS as f64;
            let error = (exact * (1.0 - exact) / REPEATS as f64).sqrt();
            assert!((covered - exact).abs() < 3.0 * error, "p = {p}: {covered} against {exact}");
            assert!((0.93..0.97).contains(&exact), "p = {p}: exact coverage {exact}");
        }
    }

    #[test]
    fn cluster_intervals_cover_a_ratio_that_independent_trials_would_miss() {
        const REPEATS: usize = 2_000;
        let z = two_sided_z(0.95);
        let mut random = Generator::new(5);
        let (mut ratio, mut share, mut naive) = (0, 0, 0);
        for _ in 0..REPEATS {
            let mut totals = Totals::new(1, 2, &[(0, 1)]);
            for _ in 0..400 {
                // All rebounds of a possession go the same way: strongly clustered.
                let misses = (random.uniform() * 4.0) as i64;
                let offensive = random.uniform() < 0.3;
                totals.add(&[if offensive { misses } else { 0 }, misses]);
            }
            let covers = |interval: Option<Interval>| usize::from(interval.unwrap().contains(0.3));
            ratio += covers(normal_interval(&totals, Figure::Ratio(0), 0, 1.0, z));
            share += covers(share_interval(&totals, 0, 0, z));
            naive += covers(wilson_interval(totals.sum(0, 0) as u64, totals.sum(1, 0) as u64, z));
        }
        for covered in [ratio, share] {
            let covered = covered as f64 / REPEATS as f64;
            assert!((covered - 0.95).abs() < 0.015, "coverage {covered}");
        }
        assert!(naive < REPEATS * 85 / 100, "the clusters matter here: {naive}");
    }

    #[test]
    fn a_share_of_nothing_keeps_an_upper_end() {
        let mut totals = Totals::new(1, 2, &[(0, 1)]);
        (0..20).for_each(|_| totals.add(&[0, 1]));
        assert_eq!(share_interval(&totals, 0, 0, 1.96), wilson_interval(0, 20, 1.96));
        assert_eq!(rate_interval(&totals, 1, 0, 1.96), wilson_interval(20, 20, 1.96));
    }
}
