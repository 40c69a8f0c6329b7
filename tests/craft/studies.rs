//! The dials judged whole, with their table, and the glance that the tests take at them (`tests/studied.rs`).

use std::fmt::Write as _;

use super::claims::DIALS;
use super::doses::{glanced, looked};
use crate::looks::{Seen, demand};
use crate::studied;

const STUDY: &str = "experiments/studies/craft.md";
const AROUND: [&str; 2] = ["## What was found\n", "## Read with it\n"];
const HEAD: &str = "\n| dial | effect, a possession | difference | standard errors | possessions of each | holds |\n\
                    | --- | --- | --- | --- | --- | --- |\n";

#[test]
#[ignore = "some minutes: every dial whole"]
fn study_of_every_dial() {
    let (mut table, mut not_shown) = (HEAD.to_owned(), Vec::new());
    for dial in &DIALS {
        for found in looked(dial.first, &(dial.claims)(), (dial.doses)()) {
            let told = format!(
                "{} | {} | {:+.4} | {:.1} | {} | {}",
                dial.name,
                found.effect,
                found.difference,
                found.errors,
                found.possessions,
                found.seen.word()
            );
            println!("{told}");
            writeln!(table, "| {told} |").expect("a string takes all text");
            if found.seen != Seen::Shown {
                not_shown.push(told);
            }
        }
    }
    studied::write(STUDY, AROUND, &table);
    demand(super::DIGS, super::of_digs);
    demand(super::STUNTS, super::of_stunts);
    assert!(not_shown.is_empty(), "not shown: {}", not_shown.join("\n"));
}

#[test]
fn no_dial_does_the_contrary_of_what_is_claimed() {
    for dial in &DIALS {
        for found in glanced(dial.first, &(dial.claims)(), (dial.doses)()) {
            let (effect, errors) = (&found.effect, found.errors);
            assert_ne!(found.seen, Seen::Refuted, "{}: {effect}, {errors:.1} standard errors", dial.name);
        }
    }
}

#[test]
fn what_is_claimed_of_the_dials_is_shown_in_the_study_in_force() {
    let study = crate::support::text_of(STUDY);
    for dial in &DIALS {
        let own: Vec<&str> =
            study.lines().filter(|line| line.starts_with(&format!("| {} |", dial.name))).collect();
        assert_eq!(own.len(), (dial.claims)().len(), "{}: make the study anew", dial.name);
        assert!(own.iter().all(|line| line.ends_with("| yes |")), "{}: {own:#?}", dial.name);
    }
}
