//! `answers.csv`: what each post help rule of the zone changes, for the leaders, the baseline and the two best by
//! net points.
//!
//! The variants are played again under every rule their zone knows, on the same possessions, so that each rule is
//! compared with the others by pairs. The family for the corrected claims is every pair of rules of every variant of
//! the table, k in all, on the ranking measure: Holm's p, and intervals at 1 - 0.05 / k each, which hold together
//! by Bonferroni's inequality. A variant gains most against a rule if it does better against it than against every
//! other one by those intervals.

use engine::Places;
use engine::setup::{ProgramKind, Setup};
use scenarios::Answer;

use super::names::ATTACKERS;
use crate::columns::{CONFIDENCE, Column};
use crate::output::{cell, written};
use crate::run::Played;
use crate::stats::normal::two_sided_z;
use crate::stats::{Better, Difference, Interval, holm};

/// Possessions of each variant under each rule, at most.
pub const MOST_POSSESSIONS: u64 = 4096;

/// The read that made most of the open looks, and who took them.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// Open looks taken, all reads together.
    pub looks: i64,
    /// Name of the route or option; `none` where no read made the look.
    pub name: String,
    /// `route`, `post option`, `guard option` or `none`.
    pub kind: &'static str,
    /// Its looks.
    pub own: i64,
    /// The role that took most of its looks.
    pub shooter: &'static str,
    /// How many of them.
    pub by_shooter: i64,
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
    /// The ranking measure; None without data.
    pub value: Option<Interval>,
    /// Expected net points.
    pub net: Option<Interval>,
    /// This rule less the rule in force on the ranking measure, with the interval that holds for the whole
    /// table; None for the rule in force itself.
    pub difference: Option<Difference>,
    /// Holm's p over the table.
    pub p_holm: Option<f64>,
    /// The variant does better against this rule than against each of the others, by intervals that hold for the
    /// whole table.
    pub gains_most: bool,
    /// The read that made most of the open looks; None without one.
    pub read: Option<Read>,
    /// The route or option that made most of them, where that was none of them.
    pub named: Option<Read>,
}

/// All answers of a comparison.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswersTable {
    /// Ranking measure.
    pub column: &'static Column,
    /// Possessions of each row.
    pub possessions: u64,
    /// Pairs of rules compared: the family of the corrected claims.
    pub pairs: usize,
    /// Rows, by variant and rule.
    pub rows: Vec<Answered>,
}

impl AnswersTable {
    /// From a run of the answers in order.
    pub fn new(answers: &[Answer], played: &Played, column: &'static Column) -> Self {
        let totals = &played.totals;
        let z = two_sided_z(CONFIDENCE);
        // A pair as (rule, rule): the second is the one in force where one of them is.
        let all = (0..answers.len()).flat_map(|a| (0..answers.len()).map(move |b| (a, b)));
        let pairs: Vec<(usize, usize)> = all
            .filter(|&(a, b)| answers[a].variant == answers[b].variant && !answers[a].in_force)
            .filter(|&(a, b)| answers[b].in_force || a < b)
            .collect();
        let together = two_sided_z(1.0 - (1.0 - CONFIDENCE) / pairs.len().max(1) as f64);
        let compared: Vec<(usize, usize, Difference)> = pairs
            .iter()
            .filter_map(|&(a, b)| Some((a, b, column.difference(totals, a, b, together)?)))
            .collect();
        let raw: Vec<f64> = compared.iter().map(|(_, _, difference)| difference.p).collect();
        let corrected = holm(&raw);
        let sign = if column.better == Better::Higher { 1.0 } else { -1.0 };
        let ahead = |of: usize, against: usize| {
            compared.iter().any(|(a, b, difference)| {
                let interval = &difference.interval;
                let (low, high) = (sign * interval.low, sign * interval.high);
                ((*a, *b) == (of, against) && low.min(high) > 0.0)
                    || ((*b, *a) == (of, against) && low.max(high) < 0.0)
            })
        };
        let gains_most = |nth: usize| {
            let mut rivals = (0..answers.len())
                .filter(|&other| other != nth && answers[other].variant == answers[nth].variant)
                .peekable();
            rivals.peek().is_some() && rivals.all(|other| ahead(nth, other))
        };
        let net = Column::named("expected_net_points");
        let row = |(nth, answer): (usize, &Answer)| {
            let place = compared.iter().position(|(a, b, _)| *a == nth && answers[*b].in_force);
            let mut reads = reads(&played.places[nth], &answer.setup).into_iter();
            let read = reads.next();
            let none_leads = read.as_ref().is_some_and(|read| read.kind == NONE);
            Answered {
                variant: answer.variant.clone(),
                rule: answer.rule.clone(),
                in_force: answer.in_force,
                value: column.interval(totals, nth, z),
                net: net.and_then(|net| net.interval(totals, nth, z)),
                difference: place.map(|place| compared[place].2),
                p_holm: place.map(|place| corrected[place]),
                gains_most: gains_most(nth),
                read,
                named: reads.next().filter(|_| none_leads),
            }
        };
        let rows = answers.iter().enumerate().map(row).collect();
        Self { column, possessions: totals.possessions(), pairs: pairs.len(), rows }
    }
}

/// Kind and name of no read.
const NONE: &str = "none";

/// The reads that made open looks, most first, equals in the order of the programs. A route's or an option's file
/// may hold several programs; they are one read.
fn reads(places: &Places, setup: &Setup) -> Vec<Read> {
    let programs = &setup.attack.programs;
    let mut by_name: Vec<(&str, &'static str, [i64; 5])> = Vec::new();
    for read in (0..programs.len()).map(Some).chain([None]) {
        let (name, kind) =
            read.map_or((NONE, NONE), |read| (programs[read].name.as_str(), kind_name(programs[read].kind)));
        let looks = places.looks(read);
        match by_name.iter_mut().find(|other| (other.0, other.1) == (name, kind)) {
            Some(other) => other.2.iter_mut().zip(looks).for_each(|(n, more)| *n += more),
            None => by_name.push((name, kind, looks)),
        }
    }
    let looks = by_name.iter().map(|read| read.2.iter().sum::<i64>()).sum();
    let read = |(name, kind, by): (&str, &'static str, [i64; 5])| {
        let shooter = (1..5).fold(0, |best, role| if by[role] > by[best] { role } else { best });
        let (own, by_shooter) = (by.iter().sum(), by[shooter]);
        Read { looks, name: name.to_owned(), kind, own, shooter: ATTACKERS[shooter], by_shooter }
    };
    let mut reads: Vec<Read> = by_name.into_iter().map(read).filter(|read| read.own > 0).collect();
    reads.sort_by_key(|read| -read.own);
    reads
}

const fn kind_name(kind: ProgramKind) -> &'static str {
    match kind {
        ProgramKind::Route => "route",
        ProgramKind::PostOption => "post option",
        ProgramKind::GuardOption => "guard option",
        ProgramKind::Set => "set",
    }
}

/// One row for each variant and rule.
pub fn answers_csv(table: &AnswersTable) -> Vec<u8> {
    let header = [
        "variant",
        "post_help_rule",
        "in_force",
        "possessions",
        "measure",
        "value",
        "value_low",
        "value_high",
        "expected_net_points",
        "expected_net_points_low",
        "expected_net_points_high",
        "difference",
        "difference_together_low",
        "difference_together_high",
        "p_value",
        "p_holm",
        "gains_most",
        "open_looks",
        "read",
        "read_kind",
        "read_share",
        "taken_by",
        "taken_by_share",
        "next_read",
        "next_read_kind",
        "next_read_share",
    ];
    let rows = table.rows.iter().map(|row| {
        let mut cells = vec![
            row.variant.clone(),
            row.rule.clone(),
            row.in_force.to_string(),
            table.possessions.to_string(),
            table.column.key.to_owned(),
        ];
        let difference = row.difference.map(|difference| difference.interval);
        for interval in [row.value, row.net, difference] {
            cells.extend([
                cell(interval.map(|interval| interval.estimate)),
                cell(interval.map(|interval| interval.low)),
                cell(interval.map(|interval| interval.high)),
            ]);
        }
        cells.extend([
            cell(row.difference.map(|difference| difference.p)),
            cell(row.p_holm),
            row.gains_most.to_string(),
        ]);
        match &row.read {
            Some(read) => cells.extend([
                read.looks.to_string(),
                read.name.clone(),
                read.kind.into(),
                cell(Some(read.own as f64 / read.looks as f64)),
                read.shooter.into(),
                cell(Some(read.by_shooter as f64 / read.own as f64)),
            ]),
            None => cells.extend(["0", "", "", "", "", ""].map(String::from)),
        }
        match &row.named {
            Some(read) => cells.extend([
                read.name.clone(),
                read.kind.into(),
                cell(Some(read.own as f64 / read.looks as f64)),
            ]),
            None => cells.extend(["", "", ""].map(String::from)),
        }
        cells
    });
    written(header.map(String::from).to_vec(), rows)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::columns::ratios;
    use crate::run::{Plan, run};
    use crate::stub::{Stub, Unwatched};

    /// Three rules of one variant; the stub's runs get better one by one.
    fn table(possessions: u64, column: &str) -> AnswersTable {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let rules = ["first", "second", "third"];
        let answer = |rule: &&str| Answer {
            variant: "a".into(),
            rule: (*rule).into(),
            in_force: *rule == "second",
            setup: setup.clone(),
        };
        let answers: Vec<Answer> = rules.iter().map(answer).collect();
        let ratios = ratios();
        let plan = Plan {
            variants: rules.map(String::from).to_vec(),
            possessions: 0..possessions,
            batch: None,
            threads: 1,
            ratios: &ratios,
        };
        let played = run(&plan, &Stub::new(1), &Unwatched).unwrap();
        AnswersTable::new(&answers, &played, Column::named(column).unwrap())
    }

    #[test]
    fn a_rule_is_named_only_if_the_corrected_intervals_part_it_from_all_others() {
        let most = |table: &AnswersTable| table.rows.iter().map(|row| row.gains_most).collect::<Vec<_>>();
        let clear = table(4000, "expected_net_points");
        assert_eq!((clear.pairs, most(&clear)), (3, vec![false, false, true]));
        assert!(clear.rows[1].difference.is_none() && clear.rows[0].difference.is_some());
        let unclear = table(100, "turnover_rate");
        assert_eq!(most(&unclear), [false, false, false], "too few possessions to part them");
        let equal = table(100, "drives");
        assert_eq!(most(&equal), [false, false, false]);
    }
}
