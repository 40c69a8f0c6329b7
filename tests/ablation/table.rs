//! All effects in one table.

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
