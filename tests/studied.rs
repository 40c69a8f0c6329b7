//! Studies: what takes too long to be judged at every change is judged whole by hand, and its result kept with the golden
//! digest of the build that it was made of. The tests glance at it: a fifth of its possessions must not contradict it.
//! Whoever changes the play makes the studies anew, all by
//!
//!     ZONEPROBE_BLESS=1 cargo test --workspace --test promises study_of -- --ignored --nocapture
//!
//! A test fails while a study is of another build than the one in force.

use crate::determinism::golden_digest;
use crate::looks::{Demand, Seen};
use crate::support::{text_of, workspace};

/// A glance has one of so many possessions of a study's first look. (a choice)
pub const GLANCE: u64 = 5;

/// Studies that hold for one build.
const STUDIES: [&str; 9] = [
    "experiments/studies/trade-facts.md",
    "experiments/studies/craft.md",
    "experiments/studies/ablation.md",
    "experiments/studies/limits.md",
    "experiments/studies/controls.md",
    "experiments/studies/plans.md",
    "experiments/studies/standing.md",
    "experiments/studies/checklist.md",
    "experiments/studies/forced.md",
];

/// The digest stands after these words of a study.
const BUILD: &str = "the build with the golden digest `";

/// What stands before, in and after the digest of the build that a study speaks of.
fn around_digest(study: &str) -> (&str, &str, &str) {
    let at = study.find(BUILD).expect("the study says which build it judges") + BUILD.len();
    let end = at + study[at..].find('`').expect("the digest ends");
    (&study[..at], &study[at..end], &study[end..])
}

/// Whether files are to be written anew.
fn blesses() -> bool {
    std::env::var_os("ZONEPROBE_BLESS").is_some_and(|value| value == "1")
}

/// Writes a study's tables anew, between the headings that enclose them, and the digest in force; where ZONEPROBE_BLESS is 1.
pub fn write(study: &str, around: [&str; 2], tables: &str) {
    write_tables(study, around, tables);
    if blesses() {
        let text = text_of(study);
        let (before, _, after) = around_digest(&text);
        let text = [before, &golden_digest(), after].concat();
        std::fs::write(workspace().join(study), text).expect("it is written");
    }
}

/// The same of a study in which nothing is played.
pub fn write_tables(study: &str, around: [&str; 2], tables: &str) {
    if blesses() {
        let text = with_tables(&text_of(study), around, tables);
        std::fs::write(workspace().join(study), text).expect("it is written");
    }
}

/// A study's text with other tables between two of its headings.
fn with_tables(study: &str, [from, to]: [&str; 2], tables: &str) -> String {
    let (head, rest) = study.split_once(from).expect("the study has its tables");
    let (_, tail) = rest.split_once(to).expect("something follows them");
    format!("{head}{from}{tables}\n{to}{tail}")
}

/// Whether a glance contradicts what a study has shown or refuted.
pub fn contradicts(seen: Seen, verdict: Seen) -> bool {
    matches!((seen, verdict), (Seen::Shown, Seen::Refuted) | (Seen::Refuted, Seen::Shown))
}

/// Fails where a fifth of a study's first look refutes what is demanded.
#[track_caller]
pub fn glance(first: u64, look: impl Fn(u64) -> Vec<Demand>) {
    let refuted: Vec<Demand> =
        look(first.div_ceil(GLANCE)).into_iter().filter(|demand| demand.seen() == Seen::Refuted).collect();
    assert!(refuted.is_empty(), "refuted: {refuted:?}");
}

#[test]
fn the_studies_are_of_the_build_in_force() {
    for study in STUDIES {
        let text = text_of(study);
        let found = around_digest(&text).1;
        assert_eq!(found, golden_digest(), "{study}: make the studies anew (`tests/studied.rs`)");
    }
}

#[test]
fn what_is_refuted_by_one_and_shown_by_the_other_is_a_contradiction() {
    assert!(contradicts(Seen::Shown, Seen::Refuted) && contradicts(Seen::Refuted, Seen::Shown));
    assert!(!contradicts(Seen::Open, Seen::Refuted) && !contradicts(Seen::Shown, Seen::Open));
}

#[test]
#[should_panic(expected = "refuted: ")]
fn a_glance_does_not_pass_what_it_refutes() {
    glance(500, |count| {
        assert_eq!(count, 100);
        vec![Demand::at_least("half", (0.4, 0.6), 0.7)]
    });
}

#[test]
fn only_the_tables_of_a_study_are_written_anew() {
    let [from, to] = ["## Found\n", "## Why\n"];
    let study = format!("head\n{from}\n| old |\n\n{to}\nreasons\n");
    let anew = format!("head\n{from}\n| new |\n\n{to}\nreasons\n");
    assert_eq!(with_tables(&study, [from, to], "\n| new |\n"), anew);
}
