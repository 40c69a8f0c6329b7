//! What a count is predicted to be after another count of the same: how many of so many trials, before they are looked at.
//!
//! A share of which `made` of `of` were counted is believed to be beta-distributed (half a success and half a failure
//! beforehand, after Jeffreys); a count out of `n` more is then beta-binomial, which has both uncertainties in it: that of the
//! share, and that of the new count. Counts of several shares add up; their distribution is the convolution. Sources: A. Gelman
//! and others, Bayesian Data Analysis, 3rd ed., 2013, section 6.3 (predictive checks); the two-sided p as in exact tests of
//! counts: the chance of all counts that are no likelier than the one seen (from memory).

/// What counts before anything was counted.
const BEFORE: f64 = 0.5;
/// Chances that differ by less than this part of themselves are taken for equal: they are sums of rounded numbers.
const EQUAL: f64 = 1e-9;

/// How likely each count is.
#[derive(Clone, Debug, PartialEq)]
pub struct Predictive {
    /// Chance of 0, 1, ..., n.
    chances: Vec<f64>,
}

impl Predictive {
    /// Nothing tried, nothing counted.
    pub fn nothing() -> Self {
        Self { chances: vec![1.0] }
    }

    /// A count of `n` trials of a share of which `made` of `of` were counted before.
    pub fn new(n: u32, made: u64, of: u64) -> Self {
        assert!(made <= of, "{made} of {of}");
        let (a, b) = (made as f64 + BEFORE, (of - made) as f64 + BEFORE);
        let beta = |a: f64, b: f64| libm::lgamma(a) + libm::lgamma(b) - libm::lgamma(a + b);
        let n = f64::from(n);
        let chance = |k: u32| {
            let k = f64::from(k);
            let ways = libm::lgamma(n + 1.0) - libm::lgamma(k + 1.0) - libm::lgamma(n - k + 1.0);
            libm::exp(ways + beta(k + a, n - k + b) - beta(a, b))
        };
        let mut chances: Vec<f64> = (0..=n as u32).map(chance).collect();
        let sum: f64 = chances.iter().sum();
        chances.iter_mut().for_each(|chance| *chance /= sum);
        Self { chances }
    }

    /// The sum of two counts.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        let mut chances = vec![0.0; self.chances.len() + other.chances.len() - 1];
        for (at, chance) in self.chances.iter().enumerate() {
            for (more, other) in other.chances.iter().enumerate() {
                chances[at + more] += chance * other;
            }
        }
        Self { chances }
    }

    /// Trials.
    pub fn trials(&self) -> u32 {
        self.chances.len() as u32 - 1
    }

    /// The mean count.
    pub fn mean(&self) -> f64 {
        self.chances.iter().enumerate().map(|(k, chance)| k as f64 * chance).sum()
    }

    /// The narrowest counts that leave out no more than half of what is not sure on either side.
    pub fn interval(&self, confidence: f64) -> (u32, u32) {
        let tail = 0.5 * (1.0 - confidence);
        let end = |chances: &mut dyn Iterator<Item = &f64>| {
            let mut left = 0.0;
            chances
                .take_while(|chance| {
                    left += **chance;
                    left <= tail
                })
                .count() as u32
        };
        let (low, high) = (end(&mut self.chances.iter()), end(&mut self.chances.iter().rev()));
        (low, self.trials() - high)
    }

    /// The chance of all counts that are no likelier than this one.
    pub fn two_sided_p(&self, seen: u32) -> f64 {
        let own = self.chances[seen as usize] * (1.0 + EQUAL);
        self.chances.iter().filter(|chance| **chance <= own).sum::<f64>().min(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_that_is_known_well_makes_a_binomial_count() {
        // 3 of 10 at one half: 120 / 1024; both tails of 2 and fewer: 2 (1 + 10 + 45) / 1024.
        let known = Predictive::new(10, 500_000_000, 1_000_000_000);
        assert!((known.chances[3] - 120.0 / 1024.0).abs() < 1e-6);
        assert!((known.two_sided_p(2) - 112.0 / 1024.0).abs() < 1e-6);
        assert_eq!(known.interval(0.95), (2, 8));
        assert!((known.mean() - 5.0).abs() < 1e-6 && (known.two_sided_p(5) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_share_that_is_known_little_makes_a_wide_count() {
        // Beta-binomial of 2 with a = b = 1.5: 1.5 x 2.5 / (3 x 4) = .3125 of none or both.
        let little = Predictive::new(2, 1, 2);
        assert!((little.chances[0] - 0.3125).abs() < 1e-12 && (little.chances[1] - 0.375).abs() < 1e-12);
        let wide = |of: u64| {
            let (low, high) = Predictive::new(100, of / 4, of).interval(0.95);
            high - low
        };
        assert!(wide(40) > wide(400) && wide(400) > wide(400_000));
    }

    #[test]
    fn counts_add_up() {
        let two = Predictive::new(6, 30, 100).and(&Predictive::new(4, 70, 100));
        assert_eq!(two.trials(), 10);
        assert!((two.chances.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        let mean = 6.0 * 30.5 / 101.0 + 4.0 * 70.5 / 101.0;
        assert!((two.mean() - mean).abs() < 1e-9);
        assert_eq!(Predictive::nothing().and(&two), two);
    }
}
