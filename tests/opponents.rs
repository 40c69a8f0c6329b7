//! What was scouted of single lines and positions comes out of bodies, sight and choice: a late back line is later, who bites
//! bites, who over-helps leaves somebody, heads that turn find those behind.
//!
//! What it has caught: nothing yet.

use std::sync::Arc;

use engine::setup::Setup;
use engine::{Measure, PossessionRecord};

use crate::support::{matchup, records, sum};

/// Possessions of each setup: enough for these differences, which are large.
const PLAYED: u64 = 800;

fn played(more: &[(&str, &str)]) -> Vec<PossessionRecord> {
    let own: [(&str, &str); 2] =
        [("attack.rover.route", "\"corner-drop\""), ("attack.guards.options", "{ fake-twice = 1.0 }")];
    let setup: Arc<Setup> = matchup(&[&own, more].concat());
    records(&setup, 1, PLAYED)
}

fn scouted(said: &str) -> Vec<PossessionRecord> {
    played(&[("opponent", &format!("[{{ {said} }}]"))])
}

#[test]
fn each_word_does_what_it_says_and_usual_does_nothing() {
    let usual = played(&[]);
    let total = |records: &[PossessionRecord], measure| sum(records, measure) as f64;
    assert!(
        scouted("who = \"everybody\", late = \"usual\", bites = \"usual\"") == usual,
        "usual is the level's"
    );

    let late = scouted("who = \"back-line\", late = \"always\"");
    let lateness = |records: &[PossessionRecord]| total(records, Measure::LatenessMean);
    assert!(lateness(&late) > 1.1 * lateness(&usual), "{} {}", lateness(&late), lateness(&usual));

    let share = |records: &[PossessionRecord]| {
        let (held, bitten) = (total(records, Measure::Fakes), total(records, Measure::FakesBitten));
        bitten / (held + bitten)
    };
    let bites =
        ["never", "often"].map(|often| share(&scouted(&format!("who = \"everybody\", bites = \"{often}\""))));
    assert!(bites[0] + 0.1 < share(&usual) && share(&usual) + 0.05 < bites[1], "{bites:?} {}", share(&usual));
}
