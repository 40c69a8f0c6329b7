//! All effects in one table, and a test that holds each line of it.

use experiments::note::NOTE;

use super::row::Ablation;
use super::{contact, fakes, help, sight, talk};

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

#[test]
fn every_claim_is_as_its_verdict_says() {
    let mut wrong = Vec::new();
    for one in ALL {
        let found = (one.measure)(one.possessions).found();
        let line = one.line(&found);
        println!("{line}");
        if found.seen() != one.verdict {
            wrong.push(format!("{:?}, and the verdict in force is {:?}: {line}", found.seen(), one.verdict));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
#[ignore = "prints the table of all effects"]
fn every_mechanism() {
    println!(
        "| mechanism | effect | switched off | possessions of each | with it (99 %) | without it (99 %) | paired \
         change (99 %) | holds |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for one in ALL {
        println!("{}", one.line(&(one.measure)(one.possessions).found()));
    }
    println!("\n{NOTE}");
}
