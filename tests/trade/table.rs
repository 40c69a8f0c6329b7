//! All facts in two tables, a line a fact and a line an effect; `FACTS=4,25` in the environment picks some by number.

use std::fmt::Write as _;

use super::fact::{Bound, Part};
use super::judge::{Judged, Row};
use super::verdicts::VERDICTS;
use crate::determinism::golden_digest;
use crate::support::{text_of, workspace};

const STUDY: &str = "experiments/studies/trade-facts.md";
/// The tables stand between these lines of it.
const FROM: &str = "## Fact by fact\n";
const TO: &str = "## What does not hold, and why\n";

const FACT_BY_FACT: &str =
    "\n| fact | claim | cause | verdict, effects that hold |\n| --- | --- | --- | --- |\n";
const EFFECT_BY_EFFECT: &str = "\n## Effect by effect\n\n\
    | fact | effect | means | possessions each | effect found (interval) | to be | seen nine times in ten | holds |\n\
    | --- | --- | --- | --- | --- | --- | --- | --- |\n";

fn name(row: &Row) -> String {
    format!("{}{}", row.fact.number, if row.fact.starred { "*" } else { "" })
}

/// The fact's line, and one for each of its effects.
fn lines(row: &Row, judged: &Judged) -> [String; 2] {
    let (fact, z) = (row.fact, row.fact.z());
    let mut effects = String::new();
    for (nth, part) in judged.parts.iter().enumerate() {
        let Part { effect, doses, whole, bound, .. } = part;
        let (low, high) = whole.interval(z);
        let mean = |mean: f64| if mean.is_nan() { "none".to_owned() } else { format!("{mean:.3}") };
        let doses: Vec<String> = doses.iter().map(|(name, of)| format!("{name}: {}", mean(*of))).collect();
        let bound = match bound {
            Bound::AtLeast(least) => format!("at least {least}"),
            Bound::Within(most) => format!("within {most}"),
        };
        writeln!(
            effects,
            "| {} | {effect} | {} | {} | {:+.4} ({low:+.4} to {high:+.4}) | {bound} | {} | {} |",
            name(row),
            doses.join("; "),
            judged.played,
            whole.value,
            part.seen_from(z),
            judged.word(fact, nth)
        )
        .expect("a string takes all text");
    }
    [format!("| {} | {} | {} | {} |\n", name(row), fact.claim, fact.cause, judged.verdict()), effects]
}

/// The digest stands after these words of it.
const BUILD: &str = "the build with the golden digest `";

/// What stands before, in and after the digest of the build that a study speaks of.
fn around_digest(study: &str) -> (&str, &str, &str) {
    let at = study.find(BUILD).expect("the study says which build it judges") + BUILD.len();
    let end = at + study[at..].find('`').expect("the digest ends");
    (&study[..at], &study[at..end], &study[end..])
}

/// A study's text with other tables.
fn with_tables(study: &str, tables: &str) -> String {
    let (head, rest) = study.split_once(FROM).expect("the study has its tables");
    let (_, tail) = rest.split_once(TO).expect("the study has its reasons");
    format!("{head}{FROM}{tables}\n{TO}{tail}")
}

#[test]
#[ignore = "some minutes: prints the table of all facts, and writes it where ZONEPROBE_BLESS is 1"]
fn every_fact() {
    let only: Option<Vec<u8>> =
        std::env::var("FACTS").ok().map(|list| list.split(',').filter_map(|n| n.parse().ok()).collect());
    let (mut facts, mut effects, mut changed) = (String::new(), String::new(), Vec::new());
    for row in VERDICTS.iter().filter(|row| only.as_ref().is_none_or(|only| only.contains(&row.fact.number)))
    {
        let judged = row.judge();
        let [fact, own] = lines(row, &judged);
        print!("{fact}{own}");
        facts += &fact;
        effects += &own;
        let told = row.changed(&judged);
        if !told.is_empty() {
            changed.push(format!("{}\n  now verdicts: &{:?}", told.join("\n"), judged.seen));
        }
    }
    if only.is_none() && std::env::var_os("ZONEPROBE_BLESS").is_some_and(|value| value == "1") {
        let tables = [FACT_BY_FACT, &facts, EFFECT_BY_EFFECT, &effects].concat();
        let study = with_tables(&text_of(STUDY), &tables);
        let (before, _, after) = around_digest(&study);
        let study = [before, &golden_digest(), after].concat();
        std::fs::write(workspace().join(STUDY), study).expect("it is written");
    }
    let none = if changed.is_empty() { "\nNo verdict has changed." } else { "\nVerdicts that have changed:" };
    println!("{none}\n{}", changed.join("\n"));
}

#[test]
fn the_study_is_of_the_build_in_force() {
    // The tests only glance at most facts, so whoever changes the play has to judge them all anew.
    let study = text_of(STUDY);
    assert_eq!(
        around_digest(&study).1,
        golden_digest(),
        "{STUDY}: make the tables anew (`tests/trade/mod.rs`)"
    );
}

#[test]
fn the_table_in_the_study_has_the_verdicts_in_force() {
    use crate::looks::Seen;

    let study = text_of(STUDY);
    for row in &VERDICTS {
        let start = format!("| {} | ", name(row));
        let own: Vec<&str> = study.lines().filter(|line| line.starts_with(&start)).collect();
        let word = |line: &str| match line.trim_end_matches(" |").rsplit("| ").next() {
            Some("yes") => Some(Seen::Shown),
            Some("**no**") => Some(Seen::Refuted),
            Some(word) if word.starts_with("open") => Some(Seen::Open),
            _ => None,
        };
        let told: Vec<Option<Seen>> = own.iter().skip(1).map(|line| word(line)).collect();
        let verdicts: Vec<Option<Seen>> = row.verdicts.iter().copied().map(Some).collect();
        assert_eq!(told, verdicts, "fact {} in {STUDY}: make the tables anew", name(row));
    }
}

#[test]
fn only_the_tables_of_a_study_are_written_anew() {
    let study = format!("head\n{FROM}\n| old |\n\n{TO}\nreasons\n");
    assert_eq!(with_tables(&study, "\n| new |\n"), format!("head\n{FROM}\n| new |\n\n{TO}\nreasons\n"));
}
