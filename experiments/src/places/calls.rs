//! `calls.csv`: which attack does best in net points against each post help rule.
//!
//! All runs of the answers share their possessions, so that the variants are compared by pairs under each rule. The
//! family is every pair of all variants of the comparison under every rule, k in all, also of those that were not
//! played again: which ones were is decided by the same possessions. Intervals at 1 - 0.05 / k each hold together by
//! Bonferroni's inequality, whichever variant is best. Under the rule in force the comparison itself has more
//! possessions and is what counts.

use scenarios::Answer;
use serde::{Deserialize, Serialize};

use crate::columns::{CONFIDENCE, Column};
use crate::output::{Decimal, FileLine};
use crate::stats::normal::two_sided_z;
use crate::stats::{Interval, Totals};

/// One variant under one rule.
#[derive(Clone, Debug, PartialEq)]
pub struct CallRow {
    /// The post help rule.
    pub rule: String,
    /// What the zone does under it, in words.
    pub line: String,
    /// It is the scenario's own.
    pub in_force: bool,
    /// Place among the variants under this rule, from 1.
    pub rank: usize,
    /// The variant.
    pub variant: String,
    /// Expected net points.
    pub net: Option<Interval>,
    /// The best one less this one, with the interval that holds for the whole table; None for the best itself.
    pub lead: Option<Interval>,
}

/// The calls of a run of the answers, by rule, most net points first. `compared` variants were in the comparison.
pub fn call_rows(answers: &[Answer], totals: &Totals, compared: usize) -> Vec<CallRow> {
    let Some(column) = Column::named("expected_net_points") else { return Vec::new() };
    let z = two_sided_z(CONFIDENCE);
    let mut rules: Vec<(&str, Vec<usize>)> = Vec::new();
    for (nth, answer) in answers.iter().enumerate() {
        match rules.iter_mut().find(|(rule, _)| *rule == answer.rule) {
            Some((_, own)) => own.push(nth),
            None => rules.push((&answer.rule, vec![nth])),
        }
    }
    let pairs = rules.len() * compared * compared.saturating_sub(1) / 2;
    let together = two_sided_z(1.0 - (1.0 - CONFIDENCE) / pairs.max(1) as f64);
    let net = |nth: usize| column.interval(totals, nth, z);
    let mut rows = Vec::new();
    for (rule, mut own) in rules {
        let points = |nth: &usize| net(*nth).map_or(f64::NEG_INFINITY, |net| net.estimate);
        own.sort_by(|a, b| points(b).total_cmp(&points(a)));
        let best = own[0];
        rows.extend(own.iter().enumerate().map(|(place, &nth)| {
            let gap = column.difference(totals, best, nth, together).filter(|_| nth != best);
            CallRow {
                rule: rule.to_owned(),
                line: answers[nth].line.clone(),
                in_force: answers[nth].in_force,
                rank: place + 1,
                variant: answers[nth].variant.clone(),
                net: net(nth),
                lead: gap.map(|gap| gap.interval),
            }
        }));
    }
    rows
}

/// One row of `calls.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct CallLine {
    pub post_help_rule: String,
    /// What the zone does under it, as a clause: `the point drops to the low post`.
    pub rule_in_words: String,
    pub in_force: bool,
    pub rank: usize,
    pub variant: String,
    pub possessions: u64,
    pub expected_net_points: Decimal,
    pub expected_net_points_low: Decimal,
    pub expected_net_points_high: Decimal,
    pub lead: Decimal,
    pub lead_together_low: Decimal,
    pub lead_together_high: Decimal,
}

impl FileLine for CallLine {
    const FILE: &'static str = "calls.csv";
}

/// One row for each rule and variant.
pub(crate) fn call_lines(rows: &[CallRow], possessions: u64) -> impl Iterator<Item = CallLine> {
    rows.iter().map(move |row| {
        let [expected_net_points, expected_net_points_low, expected_net_points_high] = Decimal::of(row.net);
        let [lead, lead_together_low, lead_together_high] = Decimal::of(row.lead);
        CallLine {
            post_help_rule: row.rule.clone(),
            rule_in_words: row.line.clone(),
            in_force: row.in_force,
            rank: row.rank,
            variant: row.variant.clone(),
            possessions,
            expected_net_points,
            expected_net_points_low,
            expected_net_points_high,
            lead,
            lead_together_low,
            lead_together_high,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::columns::ratios;
    use crate::run::{Plan, run};
    use crate::stub::{Stub, Unwatched};

    #[test]
    fn under_each_rule_the_best_is_told_from_the_others_only_with_possessions_enough() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let answer = |variant: &str, rule: &str| Answer {
            variant: variant.into(),
            rule: rule.into(),
            line: format!("they play {rule}"),
            in_force: rule == "one",
            setup: setup.clone(),
        };
        let answers = [answer("a", "one"), answer("a", "two"), answer("b", "one"), answer("b", "two")];
        let ratios = ratios();
        let calls = |possessions: u64| {
            let variants = answers.iter().map(|a| format!("{}{}", a.variant, a.rule)).collect();
            let plan =
                Plan { variants, possessions: 0..possessions, batch: None, threads: 1, ratios: &ratios };
            call_rows(&answers, &run(&plan, &Stub::new(1), &Unwatched).unwrap().totals, 2)
        };
        let many = calls(4000);
        // The stub's runs get better one by one.
        let told: Vec<(&str, usize, &str)> =
            many.iter().map(|row| (row.rule.as_str(), row.rank, row.variant.as_str())).collect();
        assert_eq!(told, [("one", 1, "b"), ("one", 2, "a"), ("two", 1, "b"), ("two", 2, "a")]);
        let lead = |rows: &[CallRow]| rows[1].lead.unwrap();
        assert!(many[0].lead.is_none() && lead(&many).low > 0.0, "{many:?}");
        let few = lead(&calls(20));
        assert!(few.low.max(-few.high) < lead(&many).low, "fewer possessions say less: {few:?}");
    }
}
