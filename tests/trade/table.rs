//! All facts in one table; `FACTS=4,25` in the environment picks some by number.

use std::fmt::Write as _;

use experiments::note::NOTE;

use super::fact::{Bound, Fact, Part};
use super::{drives, glass, moves, passes, post, pressure, screens, shape, team, tempo};

/// Every fact, by number.
pub const FACTS: [&Fact; 25] = [
    &tempo::HOLDS,
    &passes::KICK_OUTS,
    &passes::REVERSALS,
    &passes::SKIPS,
    &shape::OVERLOAD,
    &team::SHOOTERS,
    &post::BACK_OUT,
    &shape::EXTENSION,
    &shape::TWO_GUARDS,
    &moves::FLASH,
    &passes::FAKES,
    &screens::FAR_WING,
    &drives::DRAWS_TWO,
    &tempo::CUTS,
    &glass::MISSES,
    &glass::STAYING_BACK,
    &team::QUICKNESS,
    &pressure::TRAP,
    &team::ARMS,
    &pressure::EARLY,
    &post::PARKED,
    &moves::DROP,
    &screens::NEAR_BACK,
    &moves::STRETCHED,
    &shape::SINK,
];

/// One row for each effect of a fact.
fn rows(fact: &Fact, possessions: u64) -> String {
    let mut text = String::new();
    for part in (fact.measure)(possessions) {
        let Part { effect, doses, whole, bound, .. } = &part;
        let (low, high) = whole.interval(fact.z());
        let doses: Vec<String> = doses.iter().map(|(name, mean)| format!("{name}: {mean:.3}")).collect();
        let bound = match bound {
            Bound::AtLeast(least) => format!("at least {least}"),
            Bound::Within(most) => format!("within {most}"),
        };
        let star = if fact.starred { "*" } else { "" };
        let holds = if part.holds(fact.z()) { "yes" } else { "**no**" };
        writeln!(
            text,
            "| {}{star} | {} | {effect} | {} | {possessions} | {:+.4} ({low:+.4} to {high:+.4}) | {bound} | {holds} |",
            fact.number,
            fact.cause,
            doses.join("; "),
            whole.value
        )
        .expect("a string takes all text");
    }
    text
}

#[test]
#[ignore = "a long run: prints the table of all facts"]
fn every_fact() {
    let only: Option<Vec<u8>> =
        std::env::var("FACTS").ok().map(|list| list.split(',').filter_map(|n| n.parse().ok()).collect());
    println!(
        "| fact | cause | effect | means | possessions each | effect found (interval) | to be | holds |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for fact in FACTS {
        if only.as_ref().is_none_or(|only| only.contains(&fact.number)) {
            print!("{}", rows(fact, fact.possessions));
        }
    }
    println!("\n{NOTE}");
}
