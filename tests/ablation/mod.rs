//! Promise: a mechanism switched off takes the effects claimed for it with it.
//!
//! Each effect is a difference between two setups or scenes, measured with the mechanism and again without it, in the
//! same possessions. With it the effect must be there at 99 %; without it the whole 99 % interval of what is left must
//! lie within a quarter of it. Mechanisms are switched off by values of ordinary data and nothing else. The table of
//! all: `cargo test -p zoneprobe-promises --test promises every_mechanism -- --ignored --nocapture`.
//!
//! What it has caught: a pass fake gains the receiver nothing, since the bite is over before the pass leaves the hands.

mod contact; // bodies are in the way
mod fakes; // who bites leans
mod help; // who comes to the low post once the near back is out
mod row; // a mechanism, its effect, and when the claim holds
mod sight; // nobody goes round what he does not see
mod table; // all effects in one table
mod talk; // who sees a cutter tells who does not

#[test]
fn without_sight_limits_no_screen_is_blind() {
    sight::BLIND_SCREEN.check();
}

#[test]
fn without_bodies_neither_screen_nor_seal_is_worth_anything() {
    contact::SCREEN.check();
    contact::SEAL.check();
}

#[test]
fn a_bite_that_is_nothing_moves_nobody() {
    fakes::LEAN.check();
}

#[test]
fn without_talk_nobody_knows_more_than_he_sees() {
    talk::CALLS.check();
}

#[test]
fn without_a_back_who_goes_out_the_help_rule_changes_nothing() {
    help::WHO_COMES.check();
}
