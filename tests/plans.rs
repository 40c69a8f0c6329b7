//! A plan is kept to: what the holder looks for, who may shoot what, how well it is known; and without a look order there is
//! none.
//!
//! What it has caught: nothing yet.

use std::sync::Arc;

use engine::Measure;
use engine::film::{Film, What};
use engine::film_possession;
use engine::setup::Setup;
use engine::slots::GUARDS;

use crate::support::{argument, folder, matchup, over, paired, records};

/// The bundled scenario with a plan of one's own; the shot clock of a possession starts at 27 s.
fn planned(plan: &str, drilled: f64) -> Arc<Setup> {
    let folder = folder(&[("plan.toml", plan)]);
    let plan = format!("{:?}", argument(&folder.path().join("plan.toml")));
    let drilled = drilled.to_string();
    over("sunken-122", [("attack.plan", plan.as_str()), ("attack.drilled", drilled.as_str())])
        .unwrap_or_else(|faults| panic!("{faults}"))
}

/// Films of the first possessions.
fn films(setup: &Arc<Setup>, count: u64) -> Vec<Film> {
    (0..count).map(|possession| film_possession(setup, 5, possession)).collect()
}

/// When the late clock begins, s after the start: 27 s less the 8 s of a plan that says nothing.
const LATE_FROM_S: f32 = 19.0;

#[test]
fn a_plan_without_a_look_order_is_none() {
    let (named, silent) = (matchup(&[]), planned("line = \"nothing taught\"\n", 1.0));
    assert!(named.attack.plan.is_none() && silent.attack.plan.is_none());
    assert_eq!(records(&named, 3, 64), records(&silent, 3, 64));
}

#[test]
fn a_shot_that_no_rule_allows_waits_for_the_late_clock() {
    let plan = "[[look]]\nat = [\"top\", \"slot\", \"wing\", \"corner\", \"elbow\"]\norder = [{ shoot = true }, \
                { pass = [\"guards\", \"rover\"] }]\n[[shot]]\nfrom = [\"rim\"]\n";
    let (mut early, mut late) = (0, 0);
    for film in films(&planned(plan, 1.0), 120) {
        for event in &film.events {
            if let What::Shot { metres, .. } = event.what {
                let is_early = event.time_s < LATE_FROM_S;
                // A put-back drifts a little before it is let go.
                assert!(!is_early || metres < 2.6, "{metres} m at {} s", event.time_s);
                *(if is_early { &mut early } else { &mut late }) += 1;
            }
        }
    }
    assert!(late >= 40, "{early} early, {late} late");
}

#[test]
fn a_pass_goes_where_the_look_order_says() {
    let places = "\"top\", \"slot\", \"wing\", \"corner\", \"short-corner\", \"low-post\", \"elbow\"";
    let plan =
        format!("reset_after_s = 10.0\n[[look]]\nat = [{places}]\norder = [{{ pass = [\"guards\"] }}]\n");
    let mut passes = 0;
    for film in films(&planned(&plan, 1.0), 60) {
        let rebound = film
            .events
            .iter()
            .find(|event| matches!(event.what, What::Rebound { .. } | What::DriveStart { .. }));
        let until_s = rebound.map_or(LATE_FROM_S, |event| engine::math::min(event.time_s, LATE_FROM_S));
        for event in film.events.iter().filter(|event| event.time_s < until_s) {
            if let What::Pass { to, .. } = event.what {
                assert!(GUARDS.contains(&to), "a pass to {to:?} at {} s", event.time_s);
                passes += 1;
            }
        }
    }
    assert!(passes >= 200, "{passes} passes");
}

#[test]
fn who_does_not_know_the_plan_is_slower_with_it() {
    let text = scenarios::bundled_text("inside-first").expect("a bundled plan");
    let [whole, nothing] = [1.0, 0.0].map(|drilled| records(&planned(text, drilled), 7, 3000));
    let (slower_s, error) = paired(&whole, &nothing, Measure::SecondsUsed);
    assert!(slower_s - 4.0 * error > 0.0, "{slower_s} s +- {error}");
}

#[test]
fn a_taught_attack_brings_more_than_one_that_has_been_taught_nothing() {
    // All seven routes of the bundled question together, the same possessions with the plan and without.
    let (mut sum, mut squares) = (0.0, 0.0);
    let variants = crate::support::question().variants;
    for variant in &variants {
        assert!(variant.setup.attack.plan.is_some(), "{}", variant.name);
        let route = format!("{:?}", variant.name);
        let free = matchup(&[("attack.rover.route", route.as_str())]);
        let [free, taught] = [&free, &variant.setup].map(|setup| records(setup, 11, 1500));
        let (more, error) = paired(&free, &taught, Measure::ExpectedNetPoints);
        (sum, squares) = (sum + more, squares + error * error);
    }
    let (mean, error) = (sum / variants.len() as f64, squares.sqrt() / variants.len() as f64);
    assert!(mean - 3.0 * error > 0.0, "{mean} net points +- {error}");
}
