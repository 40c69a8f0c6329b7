//! What files become.

use std::path::Path;
use std::sync::Arc;

use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, Line, OverloadRule, Pairing, Setup, Start};

use super::{Folder, SMALL, check, small};
use crate::{bundled, bundled_question, catalog, scenario};

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
            let zone = &load(&text).zone;
            if zone.marks.is_some() {
                continue;
            }
            let top = zone.table.anchors[BallPlace::Top as usize];
            // Two guards out front stand by the side on which the ball was last; everybody else mirrors.
            let guards = zone.positions.iter().filter(|position| position.line == Line::Front).count() == 2;
            for (at, position) in zone.positions.iter().enumerate() {
                match position.pairing {
                    Pairing::Lone => assert_eq!(top[at].x, 0.0, "{shape}"),
                    _ if guards && position.line == Line::Front => {}
                    Pairing::Near(far) => assert_eq!(top[at], top[usize::from(far)].sided(-1.0), "{shape}"),
                    Pairing::Far(_) => {}
                }
            }
        }
    }
}

#[test]
fn sink_moves_the_back_line_in_proportion_but_not_the_one_on_the_ball() {
    let wing =
        |sink: &str| zone(&format!("sink_back_m = {sink}")).zone.table.anchors[BallPlace::Wing as usize];
    assert_eq!(wing("0.0")[3], vec2(3.0, 0.8));
    assert!(near(wing("0.6")[3], vec2(2.7, 0.5)));
    assert!(near(wing("1.2")[3], vec2(2.4, 0.2)));
    assert_eq!(wing("1.2")[..3], wing("0.0")[..3]);
    let corner =
        |sink: &str| zone(&format!("sink_back_m = {sink}")).zone.table.anchors[BallPlace::Corner as usize];
    assert_eq!(corner("1.2")[3], vec2(5.4, -0.1), "the near back is on the ball");
    assert!(near(corner("1.2")[4], vec2(2.0, 0.2)));
    assert!(zone("sink_back_m = 1.5").zone.table.anchors[0].iter().all(|at| at.y >= 0.0));
}

#[test]
fn front_line_sinks_and_extends_along_the_radius() {
    let top = |lines: &str| zone(lines).zone.table.anchors[BallPlace::Top as usize];
    assert!(near(top("extension_m = 0.5")[0], vec2(0.0, 6.5)));
    assert!(near(top("sink_front_m = 0.5")[0], vec2(0.0, 6.0)), "the point is on the ball");
    assert!((top("sink_front_m = 0.5")[1].len() - (vec2(2.6, 4.6).len() - 0.5)).abs() < 1e-5);
}

#[test]
fn rules_choose_helper_on_ball_defender_and_rows() {
    let corner = BallPlace::Corner as usize;
    let setup = zone("post_help_rule = \"near-wing-drops\"");
    assert_eq!(setup.zone.helper, Some(1));
    assert_eq!(setup.zone.table.anchors[corner][1], vec2(2.6, 1.0));
    let setup = zone("corner_rule = \"wing-drops\"");
    assert_eq!(
        (setup.zone.table.on_ball[corner], setup.zone.table.anchors[corner][1]),
        ([1, 1], vec2(5.4, 0.1))
    );
    let setup = zone("corner_rule = \"back-until-bump\", post_help_rule = \"point-drops\"");
    assert_eq!((setup.zone.table.on_ball[corner], setup.zone.helper), ([3, 3], Some(0)));
    let bump = setup.zone.table.bumps[corner];
    assert_eq!(bump.map(|bump| (bump.row[1], bump.on_ball)), Some((vec2(5.4, 0.1), 1)));
}

/// A setup against a bundled zone with these lines in `[zone]`.
fn against(shape: &str, lines: &str) -> Arc<Setup> {
    load(&format!("{SMALL}attack = {{ use = \"rover\" }}\nzone = {{ use = \"{shape}\", {lines} }}\n"))
}

#[test]
fn the_first_rule_of_the_zones_file_is_its_usual_one() {
    let (corner, low_post) = (BallPlace::Corner as usize, BallPlace::LowPost as usize);
    let zone = |shape: &str| against(shape, "").zone.clone();
    // Forward to the corner, centre to the post; baseline man to the corner, middle to the post.
    assert_eq!((zone("2-3").table.on_ball[corner], zone("2-3").table.on_ball[low_post]), ([2, 2], [3, 3]));
    assert_eq!(
        (zone("1-3-1").table.on_ball[corner], zone("1-3-1").table.on_ball[low_post]),
        ([4, 4], [3, 3])
    );
    assert_eq!(zone("1-2-2").helper, Some(4));
    assert_eq!((zone("man-to-man").helper, zone("man-to-man").marks.is_some()), (None, true));
}

#[test]
fn neutral_dials_are_the_defaults() {
    let zone = zone("sink_back_m = 0.0").zone.clone();
    let dials = [zone.fly_by, zone.reversal_denial, zone.stunt_m, zone.dig, zone.respect];
    assert_eq!((dials, zone.overload), ([0.0; 5], OverloadRule::Danger));
    assert!(zone.adjusted.is_none() && zone.table.traps.iter().all(Option::is_none) && !zone.high_post_named);
}

#[test]
fn traps_have_a_trapper_a_goalie_and_a_row() {
    let traps = |shape: &str, lines: &str| against(shape, lines).zone.table.traps;
    let corner = traps("1-2-2", "trap = [\"corner\"]")[BallPlace::Corner as usize];
    assert_eq!(corner.map(|trap| (trap.trapper, trap.goalie)), Some((1, 2)));
    // Where the file says nothing the second nearest to the ball comes and the others keep the place's row.
    let slot = traps("1-2-2", "trap = [\"slot\"]")[BallPlace::Slot as usize];
    assert_eq!(slot.map(|trap| (trap.trapper, trap.row[2])), Some((1, vec2(-1.1, 4.6))));
    let usual = traps("1-3-1", "sink_back_m = 0.0").map(|trap| trap.is_some());
    assert_eq!(usual.iter().filter(|on| **on).count(), 1, "the 1-3-1 traps the corner by itself");
    assert!(traps("1-3-1", "trap = []").iter().all(Option::is_none));
}

#[test]
fn an_adjusted_zone_sinks_half_as_far_and_goes_to_its_next_corner_rule() {
    let corner = BallPlace::Corner as usize;
    let zone = zone("sink_back_m = 1.2, adjust_after = 2").zone.clone();
    let adjusted = zone.adjusted.expect("an adjusted table");
    assert_eq!((zone.table.on_ball[corner], adjusted.on_ball[corner]), ([3, 3], [1, 1]));
    let wing = BallPlace::Wing as usize;
    assert!(near(zone.table.anchors[wing][3], vec2(2.4, 0.2)));
    assert!(near(adjusted.anchors[wing][3], vec2(2.7, 0.5)));
}

#[test]
fn high_post_on_balls_and_shooting_by_role_are_read() {
    let elbow = BallPlace::Elbow as usize;
    let zone = zone("high_post_on_ball = \"near back\"").zone.clone();
    assert_eq!((zone.table.on_ball[elbow], zone.high_post_named), ([3, 3], true));
    let attack = load(&small("").replace("use = \"rover\"", "shooting = { rover = -0.8 }")).attack.clone();
    assert_eq!(attack.role_shooting, [0.0, 0.0, -0.8, 0.0, 0.0]);
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
