//! The answer in plain English: the verdict, then how far the leaders are from the one compared with, what they cost, and
//! what is too close to call.
//!
//! Nothing is computed here; every number is one of the comparison's or of the verdict's.

use crate::columns::Column;
use crate::compare::{Claims, Comparison, Contrasted};
use crate::stats::LARGEST_POSSESSIONS;
use crate::verdict::{Differ, Verdict};
use crate::wording::{about, grouped, listed, listed_gap};

/// What the winner may cost, or bring beside the ranking column.
pub(crate) const COSTS: [&str; 5] =
    ["open_look_rate", "turnover_rate", "break_points", "offensive_rebounds", "expected_net_points"];

/// More than this nobody plays to part two attacks. (assumed)
const PRACTICAL_POSSESSIONS: u64 = 1_000_000;

/// The answer, a paragraph an entry: first what is claimed.
pub fn sentences(comparison: &Comparison, verdict: &Verdict) -> Vec<String> {
    let mut all = verdict.choice();
    all.extend(verdict.claims());
    let column = comparison.question.rank_by;
    if comparison.figure(comparison.leader(), column).is_none() {
        all.insert(
            0,
            format!("There is nothing to rank by: no possession gave a figure for {}.", column.words),
        );
    }
    // Of what is met, not chosen, no one is advised, so none is priced.
    if verdict.differ == Differ::Choices {
        all.extend(verdict.runs());
        all.extend(is_compared_with(comparison));
        all.extend(verdict.sure());
        all.extend(leaders(comparison, verdict).into_iter().filter_map(|v| cost(comparison, v)));
        // What was chosen is settled, however little was measured of it.
        let is_told = |claims: &&Claims| claims.is_settled() || verdict.decided().is_none();
        if let Some(claims) = comparison.claims.as_ref().filter(is_told) {
            all.push(if claims.is_settled() { SETTLED.to_owned() } else { unsettled(comparison, claims) });
        }
        if comparison.claims.is_some() {
            all.push(judged_on(&comparison.question.variants[comparison.leader()], verdict));
        }
    }
    all.extend(faults(comparison));
    all
}

/// By which possessions the first is judged.
fn judged_on(leader: &str, verdict: &Verdict) -> String {
    match &verdict.selection {
        None => format!(
            "{leader} is measured on the very possessions that put it first, so its lead may look a little larger than it \
             is. A run with another --seed judges it afresh."
        ),
        Some(selection) if selection.ahead == leader => {
            format!("{leader} was put first by other possessions than those that measure it here.")
        }
        Some(selection) if selection.ahead.is_empty() => {
            format!(
                "Nobody was chosen beforehand: the possessions that put {leader} first also measure its lead."
            )
        }
        Some(selection) => format!(
            "The possessions that chose put {} ahead, those that measure put {leader} ahead: what is advised goes by the \
             choice, the figures are of what measures.",
            selection.ahead
        ),
    }
}

/// The leaders of a verdict by their places in the plan.
fn leaders(comparison: &Comparison, verdict: &Verdict) -> Vec<usize> {
    let place = |name: &&str| comparison.question.variants.iter().position(|own| own == name);
    verdict.leaders().iter().filter_map(place).collect()
}

/// Where the first is the one that the others are compared with.
fn is_compared_with(comparison: &Comparison) -> Option<String> {
    let question = &comparison.question;
    let leader = comparison.leader();
    let is_told = question.variants.len() > 1
        && leader == question.baseline
        && comparison.figure(leader, question.rank_by).is_some();
    is_told.then(|| {
        format!(
            "{} is the one we compare with, and no other {} came out ahead of it in {}.",
            question.variants[leader], question.noun, question.rank_by.words
        )
    })
}

/// What else changes with a leader, against the baseline.
fn cost(comparison: &Comparison, leader: usize) -> Option<String> {
    let question = &comparison.question;
    let columns: Vec<&Column> = COSTS
        .iter()
        .filter(|key| **key != question.rank_by.key)
        .filter_map(|key| Column::named(key))
        .collect();
    let contrasts: Vec<&Contrasted> =
        columns.iter().filter_map(|column| comparison.contrast(leader, question.baseline, column)).collect();
    if contrasts.is_empty() {
        return None;
    }
    let (unclear, clear): (Vec<&Contrasted>, Vec<&Contrasted>) =
        contrasts.into_iter().partition(|c| c.difference.interval.contains(0.0));
    let mut parts = Vec::new();
    if !clear.is_empty() {
        let told: Vec<String> = clear.iter().map(|c| listed_gap(c.column, &c.difference.interval)).collect();
        parts.push(format!("in 20 possessions {}", listed(&told)));
    }
    if !unclear.is_empty() {
        let told: Vec<&str> = unclear.iter().map(|c| c.column.words).collect();
        parts.push(format!("no clear change in {}", listed(&told)));
    }
    let (name, other) = (&question.variants[leader], &question.variants[question.baseline]);
    Some(format!(
        "What {name} costs, or adds, beside {other} (each interval by itself): {}.",
        parts.join("; ")
    ))
}

/// How sure the first place is where it is clear.
const SETTLED: &str = "That the first is clearly best is safe for all comparisons at once.";

/// What it would take to settle the first place.
fn unsettled(comparison: &Comparison, claims: &Claims) -> String {
    let question = &comparison.question;
    let (first, second) = (&question.variants[comparison.order[0]], &question.variants[comparison.order[1]]);
    match claims.possessions_needed {
        None => format!("{first} and {second} came out equal; more possessions may not part them."),
        Some(needed) if needed > LARGEST_POSSESSIONS => {
            format!("The gap between {first} and {second} is too small for any run to settle.")
        }
        Some(needed) if needed > PRACTICAL_POSSESSIONS => format!(
            "The gap between {first} and {second} is so small that no practical number of possessions would settle it (about \
             {} for each {}, if it is what it seems; this run had {}).",
            about(needed),
            question.noun,
            grouped(comparison.possessions)
        ),
        Some(needed) if needed > comparison.possessions => format!(
            "If the gap between {first} and {second} is what it seems, about {} possessions for each {} would settle \
             it, and more if it is smaller; this run had {}.",
            about(needed),
            question.noun,
            grouped(comparison.possessions)
        ),
        // The first two are apart; a later one, whose difference varies more, is not.
        Some(_) => {
            format!("More possessions than this run's {} are needed.", grouped(comparison.possessions))
        }
    }
}

fn faults(comparison: &Comparison) -> Option<String> {
    let column = Column::named("fault_rate")?;
    let faulty: Vec<&str> = (0..comparison.question.variants.len())
        .filter(|&v| comparison.figure(v, column).is_some_and(|figure| figure.estimate > 0.0))
        .map(|v| comparison.question.variants[v].as_str())
        .collect();
    (!faulty.is_empty()).then(|| {
        format!(
            "Some possessions of {} ended in a numerical fault: that is a bug in zoneprobe.",
            listed(&faulty)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::tests::judged;

    fn told(variants: &[&str], possessions: u64, rank_by: &str) -> String {
        let (comparison, verdict) = judged(variants, possessions, rank_by);
        sentences(&comparison, &verdict).join("\n")
    }

    #[test]
    fn a_settled_question_reads_so() {
        let text = told(&["hold-wing", "seam-cross", "seam-sit"], 4000, "expected_net_points");
        assert_eq!(text, READS_SETTLED, "\n{text}");
    }

    #[test]
    fn an_unsettled_question_whose_leaders_are_two_reads_so() {
        let text = told(&["hold-wing", "seam-cross", "seam-sit"], 300, "turnover_rate");
        assert_eq!(text, UNSETTLED, "\n{text}");
    }

    #[test]
    fn equal_variants_and_empty_columns_are_not_dressed_up() {
        let equal = told(&["a", "b"], 50, "drives");
        assert!(
            equal
                .contains("a is the one we compare with, and no other route came out ahead of it in drives."),
            "{equal}"
        );
        assert!(equal.contains("a and b came out equal"), "{equal}");
        let empty = told(&["a", "b"], 50, "lob_completion");
        assert!(
            empty.starts_with("There is nothing to rank by: no possession gave a figure for lobs caught."),
            "{empty}"
        );
        let alone = told(&["as-given"], 50, "expected_net_points");
        assert!(alone.starts_with("Expected net points: as-given, 1"), "{alone}");
        assert_eq!(alone.lines().count(), 1);
    }

    const READS_SETTLED: &str = "\
Best by expected net points: seam-sit, 19.4 in 20 possessions (95 % interval 19.3 to 19.4). Clearly best: ahead of every \
other route.
Run seam-sit.
seam-sit beside hold-wing, with which all are compared: 0.40 more expected net points in 20 possessions (0.38 to 0.43).
seam-sit beside the second, seam-cross: 0.19 more expected net points in 20 possessions (0.16 to 0.22).
What seam-sit costs, or adds, beside hold-wing (each interval by itself): in 20 possessions 0.9 more open looks taken (0.7 to \
1.1) and 2.8 more offensive rebounds (2.4 to 3.1); no clear change in turnovers and points conceded on the break.
That the first is clearly best is safe for all comparisons at once.
seam-sit is measured on the very possessions that put it first, so its lead may look a little larger than it is. \
A run with another --seed judges it afresh.";
    const UNSETTLED: &str = "\
Best by turnovers: hold-wing, 1.9 in 20 possessions (95 % interval 1.3 to 2.6). Too close to call with seam-sit and \
seam-cross.
Best by expected net points: seam-sit, 19.4 in 20 possessions (95 % interval 19.2 to 19.5). Clearly best: ahead of every \
other route.
The two winners side by side: seam-sit beside hold-wing has 0.1 more turnovers in 20 possessions (from 1.0 fewer to \
1.3 more), which could be luck; 0.44 more \
expected net points in 20 possessions (0.32 to 0.56).
Run seam-sit: by turnovers it is not clearly behind.
hold-wing is the one we compare with, and no other route came out ahead of it in turnovers.
hold-wing beside the second, seam-sit: 0.1 fewer turnovers in 20 possessions (from 1.3 fewer to 1.0 more), which could be \
luck.
What seam-sit costs, or adds, beside hold-wing (each interval by itself): in 20 possessions 0.27 more points conceded on \
the break (0.01 to 0.53, only just more than luck), 3.1 more offensive rebounds (1.9 to 4.3) and 0.44 more expected net points (0.34 to 0.54); no \
clear change in open looks taken.
If the gap between hold-wing and seam-sit is what it seems, about 41,000 possessions for each route would settle it, and more if \
it is smaller; this run had 300.
hold-wing is measured on the very possessions that put it first, so its lead may look a little larger than it is. \
A run with another --seed judges it afresh.";
}
