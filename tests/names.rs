//! What a route or an option is called changes nothing; where it runs changes everything. No code outside
//! `scenarios` knows a name, so no result can hang on one.
//!
//! What it has caught: nothing yet.

use crate::support::{changed, code_of, files_under, folder, loaded, matchup, over, records, text_of};

/// Two bundled routes that run differently.
const ROUTES: [&str; 2] = ["seam-cross", "corner-drop"];

fn scenario_with(route: &str) -> String {
    let scenario = text_of("scenarios/data/scenarios/sunken-122.toml");
    let changed = scenario.replace("route = \"seam-cross\"", &format!("route = \"{route}\""));
    assert!(route == ROUTES[0] || changed != scenario, "the bundled scenario names another route");
    changed
}

#[test]
fn results_move_with_the_waypoints_and_not_with_the_name() {
    // Each file has the other's waypoints.
    let [first, second] = ROUTES.map(|name| text_of(&format!("scenarios/data/routes/{name}.toml")));
    let names = ROUTES.map(|name| format!("{name}.toml"));
    let plays = names.clone().map(|name| scenario_with(&name));
    let home = folder(&[
        (&names[0], &second),
        (&names[1], &first),
        ("plays-0.toml", &plays[0]),
        ("plays-1.toml", &plays[1]),
    ]);
    for nth in 0..2 {
        let swapped = loaded(scenarios::scenario(&home.path().join(format!("plays-{nth}.toml")))).setup;
        let programs = swapped.attack.programs.iter();
        assert!(programs.clone().any(|program| program.name.starts_with(ROUTES[nth])));
        let bundled =
            |route: &str| loaded(over("sunken-122", [("attack.rover.route", format!("\"{route}\""))]));
        let (same_name, same_way) = (bundled(ROUTES[nth]), bundled(ROUTES[1 - nth]));
        let played = records(&swapped, 1, 200);
        assert!(played == records(&same_way, 1, 200), "{} with the other's waypoints", ROUTES[nth]);
        assert!(played != records(&same_name, 1, 200), "the two routes were meant to differ");
    }
}

#[test]
fn every_program_may_be_renamed() {
    let setup = matchup(&[
        ("attack.posts.options", "{ far-flash = 1.0, seal-helper = 1.0, run-under = 1.0 }"),
        ("attack.guards.options", "{ seam-cut = 1.0, drive-and-kick = 1.0 }"),
    ]);
    let renamed = changed(&setup, |setup| {
        setup.attack.name = "a".into();
        setup.zone.name = "z".into();
        let count = setup.attack.programs.len();
        for (nth, program) in setup.attack.programs.iter_mut().enumerate() {
            program.name = format!("{}", count - nth);
        }
        setup.zone.positions.iter_mut().for_each(|column| column.name = "c".into());
    });
    assert!(setup.attack.programs.len() >= 4, "the options have programs");
    assert!(records(&setup, 5, 200) == records(&renamed, 5, 200));
}

#[test]
fn no_code_outside_the_scenarios_knows_a_name() {
    let catalog = scenarios::catalog();
    let named = |kind: &str| kind == "route" || kind.ends_with("option");
    let names: Vec<&str> = catalog.iter().filter(|e| named(e.kind)).map(|e| e.name.as_str()).collect();
    assert!(names.len() >= 10, "the catalogue lists routes and options");
    for file in [files_under("engine/src", "rs"), files_under("experiments/src", "rs")].concat() {
        // Comments may give examples, and the tests of tables and traces need some names or other.
        let code = code_of(&text_of(&file));
        for name in &names {
            assert!(!code.contains(name), "{file} knows {name}");
        }
    }
}
