//! Student's t distribution: p-values and interval widths where a standard error is itself an estimate from few possessions.
//!
//! Formula: `P(|T| <= t) = I_y(1/2, f/2)` with `y = t^2 / (f + t^2)` and f degrees of freedom, I the regularised incomplete
//! beta function. Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.1 with 26.5.27 (numbers from memory).

use super::beta;

/// Chance that a draw is at least as far from 0 as `t`, of `degrees` of freedom above 0.
pub fn two_sided_p(t: f64, degrees: f64) -> f64 {
    // The mirrored chance keeps the digits of small ones.
    if t.is_infinite() { 0.0 } else { beta::cdf(degrees / (degrees + t * t), 0.5 * degrees, 0.5) }
}

/// Half width, in standard errors, of a two-sided interval of a `confidence` (0-1).
pub fn two_sided_t(confidence: f64, degrees: f64) -> f64 {
    let y = beta::quantile(confidence, 0.5, 0.5 * degrees);
    (degrees * y / (1.0 - y)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::super::normal;
    use super::*;

    #[test]
    fn printed_tables_have_these_values() {
        // Two-sided 95 % and 99 % points, of Abramowitz and Stegun's table 26.10 (from memory).
        for (degrees, five, one) in [(1.0, 12.706, 63.657), (7.0, 2.365, 3.499), (30.0, 2.042, 2.750)] {
            for (confidence, wanted) in [(0.95, five), (0.99, one)] {
                let t = two_sided_t(confidence, degrees);
                assert!((t - wanted).abs() < 6e-4, "{degrees} {confidence}: {t}");
                assert!((two_sided_p(t, degrees) - (1.0 - confidence)).abs() < 1e-12);
            }
        }
        assert!((two_sided_p(1.0, 1.0) - 0.5).abs() < 1e-14, "the quartiles of one degree are -1 and 1");
        assert_eq!((two_sided_p(0.0, 5.0), two_sided_p(f64::NEG_INFINITY, 5.0)), (1.0, 0.0));
    }

    #[test]
    fn with_many_degrees_it_is_the_normal_and_with_few_its_tails_are_heavier() {
        for t in [0.3, 1.96, 5.0] {
            assert!((two_sided_p(t, 1e6) / normal::two_sided_p(t) - 1.0).abs() < 3e-4, "{t}");
        }
        // Where Holm looks with thousands of comparisons: some 4.6 errors, of 63 degrees.
        assert!(two_sided_p(4.6, 63.0) > 4.0 * normal::two_sided_p(4.6));
        assert!((two_sided_t(0.95, 1e6) - normal::two_sided_z(0.95)).abs() < 1e-5);
    }
}
