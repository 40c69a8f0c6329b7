//! One key, one value: a length is one key under either unit's name, and values are compared by what they are.
//!
//! What it has caught: one play under three names; two plays told as one table; a corner that was drawn beyond its arc.

use super::{Folder, check, small};
use crate::{Experiment, bundled_text, experiment};

fn load(text: &str) -> Result<Experiment, String> {
    let folder =
        Folder::with(&[("base.toml", &small("")), ("e.toml", &format!("scenario = \"base.toml\"\n{text}"))]);
    experiment(&folder.path("e.toml")).map_err(|faults| folder.shown(&faults.to_string()))
}

fn loaded(text: &str) -> Experiment {
    load(text).unwrap_or_else(|faults| panic!("{faults}"))
}

fn names(plan: &Experiment) -> Vec<&str> {
    plan.variants.iter().map(|variant| variant.name.as_str()).collect()
}

fn settings(plan: &Experiment, variant: usize) -> Vec<(&str, &str)> {
    plan.variants[variant].settings.iter().map(|(path, value)| (path.as_str(), value.as_str())).collect()
}

#[test]
fn a_length_is_set_under_one_of_its_names_in_one_place() {
    let refused = |text: &str, message: &str| {
        assert_eq!(load(text).map(|_| ()), Err(message.to_owned()));
    };
    refused(
        "variant = [{ name = \"a\", set = { \"zone.sink_back_m\" = 0.5, zone.sink_back_ft = 4.0 } }]\n",
        "e.toml:2:65: zone.sink_back_ft: found `zone.sink_back_ft`, allowed one of zone.sink_back_m and \
         zone.sink_back_ft, not both",
    );
    refused(
        "factors = { \"players.attack.body.jump_ft\" = [1.5, 1.6], \"players.attack.body.jump_m\" = [0.4, 0.5] }\n",
        "e.toml:2:57: players.attack.body.jump_m: found `players.attack.body.jump_m`, allowed one of \
         players.attack.body.jump_ft and players.attack.body.jump_m, not both",
    );
    refused(
        "variant = [{ name = \"a\", set = { zone = { use = \"1-2-2\", carry_ft = 3, carry_m = 1 } } }]\n",
        "e.toml:2:69: zone.carry_ft: found 3, allowed one of carry_m and carry_ft, not both",
    );
}

#[test]
fn a_later_place_wins_under_either_name_and_alone_is_told() {
    let plan = loaded(
        "variant = [{ name = \"a\", set = { \"zone.sink_back_m\" = 0.5, attack.rover.route = \"seam-sit\" } }]\n\
         [factors]\n\"zone.sink_back_ft\" = [1.0, 2.0]\n",
    );
    assert_eq!(names(&plan), ["a / sink_back_ft=1.0", "a / sink_back_ft=2.0"]);
    assert_eq!(settings(&plan, 1), [("attack.rover.route", "\"seam-sit\""), ("zone.sink_back_ft", "2.0")]);
    let sunk = plan.variants[1].setup.zone.table.anchors[0][3].y;
    assert!((sunk - (1.5 - 0.6096)).abs() < 1e-4, "{sunk}");
    let plan = loaded(
        "variant = [{ name = \"a\", set = { \"zone.sink_back_m\" = 0.5 } }]\n\
         [factors]\nzone = [{ use = \"1-2-2\" }, { use = \"3-2\" }]\n",
    );
    assert_eq!(settings(&plan, 0), [("zone", "{ use = \"1-2-2\" }")], "a table takes away what lay in it");
}

#[test]
fn equal_values_of_a_factor_are_one_however_they_are_written() {
    let refused = |factor: &str, message: &str| {
        let told = load(&format!("factors = {{ {factor} }}\n")).map(|_| ());
        assert_eq!(told, Err(format!("e.toml:2:{message}")));
    };
    refused(
        "\"zone.sink_back_m\" = [0.1, 0.10, 1e-1, 0.2]",
        "40: factors.zone.sink_back_m: found 0.10, allowed each value once; 0.10 is 0.1\n\
         e.toml:2:46: factors.zone.sink_back_m: found 1e-1, allowed each value once; 1e-1 is 0.1",
    );
    refused(
        "\"zone.adjust_after\" = [1, 2, 0x1]",
        "42: factors.zone.adjust_after: found 0x1, allowed each value once; 0x1 is 1",
    );
    refused(
        "\"attack.rover.route\" = [\"seam-sit\", 'seam-sit']",
        "49: factors.attack.rover.route: found 'seam-sit', allowed each value once; 'seam-sit' is \"seam-sit\"",
    );
    refused(
        "zone = [{ use = \"1-2-2\", sink_back_ft = 2 }, { sink_back_m = 0.6096, use = \"1-2-2\" }]",
        "58: factors.zone: found { sink_back_m = 0.6096, use = \"1-2-2\" }, allowed each value once; \
         { sink_back_m = 0.6096, use = \"1-2-2\" } is { use = \"1-2-2\", sink_back_ft = 2 }",
    );
    // Options are tried in the order written, so another order is another attack.
    let options = "{ seal-helper = 0.5, dive = 0.25 }, { dive = 0.25, seal-helper = 0.5 }";
    assert_eq!(
        loaded(&format!("factors = {{ \"attack.posts.options\" = [{options}] }}\n")).variants.len(),
        2
    );
}

/// An attack whose table is longer than a message shows.
fn attack(route: &str) -> String {
    format!(
        "{{ use = \"rover\", rover = {{ route = \"{route}\" }}, posts = {{ options = {{ seal-helper = 0.5, dive = 0.25 }} }} }}"
    )
}

#[test]
fn long_values_are_told_apart_and_told_whole() {
    let (sit, cross) = (attack("seam-sit"), attack("seam-cross"));
    let plan = loaded(&format!("factors = {{ attack = [{sit}, {cross}] }}\n"));
    assert_eq!(names(&plan), ["attack=table 1", "attack=table 2"]);
    assert_eq!(settings(&plan, 0), [("attack", sit.as_str())]);
    assert_eq!(settings(&plan, 1), [("attack", cross.as_str())]);
    assert_eq!(plan.varied, ["attack"]);
    let twice = load(&format!("factors = {{ attack = [{sit}, {cross}, {sit}] }}\n")).map(|_| ());
    assert!(
        twice.is_err_and(|told| told.ends_with("factors.attack: found a table, allowed each value once"))
    );
    // Under a head of its own, and over several lines: told in one.
    let plan = loaded(
        "[[variant]]\nname = \"a\"\n[variant.set.attack]\nuse = \"rover\"\nformation = { rover = [\n  5.0, # right\n  4.0,\n] }\n\
         [variant.set.attack.rover]\nroute = \"\"\"seam-\\\n  sit\"\"\"\n",
    );
    let told = "{ use = \"rover\", formation = { rover = [5.0, 4.0] }, rover = { route = \"seam-sit\" } }";
    assert_eq!(settings(&plan, 0), [("attack", told)]);
}

#[test]
fn variants_differ_where_their_values_do() {
    let varied = |variants: &str| loaded(&format!("variant = [{variants}]\n")).varied;
    let set = |name: &str, set: &str| format!("{{ name = \"{name}\", set = {{ {set} }} }}");
    let both = |a: &str, b: &str| varied(&format!("{}, {}", set("a", a), set("b", b)));
    assert_eq!(both("zone.sink_back_m = 0.6", "zone.sink_back_m = 0.60"), [""; 0]);
    assert_eq!(both("zone.sink_back_m = 0.6096", "zone.sink_back_ft = 2"), [""; 0]);
    assert_eq!(both("zone.sink_back_m = 0.6", "zone.sink_back_ft = 2"), ["zone.sink_back_m"]);
    assert_eq!(both("attack.rover.route = \"seam-sit\"", ""), ["attack.rover.route"]);
    assert_eq!(both("zone.use = \"1-2-2\"", ""), [""; 0], "the scenario has it so");
    let (sit, cross) = (attack("seam-sit"), attack("seam-cross"));
    assert_eq!(both(&format!("attack = {sit}"), &format!("attack = {cross}")), ["attack"]);
}

#[test]
fn the_other_unit_of_a_file_is_held_to_the_same() {
    let rules = bundled_text("us-high-school").expect("rules");
    let told = |from: &str, to: &str| {
        let own = rules.replace(from, to);
        assert_ne!(own, rules, "the bundled rules say it otherwise");
        let folder = Folder::with(&[("r.toml", &own)]);
        check(&folder.path("r.toml")).map_or_else(|faults| folder.shown(&faults.to_string()), str::to_owned)
    };
    let radius = "no_charge_radius_m = \"none\"";
    assert_eq!(told(radius, "no_charge_radius_ft = \"none\""), "rules");
    let both = told(radius, "no_charge_radius_m = \"none\"\nno_charge_radius_ft = 4.0");
    assert!(
        both.ends_with(
            "markings.no_charge_radius_ft: found 4.0, allowed one of no_charge_radius_m and no_charge_radius_ft, not both"
        ) && both.lines().count() == 1,
        "{both}"
    );
    let corner = told("three_corner_m = 6.020", "three_corner_ft = 25.0");
    assert!(
        corner.ends_with("floor.three_corner_ft: found 25.0, allowed at most three_radius_m (6.02 m)"),
        "{corner}"
    );
    let arm = load(
        "variant = [{ name = \"a\", set = { \"players.attack.body.lunge_reach_ft\" = 2.9, \
                    \"players.attack.body.arm_reach_ft\" = 3.0 } }]\n",
    );
    let arm = arm.map(|_| ());
    assert!(
        arm.as_ref().is_err_and(|told| told.starts_with("e.toml:2:")
            && told.contains("body.arm_reach_ft: found 3.0, allowed arm_reach_m at most lunge_reach_m")),
        "{arm:?}"
    );
    let slip = load("variant = [{ name = \"a\", set = { \"zone.sink_bak_ft\" = 2 } }]\n").map(|_| ());
    assert!(slip.as_ref().is_err_and(|told| told.ends_with("did you mean `zone.sink_back_ft`?")), "{slip:?}");
}
