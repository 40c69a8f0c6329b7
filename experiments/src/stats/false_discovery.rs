//! Benjamini and Hochberg's step-up adjustment of p-values: of what is claimed, the expected share that is false is
//! held.
//!
//! Formula: with p sorted upwards, `adjusted_(i) = min over j >= i of min(1, m p_(j) / j)`.
//! Source: Y. Benjamini and Y. Hochberg, Journal of the Royal Statistical Society B 57, 1995, 289-300.
//!
//! Held for p-values that are independent or positively dependent (Y. Benjamini and D. Yekutieli, Annals of Statistics
//! 29, 2001, 1165-1188); for two-sided comparisons with one baseline that is not proved. It is never stricter than
//! [`super::holm`], and like it is meant for a family that was fixed beforehand.

/// Adjusted p-values in the order given; claim where the adjusted value is at most the share of false claims allowed.
///
/// `p` holds one raw p-value (0-1) a comparison. Panics on NaN: a figure that has no p-value is left out.
pub fn benjamini_hochberg(p: &[f64]) -> Vec<f64> {
    assert!(p.iter().all(|p| (0.0..=1.0).contains(p)), "a p-value lies outside 0-1");
    let mut order: Vec<usize> = (0..p.len()).collect();
    order.sort_by(|&a, &b| p[a].total_cmp(&p[b]).then(a.cmp(&b)));
    let mut adjusted = vec![0.0; p.len()];
    let mut smallest = 1.0_f64;
    for (rank, &index) in order.iter().enumerate().rev() {
        // In this order the largest of a family stays as it is to the bit, and so do equals of it.
        smallest = smallest.min(p.len() as f64 / (rank + 1) as f64 * p[index]);
        adjusted[index] = smallest;
    }
    adjusted
}

#[cfg(test)]
mod tests {
    use super::super::holm;
    use super::*;

    #[test]
    fn hand_example_is_reproduced() {
        // 4 / 1 x .005 = .02; 4 / 2 x .011 = .022; 4 / 3 x .02 = .02667; 4 / 4 x .04 = .04.
        let expected = [0.08 / 3.0, 0.02, 0.04, 0.022];
        for (got, want) in benjamini_hochberg(&[0.02, 0.005, 0.04, 0.011]).iter().zip(expected) {
            assert!((got - want).abs() < 1e-15, "{got} is not {want}");
        }
    }

    #[test]
    fn five_evenly_spaced_values_are_all_adjusted_to_the_largest_and_holms_are_not() {
        let raw = [0.01, 0.02, 0.03, 0.04, 0.05];
        let near = |got: Vec<f64>, want: [f64; 5]| got.iter().zip(want).all(|(a, b)| (a - b).abs() < 1e-15);
        assert!(near(benjamini_hochberg(&raw), [0.05; 5]));
        assert!(near(holm(&raw), [0.05, 0.08, 0.09, 0.09, 0.09]));
    }

    #[test]
    fn adjusted_values_keep_the_order_and_lie_between_raw_and_holms() {
        let raw = [0.9, 0.01, 0.5, 0.011, 0.7, 0.01];
        let (adjusted, stricter) = (benjamini_hochberg(&raw), holm(&raw));
        for a in 0..raw.len() {
            assert!(adjusted[a] >= raw[a] && adjusted[a] <= stricter[a]);
            for b in 0..raw.len() {
                assert!(raw[a] > raw[b] || adjusted[a] <= adjusted[b]);
            }
        }
        assert_eq!(adjusted[1], adjusted[5], "equal p-values stay equal");
    }

    #[test]
    fn empty_and_single_families_are_left_as_they_are() {
        assert!(benjamini_hochberg(&[]).is_empty());
        assert_eq!(benjamini_hochberg(&[0.03]), [0.03]);
    }
}
