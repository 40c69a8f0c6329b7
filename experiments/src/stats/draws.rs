//! Seeded normal draws with a given covariance, for the Monte Carlo figures.
//!
//! One u64 of `Pcg64` a draw, by inversion: library samplers may change their values between versions. Draws of variants that
//! are identical, or sums of each other, agree to rounding ([`Root`]).

use rand::Rng;
use rand_pcg::Pcg64;

use super::{Root, normal};

/// Draws of each Monte Carlo figure: standard error 0.0015 at a chance of 5 %, 0.0035 at most.
pub(super) const DRAWS: usize = 20_000;

/// Part of a variance below which what is left of it counts as rounding. A real difference in one possession
/// of 2^30 leaves about 1e-9.
const NOTHING: f64 = 1e-12;

/// A stream of draws that depends on its seed only.
pub struct Generator(Pcg64);

impl Generator {
    /// The stream of `seed`. Fixed seeds are right here: the figures are functions of the totals alone.
    pub fn new(seed: u64) -> Self {
        Self(Pcg64::new(u128::from(seed), 0x5a6f_6e65_7072_6f62))
    }

    /// A draw inside 0-1, never an end: 52 bits and a half are exact in an f64, 53 would round up to 1.
    pub fn uniform(&mut self) -> f64 {
        const STEP: f64 = 1.0 / (1_u64 << 52) as f64;
        ((self.0.next_u64() >> 12) as f64 + 0.5) * STEP
    }

    /// A standard normal draw.
    pub fn normal(&mut self) -> f64 {
        normal::quantile(self.uniform())
    }
}

/// A normal distribution with mean 0 over some values.
pub(super) struct Spread {
    /// L with L L' = the covariance.
    root: Root,
    /// One standard normal a value, kept to save an allocation a draw.
    normals: Vec<f64>,
}

impl Spread {
    /// From a covariance matrix given row by row (`size` x `size`, symmetric, semidefinite).
    pub(super) fn new(covariance: &[f64], size: usize) -> Self {
        Self { root: Root::new(covariance, size, NOTHING), normals: vec![0.0; size] }
    }

    /// Adds `weight` times one draw to `values`.
    pub(super) fn add_draw(&mut self, random: &mut Generator, weight: f64, values: &mut [f64]) {
        self.normals.fill_with(|| random.normal());
        for (row, value) in values.iter_mut().enumerate() {
            *value += weight * self.root.row(row).iter().zip(&self.normals).map(|(l, g)| l * g).sum::<f64>();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_have_the_covariance_asked_for() {
        // The third value is the first plus the second, so the matrix is singular.
        let covariance = [2.0, 0.5, 2.5, 0.5, 1.0, 1.5, 2.5, 1.5, 4.0];
        let (mut spread, mut random) = (Spread::new(&covariance, 3), Generator::new(1));
        let mut sums = [0.0; 9];
        for _ in 0..DRAWS {
            let mut x = [0.0; 3];
            spread.add_draw(&mut random, 1.0, &mut x);
            assert!((x[0] + x[1] - x[2]).abs() < 1e-12, "the dependence is exact");
            (0..9).for_each(|i| sums[i] += x[i / 3] * x[i % 3]);
        }
        for (i, want) in covariance.iter().enumerate() {
            assert!((sums[i] / DRAWS as f64 - want).abs() < 0.15, "entry {i}");
        }
    }

    #[test]
    fn a_value_without_variance_does_not_move() {
        let (mut spread, mut random) = (Spread::new(&[0.0, 0.0, 0.0, 1.0], 2), Generator::new(1));
        let mut x = [0.0; 2];
        spread.add_draw(&mut random, 1.0, &mut x);
        assert!(x[0] == 0.0 && x[1] != 0.0);
    }

    #[test]
    fn the_stream_is_the_same_everywhere() {
        // Printed once and kept: a change here changes every Monte Carlo figure.
        let mut random = Generator::new(1);
        let first: Vec<u64> = (0..3).map(|_| random.normal().to_bits()).collect();
        assert_eq!(first, PRINTED);
    }
    const PRINTED: [u64; 3] =
        [4_603_606_524_812_174_639, 4_612_143_056_377_335_938, 13_829_338_473_262_206_375];
}
