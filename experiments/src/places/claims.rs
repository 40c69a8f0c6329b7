//! Which variant gains and which loses under each post help rule, by its lead over the baseline.
//!
//! A variant's *advantage* under a rule is its value less the baseline's under that same rule. The *interaction* is that
//! advantage less the mean of its advantages under the other rules: what this rule does to this variant beyond what
//! it does to all of them. Both are contrasts over the same possessions of all variants and rules.
//!
//! The family is every advantage and every interaction of every variant of the comparison but the baseline, under every
//! rule and on every measure of the table, k in all; also of variants that were not played again, as the same
//! possessions decide which ones are. Intervals at 1 - 0.05 / k each hold together by Bonferroni's inequality; Holm's p
//! is over the same k. Something is claimed where such an interval leaves 0 out and Holm's p is below 0.05.

use scenarios::Answer;

use crate::columns::Column;
use crate::stats::normal::two_sided_z;
use crate::stats::{Better, Difference, Totals, Weights, holm};

/// Chance of any false claim in a family.
const ERROR: f64 = 0.05;

/// A contrast with what holds for the whole family.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Claim {
    /// The contrast; its interval holds together with all others of the family.
    pub contrast: Difference,
    /// Holm's p over the family.
    pub p_holm: f64,
}

/// What a claim says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Good for the attack.
    Up,
    /// Bad for it.
    Down,
}

/// What is known of one variant under one rule on one measure.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Lead {
    /// Over the baseline under the same rule; None for the baseline and without data.
    pub advantage: Option<Claim>,
    /// This advantage less the mean of those under the other rules; None with one rule.
    pub interaction: Option<Claim>,
}

impl Claim {
    /// Which way it goes for the attack, if it is claimed at all.
    pub fn verdict(&self, better: Better) -> Option<Verdict> {
        let claimed = !self.contrast.interval.contains(0.0) && self.p_holm < ERROR;
        let up = (self.contrast.interval.estimate > 0.0) == (better == Better::Higher);
        claimed.then_some(if up { Verdict::Up } else { Verdict::Down })
    }
}

/// Whom the variants are compared with, and how many were.
#[derive(Clone, Copy, Debug)]
pub struct Field<'a> {
    /// Name of the baseline.
    pub baseline: &'a str,
    /// Variants of the comparison, also those that were not played again.
    pub compared: usize,
}

/// The leads of all answers, `[column][answer]`, and the size of the family.
pub fn leads(
    answers: &[Answer],
    totals: &Totals,
    columns: &[&Column],
    field: Field<'_>,
) -> (Vec<Vec<Lead>>, usize) {
    // For each answer the baseline's under the same rule.
    let rivals: Vec<Option<usize>> = answers
        .iter()
        .map(|own| {
            let rival = |other: &Answer| other.variant == field.baseline && other.rule == own.rule;
            answers.iter().position(rival).filter(|_| own.variant != field.baseline)
        })
        .collect();
    let mut rules: Vec<&str> = answers.iter().map(|answer| answer.rule.as_str()).collect();
    rules.sort_unstable();
    rules.dedup();
    // With one rule there is nothing to interact with.
    let kinds = if rules.len() > 1 { 2 } else { 1 };
    let family = kinds * field.compared.saturating_sub(1) * rules.len() * columns.len();
    let z = two_sided_z(1.0 - ERROR / family.max(1) as f64);
    let contrasts = |weights: &dyn Fn(usize) -> Option<Weights>| -> Vec<Option<Difference>> {
        let of = |column: &&Column| -> Vec<Option<Difference>> {
            (0..answers.len()).map(|nth| column.contrast(totals, &weights(nth)?, z)).collect()
        };
        columns.iter().flat_map(of).collect()
    };
    let mut both = contrasts(&|nth| advantage(nth, &rivals));
    both.extend(contrasts(&|nth| interaction(nth, answers, &rivals)));
    let both = claims(both, family);
    let (advantages, interactions) = both.split_at(both.len() / 2);
    let all: Vec<Lead> = advantages
        .iter()
        .zip(interactions)
        .map(|(&advantage, &interaction)| Lead { advantage, interaction })
        .collect();
    (all.chunks(answers.len().max(1)).map(<[Lead]>::to_vec).collect(), family)
}

/// Contrasts with Holm's p over their family. What was not played cannot be claimed: its p is 1.
pub(super) fn claims(contrasts: Vec<Option<Difference>>, family: usize) -> Vec<Option<Claim>> {
    let mut raw: Vec<f64> = contrasts.iter().flatten().map(|contrast| contrast.p).collect();
    raw.resize(family.max(raw.len()), 1.0);
    let mut corrected = holm(&raw).into_iter();
    let claim = |contrast: Option<Difference>| {
        contrast.and_then(|contrast| Some(Claim { contrast, p_holm: corrected.next()? }))
    };
    contrasts.into_iter().map(claim).collect()
}

fn advantage(nth: usize, rivals: &[Option<usize>]) -> Option<Weights> {
    Some(Weights::new(vec![(nth, 1), (rivals[nth]?, -1)], 1))
}

fn interaction(nth: usize, answers: &[Answer], rivals: &[Option<usize>]) -> Option<Weights> {
    let own = rivals[nth]?;
    let elsewhere = (0..answers.len())
        .filter(|&other| other != nth && answers[other].variant == answers[nth].variant)
        .filter_map(|other| Some((other, rivals[other]?)));
    let mut terms: Vec<(usize, i64)> =
        elsewhere.flat_map(|(other, rival)| [(other, -1), (rival, 1)]).collect();
    let others = terms.len() as i64 / 2;
    terms.extend([(nth, others), (own, -others)]);
    (others > 0).then(|| Weights::new(terms, others))
}

#[cfg(test)]
mod tests {
    use super::super::made_up::{FIELD, answers, totals};
    use super::*;
    use crate::columns::ratios;
    use crate::row;
    use engine::Measure;

    /// Stands and verdict by answer.
    fn verdicts(percent: [u64; 9], possessions: u64) -> Vec<[Option<Verdict>; 2]> {
        let column = Column::named("open_look_rate").unwrap();
        let (leads, family) = leads(&answers(), &totals(percent, possessions), &[column], FIELD);
        assert_eq!(family, 12, "two variants under three rules, twice");
        let verdict = |claim: Option<Claim>| claim.and_then(|claim| claim.verdict(column.better));
        leads[0].iter().map(|lead| [verdict(lead.advantage), verdict(lead.interaction)]).collect()
    }

    /// The second variant leads by 15 of 100 under the second rule and by nothing under the others.
    const ONE_GAINS: [u64; 9] = [30, 40, 50, 30, 55, 50, 30, 40, 50];

    #[test]
    fn a_variant_that_gains_under_one_rule_is_claimed_there_and_loses_elsewhere() {
        let (up, down) = (Some(Verdict::Up), Some(Verdict::Down));
        let got = verdicts(ONE_GAINS, 4000);
        assert_eq!(got[4], [up, up], "{got:?}");
        assert_eq!(
            [got[3], got[5]],
            [[None, down]; 2],
            "its leads elsewhere are below the mean of the others"
        );
        assert!(got[..3].iter().chain(&got[6..]).flatten().all(Option::is_none), "{got:?}");
    }

    #[test]
    fn a_rule_that_moves_all_alike_and_a_lead_that_is_the_same_everywhere_are_no_gain() {
        let got = verdicts([30, 40, 50, 45, 55, 65, 30, 40, 50], 4000);
        assert!(got[3..6].iter().all(|own| *own == [Some(Verdict::Up), None]), "{got:?}");
        let equal = verdicts([40; 9], 4000);
        assert!(
            equal.iter().flatten().all(Option::is_none),
            "nothing differs, nothing is claimed: {equal:?}"
        );
    }

    #[test]
    fn fewer_of_what_is_bad_is_a_gain_and_doubt_in_either_test_none() {
        let column = Column::named("open_look_rate").unwrap();
        let weights = Weights::new(vec![(4, 1), (1, -1)], 1);
        let contrast = column.contrast(&totals(ONE_GAINS, 2000), &weights, 3.0).unwrap();
        let of = |p_holm, better| Claim { contrast, p_holm }.verdict(better);
        assert_eq!(of(0.01, Better::Higher), Some(Verdict::Up));
        assert_eq!(of(0.01, Better::Lower), Some(Verdict::Down));
        assert_eq!(of(0.05, Better::Higher), None);
        let wide = column.contrast(&totals(ONE_GAINS, 2000), &weights, 100.0).unwrap();
        assert_eq!(Claim { contrast: wide, p_holm: 0.01 }.verdict(Better::Higher), None);
    }

    #[test]
    fn those_that_were_not_played_again_count_in_the_family() {
        let column = Column::named("open_look_rate").unwrap();
        let totals = totals(ONE_GAINS, 500);
        let of = |compared| leads(&answers(), &totals, &[column], Field { compared, ..FIELD });
        let ((few, small), (many, large)) = (of(3), of(30));
        assert_eq!((small, large), (12, 174));
        let width = |leads: &[Vec<Lead>]| {
            let interval = leads[0][4].interaction.unwrap().contrast.interval;
            interval.high - interval.low
        };
        assert!(width(&many) > 1.2 * width(&few));
        let p = |leads: &[Vec<Lead>]| leads[0][4].interaction.unwrap().p_holm;
        assert!(p(&many) > 10.0 * p(&few));
    }

    #[test]
    fn tables_in_which_nothing_differs_seldom_claim_anything() {
        let column = Column::named("open_look_rate").unwrap();
        let all = answers();
        let mut random = crate::stats::Generator::new(77);
        let mut wrong = 0;
        for _ in 0..100 {
            let mut totals = Totals::new(9, row::WIDTH, &ratios());
            for _ in 0..300 {
                let shared = random.uniform();
                let mut row = vec![0; 9 * row::WIDTH];
                for run in 0..9 {
                    let draw = if random.uniform() < 0.5 { shared } else { random.uniform() };
                    row[run * row::WIDTH + Measure::OpenLookTaken as usize] = i64::from(draw < 0.4);
                }
                totals.add(&row);
            }
            let (leads, _) = leads(&all, &totals, &[column], FIELD);
            let claimed = |claim: Option<Claim>| claim.is_some_and(|c| c.verdict(column.better).is_some());
            wrong +=
                usize::from(leads[0].iter().any(|lead| claimed(lead.advantage) || claimed(lead.interaction)));
        }
        // Five expected at most; ten would be more than two standard errors above.
        assert!(wrong < 10, "{wrong} of 100 tables claim something");
    }
}
