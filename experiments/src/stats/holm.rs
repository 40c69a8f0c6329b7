//! Holm's step-down adjustment of p-values: the familywise error is held whatever the dependence.
//!
//! Formula: with p sorted upwards, `adjusted_(i) = max over j <= i of min(1, (m - j + 1) p_(j))`.
//! Source: S. Holm, Scandinavian Journal of Statistics 6, 1979, 65-70.
//!
//! Valid for a family fixed beforehand: all variants against the stated baseline. Against the *leader*, who
//! is picked by the same data, it is not; the `adjusted_p` of [`super::simultaneous()`] covers that choice.

/// Adjusted p-values in the order given; reject where the adjusted value is at most the wanted error.
///
/// `p` holds one raw p-value (0-1) a comparison. Panics on NaN: a figure that has no p-value is left out.
pub fn holm(p: &[f64]) -> Vec<f64> {
    assert!(p.iter().all(|p| (0.0..=1.0).contains(p)), "a p-value lies outside 0-1");
    let mut order: Vec<usize> = (0..p.len()).collect();
    order.sort_by(|&a, &b| p[a].total_cmp(&p[b]).then(a.cmp(&b)));
    let mut adjusted = vec![0.0; p.len()];
    let mut largest = 0.0_f64;
    for (rank, &index) in order.iter().enumerate() {
        let still_open = (p.len() - rank) as f64;
        largest = largest.max((still_open * p[index]).min(1.0));
        adjusted[index] = largest;
    }
    adjusted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hand_example_is_reproduced() {
        // 4 x .005 = .02; 3 x .011 = .033; 2 x .02 = .04; 1 x .04 = .04.
        let expected = [0.04, 0.02, 0.04, 0.033];
        for (got, want) in holm(&[0.02, 0.005, 0.04, 0.011]).iter().zip(expected) {
            assert!((got - want).abs() < 1e-15, "{got} is not {want}");
        }
    }

    #[test]
    fn adjusted_values_keep_the_order_and_stay_at_most_one() {
        let raw = [0.9, 0.01, 0.5, 0.011, 0.7, 0.01];
        let adjusted = holm(&raw);
        for a in 0..raw.len() {
            assert!(adjusted[a] >= raw[a] && adjusted[a] <= 1.0);
            for b in 0..raw.len() {
                assert!(raw[a] > raw[b] || adjusted[a] <= adjusted[b]);
            }
        }
        assert_eq!(adjusted[1], adjusted[5], "equal p-values stay equal");
    }

    #[test]
    fn empty_and_single_families_are_left_as_they_are() {
        assert!(holm(&[]).is_empty());
        assert_eq!(holm(&[0.03]), [0.03]);
    }
}
