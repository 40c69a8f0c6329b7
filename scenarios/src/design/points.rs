//! Points of the unit cube: Latin hypercubes and Sobol sequences.
//!
//! A Latin hypercube of n points has one point in each n-th of every axis. Source: M. D. McKay, R. J. Beckman and W. J.
//! Conover, Technometrics 21, 1979, 239-245. A Sobol sequence is even in pairs of axes, too, best at powers of two: exactly in
//! the first two, nearly in others from some hundreds of points on.
//! Direction numbers: S. Joe and F. Y. Kuo, SIAM Journal on Scientific Computing 30, 2008, 2635-2654, as the crate
//! `sobol_burley` has them. Order: by Gray code, as in general-purpose libraries, so that any first n points are theirs.
//! Scrambling: Owen's nested one by a hash (B. Burley, Journal of Computer Graphics Techniques 9(4), 2020): whether a bit is
//! turned depends on the higher bits alone, so that nets stay nets.

use rand::Rng;
use rand_pcg::Pcg64;
use sobol_burley::parts::{owen_scramble_rev, sobol_rev};

/// Most points of a Sobol sequence: as many as the crate has directions for.
pub const POINTS_MOST: usize = 1 << 16;
/// Most axes. (a choice; the crate has directions for 256)
pub const AXES_MOST: usize = 64;

/// 2^-32, the distance between two of a Sobol sequence's values.
const STEP: f64 = 1.0 / (1_u64 << 32) as f64;
/// Any fixed value would do; this one is part of every seeded design.
const STREAM: u128 = 0x6465_7369_676e;

fn draws(seed: u64) -> Pcg64 {
    Pcg64::new(u128::from(seed), STREAM)
}

/// A draw inside 0-1, never an end.
fn uniform(random: &mut Pcg64) -> f64 {
    const STEP: f64 = 1.0 / (1_u64 << 52) as f64;
    ((random.next_u64() >> 12) as f64 + 0.5) * STEP
}

/// A Latin hypercube: `[point][axis]`, inside 0-1.
pub fn latin_hypercube(points: usize, axes: usize, seed: u64) -> Vec<Vec<f64>> {
    let mut random = draws(seed);
    let mut found = vec![vec![0.0; axes]; points];
    for axis in 0..axes {
        let mut strata: Vec<usize> = (0..points).collect();
        for last in (1..points).rev() {
            // The bias of a remainder is below 2^-40 for so few points.
            strata.swap(last, (random.next_u64() % (last as u64 + 1)) as usize);
        }
        for (point, stratum) in found.iter_mut().zip(strata) {
            point[axis] = (stratum as f64 + uniform(&mut random)) / points as f64;
        }
    }
    found
}

/// A Sobol sequence from its first point on: `[point][axis]`. Scrambled by a seed inside 0-1; without one as it is, from 0.
pub fn sobol(points: usize, axes: usize, seed: Option<u64>) -> Vec<Vec<f64>> {
    assert!(points <= POINTS_MOST && axes <= AXES_MOST, "{points} points of {axes} axes");
    let mut random = draws(seed.unwrap_or_default());
    let hashes: Vec<u32> = (0..axes).map(|_| (random.next_u64() >> 32) as u32).collect();
    let value = |point: u32, axis: u32| {
        let in_order = point ^ (point >> 1);
        let plain = sobol_rev(in_order.reverse_bits(), axis);
        match seed {
            None => f64::from(plain.reverse_bits()) * STEP,
            Some(_) => {
                let scrambled = owen_scramble_rev(plain, hashes[axis as usize]);
                (f64::from(scrambled.reverse_bits()) + 0.5) * STEP
            }
        }
    };
    (0..points as u32).map(|point| (0..axes as u32).map(|axis| value(point, axis)).collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How many boxes of `2^a x 2^b` equal ones over two axes hold a point.
    fn boxes(points: &[Vec<f64>], axes: (usize, usize), (a, b): (u32, u32)) -> usize {
        let place = |x: f64, cuts: u32| (x * f64::from(1_u32 << cuts)) as usize;
        let mut held: Vec<(usize, usize)> =
            points.iter().map(|point| (place(point[axes.0], a), place(point[axes.1], b))).collect();
        held.sort_unstable();
        held.dedup();
        held.len()
    }

    #[test]
    fn nets_stay_nets_when_they_are_scrambled() {
        const BITS: u32 = 8;
        let plain = sobol(1 << BITS, 2, None);
        for seed in [None, Some(0), Some(1), Some(77), Some(u64::MAX)] {
            let net = sobol(1 << BITS, 2, seed);
            // The first two axes are a (0, m, 2) net: each box of area 2^-m, however it is cut, has just one point.
            for a in 0..=BITS {
                assert_eq!(boxes(&net, (0, 1), (a, BITS - a)), 1 << BITS, "{seed:?}, {a}");
            }
            assert_eq!(net == plain, seed.is_none());
        }
        assert_ne!(sobol(8, 3, Some(1)), sobol(8, 3, Some(2)), "another seed, another net");
        let wide = sobol(1 << BITS, AXES_MOST, Some(5));
        for axis in 0..AXES_MOST {
            assert_eq!(boxes(&wide, (axis, axis), (BITS, 0)), 1 << BITS, "axis {axis} is even");
        }
    }

    #[test]
    fn scrambling_moves_every_point_everywhere() {
        // The first point is 0 in all axes without scrambling; scrambled it is spread evenly over seeds.
        let first: Vec<f64> = (0..2000).map(|seed| sobol(1, 2, Some(seed))[0][1]).collect();
        let mean = first.iter().sum::<f64>() / 2000.0;
        let variance = first.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / 2000.0;
        // Four standard errors of the mean and the variance of uniform draws: 0.2887 / sqrt 2000, 0.0745 / sqrt 2000.
        assert!((mean - 0.5).abs() < 0.026 && (variance - 1.0 / 12.0).abs() < 0.0067, "{mean}, {variance}");
    }

    #[test]
    fn scrambling_turns_each_half_by_itself() {
        // The first two points are 0 and 1/2 on every axis: in different halves, in the first quarter of each. A shift of all
        // points alike would leave them in the same quarter of their halves; nested scrambling does so every other time.
        for axis in [0, 1, 7] {
            let second_bit = |x: f64| (x * 4.0) as usize % 2;
            let is_same = |seed: &u64| {
                let points = sobol(2, 8, Some(*seed));
                second_bit(points[0][axis]) == second_bit(points[1][axis])
            };
            let same = (0..1000).filter(is_same).count();
            // Four standard errors of 1,000 even throws.
            assert!((437..=563).contains(&same), "axis {axis}: {same} of 1000");
        }
    }

    #[test]
    fn a_latin_hypercube_has_a_point_in_each_stratum_of_each_axis() {
        for (points, axes) in [(1, 1), (7, 3), (100, 12)] {
            let cube = latin_hypercube(points, axes, 3);
            for axis in 0..axes {
                let mut strata: Vec<usize> =
                    cube.iter().map(|point| (point[axis] * points as f64) as usize).collect();
                strata.sort_unstable();
                assert!(strata.iter().copied().eq(0..points), "{points} points, axis {axis}");
            }
            assert_eq!(cube, latin_hypercube(points, axes, 3));
        }
        assert_ne!(latin_hypercube(9, 2, 3), latin_hypercube(9, 2, 4));
        // Axes go apart: in 1,000 points the largest correlation of two of four is below four standard errors.
        let cube = latin_hypercube(1000, 4, 8);
        for (a, b) in (0..4).flat_map(|a| (0..a).map(move |b| (a, b))) {
            let product: f64 = cube.iter().map(|point| (point[a] - 0.5) * (point[b] - 0.5)).sum();
            assert!((product * 12.0 / 1000.0).abs() < 0.127, "{a} and {b}");
        }
    }
}
