//! Promise: what coaches know of zones and of attacks on them comes out of the model, of itself.
//!
//! The trade knows 25 facts (common practice, no source), each with its cause, its least effect and how sure the test
//! has to be. `verdicts` says of every effect whether it is shown, refuted or open, and `holding` has a test for each
//! fact: an effect that is expected to fail has to be refuted, not merely unproved, and one that can be neither shown nor
//! refuted is called open, with what would settle it. A fact is looked at twice where the first look does not settle it, each
//! time at half of the level (`tests/looks.rs`); the tests only glance at facts (`tests/studied.rs`). The table of all is in
//! `experiments/studies/trade-facts.md`, with the reasons. After a change of the play
//!
//!     ZONEPROBE_BLESS=1 cargo test --workspace --test promises study_of_every_fact -- --ignored --nocapture
//!
//! writes it anew and ends with the verdicts that have changed (without `ZONEPROBE_BLESS` nothing is written).
//!
//! What it has caught: a bite on a fake was over before the pass left the hands (mended); break exposure does not see how
//! many stay back.

mod drives; // 13: drives that draw help
pub mod estimate; // means and ratios with their errors, compared possession by possession
mod fact; // a fact, its parts, and when it holds
mod glass; // 15, 16: rebounds and who stays back
mod holding; // a test for each
mod judge; // what is seen of a fact, against its verdict
mod moves; // 10, 22, 24: flashes, drops and a stretched back line
mod passes; // 2, 3, 4, 11: kick-outs, reversals, skips, fakes
mod post; // 7, 21: the low post with the back out, posts parked low
mod pressure; // 18, 20: traps, attacks on a zone that is not set
mod screens; // 12, 23: screens on the far wing and the near back
mod shape; // 5, 8, 9, 25: overloads, extension, guards out front, sink
mod table; // all facts in one table
mod team; // 6, 17, 19: shooters, quickness, arms
mod tempo; // 1, 14: holds and cuts
mod verdicts; // what is seen of every effect
pub mod watch; // films in numbers

use std::sync::Arc;

use engine::setup::{Setup, SideChoice};
use engine::{Measure, PossessionRecord};

use self::estimate::Series;
use crate::support::{changed, matchup, records};

/// Seed of every trade fact.
pub const SEED: u64 = 71;

/// Plays the first `count` possessions; records.
fn played(setup: &Arc<Setup>, count: u64) -> Vec<PossessionRecord> {
    records(setup, SEED, count)
}

/// A measure a possession.
pub fn each(records: &[PossessionRecord], measure: Measure) -> Series {
    records.iter().map(|record| (record.real(measure), 1.0)).collect()
}

/// One measure over another.
fn per(records: &[PossessionRecord], above: Measure, below: Measure) -> Series {
    records.iter().map(|record| (record.real(above), record.real(below))).collect()
}

/// The sunken 1-2-2 against this route and these post options.
pub fn against(route: &str, posts: &str) -> Arc<Setup> {
    matchup(&[("attack.rover.route", &format!("\"{route}\"")), ("attack.posts.options", posts)])
}

/// The bundled matchup: the rover crosses, the far post flashes, the near one seals.
fn moving() -> Arc<Setup> {
    against("seam-cross", "{ far-flash = 1.0, seal-helper = 1.0 }")
}

/// Nobody cuts: the rover on the wing, no option.
pub fn standing() -> Arc<Setup> {
    against("hold-wing", "{}")
}

/// Nobody cuts, and the rover stands in the right corner.
pub fn cornered(setup: &Setup) -> Arc<Setup> {
    changed(setup, |setup| {
        setup.attack.side = SideChoice::Right;
        setup.attack.formation[2] = engine::math::vec2(6.4, -0.2);
    })
}
