//! All facts in two tables, a line a fact and a line an effect; `FACTS=4,25` in the environment picks some by number.

use std::fmt::Write as _;

use super::fact::{Bound, Part};
use super::judge::{Judged, Row};
use super::verdicts::VERDICTS;
use crate::studied;
use crate::support::text_of;

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

#[test]
#[ignore = "some minutes: prints the table of all facts, and writes it where ZONEPROBE_BLESS is 1"]
fn study_of_every_fact() {
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
    if only.is_none() {
        studied::write(STUDY, [FROM, TO], &[FACT_BY_FACT, &facts, EFFECT_BY_EFFECT, &effects].concat());
    }
    let none = if changed.is_empty() { "\nNo verdict has changed." } else { "\nVerdicts that have changed:" };
    println!("{none}\n{}", changed.join("\n"));
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
