//! What was scouted of single lines and positions comes out of bodies, sight and choice: a late back line is later, who bites
//! bites, who over-helps keeps drivers out of the lane, heads that turn miss who gets open, who gambles is in the way of passes
//! inside, who cheats to the high post stands nearer to it; by position as well as by line.
//!
//! What it has caught: nothing yet.

use std::sync::Arc;

use engine::math::vec2;
use engine::setup::Setup;
use engine::slots::DEFENCE;
use engine::{Measure, PossessionRecord, film_possession};

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

/// A share of possessions, or a mean count, under the two ends of a word.
fn ends(word: &str, more: &[(&str, &str)], measure: Measure) -> [f64; 2] {
    ["never", "always"].map(|often| {
        let said = format!("[{{ who = \"everybody\", {word} = \"{often}\" }}]");
        sum(&played(&[more, &[("opponent", &said)]].concat()), measure) as f64 / PLAYED as f64
    })
}

#[test]
fn helping_turning_and_gambling_change_what_is_open() {
    let drives = [("attack.plan", "\"drive-first\"")];
    let paint = ends("over_helps", &drives, Measure::PaintTouch);
    assert!(paint[1] + 0.05 < paint[0], "who over-helps keeps drivers out: {paint:?}");
    let open = ends("turns_head", &[], Measure::OpenLookAvailable);
    assert!(open[0] + 0.05 < open[1], "who turns his head loses somebody: {open:?}");
    let inside = ends("gambles", &[], Measure::HighPostPasses);
    assert!(1.1 * inside[1] < inside[0], "who gambles is in the lanes: {inside:?}");
}

#[test]
fn a_word_of_a_position_speaks_of_him() {
    let of = |said: &str| {
        let said = format!("[{{ who = \"point\", {said} }}]");
        [("attack.rover.route", "\"corner-drop\""), ("opponent", said.as_str())]
            .map(|(key, value)| (key, value.to_owned()))
    };
    let setup = |said: &str| {
        let own = of(said);
        matchup(&own.each_ref().map(|(key, value)| (*key, value.as_str())))
    };
    // How far the point is from the middle of the free-throw line on average, m, in films of the same possessions.
    let point =
        (0..5).find(|nth| setup("late = \"usual\"").zone.positions[*nth].name == "point").expect("a point");
    let away = |setup: &Arc<Setup>| {
        let (mut sum, mut frames) = (0.0, 0.0);
        for possession in 0..40 {
            for frame in film_possession(setup, 1, possession).frames {
                sum += f64::from(frame.players[DEFENCE[point]].distance(vec2(0.0, 4.2)));
                frames += 1.0;
            }
        }
        sum / frames
    };
    let (usual, cheats) =
        (away(&setup("cheats_high_post = \"usual\"")), away(&setup("cheats_high_post = \"always\"")));
    assert!(cheats + 0.1 < usual, "{cheats:.2} {usual:.2}");
    // A point who is late leaves looks, and a back line as it was.
    let [usual, late] =
        ["usual", "always"].map(|often| scouted(&format!("who = \"point\", late = \"{often}\"")));
    let open = |records: &[PossessionRecord]| sum(records, Measure::OpenLookAvailable) as f64 / PLAYED as f64;
    assert!(open(&usual) + 0.02 < open(&late), "{} {}", open(&usual), open(&late));
}
