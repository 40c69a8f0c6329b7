//! Metres or feet, in every kind of file.

use std::sync::Arc;

use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, Locus, Setup};

use super::{Folder, small};
use crate::{bundled, experiment, scenario};

/// The setup of a scenario beside another file of the user's own.
fn with(text: &str, own: &str) -> Arc<Setup> {
    let folder = Folder::with(&[("s.toml", text), ("own.toml", own)]);
    match scenario(&folder.path("s.toml")) {
        Ok(scenario) => scenario.setup,
        Err(faults) => panic!("{}", folder.shown(&faults.to_string())),
    }
}

fn near(a: Vec2, b: Vec2) -> bool {
    a.distance(b) < 1e-4
}

/// A bundled file with `units = "ft"` and every `[x, y]` in feet.
fn places_in_feet(folder: &str, name: &str) -> String {
    let text = bundled::find(folder, name).expect("a bundled file");
    let mut found = String::from("units = \"ft\"\n");
    for line in text.lines() {
        let is_places = ["ball = [", "anchors = [", "sunk = ["].iter().any(|key| line.starts_with(key));
        if !is_places
            && !line.contains("-guard = [")
            && !line.starts_with("rover")
            && !line.contains("-post = [")
        {
            found.push_str(line);
        } else {
            let line = line.split('#').next().unwrap_or_default();
            for part in line.split_inclusive(['[', ']', ',']) {
                let number = part.trim_end_matches([']', ',']).trim();
                match number.parse::<f64>() {
                    Ok(metres) => found.push_str(&part.replace(number, &format!("{:.9}", metres / 0.3048))),
                    Err(_) => found.push_str(part),
                }
            }
        }
        found.push('\n');
    }
    found
}

#[test]
fn a_scenario_may_be_in_feet() {
    let text = format!("units = \"ft\"\n{}", small("attack.formation.rover = [17.0, 14.0]\n"))
        .replace("attack = { use = \"rover\" }\n", "attack.use = \"rover\"\n")
        .replace("\"1-2-2\"", "\"1-2-2\", sink_back_ft = 2.0, carry_m = 2.0");
    let setup = with(&text, "");
    assert!(near(setup.attack.formation[2], vec2(5.1816, 4.2672)));
    assert_eq!(setup.zone.carry_m, 2.0, "a key that names its unit keeps it");
}

#[test]
fn a_zone_may_be_in_feet() {
    let metres = with(&small(""), "");
    let feet = with(&small("").replace("\"1-2-2\"", "\"own.toml\""), &places_in_feet("zones", "1-2-2"));
    for place in 0..BallPlace::COUNT {
        assert!(near(metres.zone.ball_places[place], feet.zone.ball_places[place]));
        for position in 0..5 {
            assert!(near(
                metres.zone.table.anchors[place][position],
                feet.zone.table.anchors[place][position]
            ));
        }
    }
}

#[test]
fn an_attack_may_be_in_feet() {
    let metres = with(&small(""), "");
    let feet = with(&small("").replace("\"rover\"", "\"own.toml\""), &places_in_feet("attacks", "rover"));
    for role in 0..5 {
        assert!(near(metres.attack.formation[role], feet.attack.formation[role]));
    }
}

#[test]
fn a_route_or_option_may_be_in_feet() {
    let own = "units = \"ft\"\n[[program]]\nstep = [{ to = { floor = [10.0, 5.0] }, within_ft = 2.0 }, \
               { to = { line_gap = 3.0 } }, { to = { by_post = \"near\", offset = [-1.0, 2.0] } }]\n";
    let route = small("").replace("use = \"rover\"", "rover = { route = \"own.toml\" }");
    let option = small("").replace("use = \"rover\"", "posts.options = { \"own.toml\" = 1.0 }");
    for text in [route, option] {
        let setup = with(&text, own);
        let steps = &setup.attack.programs[0].steps;
        assert!((steps[0].within_m - 0.6096).abs() < 1e-5);
        let Locus::Floor(at, _) = steps[0].to else { panic!("{:?}", steps[0].to) };
        assert!(near(at, vec2(3.048, 1.524)));
        let Locus::LineGap(x, _) = steps[1].to else { panic!("{:?}", steps[1].to) };
        assert!((x - 0.9144).abs() < 1e-5, "a length whose key names no unit has the file's");
        let Locus::ByPost(_, offset) = steps[2].to else { panic!("{:?}", steps[2].to) };
        assert!(near(offset, vec2(-0.3048, 0.6096)));
    }
    let home = with(
        &small("").replace("use = \"rover\"", "rover = { route = \"own.toml\" }"),
        "units = \"ft\"\nhome = [17.0, 14.0]\n",
    );
    assert!(near(home.attack.formation[2], vec2(5.1816, 4.2672)));
}

#[test]
fn a_level_may_be_in_feet() {
    let level = bundled::find("levels", "high-school").expect("a level").replace(
        "jump_m = { value = 0.5, range = [0.35, 0.65]",
        "jump_ft = { value = 1.64, range = [1.0, 2.2]",
    );
    assert!(level.contains("jump_ft"), "the bundled level says it otherwise");
    let text = small("").replace("attack = \"high-school\"", "attack = \"own.toml\"");
    assert!((with(&text, &level).attackers.body.jump_m - 0.499_872).abs() < 1e-5);
}

#[test]
fn rules_may_be_in_feet() {
    let rules = bundled::find("rules", "us-high-school")
        .expect("rules")
        .replace("court_width_m = 15.240", "court_width_ft = 50")
        .replace("lane_width_m = 3.658", "lane_width_ft = 12.0");
    let setup = with(&small("").replace("\"us-high-school\"", "\"own.toml\""), &rules);
    assert!((setup.court.half_width_m - 7.62).abs() < 1e-4);
    assert!((setup.court.lane_half_m - 1.8288).abs() < 1e-4);
}

#[test]
fn an_experiment_may_be_in_feet_whatever_its_scenario_is_in() {
    let own = "units = \"ft\"\nscenario = \"s.toml\"\n[[variant]]\nname = \"a\"\n\
               set = { \"attack.formation.rover\" = [17.0, 14.0] }\n[factors]\n\"zone.sink_back_ft\" = [2.0, 4.0]\n";
    let base = small("").replace("\"1-2-2\"", "\"1-2-2\", sink_back_m = 1.0");
    let folder = Folder::with(&[("s.toml", &base), ("e.toml", own)]);
    let plan = experiment(&folder.path("e.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(plan.variants[1].name, "a / sink_back_ft=4.0");
    assert!(near(plan.variants[0].setup.attack.formation[2], vec2(5.1816, 4.2672)));
    // The back line's normal y of 1.5 m, less the sink in proportion: 1.2 m at a sink of 1.2 m.
    let sunk = plan.variants[0].setup.zone.table.anchors[0][3].y;
    assert!((sunk - (1.5 - 0.6096)).abs() < 1e-4, "feet take the place of the scenario's metres: {sunk}");
}

#[test]
fn no_experiment_changes_what_a_scenarios_places_are_in() {
    let own = "scenario = \"sunken-122\"\nvariant = [{ name = \"a\", set = { units = \"ft\" } }]\n";
    let folder = Folder::with(&[("e.toml", own)]);
    let message =
        experiment(&folder.path("e.toml")).map_or_else(|faults| faults.to_string(), |_| String::new());
    assert_eq!(
        folder.shown(&message),
        "e.toml:2:34: found `units`, allowed a path other than units: each file says for itself what its places are \
         in"
    );
}
