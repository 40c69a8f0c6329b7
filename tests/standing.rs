//! Every route against its control: the rover at the same home who runs nothing (`attack.rover.home_only`), everything else alike,
//! on the same possessions. Judged whole by a study (`tests/studied.rs`): both measures against the 1-2-2 and the 3-2, corrected over
//! all comparisons together. The tests glance at what beats its control.
//!
//! What it has caught: nothing yet.

use std::fmt::Write as _;
use std::sync::Arc;

use engine::Measure;
use engine::setup::Setup;
use experiments::stats::holm;
use experiments::stats::normal::two_sided_p;

use crate::looks::{Seen, Z_95};
use crate::played::keeping;
use crate::studied::{self, GLANCE};
use crate::support::{changed, loaded, over, paired, records};

const STUDY: &str = "experiments/studies/standing.md";
const AROUND: [&str; 2] = ["## What was found\n", "## How to read it\n"];
const SEED: u64 = 33;
/// Possessions of each side of a comparison; the same as in the bundled question.
const POSSESSIONS: u64 = 8192;
/// Largest adjusted p-value of a claim.
const ALPHA: f64 = 0.05;

/// `hold-wing` runs nothing, and `free-run` is no route of its own.
const ROUTES: [&str; 11] = [
    "seam-cross",
    "seam-sit",
    "seam-loop",
    "split-drop",
    "corner-drop",
    "corner-lift",
    "baseline-run",
    "baseline-loop",
    "under-flash",
    "over-flash",
    "lift-high",
];
const SCENARIOS: [&str; 2] = ["plain-122", "plain-32"];
const MEASURES: [(Measure, &str); 2] =
    [(Measure::GoodLook, "good looks"), (Measure::ExpectedNetPoints, "net points")];

/// The routes that beat their control in some comparison, with one in which they do: scenario and measure.
const BEAT: [(&str, &str, Measure); 6] = [
    ("seam-cross", "plain-32", Measure::ExpectedNetPoints),
    ("seam-loop", "plain-32", Measure::ExpectedNetPoints),
    ("split-drop", "plain-32", Measure::ExpectedNetPoints),
    ("corner-drop", "plain-32", Measure::ExpectedNetPoints),
    ("over-flash", "plain-122", Measure::ExpectedNetPoints),
    ("lift-high", "plain-32", Measure::ExpectedNetPoints),
];

/// A route and its control.
fn pair(scenario: &str, route: &str) -> [Arc<Setup>; 2] {
    let route = format!("{route:?}");
    [("attack.rover.home_only", "false"), ("attack.rover.home_only", "true")]
        .map(|only| loaded(over(scenario, [("attack.rover.route", route.as_str()), only])))
}

/// How much more the route brings than its control, and the standard error of that.
fn more(pair: &[Arc<Setup>; 2], measure: Measure, possessions: u64) -> (f64, f64) {
    let [runs, stands] = pair.each_ref().map(|setup| records(setup, SEED, possessions));
    paired(&stands, &runs, measure)
}

#[test]
#[ignore = "five minutes: every route against two zones"]
fn study_of_every_route_against_standing_still() {
    let mut found = Vec::new();
    for scenario in SCENARIOS {
        // Routes from one home share their control, which is played once.
        keeping(|| {
            for route in ROUTES {
                let pair = pair(scenario, route);
                for (measure, words) in MEASURES {
                    let (more, error) = more(&pair, measure, POSSESSIONS);
                    found.push((scenario, route, measure, words, more, error));
                }
            }
        });
    }
    let raw: Vec<f64> = found.iter().map(|&(.., more, error)| two_sided_p(more / error)).collect();
    let adjusted = holm(&raw);
    let mut table = String::from(
        "\n| route | scenario | measure | more than standing at its home (95 %) | p, Holm over all | beats it |\n| --- | --- | --- | --- | --- | --- |\n",
    );
    for (&(scenario, route, _, words, more, error), p) in found.iter().zip(&adjusted) {
        let beats = if *p > ALPHA {
            "open"
        } else if more > 0.0 {
            "**yes**"
        } else {
            "worse"
        };
        let (low, high) = (more - 1.96 * error, more + 1.96 * error);
        let p = if *p < 0.0005 { String::from("< .0005") } else { format!("{p:.3}") };
        writeln!(
            table,
            "| {route} | {scenario} | {words} | {more:+.3} ({low:+.3} to {high:+.3}) | {p} | {beats} |"
        )
        .expect("a string takes all text");
    }
    println!("{table}");
    studied::write(STUDY, AROUND, &table);
    let beat = |route: &str| {
        found.iter().zip(&adjusted).any(|(one, p)| one.1 == route && *p <= ALPHA && one.4 > 0.0)
    };
    let beaten: Vec<&str> = ROUTES.into_iter().filter(|route| beat(route)).collect();
    let stated: Vec<&str> = BEAT.iter().map(|(route, ..)| *route).collect();
    assert_eq!(beaten, stated, "the routes that beat their control");
}

#[test]
fn no_route_that_beats_its_control_is_seen_to_lose_to_it() {
    for (route, scenario, measure) in BEAT {
        let (more, error) = more(&pair(scenario, route), measure, POSSESSIONS.div_ceil(2 * GLANCE));
        let seen = Seen::within((more - Z_95 * error, more + Z_95 * error), 0.0, f64::INFINITY);
        assert!(seen != Seen::Refuted, "{route} in {scenario}: {more:+.3} +- {error:.3}");
    }
}

#[test]
fn a_route_of_which_only_the_home_is_taken_is_the_one_that_holds_the_wing() {
    // Of a route that starts on the wing nothing is left but where he stands.
    let control = &pair("sunken-122", "seam-cross")[1];
    let hold = loaded(over("sunken-122", [("attack.rover.route", "\"hold-wing\"")]));
    assert_eq!(records(control, SEED, 64), records(&hold, SEED, 64));
    // Of one with a home of its own that is kept.
    let [runs, stands] = pair("sunken-122", "baseline-run");
    assert!(
        stands.attack.formation == runs.attack.formation && runs.attack.formation != hold.attack.formation
    );
    assert!(stands.attack.programs.len() < runs.attack.programs.len());
    let same = changed(&runs, |setup| setup.attack.programs = stands.attack.programs.clone());
    assert_eq!(records(&same, SEED, 64), records(&stands, SEED, 64));
}
