//! How many possessions a question needs, from a pilot of it.
//!
//! A difference is shown where its interval, one that is safe for all comparisons with the baseline at once, leaves out
//! 0. So many possessions do that with the stated power, on the same possession numbers for both variants, or on draws of
//! their own. The deviation of one possession's difference is the pilot's; the difference is the pilot's, too, or one
//! that was named.

use crate::columns::CONFIDENCE;
use crate::compare::Question;
use crate::stats::{Against, Difference, Totals, possessions_needed, simultaneous};

/// What is to be shown, and how surely.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Chance (0-1) that so many possessions show it.
    pub power: f64,
    /// The difference to be shown, in the ranking column's unit; None: the one that each variant has in the pilot.
    pub difference: Option<f64>,
}

/// What a pilot says of a variant and the one it is compared with.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// The variant.
    pub variant: usize,
    /// Variant less baseline in the pilot; the interval holds for all variants together.
    pub found: Difference,
    /// How many times pairing cut the variance; None where nothing differs.
    pub variance_ratio: Option<f64>,
    /// Possessions of each that show the difference; None where there is none.
    pub paired: Option<u64>,
    /// The same without pairing.
    pub apart: Option<u64>,
}

/// One for each variant but the baseline, in plan order. None with one variant, below two possessions, or without data.
pub fn needs(question: &Question, totals: &Totals, wanted: Wanted) -> Option<Vec<Need>> {
    if question.variants.len() < 2 {
        return None;
    }
    let joint = question.rank_by.joint(totals)?;
    let family = simultaneous(&joint, Against::Baseline(question.baseline), CONFIDENCE, &[]);
    let need = |variant, found: Difference| {
        let variance_ratio = question.rank_by.variance_ratio(totals, variant, question.baseline);
        let difference = wanted.difference.unwrap_or(found.interval.estimate);
        let needed = |ratio: f64| {
            possessions_needed(difference, found.deviation * ratio.sqrt(), family.critical, wanted.power)
        };
        let (paired, apart) = (variance_ratio.and(needed(1.0)), variance_ratio.and_then(needed));
        Need { variant, found, variance_ratio, paired, apart }
    };
    Some(family.contrasts.iter().map(|contrast| need(contrast.variant, contrast.difference)).collect())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::columns::{Column, ratios};
    use crate::compare::Comparison;
    use crate::run::{Plan, run};
    use crate::stub::{Stub, Unwatched};
    use crate::verdict::Differ;

    /// A question about made-up records, and their totals.
    pub(crate) fn pilot(variants: &[&str], possessions: u64, rank_by: &str) -> (Question, Totals) {
        let ratios = ratios();
        let variants: Vec<String> = variants.iter().map(ToString::to_string).collect();
        let plan = Plan {
            variants: variants.clone(),
            possessions: 0..possessions,
            batch: None,
            threads: 1,
            ratios: &ratios,
        };
        let totals = run(&plan, &Stub::new(1), &Unwatched).unwrap().totals;
        let (text, rank_by) = (String::from("Which is best?"), Column::named(rank_by).unwrap());
        {
            let layout = crate::layout::Layout::default();
            (
                Question {
                    text,
                    variants,
                    noun: "route",
                    differ: Differ::Choices,
                    baseline: 0,
                    rank_by,
                    layout,
                },
                totals,
            )
        }
    }

    const FOUND: Wanted = Wanted { power: 0.8, difference: None };

    #[test]
    fn the_pilots_own_numbers_are_those_of_a_comparison() {
        let (question, totals) = pilot(&["a", "b", "c"], 400, "expected_net_points");
        let needs = needs(&question, &totals, FOUND).unwrap();
        let comparison = Comparison::new(question.clone(), &totals);
        assert_eq!(needs.iter().map(|need| need.variant).collect::<Vec<_>>(), [1, 2]);
        for need in &needs {
            let same = comparison.contrast(need.variant, 0, question.rank_by).unwrap();
            assert_eq!(need.variance_ratio, same.variance_ratio);
            assert_eq!(
                Some(need.found.interval),
                comparison.claims.as_ref().unwrap().together(need.variant, 0)
            );
            let (paired, apart) = (need.paired.unwrap() as f64, need.apart.unwrap() as f64);
            assert!((apart / paired - need.variance_ratio.unwrap()).abs() < 0.2, "{paired} and {apart}");
        }
    }

    #[test]
    fn so_many_possessions_do_show_it() {
        const REPEATS: u64 = 200;
        let (question, totals) = pilot(&["a", "b"], 20_000, "expected_net_points");
        let need = &needs(&question, &totals, FOUND).unwrap()[0];
        let (n, ratios) = (need.paired.unwrap(), ratios());
        let shown = |nth: &u64| {
            let first = 100_000 + nth * n;
            let plan = Plan {
                variants: question.variants.clone(),
                possessions: first..first + n,
                batch: None,
                threads: 1,
                ratios: &ratios,
            };
            let totals = run(&plan, &Stub::new(1), &Unwatched).unwrap().totals;
            let again = &needs(&question, &totals, FOUND).unwrap()[0];
            !again.found.interval.contains(0.0)
        };
        let shown = (0..REPEATS).filter(shown).count();
        // Four standard errors of 0.8 in 200: 0.11.
        assert!((138..=182).contains(&shown), "{shown} of {REPEATS} with {n} possessions");
    }

    #[test]
    fn half_the_difference_takes_four_times_as_many_and_no_difference_takes_none() {
        let (question, totals) = pilot(&["a", "b"], 400, "expected_net_points");
        let of = |difference| needs(&question, &totals, Wanted { power: 0.9, difference }).unwrap().remove(0);
        let (whole, half) = (of(Some(0.02)).paired.unwrap(), of(Some(0.01)).paired.unwrap());
        assert!(whole > 10 && (half as f64 / whole as f64 - 4.0).abs() < 0.1, "{whole} and {half}");
        let (question, totals) = pilot(&["a", "b"], 400, "drives");
        let same =
            needs(&question, &totals, Wanted { power: 0.9, difference: Some(0.02) }).unwrap().remove(0);
        assert_eq!((same.paired, same.apart, same.variance_ratio), (None, None, None));
    }

    #[test]
    fn one_variant_and_a_column_without_data_say_nothing() {
        for (variants, column) in [(&["a"][..], "expected_net_points"), (&["a", "b"], "lob_completion")] {
            let (question, totals) = pilot(variants, 50, column);
            assert_eq!(needs(&question, &totals, FOUND), None);
        }
    }
}
