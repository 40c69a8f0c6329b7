//! The estimates of all variants together: what simultaneous claims and the chance of being best are drawn
//! from.
//!
//! Only differences between variants matter, so the covariance is kept as that of `x_v - x_0`, formed in
//! integers for means: chance shared by all variants has gone before anything is rounded. Formula: the
//! estimates' differences are close to normal with covariance `contrast covariance / n` (central limit
//! theorem).

use super::draws::Spread;
use super::few::Few;
use super::figure::{Better, Figure};
use super::interval::Interval;
use super::paired::Difference;
use super::totals::Totals;

/// One figure of all variants, with the covariance of their differences.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    variants: usize,
    n: u64,
    estimates: Vec<f64>,
    /// `[v][w]`: v less w.
    differences: Vec<f64>,
    /// `[v][w]`: standard deviation of one possession's paired difference.
    deviations: Vec<f64>,
    /// `[v][w]`: covariance of `x_v - x_0` and `x_w - x_0` of one possession.
    contrasts: Vec<f64>,
    /// `[v][w]`: what was seen of a pair, where it was little.
    few: Vec<Option<Few>>,
}

impl Joint {
    /// From the totals, in units of `scale` (as in [`super::normal_interval`]). None below two possessions,
    /// or if any variant's denominator is 0.
    pub fn new(totals: &Totals, figure: Figure, scale: f64) -> Option<Self> {
        let variants = totals.variants();
        let all_pairs = || (0..variants).flat_map(move |v| (0..variants).map(move |w| (v, w)));
        let estimates =
            (0..variants).map(|v| Some(figure.estimate(totals, v)? * scale)).collect::<Option<_>>()?;
        let differences = all_pairs()
            .map(|(v, w)| Some(figure.difference(totals, v, w)? * scale))
            .collect::<Option<_>>()?;
        let deviations =
            all_pairs().map(|(v, w)| figure.contrast_covariance(totals, v, v, w).sqrt() * scale).collect();
        let contrasts =
            all_pairs().map(|(v, w)| figure.contrast_covariance(totals, v, w, 0) * scale * scale).collect();
        let few = all_pairs().map(|pair| Few::of(totals, figure, pair, scale)).collect();
        let n = totals.possessions();
        (n > 1).then_some(Self { variants, n, estimates, differences, deviations, contrasts, few })
    }

    /// Number of variants.
    pub fn variants(&self) -> usize {
        self.variants
    }

    /// Number of possession indices behind the estimates.
    pub fn possessions(&self) -> u64 {
        self.n
    }

    /// The figure of one variant, in its unit.
    pub fn estimate(&self, variant: usize) -> f64 {
        self.estimates[variant]
    }

    /// Variant `v` less variant `w`, with an interval of `critical` standard errors to each side.
    pub fn difference(&self, v: usize, w: usize, critical: f64) -> Difference {
        let place = v * self.variants + w;
        Difference::new(self.differences[place], self.deviations[place], self.n, critical)
    }

    /// Variant `v` less variant `w` for a decision: the interval is `critical` standard errors wide to each side and, where
    /// little was seen of the two, at least what so few events allow at the quantile `few_critical`.
    pub(super) fn cautious(&self, v: usize, w: usize, critical: f64, few_critical: f64) -> Interval {
        let usual = self.difference(v, w, critical).interval;
        match self.few[v * self.variants + w].filter(|_| v != w) {
            None => usual,
            Some(few) => {
                let half = few.half_width(few_critical).max(usual.high - usual.estimate);
                Interval { low: usual.estimate - half, high: usual.estimate + half, ..usual }
            }
        }
    }

    /// The variant with the best estimate, the first of equals.
    pub fn leader(&self, better: Better) -> usize {
        let value = |v: usize| better.turned(self.estimates[v]);
        (1..self.variants).fold(0, |best, v| if value(v) > value(best) { v } else { best })
    }

    /// Whether two variants gave the same value in every possession, as far as this figure can tell.
    pub(super) fn are_identical(&self, v: usize, w: usize) -> bool {
        let place = v * self.variants + w;
        self.deviations[place] == 0.0 && self.differences[place] == 0.0
    }

    /// Standard deviation of one possession's paired difference.
    pub(super) fn deviation(&self, v: usize, w: usize) -> f64 {
        self.deviations[v * self.variants + w]
    }

    /// The spread of one possession's differences to variant 0 (its own entry does not move).
    pub(super) fn spread(&self) -> Spread {
        Spread::new(&self.contrasts, self.variants)
    }
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::super::paired::paired_difference;
    use super::*;

    #[test]
    fn differences_are_those_of_the_pair_alone() {
        let mut random = Generator::new(6);
        let mut totals = Totals::new(3, 2, &[(0, 1)]);
        for _ in 0..100 {
            let row: [i64; 6] = core::array::from_fn(|_| (random.uniform() * 9.0) as i64);
            totals.add(&row);
        }
        for figure in [Figure::Mean(0), Figure::Ratio(0)] {
            let joint = Joint::new(&totals, figure, 0.5).unwrap();
            for (v, w) in [(0, 1), (2, 1), (1, 1)] {
                let pair = paired_difference(&totals, figure, (v, w), 0.5, 2.5);
                assert_eq!(Some(joint.difference(v, w, 2.5)), pair);
            }
        }
    }

    #[test]
    fn one_variant_without_a_denominator_leaves_no_ranking() {
        let mut totals = Totals::new(2, 2, &[(0, 1)]);
        (0..5).for_each(|x| totals.add(&[x, 1, x, 0]));
        assert_eq!(Joint::new(&totals, Figure::Ratio(0), 1.0), None);
        assert!(Joint::new(&totals, Figure::Mean(0), 1.0).is_some());
    }
}
