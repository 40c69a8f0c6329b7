//! Intervals, differences and p-values are those of statsmodels and scipy.

use experiments::stats::{
    Figure, Interval, Totals, benjamini_hochberg, holm, newcombe_interval, normal, normal_interval,
    paired_difference, possessions_for_two_shares, wilson_interval,
};
use serde::Deserialize;

use super::{near, values};

#[derive(Deserialize)]
struct File {
    wilson: Vec<Wilson>,
    newcombe: Vec<Newcombe>,
    holm: Vec<Family>,
    benjamini_hochberg: Vec<Family>,
    sizes: Vec<Size>,
    sobol: Vec<Point>,
    normal: Vec<Quantile>,
    sample: Sample,
}

#[derive(Deserialize)]
struct Wilson {
    successes: u64,
    trials: u64,
    confidence: f64,
    low: f64,
    high: f64,
}

#[derive(Deserialize)]
struct Newcombe {
    first: (u64, u64),
    second: (u64, u64),
    confidence: f64,
    low: f64,
    high: f64,
}

#[derive(Deserialize)]
struct Family {
    raw: Vec<f64>,
    adjusted: Vec<f64>,
}

#[derive(Deserialize)]
struct Size {
    shares: (f64, f64),
    confidence: f64,
    power: f64,
    possessions: f64,
}

#[derive(Deserialize)]
struct Point {
    nth: usize,
    point: Vec<f64>,
}

#[derive(Deserialize)]
struct Quantile {
    p: f64,
    x: f64,
}

#[derive(Deserialize)]
struct Sample {
    rows: Vec<[i64; 4]>,
    difference: f64,
    error: f64,
    p: f64,
    student_low: f64,
    ratio: f64,
    ratio_error: f64,
}

fn agrees(interval: Option<Interval>, (low, high): (f64, f64), what: &str) {
    let interval = interval.expect("there are trials");
    near(interval.low, low, 1e-12, what);
    near(interval.high, high, 1e-12, what);
}

#[test]
fn wilson_and_newcombe_are_statsmodels() {
    let file = values::<File>("statistics");
    for row in file.wilson {
        let z = normal::two_sided_z(row.confidence);
        let what = format!("{} of {}", row.successes, row.trials);
        agrees(wilson_interval(row.successes, row.trials, z), (row.low, row.high), &what);
    }
    for row in file.newcombe {
        let z = normal::two_sided_z(row.confidence);
        let what = format!("{:?} less {:?}", row.first, row.second);
        agrees(newcombe_interval(row.first, row.second, z), (row.low, row.high), &what);
    }
}

#[test]
fn adjusted_p_values_are_statsmodels_and_quantiles_are_scipys() {
    let file = values::<File>("statistics");
    for family in file.holm {
        let adjusted = holm(&family.raw);
        assert_eq!(adjusted.len(), family.adjusted.len());
        for (got, want) in adjusted.iter().zip(&family.adjusted) {
            near(*got, *want, 1e-14, "Holm");
        }
    }
    for family in file.benjamini_hochberg {
        let adjusted = benjamini_hochberg(&family.raw);
        assert_eq!(adjusted.len(), family.adjusted.len());
        for (got, want) in adjusted.iter().zip(&family.adjusted) {
            near(*got, *want, 1e-14, "Benjamini and Hochberg");
        }
    }
    for row in file.normal {
        near(normal::quantile(row.p), row.x, 1e-14 * (1.0 + row.x.abs()), "quantile");
        near(normal::cdf(row.x) / row.p, 1.0, 1e-12, "cdf");
    }
}

#[test]
fn sizes_are_statsmodels_and_points_are_scipys() {
    let file = values::<File>("statistics");
    for row in file.sizes {
        let needed = possessions_for_two_shares(
            row.shares.0,
            row.shares.1,
            normal::two_sided_z(row.confidence),
            row.power,
        );
        near(needed.expect("they differ"), row.possessions, 1e-9, "possessions an arm");
    }
    for row in file.sobol {
        let points = scenarios::design::points::sobol(row.nth + 1, row.point.len(), None);
        assert_eq!(points[row.nth], row.point);
    }
}

#[test]
fn a_sample_has_scipys_difference_and_numpys_ratio() {
    let sample = values::<File>("statistics").sample;
    let mut totals = Totals::new(2, 2, &[(0, 1)]);
    sample.rows.iter().for_each(|row| totals.add(row));
    let z = normal::two_sided_z(0.95);
    let ours = paired_difference(&totals, Figure::Mean(0), (1, 0), 1.0, z).expect("two possessions or more");
    near(ours.interval.estimate, sample.difference, 1e-14, "difference");
    near(ours.standard_error, sample.error, 1e-13, "standard error");
    near(ours.p, sample.p, 1e-12, "p-value");
    // Student's interval is the wider one.
    assert!(sample.student_low < ours.interval.low);
    let ratio = normal_interval(&totals, Figure::Ratio(0), 0, 1.0, z).expect("two possessions or more");
    near(ratio.estimate, sample.ratio, 1e-14, "ratio");
    near((ratio.high - ratio.low) / (2.0 * z), sample.ratio_error, 1e-13, "standard error of the ratio");
}
