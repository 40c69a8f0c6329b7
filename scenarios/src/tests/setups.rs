//! What files become.

use std::path::Path;
use std::sync::Arc;

use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, Setup, Start};

use super::{Folder, SMALL, small};
use crate::{bundled, bundled_question, catalog, check, scenario};

fn load(text: &str) -> Arc<Setup> {
    let folder = Folder::with(&[("s.toml", text)]);
    match scenario(&folder.path("s.toml")) {
        Ok(scenario) => scenario.setup,
        Err(faults) => panic!("{}", folder.shown(&faults.to_string())),
    }
}

fn zone(lines: &str) -> Arc<Setup> {
    load(&format!("{SMALL}attack = {{ use = \"rover\" }}\nzone = {{ use = \"1-2-2\", {lines} }}\n"))
}

fn near(a: Vec2, b: Vec2) -> bool {
    a.distance(b) < 1e-5
}

#[test]
fn every_bundled_file_loads_and_has_its_line() {
    for name in bundled::names("scenarios") {
        assert!(scenario(Path::new(name)).is_ok(), "{name}");
    }
    let question = bundled_question().unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(question.variants.len(), 7);
    assert_eq!(question.baseline, "hold-wing");
    assert_eq!(check(Path::new("routes-against-sink")).ok(), Some("experiment"));
    for entry in catalog() {
        assert!(!entry.line.is_empty(), "{} {}", entry.kind, entry.name);
        let changed = |table: &str, key: &str| {
            let tables = [("rules", "rules = \"us-high-school\""), ("zones", "use = \"1-2-2\"")];
            let old = tables.iter().find(|(t, _)| *t == table).map_or("", |(_, old)| *old);
            small("").replace(old, &format!("{key} = \"{}\"", entry.name))
        };
        let text = match entry.kind {
            "rules" => changed("rules", "rules"),
            "zone" => changed("zones", "use"),
            "level" => small("").replace("high-school\" }", &format!("{}\" }}", entry.name)),
            "route" => {
                small("").replace("use = \"rover\"", &format!("rover = {{ route = \"{}\" }}", entry.name))
            }
            "post option" => {
                small("").replace("use = \"rover\"", &format!("posts.options.{} = 1", entry.name))
            }
            "guard option" => {
                small("").replace("use = \"rover\"", &format!("guards.options.{} = 1", entry.name))
            }
            _ => continue,
        };
        load(&text);
    }
}

#[test]
fn with_the_ball_at_the_top_the_zone_is_its_own_mirror() {
    for shape in bundled::names("zones") {
        for sink in ["0.0", "0.7", "1.5"] {
            let text = small("")
                .replace("\"1-2-2\"", &format!("\"{shape}\", sink_back_m = {sink}, extension_m = 0.3"));
            let top = load(&text).zone.anchors[BallPlace::Top as usize];
            assert_eq!(top[0].x, 0.0);
            assert_eq!(top[1], top[2].sided(-1.0));
            assert_eq!(top[3], top[4].sided(-1.0));
        }
    }
}

#[test]
fn sink_moves_the_back_line_in_proportion_but_not_the_one_on_the_ball() {
    let wing = |sink: &str| zone(&format!("sink_back_m = {sink}")).zone.anchors[BallPlace::Wing as usize];
    assert_eq!(wing("0.0")[3], vec2(3.0, 0.8));
    assert!(near(wing("0.6")[3], vec2(2.7, 0.5)));
    assert!(near(wing("1.2")[3], vec2(2.4, 0.2)));
    assert_eq!(wing("1.2")[..3], wing("0.0")[..3]);
    let corner = |sink: &str| zone(&format!("sink_back_m = {sink}")).zone.anchors[BallPlace::Corner as usize];
    assert_eq!(corner("1.2")[3], vec2(5.4, -0.1), "the near back is on the ball");
    assert!(near(corner("1.2")[4], vec2(2.0, 0.2)));
    assert!(zone("sink_back_m = 1.5").zone.anchors[0].iter().all(|at| at.y >= 0.0));
}

#[test]
fn front_line_sinks_and_extends_along_the_radius() {
    let top = |lines: &str| zone(lines).zone.anchors[BallPlace::Top as usize];
    assert!(near(top("extension_m = 0.5")[0], vec2(0.0, 6.5)));
    assert!(near(top("sink_front_m = 0.5")[0], vec2(0.0, 6.0)), "the point is on the ball");
    assert!((top("sink_front_m = 0.5")[1].len() - (vec2(2.6, 4.6).len() - 0.5)).abs() < 1e-5);
}

#[test]
fn rules_choose_helper_taker_and_rows() {
    let corner = BallPlace::Corner as usize;
    let setup = zone("post_help_rule = \"near-wing-drops\"");
    assert_eq!(setup.zone.helper, 1);
    assert_eq!(setup.zone.anchors[corner][1], vec2(2.6, 1.0));
    let setup = zone("corner_rule = \"wing-drops\"");
    assert_eq!((setup.zone.takers[corner], setup.zone.anchors[corner][1]), ([1, 1], vec2(5.4, 0.1)));
    let setup = zone("corner_rule = \"back-until-bump\", post_help_rule = \"point-drops\"");
    assert_eq!((setup.zone.takers[corner], setup.zone.helper), ([3, 3], 0));
    assert_eq!(setup.zone.corner_after_bump.map(|row| row[1]), Some(vec2(5.4, 0.1)));
    assert_eq!(setup.zone.corner_taker_after_bump, 1);
}

#[test]
fn other_rule_sets_move_the_perimeter_and_the_places_beside_the_lane() {
    let setup = load(&small("").replace("us-high-school", "international"));
    let ball = setup.zone.ball_places;
    assert!((ball[BallPlace::Top as usize].y - 7.63).abs() < 1e-3);
    assert!((ball[BallPlace::Corner as usize].len() - (vec2(6.4, -0.2).len() + 0.58)).abs() < 1e-3);
    assert!(setup.attack.formation[3].x > setup.court.lane_half_m);
    assert!((setup.court.midcourt_y_m - (14.0 - 1.575)).abs() < 1e-5);
    let written = load(&small(""));
    assert_eq!(written.zone.ball_places[BallPlace::LowPost as usize], vec2(2.2, 0.8));
}

#[test]
fn own_values_lie_over_the_level_and_the_rule_set() {
    let text = small(
        "players.defence.head.reaction_s = 0.3\nplayers.attack.skill.pass.chest.speed_m_s = 10\n\
         clock.shot_clock_s = \"none\"\nofficials.bonus_share = 0.5\nnumerics.step_s = 0.025\n",
    );
    let setup = load(&text);
    assert_eq!(setup.defenders.head.reaction_s, 0.3);
    assert_eq!(setup.attackers.head.reaction_s, 0.22);
    assert_eq!(setup.attackers.skill.pass[0].speed_m_s, 10.0);
    assert_eq!((setup.officials.shot_clock_s, setup.officials.bonus_share), (None, 0.5));
    assert_eq!(setup.step_s, 0.025);
    assert!((setup.attackers.head.whole_cos - -0.087_155_74).abs() < 1e-6);
}

#[test]
fn lengths_may_be_in_feet_and_places_too() {
    let text = small("").replace("\"1-2-2\"", "\"1-2-2\", sink_back_ft = 2.0, carry_ft = 5");
    assert!((load(&text).zone.carry_m - 1.524).abs() < 1e-5);
    let text = format!("units = \"ft\"\n{}", small("attack.formation.rover = [17.0, 14.0]\n"));
    let text = text.replace("attack = { use = \"rover\" }\n", "attack.use = \"rover\"\n");
    assert!(near(load(&text).attack.formation[2], vec2(5.1816, 4.2672)));
}

#[test]
fn options_mix_their_habits_by_weight_and_weight_nought_is_off() {
    let with = |options: &str| load(&small("").replace("use = \"rover\"", options)).attack.clone();
    let attack = with("guards.options.quick-reversal = 0.5, posts.options.far-flash = 0.0");
    assert!((attack.habits.guard_hold_factor - 0.75).abs() < 1e-6);
    assert!(attack.programs.is_empty(), "hold-wing and nothing else");
    let attack = with("posts.options = { run-under = 0.5, far-flash = 1.0 }, rover.route = \"seam-cross\"");
    let names: Vec<&str> = attack.programs.iter().map(|program| program.name.as_str()).collect();
    assert_eq!(names, ["seam-cross", "run-under", "far-flash"], "the route, then options as written");
    assert_eq!(attack.programs[1].weight, 0.5);
}

#[test]
fn a_user_may_bring_files_of_his_own() {
    let route = "[[program]]\nstep = [{ to = { behind = \"far front\" } }]\n";
    let text = small("").replace("use = \"rover\"", "rover = { route = \"mine.toml\" }");
    let folder = Folder::with(&[("s.toml", &text), ("mine.toml", route)]);
    let found = scenario(&folder.path("s.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(found.setup.attack.programs[0].name, "mine");
    assert!(found.inputs.iter().any(|source| source.text == route));
}

#[test]
fn a_possession_starts_as_its_scenario_says() {
    let start = |table: &str| {
        let setup = load(&format!("{}start = {{ {table} }}\n", small("")));
        (setup.attack.start, setup.attack.ball_starts_with, setup.officials.clock_used_s)
    };
    assert_eq!(start("state = \"set\""), (Start::Set, 1, 8.0));
    assert_eq!(start("state = \"arriving\""), (Start::Arriving, 0, 5.0));
    assert_eq!(start("state = \"arriving\", ball = \"off-guard\""), (Start::Arriving, 1, 5.0));
    assert_eq!(start("state = \"rebound\""), (Start::Rebound, 3, 0.0));
    assert_eq!(start("state = \"rebound\", ball = \"rover\""), (Start::Rebound, 2, 0.0));
}
