//! From totals to a ranking: figures with intervals, paired differences, and what may be claimed from them.
//!
//! Variants are ranked by one column, best first, equals in plan order. Each is compared with the baseline (named
//! beforehand) and with the leader (picked by the same possessions, which the simultaneous intervals against it
//! allow for by covering all pairs).

use crate::columns::{COLUMNS, CONFIDENCE, Column};
use crate::layout::Layout;
use crate::stats::normal::two_sided_z;
use crate::stats::{
    Against, Better, Difference, Interval, Simultaneous, Totals, benjamini_hochberg, chance_of_being_best,
    holm, leaders, possessions_needed, simultaneous,
};
use crate::verdict::Differ;

/// Chance, wanted of a longer run, that it separates two variants.
const POWER: f64 = 0.8;

/// What is compared, and by what.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The question as the file puts it.
    pub text: String,
    /// Names of the variants, in plan order.
    pub variants: Vec<String>,
    /// What differs between them, as people call it: `route`, `attack`; its plural has an s.
    pub noun: &'static str,
    /// Whether that is chosen or met.
    pub differ: Differ,
    /// Place of the baseline among them.
    pub baseline: usize,
    /// The ranking column.
    pub rank_by: &'static Column,
    /// Cells of the variants, where there are factors.
    pub layout: Layout,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// What was asked.
    pub question: Question,
    /// Possessions of each variant.
    pub possessions: u64,
    /// `[variant][column]`: figure and interval, None without data.
    pub figures: Vec<Vec<Option<Interval>>>,
    /// Variants, best first.
    pub order: Vec<usize>,
    /// Every variant against baseline and leader, and against its own cell's reference, on every column.
    pub differences: Vec<Contrasted>,
    /// What may be said of the ranking column; None with one variant or without data.
    pub claims: Option<Claims>,
}

/// One variant against a reference, on one column.
#[derive(Clone, Debug, PartialEq)]
pub struct Contrasted {
    /// The variant compared.
    pub variant: usize,
    /// What it is compared with.
    pub reference: usize,
    /// On which column.
    pub column: &'static Column,
    /// Variant less reference, with an interval for this comparison alone.
    pub difference: Difference,
    /// Holm's p over the variants: ranking column, against the baseline.
    pub p_holm: Option<f64>,
    /// Benjamini and Hochberg's p of the same family.
    pub p_bh: Option<f64>,
    /// Ends of the interval that holds for all variants together: ranking column.
    pub together: Option<Interval>,
    /// How many times pairing cut the variance.
    pub variance_ratio: Option<f64>,
}

/// What may be said of the ranking column.
#[derive(Clone, Debug, PartialEq)]
pub struct Claims {
    /// All variants against the baseline, holding together.
    pub against_baseline: Simultaneous,
    /// All variants against the leader, holding together for all pairs.
    pub against_leader: Simultaneous,
    /// Chance of being best, by variant.
    pub chance_of_being_best: Vec<f64>,
    /// Variants that cannot be told from the leader, itself included.
    pub leaders: Vec<usize>,
    /// Possessions for each variant that would separate the first two, if the gap seen is the true one.
    pub possessions_needed: Option<u64>,
}

impl Comparison {
    /// Compares the variants of a run.
    pub fn new(question: Question, totals: &Totals) -> Self {
        let z = two_sided_z(CONFIDENCE);
        let variants = question.variants.len();
        let figures: Vec<Vec<_>> = (0..variants)
            .map(|v| COLUMNS.iter().map(|column| column.interval(totals, v, z)).collect())
            .collect();
        let order = ranked(question.rank_by, totals);
        let claims = Claims::new(&question, totals, &order);
        let mut comparison =
            Self { question, possessions: totals.possessions(), figures, order, differences: vec![], claims };
        comparison.differences = comparison.contrasted(totals, z);
        comparison
    }

    /// The variant ranked first.
    pub fn leader(&self) -> usize {
        self.order[0]
    }

    /// A variant's rank, from 1.
    pub fn rank(&self, variant: usize) -> usize {
        1 + self.order.iter().position(|&v| v == variant).expect("every variant is ranked")
    }

    /// One figure; None without data.
    pub fn figure(&self, variant: usize, column: &Column) -> Option<Interval> {
        let place = COLUMNS.iter().position(|other| other.key == column.key)?;
        self.figures[variant][place]
    }

    /// A comparison; None without data, or if it was not made.
    pub fn contrast(&self, variant: usize, reference: usize, column: &Column) -> Option<&Contrasted> {
        self.differences
            .iter()
            .find(|d| (d.variant, d.reference, d.column.key) == (variant, reference, column.key))
    }

    fn contrasted(&self, totals: &Totals, z: f64) -> Vec<Contrasted> {
        let mut references = vec![self.question.baseline];
        if self.leader() != self.question.baseline {
            references.push(self.leader());
        }
        let against = |&reference: &usize| {
            (0..totals.variants()).filter(move |&v| v != reference).map(move |v| (v, reference))
        };
        let mut pairs: Vec<(usize, usize)> = references.iter().flat_map(against).collect();
        let own = self.question.layout.references.iter().enumerate();
        let own = own.filter_map(|(v, reference)| Some((v, (*reference)?)));
        pairs.extend(own.filter(|&(v, reference)| v != reference && !references.contains(&reference)));
        let mut all = Vec::new();
        for (variant, reference) in pairs {
            for column in COLUMNS {
                let Some(difference) = column.difference(totals, variant, reference, z) else { continue };
                let claims = self.claims.as_ref().filter(|_| column.key == self.question.rank_by.key);
                all.push(Contrasted {
                    variant,
                    reference,
                    column,
                    difference,
                    p_holm: claims.and_then(|claims| claims.adjusted(holm, variant, reference)),
                    p_bh: claims.and_then(|claims| claims.adjusted(benjamini_hochberg, variant, reference)),
                    together: claims.and_then(|claims| claims.together(variant, reference)),
                    variance_ratio: column.variance_ratio(totals, variant, reference),
                });
            }
        }
        all
    }
}

impl Claims {
    fn new(question: &Question, totals: &Totals, order: &[usize]) -> Option<Self> {
        let &[first, second, ..] = order else { return None };
        let better = question.rank_by.better;
        let joint = question.rank_by.joint(totals)?;
        let against = |reference| simultaneous(&joint, reference, CONFIDENCE, &[]);
        let against_leader = against(Against::Leader(better));
        debug_assert_eq!(against_leader.reference, first);
        let gap = joint.difference(first, second, against_leader.critical);
        Some(Self {
            against_baseline: against(Against::Baseline(question.baseline)),
            chance_of_being_best: chance_of_being_best(&joint, better),
            leaders: leaders(&against_leader),
            possessions_needed: possessions_needed(
                gap.interval.estimate,
                gap.deviation,
                against_leader.critical,
                POWER,
            ),
            against_leader,
        })
    }

    /// Whether the leader has been told from every other variant.
    pub fn is_settled(&self) -> bool {
        self.leaders.len() == 1
    }

    /// One p-value of the family that was named beforehand, adjusted; None against the leader.
    fn adjusted(&self, by: fn(&[f64]) -> Vec<f64>, variant: usize, reference: usize) -> Option<f64> {
        let family = &self.against_baseline;
        if reference != family.reference {
            return None;
        }
        let raw: Vec<f64> = family.contrasts.iter().map(|c| c.difference.p).collect();
        let place = family.contrasts.iter().position(|c| c.variant == variant)?;
        Some(by(&raw)[place])
    }

    /// The interval that holds for all comparisons with this reference: the leader's, where both are the same.
    pub fn together(&self, variant: usize, reference: usize) -> Option<Interval> {
        let family = [&self.against_leader, &self.against_baseline]
            .into_iter()
            .find(|family| family.reference == reference)?;
        family.contrasts.iter().find(|c| c.variant == variant).map(|c| c.difference.interval)
    }
}

/// Variants by the ranking column, best first; equals in plan order, those without data last.
fn ranked(rank_by: &Column, totals: &Totals) -> Vec<usize> {
    let turned = |v: usize| {
        let estimate = rank_by.interval(totals, v, 0.0).map(|interval| interval.estimate);
        estimate.map_or(f64::NEG_INFINITY, |x| if rank_by.better == Better::Lower { -x } else { x } + 0.0)
    };
    let mut order: Vec<usize> = (0..totals.variants()).collect();
    order.sort_by(|&a, &b| turned(b).total_cmp(&turned(a)));
    order
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::columns::ratios;
    use crate::run::{Plan, run};
    use crate::stub::{Stub, Unwatched};

    /// A comparison of made-up records.
    pub(crate) fn sample(variants: &[&str], possessions: u64, rank_by: &str) -> Comparison {
        sampled(variants, possessions, [rank_by]).remove(0)
    }

    /// The same records compared by each of some columns.
    pub(crate) fn sampled<const N: usize>(
        variants: &[&str],
        possessions: u64,
        columns: [&str; N],
    ) -> Vec<Comparison> {
        let ratios = ratios();
        let variants: Vec<String> = variants.iter().map(ToString::to_string).collect();
        let plan = Plan {
            variants: variants.clone(),
            possessions: 0..possessions,
            batch: None,
            threads: 1,
            ratios: &ratios,
        };
        let played = run(&plan, &Stub::new(1), &Unwatched).unwrap();
        let (text, noun, differ) = (String::from("Which is best?"), "route", Differ::Choices);
        let by = |column: &&str| {
            let rank_by = Column::named(column).unwrap();
            let (text, variants) = (text.clone(), variants.clone());
            let layout = Layout::default();
            let question = Question { text, variants, noun, differ, baseline: 0, rank_by, layout };
            Comparison::new(question, &played.totals)
        };
        columns.iter().map(by).collect()
    }

    #[test]
    fn the_ranking_follows_the_column_and_its_direction() {
        let more = sample(&["a", "b", "c"], 500, "expected_net_points");
        assert_eq!(more.order, [2, 1, 0], "the stub's variants get better one by one");
        let less = sample(&["a", "b", "c"], 500, "turnover_rate");
        let values: Vec<f64> =
            less.order.iter().map(|&v| less.figure(v, less.question.rank_by).unwrap().estimate).collect();
        assert!(values.is_sorted(), "{values:?}");
    }

    #[test]
    fn every_variant_meets_baseline_and_leader_on_every_column_with_data() {
        let comparison = sample(&["a", "b", "c"], 500, "expected_net_points");
        for (variant, reference) in [(1, 0), (2, 0), (0, 2), (1, 2)] {
            let contrast = |key| comparison.contrast(variant, reference, Column::named(key).unwrap());
            let ranking = contrast("expected_net_points").unwrap();
            assert_eq!(ranking.p_holm.is_some(), reference == 0, "Holm is for the baseline only");
            assert_eq!(ranking.p_bh.is_some(), reference == 0, "and so is Benjamini-Hochberg");
            let together = ranking.together.unwrap();
            let alone = ranking.difference.interval;
            assert!(together.low <= alone.low && alone.high <= together.high);
            let other = contrast("three_point_share").unwrap();
            assert!(other.p_holm.is_none() && other.p_bh.is_none() && other.together.is_none());
            assert!(contrast("lob_completion").is_none(), "the stub throws no lobs");
        }
        let claims = comparison.claims.as_ref().unwrap();
        assert!(claims.is_settled() && claims.chance_of_being_best[2] > 0.99);
    }

    #[test]
    fn one_variant_or_no_data_makes_no_claim() {
        assert_eq!(sample(&["a"], 50, "expected_net_points").claims, None);
        let comparison = sample(&["a", "b"], 50, "lob_completion");
        assert_eq!((comparison.claims, comparison.order), (None, vec![0, 1]));
    }

    #[test]
    fn equals_keep_plan_order() {
        let comparison = sample(&["a", "b", "c"], 50, "drives");
        assert_eq!(comparison.order, [0, 1, 2]);
        let claims = comparison.claims.unwrap();
        assert_eq!((claims.leaders.len(), claims.possessions_needed), (3, None));
    }
}
