//! Means and ratios over possessions, and how sure they are.
//!
//! Everything is a sum over possessions divided by another such sum. Two of them, from two setups or from two
//! kinds of event within one, are compared possession by possession: what is shared by both cancels.

/// One quantity by possession: numerator and denominator. A plain mean has the denominator 1.
pub type Series = Vec<(f64, f64)>;

/// A value with its standard error.
#[derive(Clone, Copy, Debug)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
}

impl Estimate {
    /// Ends of the interval of this many standard errors.
    pub fn interval(self, z: f64) -> (f64, f64) {
        (self.value - z * self.error, self.value + z * self.error)
    }
}

/// Sum of the numerators over sum of the denominators; not a number where nothing was counted.
pub fn ratio(series: &[(f64, f64)]) -> f64 {
    let (above, below) = series.iter().fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
    above / below
}

/// A linear combination of ratios over the same possessions. The error is the delta method's, so that whatever
/// happens within a possession, or in the same possession of another setup, may depend on one another.
pub fn combination(terms: &[(f64, &Series)]) -> Estimate {
    let count = terms[0].1.len();
    let mut influence = vec![0.0; count];
    let mut value = 0.0;
    for (factor, series) in terms {
        assert_eq!(series.len(), count, "the same possessions");
        let whole = ratio(series);
        let mean_below = series.iter().map(|one| one.1).sum::<f64>() / count as f64;
        value += factor * whole;
        for (sum, one) in influence.iter_mut().zip(series.iter()) {
            *sum += factor * (one.0 - whole * one.1) / mean_below;
        }
    }
    let count = count as f64;
    let variance = influence.iter().map(|i| i * i).sum::<f64>() / (count - 1.0);
    Estimate { value, error: (variance / count).sqrt() }
}

/// `b` less `a`.
pub fn difference(a: &Series, b: &Series) -> Estimate {
    combination(&[(1.0, b), (-1.0, a)])
}

/// `b` less `a` like for like: within strata, each with the weight that it has in `b`. Strata with fewer than
/// `least` events on either side are left out; no number where all are.
pub fn like_for_like(strata: &[(Series, Series)], least: f64) -> Estimate {
    let events = |series: &Series| series.iter().map(|one| one.1).sum::<f64>();
    let used: Vec<_> = strata.iter().filter(|(a, b)| events(a) >= least && events(b) >= least).collect();
    if used.is_empty() {
        return Estimate { value: f64::NAN, error: f64::NAN };
    }
    let all: f64 = used.iter().map(|(_, b)| events(b)).sum();
    let terms: Vec<(f64, &Series)> = used
        .iter()
        .flat_map(|(a, b)| {
            let weight = events(b) / all;
            [(-weight, a), (weight, b)]
        })
        .collect();
    combination(&terms)
}

#[test]
fn a_difference_of_means_has_the_paired_error() {
    let a: Series = [1.0, 2.0, 3.0, 4.0].map(|v| (v, 1.0)).to_vec();
    let b: Series = [1.5, 2.5, 3.5, 5.5].map(|v| (v, 1.0)).to_vec();
    let found = difference(&a, &b);
    assert!((found.value - 0.75).abs() < 1e-12, "{found:?}");
    // Differences 0.5, 0.5, 0.5, 1.5: standard deviation 0.5.
    assert!((found.error - 0.25).abs() < 1e-12, "{found:?}");
}

#[test]
fn like_is_compared_with_like() {
    // Within each stratum b is larger by 1; taken together it would be smaller, being mostly in the low one.
    let low = (vec![(1.0, 1.0), (0.0, 0.0)], vec![(6.0, 3.0), (6.0, 3.0)]);
    let high = (vec![(30.0, 3.0), (30.0, 3.0)], vec![(11.0, 1.0), (0.0, 0.0)]);
    let found = like_for_like(&[low, high], 1.0);
    assert!((found.value - 1.0).abs() < 1e-12, "{found:?}");
}
