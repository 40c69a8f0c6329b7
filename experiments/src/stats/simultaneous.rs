//! Simultaneous intervals: all claims of a family are right together with the stated confidence.
//!
//! Formula: intervals `difference -+ c x standard error`, where c is the quantile of the largest |z| over the
//! family under the paired covariance, by seeded Monte Carlo (20,000 draws: c within about 0.015), kept
//! between the single-comparison value and Sidak's bound, which holds for any correlation.
//! Source: Dunnett's and Tukey's comparisons with a general covariance, T. Hothorn, F. Bretz and P. Westfall,
//! Biometrical Journal 50, 2008, 346-363; Z. Sidak, JASA 62, 1967, 626-633.
//!
//! Against a baseline named beforehand the family is V - 1 comparisons. The *leader* is picked by the same
//! data, and the best of many equal variants looks better than it is; so against the leader the family is all
//! pairs, which covers whichever pair is then looked at. With 13 equal variants the baseline's c (about 2.8)
//! would falsely separate the leader from another in about one run in five; the c of all pairs (about 3.3) in
//! one of twenty.
//!
//! A run that looks at fixed possession counts and may stop at each passes them as `looks`; c then covers all
//! of them (at a look the estimates are sums of independent parts, which is how they are drawn).

use super::draws::{DRAWS, Generator};
use super::figure::Better;
use super::joint::Joint;
use super::normal;
use super::paired::Difference;

/// What the variants are compared with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// A variant named before the run.
    Baseline(usize),
    /// The variant with the best estimate (the first of equals).
    Leader(Better),
}

/// One variant compared with the reference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contrast {
    /// The variant compared.
    pub variant: usize,
    /// Variant less reference, with its simultaneous interval; `p` is the raw one.
    pub difference: Difference,
    /// Chance that the largest |z| of the family reaches this one's if nothing differs. The interval decides
    /// where the two disagree by a Monte Carlo error.
    pub adjusted_p: f64,
}

/// All comparisons with one reference.
#[derive(Clone, Debug, PartialEq)]
pub struct Simultaneous {
    /// The variant all others are compared with.
    pub reference: usize,
    /// Half width of the intervals, in standard errors.
    pub critical: f64,
    /// One entry for each other variant, in variant order.
    pub contrasts: Vec<Contrast>,
}

/// Compares all variants with the reference at a familywise `confidence` (0-1). `looks` are the ascending
/// possession counts at which a decision may be taken; empty means once, at the end. Source: file's head.
pub fn simultaneous(joint: &Joint, against: Against, confidence: f64, looks: &[u64]) -> Simultaneous {
    let all = 0..joint.variants();
    let (reference, family): (usize, Vec<(usize, usize)>) = match against {
        Against::Baseline(reference) => {
            (reference, all.clone().filter(|&v| v != reference).map(|v| (v, reference)).collect())
        }
        Against::Leader(better) => {
            (joint.leader(better), all.clone().flat_map(|v| (0..v).map(move |w| (v, w))).collect())
        }
    };
    let family = Family::new(joint, &family, if looks.is_empty() { &[1] } else { looks });
    let critical = family.critical(confidence);
    let contrast = |variant| {
        let difference = joint.difference(variant, reference, critical);
        Contrast { variant, difference, adjusted_p: family.adjusted_p(&difference) }
    };
    let contrasts = all.filter(|&v| v != reference).map(contrast).collect();
    Simultaneous { reference, critical, contrasts }
}

/// The null distribution of the largest |z| of a family of comparisons.
struct Family {
    /// Comparisons that can go wrong at all, times looks.
    comparisons: f64,
    /// The largest |z| of each draw, ascending.
    largest: Vec<f64>,
}

impl Family {
    /// Any other fixed value would do; this one is part of the printed figures.
    const SEED: u64 = 0x0073_696d;

    fn new(joint: &Joint, pairs: &[(usize, usize)], looks: &[u64]) -> Self {
        assert!(looks[0] > 0 && looks.is_sorted_by(|a, b| a < b), "looks must ascend from 1 or more");
        // Identical variants cannot be told apart falsely: they are no part of the family.
        let pairs: Vec<(usize, usize, f64)> = pairs
            .iter()
            .map(|&(v, w)| (v, w, joint.deviation(v, w)))
            .filter(|&(_, _, deviation)| deviation > 0.0)
            .map(|(v, w, deviation)| (v, w, 1.0 / deviation))
            .collect();
        let comparisons = (pairs.len() * looks.len()) as f64;
        if pairs.is_empty() {
            return Self { comparisons, largest: Vec::new() };
        }
        let (mut spread, mut random) = (joint.spread(), Generator::new(Self::SEED));
        let mut sums = vec![0.0; joint.variants()];
        let mut draw = || {
            sums.fill(0.0);
            let (mut seen, mut largest) = (0, 0.0_f64);
            for &look in looks {
                spread.add_draw(&mut random, ((look - seen) as f64).sqrt(), &mut sums);
                seen = look;
                let at_look = pairs
                    .iter()
                    .fold(0.0_f64, |most, &(v, w, weight)| most.max(((sums[v] - sums[w]) * weight).abs()));
                largest = largest.max(at_look / (look as f64).sqrt());
            }
            largest
        };
        let mut largest: Vec<f64> = (0..DRAWS).map(|_| draw()).collect();
        largest.sort_unstable_by(f64::total_cmp);
        Self { comparisons, largest }
    }

    /// Half width in standard errors at which all comparisons hold together.
    fn critical(&self, confidence: f64) -> f64 {
        let single = normal::two_sided_z(confidence);
        if self.largest.is_empty() {
            return single;
        }
        let place = ((confidence * DRAWS as f64).ceil() as usize).clamp(1, DRAWS) - 1;
        let sidak = normal::two_sided_z(libm::exp(libm::log(confidence) / self.comparisons));
        self.largest[place].min(sidak).max(single)
    }

    /// Chance of a largest |z| as large as this one's; between the raw p and Sidak's.
    fn adjusted_p(&self, difference: &Difference) -> f64 {
        let below = self.largest.partition_point(|&z| z < difference.z.abs());
        let simulated = (self.largest.len() - below + 1) as f64 / (self.largest.len() + 1) as f64;
        let sidak = -libm::expm1(self.comparisons * libm::log1p(-difference.p));
        simulated.min(sidak).max(difference.p)
    }
}

#[cfg(test)]
mod tests {
    use super::super::figure::Figure;
    use super::super::holm::holm;
    use super::super::totals::Totals;
    use rayon::prelude::*;

    use super::*;

    /// `variants` yes-or-no streams with equal chances: half of their chance shared.
    fn null(variants: usize, n: usize, random: &mut Generator) -> Totals {
        let mut totals = Totals::new(variants, 1, &[]);
        let mut row = vec![0; variants];
        for _ in 0..n {
            let shared = random.uniform();
            row.fill_with(|| {
                let own = random.uniform();
                i64::from(if own < 0.5 { shared < 0.35 } else { random.uniform() < 0.35 })
            });
            totals.add(&row);
        }
        totals
    }

    #[test]
    fn false_claims_among_13_equal_variants_stay_within_five_percent() {
        const REPEATS: usize = 150;
        let mut random = Generator::new(13);
        let totals: Vec<Totals> = (0..REPEATS).map(|_| null(13, 1000, &mut random)).collect();
        let claims = |totals: &Totals| {
            let joint = Joint::new(totals, Figure::Mean(0), 1.0).unwrap();
            let claims = |against| {
                let all = simultaneous(&joint, against, 0.95, &[]);
                all.contrasts.iter().any(|c| !c.difference.interval.contains(0.0))
            };
            let raw: Vec<f64> = (1..13).map(|v| joint.difference(v, 0, 1.96).p).collect();
            let by_holm = holm(&raw).iter().any(|&p| p <= 0.05);
            [claims(Against::Baseline(0)), claims(Against::Leader(Better::Higher)), by_holm].map(usize::from)
        };
        let [baseline, leader, by_holm] = totals
            .par_iter()
            .map(claims)
            .reduce(|| [0; 3], |sum, one| core::array::from_fn(|nth| sum[nth] + one[nth]));
        let error = (0.05 * 0.95 / REPEATS as f64).sqrt();
        for (name, claims) in [("baseline", baseline), ("leader", leader), ("Holm", by_holm)] {
            let rate = claims as f64 / REPEATS as f64;
            assert!(rate <= 0.05 + 2.0 * error, "{name}: false claims in {rate} of the runs");
        }
        assert!(baseline > 0 && leader > 0, "the intervals are not needlessly wide");
    }

    #[test]
    fn critical_values_match_printed_tables() {
        // Independent variants, many degrees of freedom, two-sided 5 %: Dunnett, 4 against a control, 2.44;
        // studentised range of 5, 3.858 / sqrt 2.
        let mut random = Generator::new(14);
        let mut totals = Totals::new(5, 1, &[]);
        for _ in 0..20_000 {
            let row: [i64; 5] = core::array::from_fn(|_| (random.normal() * 1e6) as i64);
            totals.add(&row);
        }
        let joint = Joint::new(&totals, Figure::Mean(0), 1e-6).unwrap();
        let critical = |against, looks: &[u64]| simultaneous(&joint, against, 0.95, looks).critical;
        let (dunnett, tukey) = (Against::Baseline(2), Against::Leader(Better::Lower));
        assert!((critical(dunnett, &[]) - 2.44).abs() < 0.03);
        assert!((critical(tukey, &[]) - 2.728).abs() < 0.03);
        assert_eq!(critical(tukey, &[]), critical(tukey, &[4096]), "one look is one look");
        assert!(critical(tukey, &[1024, 2048, 4096]) > critical(tukey, &[]) + 0.2, "looks are paid for");
    }

    #[test]
    fn repeated_looks_at_one_comparison_match_pococks_table() {
        let mut random = Generator::new(15);
        let joint = Joint::new(&null(2, 2000, &mut random), Figure::Mean(0), 1.0).unwrap();
        let looks = [100, 200, 300, 400, 500];
        let critical = simultaneous(&joint, Against::Baseline(0), 0.95, &looks).critical;
        // S. J. Pocock, Biometrika 64, 1977: five equally spaced looks at 5 %, 2.413.
        assert!((critical - 2.413).abs() < 0.03, "{critical}");
    }

    #[test]
    fn identical_variants_are_never_separated_and_cost_nothing() {
        let mut totals = Totals::new(3, 1, &[]);
        (0..100).for_each(|k| totals.add(&[k % 3, k % 3, k % 3]));
        let joint = Joint::new(&totals, Figure::Mean(0), 1.0).unwrap();
        let all = simultaneous(&joint, Against::Leader(Better::Higher), 0.95, &[]);
        assert_eq!((all.reference, all.critical), (0, normal::two_sided_z(0.95)));
        assert!(all.contrasts.iter().all(|c| c.difference.interval.contains(0.0) && c.adjusted_p == 1.0));
    }
}
