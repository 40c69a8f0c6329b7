//! Which variant is best: the chance of it, the leaders that cannot be separated, and what it would take.
//!
//! - Chance of being best: share of draws from the approximate normal of the estimates (their values, their
//!   paired covariance over n) in which a variant comes out best; 20,000 seeded draws, standard error at most
//!   0.0035. It is the posterior chance under a flat prior. Source: A. Gelman et al., Bayesian Data Analysis,
//!   3rd ed., 4.1.
//! - Leaders: those whose simultaneous interval against the leader includes 0.
//! - Possessions needed: `n = ((c + z_power) sd / difference)^2`. Source: J. M. Lachin, Controlled Clinical
//!   Trials 2, 1981, 93-113.

use super::draws::{DRAWS, Generator};
use super::figure::Better;
use super::joint::Joint;
use super::normal;
use super::simultaneous::Simultaneous;

/// Chance (0-1, summing to 1) of each variant being the best. Identical variants share theirs equally.
pub fn chance_of_being_best(joint: &Joint, better: Better) -> Vec<f64> {
    const SEED: u64 = 0x6265_7374;
    let variants = joint.variants();
    // Identical variants are drawn as one, or rounding would decide between them.
    let original: Vec<usize> =
        (0..variants).map(|v| (0..v).find(|&w| joint.are_identical(v, w)).unwrap_or(v)).collect();
    let start: Vec<f64> = (0..variants).map(|v| joint.estimate(v)).collect();
    let weight = 1.0 / (joint.possessions() as f64).sqrt();
    let (mut spread, mut random) = (joint.spread(), Generator::new(SEED));
    let mut wins = vec![0.0; variants];
    let mut values = vec![0.0; variants];
    for _ in 0..DRAWS {
        values.copy_from_slice(&start);
        spread.add_draw(&mut random, weight, &mut values);
        let originals = || (0..variants).filter(|&v| original[v] == v);
        let best = originals().fold(f64::NEG_INFINITY, |best, v| best.max(better.turned(values[v])));
        let is_best = |v: &usize| better.turned(values[*v]) == best;
        let share = 1.0 / originals().filter(is_best).count() as f64;
        originals().filter(is_best).for_each(|v| wins[v] += share);
    }
    let twins = |v: usize| original.iter().filter(|&&w| w == original[v]).count() as f64;
    (0..variants).map(|v| wins[original[v]] / twins(v) / DRAWS as f64).collect()
}

/// The variants that cannot be told from the leader, itself included, in variant order. `against_leader`
/// comes from [`super::simultaneous()`] with [`super::Against::Leader`].
pub fn leaders(against_leader: &Simultaneous) -> Vec<usize> {
    let undecided = against_leader.contrasts.iter().filter(|c| c.difference.interval.contains(0.0));
    let mut leaders: Vec<usize> = undecided.map(|c| c.variant).collect();
    leaders.push(against_leader.reference);
    leaders.sort_unstable();
    leaders
}

/// Possession indices needed in all (not on top) to separate two variants, if the `difference` seen is the
/// true one: `deviation` is that of one possession's paired difference in the same unit, `critical` the half
/// width used (standard errors), `power` the chance of success wanted (0.8 as a rule). None for a difference
/// of 0. A rough guide: the difference seen carries its own error, and that of a picked leader is on the
/// whole too large.
pub fn possessions_needed(difference: f64, deviation: f64, critical: f64, power: f64) -> Option<u64> {
    let reach = (critical + normal::quantile(power)) * deviation / difference;
    // The cast stops at the largest u64: "never", in practice.
    (difference != 0.0).then(|| ((reach * reach).ceil() as u64).max(2))
}

#[cfg(test)]
mod tests {
    use super::super::figure::Figure;
    use super::super::simultaneous::{Against, simultaneous};
    use super::super::totals::Totals;
    use super::*;

    /// Normal measures with these means (in units of their spread), half of their chance shared.
    fn sample<const V: usize>(means: [f64; V], n: usize, random: &mut Generator) -> Joint {
        let mut totals = Totals::new(V, 1, &[]);
        for _ in 0..n {
            let shared = random.normal();
            totals.add(&means.map(|mean| ((mean + shared + random.normal()) * 1e6) as i64));
        }
        Joint::new(&totals, Figure::Mean(0), 1e-6).unwrap()
    }

    #[test]
    fn chances_sum_to_one_and_identical_variants_share_theirs() {
        let mut random = Generator::new(20);
        let mut totals = Totals::new(4, 1, &[]);
        for _ in 0..500 {
            let [x, y] = [random.normal(), random.normal()].map(|x| (x * 1e6) as i64);
            totals.add(&[y, x, x, y]);
        }
        let joint = Joint::new(&totals, Figure::Mean(0), 1e-6).unwrap();
        let high = chance_of_being_best(&joint, Better::Higher);
        assert!((high.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        assert_eq!((high[0], high[1]), (high[3], high[2]));
        let low = chance_of_being_best(&joint, Better::Lower);
        assert!((low[0] - high[1]).abs() < 1e-12, "the best of two is not the worst");
    }

    #[test]
    fn chance_of_two_is_the_normal_tail() {
        let joint = sample([0.0, 0.05], 1000, &mut Generator::new(21));
        let exact = normal::cdf(joint.difference(1, 0, 1.96).z);
        assert!((0.01..0.99).contains(&exact));
        assert!((chance_of_being_best(&joint, Better::Higher)[1] - exact).abs() < 0.012);
    }

    #[test]
    fn the_true_best_is_among_the_leaders_and_alone_when_far_ahead() {
        const REPEATS: usize = 100;
        let mut random = Generator::new(22);
        let (mut kept, mut alone) = (0, 0);
        for _ in 0..REPEATS {
            let near = sample([0.0, 0.0, 0.02, 0.0], 500, &mut random);
            kept += usize::from(leaders_of(&near).contains(&2));
            let far = sample([0.0, 0.0, 0.5, 0.0], 500, &mut random);
            alone += usize::from(leaders_of(&far) == [2]);
        }
        assert!(kept >= 95 && alone >= 95, "kept {kept}, alone {alone} of {REPEATS}");
    }

    fn leaders_of(joint: &Joint) -> Vec<usize> {
        leaders(&simultaneous(joint, Against::Leader(Better::Higher), 0.95, &[]))
    }

    #[test]
    fn possessions_needed_give_the_power_asked_for() {
        // (1.96 + 0.8416)^2 x (1 / 0.1)^2 = 784.9.
        assert_eq!(possessions_needed(0.1, 1.0, normal::two_sided_z(0.95), 0.8), Some(785));
        assert_eq!(possessions_needed(-0.1, 1.0, normal::two_sided_z(0.95), 0.8), Some(785));
        assert_eq!(possessions_needed(0.0, 1.0, 1.96, 0.8), None);
        assert_eq!(possessions_needed(1e-300, 1.0, 1.96, 0.8), Some(u64::MAX));
        let mut random = Generator::new(23);
        let needed =
            possessions_needed(0.2, 2.0_f64.sqrt(), normal::two_sided_z(0.95), 0.8).unwrap() as usize;
        let found = (0..400)
            .filter(|_| sample([0.2, 0.0], needed, &mut random).difference(0, 1, 1.96).p < 0.05)
            .count();
        assert!((296..=344).contains(&found), "{found} of 400");
    }
}
