//! A route of which only the home is taken (`attack.rover.home_only`): the control of the route, the rover at the same home who
//! runs nothing, everything else alike.
//!
//! What it has caught: nothing yet.

use std::sync::Arc;

use engine::setup::Setup;

use crate::support::{changed, loaded, over, records};

const SEED: u64 = 33;

/// A route and its control.
fn pair(scenario: &str, route: &str) -> [Arc<Setup>; 2] {
    let route = format!("{route:?}");
    [("attack.rover.home_only", "false"), ("attack.rover.home_only", "true")]
        .map(|only| loaded(over(scenario, [("attack.rover.route", route.as_str()), only])))
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
