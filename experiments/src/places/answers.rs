//! `answers.csv`: what each post help rule of the zone changes, and for whom.
//!
//! The variants are played again under every rule their zone knows, on the same possessions, so that variants and
//! rules are compared by pairs. Two families of claims, each right together 19 times in 20: how far each variant is
//! ahead of the baseline under a rule, with whether it gains or loses there ([`super::claims`]); and how each variant
//! does under a rule against how it does under the rule in force, by the same kind of test.

use scenarios::Answer;
use serde::{Deserialize, Serialize};

use super::calls::{CallRow, call_rows};
use super::claims::{Claim, Field, Lead, Verdict, claims, leads};
use super::names::ATTACKERS;
use super::reads::{NONE, Read, reads};
use crate::columns::{CONFIDENCE, Column};
use crate::output::{Decimal, FileLine};
use crate::run::Played;
use crate::stats::normal::two_sided_z;
use crate::stats::{Better, Difference, Interval, Totals};

/// Possessions of each variant under each rule, at most.
pub const MOST_POSSESSIONS: u64 = 4096;
/// The same where only options differ: what an answer changes is then what is asked.
pub const MOST_OF_OPTIONS: u64 = 8192;

/// Measured beside the ranking measure: what the coach's sheet ranks by, and what routes and options are run for.
const BESIDE: [&str; 2] = ["expected_net_points", "good_look_rate"];

/// One measure of a variant under a rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Its value; None without data.
    pub value: Option<Interval>,
    /// This rule less the rule in force, right together with all of them; None for the rule in force itself.
    pub change: Option<Claim>,
    /// Lead over the baseline here, and against that under the other rules.
    pub lead: Lead,
}

/// One variant under one rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The variant.
    pub variant: String,
    /// The post help rule.
    pub rule: String,
    /// It is the scenario's own.
    pub in_force: bool,
    /// By column of the table.
    pub measured: Vec<Measured>,
    /// Good looks by position.
    pub good: [i64; 5],
    /// The read that made most of the open looks; None without one.
    pub read: Option<Read>,
    /// The route or option that made most of them, where that was none of them.
    pub named: Option<Read>,
}

/// All answers of a comparison.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswersTable {
    /// The ranking measure, and net points and open looks if they are others.
    pub columns: Vec<&'static Column>,
    /// Name of the variant whose lead is meant.
    pub baseline: String,
    /// Possessions of each row.
    pub possessions: u64,
    /// Leads and changes of leads together: the family of who is ahead and who gains.
    pub family: usize,
    /// Comparisons with the rule in force: the other family.
    pub changes: usize,
    /// Rows, by variant and rule.
    pub rows: Vec<Answered>,
    /// Which variant to run against each rule.
    pub calls: Vec<CallRow>,
}

impl AnswersTable {
    /// From a run of the answers in order.
    pub fn new(answers: &[Answer], played: &Played, column: &'static Column, field: Field<'_>) -> Self {
        let totals = &played.totals;
        let beside = BESIDE.iter().filter_map(|key| Column::named(key)).filter(|own| own.key != column.key);
        let columns: Vec<&'static Column> = std::iter::once(column).chain(beside).collect();
        let (leads, family) = leads(answers, totals, &columns, field);
        let (changes, compared) = changes(answers, totals, &columns);
        let z = two_sided_z(CONFIDENCE);
        let measured = |nth: usize, place: usize| Measured {
            value: columns[place].interval(totals, nth, z),
            change: changes[place][nth],
            lead: leads[place][nth],
        };
        let row = |(nth, answer): (usize, &Answer)| {
            let mut reads = reads(&played.places[nth], &answer.setup).into_iter();
            let read = reads.next();
            let none_leads = read.as_ref().is_some_and(|read| read.kind == NONE);
            Answered {
                variant: answer.variant.clone(),
                rule: answer.rule.clone(),
                in_force: answer.in_force,
                measured: (0..columns.len()).map(|place| measured(nth, place)).collect(),
                good: played.places[nth].good_looks(),
                read,
                named: reads.next().filter(|_| none_leads),
            }
        };
        Self {
            baseline: field.baseline.to_owned(),
            possessions: totals.possessions(),
            family,
            changes: compared,
            rows: answers.iter().enumerate().map(row).collect(),
            calls: call_rows(answers, totals, field.compared),
            columns,
        }
    }

    /// The rules in the order of the table, the one in force first.
    pub fn rules(&self) -> Vec<&str> {
        let mut rules: Vec<&str> = Vec::new();
        for row in self.rows.iter().filter(|row| row.in_force).chain(&self.rows) {
            if !rules.contains(&row.rule.as_str()) {
                rules.push(&row.rule);
            }
        }
        rules
    }
}

/// Each rule less the rule in force, `[column][answer]`, and how many there are.
fn changes(answers: &[Answer], totals: &Totals, columns: &[&Column]) -> (Vec<Vec<Option<Claim>>>, usize) {
    let usual = |nth: usize| {
        let own = |other: &Answer| other.in_force && other.variant == answers[nth].variant;
        answers.iter().position(own).filter(|&usual| usual != nth)
    };
    let family = columns.len() * (0..answers.len()).filter(|&nth| usual(nth).is_some()).count();
    let z = two_sided_z(1.0 - (1.0 - CONFIDENCE) / family.max(1) as f64);
    let of = |column: &&Column| -> Vec<Option<Difference>> {
        (0..answers.len()).map(|nth| column.difference(totals, nth, usual(nth)?, z)).collect()
    };
    let all: Vec<Option<Difference>> = columns.iter().flat_map(of).collect();
    let mut all = claims(all, family).into_iter();
    (columns.iter().map(|_| all.by_ref().take(answers.len()).collect()).collect(), family)
}

/// Where a variant's lead over the baseline stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Stands {
    Ahead,
    Behind,
}

/// What a rule does to a variant's lead over the baseline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Change {
    Gains,
    Loses,
}

/// One row of `answers.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct AnswerLine {
    pub variant: String,
    pub post_help_rule: String,
    pub in_force: bool,
    pub possessions: u64,
    pub measure: String,
    pub value: Decimal,
    pub value_low: Decimal,
    pub value_high: Decimal,
    pub difference: Decimal,
    pub difference_together_low: Decimal,
    pub difference_together_high: Decimal,
    pub difference_p: Decimal,
    pub difference_p_holm: Decimal,
    pub advantage: Decimal,
    pub advantage_together_low: Decimal,
    pub advantage_together_high: Decimal,
    pub advantage_p: Decimal,
    pub advantage_p_holm: Decimal,
    pub stands: Option<Stands>,
    pub interaction: Decimal,
    pub interaction_together_low: Decimal,
    pub interaction_together_high: Decimal,
    pub interaction_p: Decimal,
    pub interaction_p_holm: Decimal,
    pub verdict: Option<Change>,
    pub open_looks: i64,
    pub read: String,
    pub read_kind: String,
    pub read_share: Decimal,
    pub taken_by: String,
    pub taken_by_share: Decimal,
    /// Empty in the rows of a result that was made before there was any, as the next.
    #[serde(default)]
    pub good_taken_by: String,
    #[serde(default)]
    pub good_taken_share: Decimal,
    pub next_read: String,
    pub next_read_kind: String,
    pub next_read_share: Decimal,
}

impl FileLine for AnswerLine {
    const FILE: &'static str = "answers.csv";
}

/// One row for each variant, rule and measure.
pub(crate) fn answer_lines(table: &AnswersTable) -> impl Iterator<Item = AnswerLine> {
    table.rows.iter().flat_map(move |row| {
        table.columns.iter().zip(&row.measured).map(move |(column, measured)| {
            let mut line = line(table.possessions, row);
            line.measure = column.key.to_owned();
            line.measured(column.better, measured);
            line
        })
    })
}

/// What all rows of one variant under one rule have alike.
fn line(possessions: u64, row: &Answered) -> AnswerLine {
    let mut line = AnswerLine {
        variant: row.variant.clone(),
        post_help_rule: row.rule.clone(),
        in_force: row.in_force,
        possessions,
        ..AnswerLine::default()
    };
    let share = |part: i64, whole: i64| Decimal::from(part as f64 / whole as f64);
    let good: i64 = row.good.iter().sum();
    if good > 0 {
        let most = (1..5).fold(0, |best, role| if row.good[role] > row.good[best] { role } else { best });
        line.good_taken_by = ATTACKERS[most].into();
        line.good_taken_share = share(row.good[most], good);
    }
    if let Some(read) = &row.read {
        line.open_looks = read.looks;
        (line.read, line.read_kind) = (read.name.clone(), read.kind.into());
        line.read_share = share(read.own, read.looks);
        line.taken_by = read.shooter.into();
        line.taken_by_share = share(read.by_shooter, read.own);
    }
    if let Some(read) = &row.named {
        (line.next_read, line.next_read_kind) = (read.name.clone(), read.kind.into());
        line.next_read_share = share(read.own, read.looks);
    }
    line
}

impl AnswerLine {
    fn measured(&mut self, better: Better, measured: &Measured) {
        [self.value, self.value_low, self.value_high] = Decimal::of(measured.value);
        let claim = measured.change;
        [self.difference, self.difference_together_low, self.difference_together_high] = together(claim);
        [self.difference_p, self.difference_p_holm] = chances(claim);
        let claim = measured.lead.advantage;
        [self.advantage, self.advantage_together_low, self.advantage_together_high] = together(claim);
        [self.advantage_p, self.advantage_p_holm] = chances(claim);
        self.stands = one_of(claim, better, [Stands::Ahead, Stands::Behind]);
        let claim = measured.lead.interaction;
        [self.interaction, self.interaction_together_low, self.interaction_together_high] = together(claim);
        [self.interaction_p, self.interaction_p_holm] = chances(claim);
        self.verdict = one_of(claim, better, [Change::Gains, Change::Loses]);
    }
}

fn together(claim: Option<Claim>) -> [Decimal; 3] {
    Decimal::of(claim.map(|claim| claim.contrast.interval))
}

fn chances(claim: Option<Claim>) -> [Decimal; 2] {
    [claim.map(|claim| claim.contrast.p), claim.map(|claim| claim.p_holm)].map(Decimal)
}

fn one_of<T>(claim: Option<Claim>, better: Better, [up, down]: [T; 2]) -> Option<T> {
    Some(match claim?.verdict(better)? {
        Verdict::Up => up,
        Verdict::Down => down,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::columns::ratios;
    use crate::run::{Plan, run};
    use crate::stub::{Stub, Unwatched};

    /// Three rules of two variants; the stub's runs get better one by one.
    fn table(possessions: u64, column: &str) -> AnswersTable {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let rules = ["first", "second", "third"];
        let answer = |(variant, rule): (&str, &str)| Answer {
            variant: variant.into(),
            rule: rule.into(),
            line: format!("they play {rule}"),
            in_force: rule == "second",
            setup: setup.clone(),
        };
        let answers: Vec<Answer> =
            ["a", "b"].iter().flat_map(|variant| rules.map(|rule| (*variant, rule))).map(answer).collect();
        let ratios = ratios();
        let plan = Plan {
            variants: (0..6).map(|nth| nth.to_string()).collect(),
            possessions: 0..possessions,
            batch: None,
            threads: 1,
            ratios: &ratios,
        };
        let played = run(&plan, &Stub::new(1), &Unwatched).unwrap();
        let field = Field { baseline: "a", compared: 2 };
        AnswersTable::new(&answers, &played, Column::named(column).unwrap(), field)
    }

    #[test]
    fn a_rule_is_told_from_the_one_in_force_only_if_the_corrected_test_parts_them() {
        let verdicts = |table: &AnswersTable| -> Vec<Option<Verdict>> {
            let of = |row: &Answered| row.measured[0].change?.verdict(table.columns[0].better);
            table.rows.iter().map(of).collect()
        };
        let clear = table(4000, "expected_net_points");
        let (up, down) = (Some(Verdict::Up), Some(Verdict::Down));
        assert_eq!((clear.columns.len(), clear.changes, clear.family), (2, 8, 12), "open looks beside it");
        assert_eq!(verdicts(&clear), [down, None, up, down, None, up]);
        assert!(clear.rows[1].measured[0].change.is_none() && clear.rows[0].measured[0].change.is_some());
        assert_eq!(verdicts(&table(100, "turnover_rate")), [None; 6], "too few possessions to part them");
        let drives = table(100, "drives");
        assert_eq!((drives.columns.len(), drives.changes, drives.family), (3, 12, 18), "both beside it");
        assert_eq!(verdicts(&drives), [None; 6]);
        assert_eq!(clear.rules(), ["second", "first", "third"]);
    }

    #[test]
    fn a_lead_that_is_the_same_under_every_rule_is_ahead_and_gains_nowhere() {
        let table = table(4000, "expected_net_points");
        let net = |line: &AnswerLine| line.measure == "expected_net_points";
        let told: Vec<_> =
            answer_lines(&table).filter(net).map(|line| (line.variant, line.stands, line.verdict)).collect();
        let rows = |variant: &str, stands| vec![(variant.to_owned(), stands, None); 3];
        assert_eq!(told, [rows("a", None), rows("b", Some(Stands::Ahead))].concat());
    }
}
