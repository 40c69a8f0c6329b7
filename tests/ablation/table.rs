//! All effects in one table, judged whole by a study, and the glance that the tests take at it (`tests/studied.rs`).

use super::row::Ablation;
use super::{contact, fakes, help, sight, talk};
use crate::studied;

/// Every effect that was put to the model, by mechanism.
const ALL: [&Ablation; 8] = [
    &sight::BLIND_SCREEN,
    &contact::SCREEN,
    &contact::SEAL,
    &fakes::LEAN,
    &fakes::PASS_FAKE,
    &talk::CALLS,
    &help::WHO_COMES,
    &help::HOW_OPEN,
];

const STUDY: &str = "experiments/studies/ablation.md";
const AROUND: [&str; 2] = ["## What was found\n", "## Why\n"];
const HEAD: &str = "\n| mechanism | effect | switched off | possessions of each | with it (99 %) | without it (99 %) | paired \
                    change (99 %) | holds |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n";

#[test]
#[ignore = "a minute: every effect whole, as the table has it"]
fn study_of_every_mechanism() {
    let (mut table, mut wrong) = (HEAD.to_owned(), Vec::new());
    for one in ALL {
        let found = (one.measure)(one.possessions).found();
        let line = one.line(&found);
        println!("{line}");
        table += &(line.clone() + "\n");
        if found.seen() != one.verdict {
            wrong.push(format!("{:?}, and the verdict in force is {:?}: {line}", found.seen(), one.verdict));
        }
    }
    studied::write(STUDY, AROUND, &table);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_mechanism_does_the_contrary_of_what_is_claimed() {
    for one in ALL {
        let found = (one.measure)(one.possessions.div_ceil(studied::GLANCE)).found();
        assert!(!studied::contradicts(found.seen(), one.verdict), "{}", one.line(&found));
    }
}

#[test]
fn the_table_in_the_study_has_the_verdicts_in_force() {
    let study = crate::support::text_of(STUDY);
    for one in ALL {
        let own = |line: &&str| line.starts_with(&format!("| {} | {} |", one.mechanism, one.effect));
        let line = study.lines().find(own).unwrap_or_else(|| panic!("{}: make the study anew", one.effect));
        assert!(line.ends_with(&format!("| {} |", one.verdict.word())), "{line}");
    }
}
