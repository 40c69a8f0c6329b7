//! The beta distribution: its CDF and its quantile. What is believed of a share after a count of successes.
//!
//! Formula: the regularised incomplete beta function by its continued fraction, evaluated with Lentz's method as modified by
//! Thompson and Barnett; the quantile by halving. Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.5.8;
//! I. J. Thompson and A. R. Barnett, Journal of Computational Physics 64, 1986, 490-509 (from memory).
//!
//! Written here for the reason that [`super::normal`] gives: the same bytes on any machine.

use super::interval::Interval;

/// Terms of the continued fraction at most; some tens do unless the parameters are huge. (a choice)
const TERMS: u32 = 10_000;
/// A change by so much less than 1 ends it: what a 64-bit number can tell.
const SMALL: f64 = 3e-16;
/// Stands in for 0 where it would be divided by.
const TINY: f64 = 1e-300;
/// Halvings until the ends of the quantile lie as near as 64-bit numbers do.
const HALVINGS: u32 = 60;

/// Chance that a draw is at most `x` (0-1), of a distribution with these two parameters above 0.
pub fn cdf(x: f64, a: f64, b: f64) -> f64 {
    assert!(a > 0.0 && b > 0.0, "a beta distribution of {a} and {b}");
    if x <= 0.0 || x >= 1.0 {
        return if x <= 0.0 { 0.0 } else { 1.0 };
    }
    let front = libm::exp(
        libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * libm::log(x) + b * libm::log1p(-x),
    );
    // The fraction is quick on this side of the mean; on the other it is that of the mirrored distribution.
    if x < (a + 1.0) / (a + b + 2.0) {
        front * fraction(x, a, b) / a
    } else {
        1.0 - front * fraction(1.0 - x, b, a) / b
    }
}

fn fraction(x: f64, a: f64, b: f64) -> f64 {
    let not_zero = |value: f64| if value.abs() < TINY { TINY } else { value };
    let (mut c, mut d) = (1.0, 1.0 / not_zero(1.0 - (a + b) * x / (a + 1.0)));
    let mut result = d;
    for term in 1..=TERMS {
        let m = f64::from(term);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / not_zero(1.0 + even * d);
        c = not_zero(1.0 + even / c);
        result *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / not_zero(1.0 + odd * d);
        c = not_zero(1.0 + odd / c);
        let change = d * c;
        result *= change;
        if (change - 1.0).abs() < SMALL {
            break;
        }
    }
    result
}

/// The x at which [`cdf`] is `p`.
pub fn quantile(p: f64, a: f64, b: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if cdf(middle, a, b) < p {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// The chance that a draw of the first distribution lies above one of the second, each given by its two parameters above 0: the
/// mean over so many equally likely draws of the first.
pub fn chance_above((a, b): (f64, f64), other: (f64, f64)) -> f64 {
    /// Draws: the mean is right to a thousandth. (a choice)
    const DRAWS: u32 = 256;
    let draws = (0..DRAWS).map(|nth| quantile((f64::from(nth) + 0.5) / f64::from(DRAWS), a, b));
    draws.map(|draw| cdf(draw, other.0, other.1)).sum::<f64>() / f64::from(DRAWS)
}

/// What is believed of a share after `made` of `attempted`, before which it was believed to be `share` as firmly as
/// `attempts` of it would make one: the mean, and the equal-tailed interval of this confidence (0-1). None of no attempts at
/// all.
pub fn after_count(
    made: f64,
    attempted: f64,
    (share, attempts): (f64, f64),
    confidence: f64,
) -> Option<Interval> {
    assert!((0.0..=attempted).contains(&made), "{made} of {attempted}");
    let (a, b) = (made + attempts * share, attempted - made + attempts * (1.0 - share));
    (a > 0.0 && b > 0.0).then(|| {
        let tail = 0.5 * (1.0 - confidence);
        Interval { estimate: a / (a + b), low: quantile(tail, a, b), high: quantile(1.0 - tail, a, b) }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_of_two_is_above_the_other_by_its_chance() {
        assert!((chance_above((3.0, 5.0), (3.0, 5.0)) - 0.5).abs() < 1e-3);
        // Of a uniform draw and the larger of two: one in three.
        assert!((chance_above((1.0, 1.0), (2.0, 1.0)) - 1.0 / 3.0).abs() < 1e-3);
        let (a, b) = (chance_above((9.0, 4.0), (20.0, 30.0)), chance_above((20.0, 30.0), (9.0, 4.0)));
        assert!((a + b - 1.0).abs() < 2e-3 && a > 0.9, "{a} {b}");
    }

    #[test]
    fn simple_distributions_are_what_they_are() {
        for x in [0.0, 0.1, 0.35, 0.5, 0.99, 1.0] {
            assert!((cdf(x, 1.0, 1.0) - x).abs() < 1e-14, "uniform at {x}");
            assert!((cdf(x, 3.0, 1.0) - x * x * x).abs() < 1e-14);
            assert!((cdf(x, 1.0, 3.0) - (1.0 - (1.0 - x) * (1.0 - x) * (1.0 - x))).abs() < 1e-14);
        }
        assert!((cdf(0.5, 400.0, 400.0) - 0.5).abs() < 1e-12);
        assert_eq!((cdf(-0.1, 2.0, 3.0), cdf(1.1, 2.0, 3.0)), (0.0, 1.0));
    }

    #[test]
    fn the_quantile_undoes_the_cdf() {
        for (a, b) in [(0.5, 0.5), (2.0, 5.0), (48.0, 77.0), (4000.0, 6000.0)] {
            for p in [0.001, 0.025, 0.5, 0.975, 0.999] {
                assert!((cdf(quantile(p, a, b), a, b) - p).abs() < 1e-10, "{a} {b} {p}");
            }
        }
    }

    #[test]
    fn a_count_moves_the_mean_and_narrows_the_interval() {
        let few = after_count(2.0, 5.0, (0.3, 30.0), 0.95).unwrap();
        let many = after_count(400.0, 1000.0, (0.3, 30.0), 0.95).unwrap();
        assert!((few.estimate - 11.0 / 35.0).abs() < 1e-12);
        assert!(many.high - many.low < 0.3 * (few.high - few.low) && many.contains(0.4));
        assert!(after_count(0.0, 0.0, (0.3, 0.0), 0.95).is_none());
    }
}
