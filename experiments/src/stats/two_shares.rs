//! How many possessions show that two shares differ, where they are played apart: without pairing.
//!
//! Formula: `n = (z_c sqrt(2 m (1 - m)) + z_power sqrt(a (1 - a) + b (1 - b)))^2 / (a - b)^2` an arm, with
//! `m = (a + b) / 2`; no correction for continuity. Source: J. L. Fleiss, B. Levin and M. C. Paik, Statistical Methods
//! for Rates and Proportions, 3rd ed. 2003, section 4.2 (from memory).
//!
//! Variants of one run are paired and need fewer: [`super::possessions_needed`] takes the deviation of the paired
//! difference, which only a run can tell.

use super::normal;

/// Possessions an arm, not rounded, that tell share `a` from share `b` (both 0-1): the interval reaches `critical`
/// standard errors, and `power` (0-1) is the chance of success wanted. None for equal shares.
pub fn possessions_for_two_shares(a: f64, b: f64, critical: f64, power: f64) -> Option<f64> {
    assert!([a, b].iter().all(|share| (0.0..=1.0).contains(share)), "a share lies in 0-1, not at {a} or {b}");
    let spread = |share: f64| share * (1.0 - share);
    let under_none = (2.0 * spread(0.5 * (a + b))).sqrt();
    let reach = critical * under_none + normal::quantile(power) * (spread(a) + spread(b)).sqrt();
    let needed = reach / (a - b);
    (a != b).then_some(needed * needed)
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::*;

    const Z: f64 = 1.959_963_984_540_054;

    #[test]
    fn the_usual_example_is_reproduced_either_way_round() {
        let needed = possessions_for_two_shares(0.50, 0.55, Z, 0.8).unwrap();
        assert!((needed - 1564.7).abs() < 0.05, "{needed}");
        assert_eq!(possessions_for_two_shares(0.55, 0.50, Z, 0.8), Some(needed));
        assert_eq!(possessions_for_two_shares(0.3, 0.3, Z, 0.8), None);
    }

    #[test]
    fn so_many_possessions_have_the_power_asked_for() {
        const REPEATS: usize = 2_000;
        let (a, b, mut random) = (0.3, 0.4, Generator::new(29));
        let n = possessions_for_two_shares(a, b, Z, 0.8).unwrap().ceil();
        let mut share = |p: f64| (0..n as usize).filter(|_| random.uniform() < p).count() as f64 / n;
        let found = (0..REPEATS).filter(|_| {
            let (x, y) = (share(a), share(b));
            let mean = 0.5 * (x + y);
            (x - y).abs() > Z * (2.0 * mean * (1.0 - mean) / n).sqrt()
        });
        let power = found.count() as f64 / REPEATS as f64;
        // Four standard errors of a share of 0.8 in so many repeats.
        assert!((power - 0.8).abs() < 0.036, "{power}");
    }
}
