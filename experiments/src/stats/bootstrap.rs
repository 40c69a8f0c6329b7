//! Bootstrap intervals: for figures of few or very skewed possessions, where a normal interval is not to be trusted.
//!
//! Possessions are drawn again with replacement, each with all variants, so that pairing stays. BCa, the bias-corrected and
//! accelerated interval: ends are the quantiles of the drawn figures at `cdf(z0 + (z0 + z) / (1 - a (z0 + z)))`, with z0 from
//! the share of figures below the estimate (half of those that equal it) and a from the figures without one possession each.
//! Source: B. Efron, JASA 82, 1987, 171-185; quantiles by linear interpolation between the ordered figures.

use rayon::prelude::*;

use super::draws::Generator;
use super::interval::Interval;
use super::normal;

/// Times that the possessions are drawn again: the ends of a 95 % interval then move by about a fiftieth of its width from
/// one seed to another. (a choice)
pub const RESAMPLES: usize = 9_999;

/// The seed of the draws of a result. Any fixed value would do; this one is part of the printed figures.
pub const BOOTSTRAP_SEED: u64 = 0x626f_6f74;

/// Most possessions that are drawn from: of more, the normal interval is as good. (a choice)
pub const BOOTSTRAPPED_MOST: u64 = 8_192;

/// A figure of possessions: how it follows from a multiset of them.
pub trait Statistic: Sync {
    /// The figure of the possessions with these numbers, which may be there several times; None without data.
    fn of(&self, possessions: &[u32]) -> Option<f64>;
}

impl<F: Fn(&[u32]) -> Option<f64> + Sync> Statistic for F {
    fn of(&self, possessions: &[u32]) -> Option<f64> {
        self(possessions)
    }
}

/// Part of the draws that may lack data: an interval of the rest is one on the condition that there are some.
const WITHOUT_DATA_MOST: f64 = 0.05;

/// What drawing again came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The figure of all possessions, in the figure's unit.
    pub estimate: f64,
    /// The ends of the BCa interval; None where they cannot be told: nothing differs from draw to draw, all draws lie on one
    /// side of the estimate, or more than one draw in twenty lacks data.
    pub ends: Option<(f64, f64)>,
    /// The figures of the draws that have data, in the order of the draws.
    pub figures: Vec<f64>,
}

impl Drawn {
    /// The estimate with its ends.
    #[must_use]
    pub fn interval(&self) -> Option<Interval> {
        self.ends.map(|(low, high)| Interval { estimate: self.estimate, low, high })
    }
}

/// The figure of `n` possessions with its BCa interval at a `confidence` (0-1). None where the possessions have no data. The
/// same for any number of threads: each draw has a stream of its own, made from `seed` and its number.
pub fn bootstrap(
    n: usize,
    statistic: &impl Statistic,
    confidence: f64,
    (resamples, seed): (usize, u64),
) -> Option<Drawn> {
    let all: Vec<u32> = (0..n as u32).collect();
    let estimate = statistic.of(&all)?;
    let draw = |nth: usize| {
        // Any odd multiplier keeps the streams of neighbouring numbers apart.
        let mut random = Generator::new(seed ^ (nth as u64 + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15));
        let drawn: Vec<u32> = (0..n).map(|_| (random.uniform() * n as f64) as u32).collect();
        statistic.of(&drawn)
    };
    let figures: Vec<f64> = (0..resamples).into_par_iter().filter_map(draw).collect();
    let lacking = (resamples - figures.len()) as f64;
    let none = |figures| Some(Drawn { estimate, ends: None, figures });
    if lacking > resamples as f64 * WITHOUT_DATA_MOST {
        return none(figures);
    }
    let without = |left: usize| {
        let rest: Vec<u32> = all.iter().copied().filter(|&possession| possession as usize != left).collect();
        statistic.of(&rest)
    };
    let Some(jackknife) = (0..n).into_par_iter().map(without).collect::<Option<Vec<f64>>>() else {
        return none(figures);
    };
    let mut sorted = figures.clone();
    sorted.sort_unstable_by(f64::total_cmp);
    if sorted.first() == sorted.last() {
        return none(figures);
    }
    let below = |limit: f64| sorted.partition_point(|&figure| figure < limit) as f64;
    let equal = sorted.partition_point(|&figure| figure <= estimate) as f64 - below(estimate);
    let bias = normal::quantile((below(estimate) + 0.5 * equal) / sorted.len() as f64);
    let turn = acceleration(&jackknife);
    let end = |chance: f64| {
        let z = bias + normal::quantile(chance);
        let place = normal::cdf(bias + z / (1.0 - turn * z));
        // All figures on one side of the estimate: there is no telling where the interval ends.
        place.is_finite().then(|| quantile(&sorted, place))
    };
    let tail = 0.5 * (1.0 - confidence);
    let ends = end(tail).zip(end(1.0 - tail));
    Some(Drawn { estimate, ends, figures })
}

/// How the standard error grows with the figure; 0 where no possession makes a difference.
fn acceleration(jackknife: &[f64]) -> f64 {
    let n = jackknife.len() as f64;
    let mean = jackknife.iter().sum::<f64>() / n;
    let (squares, cubes) = jackknife.iter().fold((0.0, 0.0), |(squares, cubes), x| {
        let u = mean - x;
        (squares + u * u, cubes + u * u * u)
    });
    if squares > 0.0 { cubes / (6.0 * squares * squares.sqrt()) } else { 0.0 }
}

/// The quantile of ordered values, between two of them by their distance.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let (below, part) = (place.floor() as usize, place.fract());
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + part * (sorted[above] - sorted[below])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mean_of(data: &[f64]) -> impl Fn(&[u32]) -> Option<f64> + Sync {
        move |possessions| {
            let sum: f64 = possessions.iter().map(|&possession| data[possession as usize]).sum();
            (!possessions.is_empty()).then(|| sum / possessions.len() as f64)
        }
    }

    #[test]
    fn of_symmetric_data_it_is_the_normal_interval() {
        let mut random = Generator::new(31);
        let data: Vec<f64> = (0..400).map(|_| random.normal()).collect();
        let drawn = bootstrap(400, &mean_of(&data), 0.95, (4_000, 1)).unwrap();
        let interval = drawn.interval().unwrap();
        let mean = data.iter().sum::<f64>() / 400.0;
        let error = (data.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / 399.0 / 400.0).sqrt();
        assert!((interval.estimate - mean).abs() < 1e-12 && drawn.figures.len() == 4_000);
        for (got, want) in [(interval.low, mean - 1.96 * error), (interval.high, mean + 1.96 * error)] {
            assert!((got - want).abs() < 0.15 * error, "{interval:?}, {mean}, {error}");
        }
    }

    #[test]
    fn threads_cannot_be_seen_and_the_seed_can() {
        let data: Vec<f64> = (0..50).map(|n| f64::from(n * n % 17)).collect();
        let by = |seed| bootstrap(50, &mean_of(&data), 0.9, (500, seed)).unwrap();
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
        assert!(by(3) == pool.install(|| by(3)) && by(3) != by(4));
    }

    #[test]
    fn what_never_differs_has_no_ends_and_draws_without_data_are_left_out() {
        let same = bootstrap(20, &mean_of(&[2.0; 20]), 0.95, (200, 1)).unwrap();
        assert_eq!(
            (same.estimate, same.ends),
            (2.0, None),
            "that it was seen nowhere is no proof that it is nowhere"
        );
        // Of 200 possessions so many have something below the line: a draw without any comes up in exp(-4) and exp(-2) of
        // cases, less than one in twenty and more.
        for (with, is_told) in [(4_u32, true), (2, false)] {
            let share = |drawn: &[u32]| {
                let own = drawn.iter().filter(|&&possession| possession < with);
                let below = own.clone().count();
                (below > 0)
                    .then(|| own.filter(|&&possession| possession % 2 == 0).count() as f64 / below as f64)
            };
            let found = bootstrap(200, &share, 0.95, (2_000, 1)).unwrap();
            let left = found.figures.len();
            assert_eq!((found.estimate, found.ends.is_some()), (0.5, is_told), "{with}: {left} draws");
            assert!(left < 2_000 && left > 1_600, "{with}: {left}");
        }
        assert!(bootstrap(20, &|_: &[u32]| None, 0.95, (200, 1)).is_none());
        assert!(bootstrap(0, &mean_of(&[]), 0.95, (200, 1)).is_none());
    }

    #[test]
    fn it_covers_the_mean_of_skewed_possessions_better_than_the_normal_interval_does() {
        // One possession in twenty is worth something, and then up to 20: 40 possessions of such say little, and the usual
        // interval is too sure that it is less.
        const REPEATS: usize = 400;
        let truth = 0.05 * 10.0;
        let mut random = Generator::new(32);
        let samples: Vec<Vec<f64>> = (0..REPEATS)
            .map(|_| {
                (0..60).map(|_| if random.uniform() < 0.05 { 20.0 * random.uniform() } else { 0.0 }).collect()
            })
            .collect();
        let covered = |data: &Vec<f64>| {
            let n = data.len() as f64;
            let mean = data.iter().sum::<f64>() / n;
            let error = (data.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / (n - 1.0) / n).sqrt();
            let normal = (truth - mean).abs() <= 1.96 * error;
            let own = bootstrap(data.len(), &mean_of(data), 0.95, (599, 5)).unwrap();
            let own = own.interval().is_some_and(|interval| interval.contains(truth));
            [usize::from(own), usize::from(normal)]
        };
        let [own, normal] =
            samples.iter().map(covered).fold([0, 0], |sum, one| [sum[0] + one[0], sum[1] + one[1]]);
        assert!(own > normal + REPEATS / 50, "{own} and {normal} of {REPEATS}");
    }
}
