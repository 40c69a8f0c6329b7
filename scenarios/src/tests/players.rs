//! Players who are known by themselves: what is said of them becomes what the engine plays with, and what is wrong is said
//! where it stands.

use engine::setup::{Individual, Licence, Setup, ShotClass};

use super::{Folder, small};
use crate::{experiment, scenario};

/// The setup of a small scenario with these lines, and a roster beside it.
fn setup(rest: &str, roster: &str) -> Setup {
    let folder = Folder::with(&[("s.toml", &small(rest)), ("our.csv", roster)]);
    let read = scenario(&folder.path("s.toml"))
        .unwrap_or_else(|faults| panic!("{}", folder.shown(&faults.to_string())));
    (*read.setup).clone()
}

/// The player of a role.
fn player(setup: &Setup, role: usize) -> &Individual {
    setup.individuals[role].as_ref().expect("a player")
}

/// What is wrong with such a scenario.
fn faults(rest: &str, roster: &str) -> String {
    let folder = Folder::with(&[("s.toml", &small(rest)), ("our.csv", roster)]);
    folder.shown(&scenario(&folder.path("s.toml")).expect_err("a fault").to_string())
}

#[test]
fn what_is_said_of_a_player_lies_over_his_teams_values_and_the_rest_is_the_teams() {
    let setup = setup(
        r#"
players.attack.head.reaction_s = 0.3
[[player]]
role = "rover"
number = 7
open_threes_made = 38
open_threes_attempted = 95
free_throws = 0.8
reach_m = 2.6
licence = "open-only"
handling = "good"
body = { jump_m = 0.7 }
skill = { pass = { chest = { speed_m_s = 8.0 } } }
"#,
        "",
    );
    let (team, rover) = (&setup.attackers, player(&setup, 2));
    assert_eq!((rover.name.as_str(), rover.licence), ("no. 7", Licence::OpenOnly));
    assert_eq!((rover.own.body.standing_reach_m, rover.own.body.jump_m), (2.6, 0.7));
    assert_eq!(rover.own.head, team.head);
    assert_eq!((team.head.reaction_s, rover.own.skill.free_throw), (0.3, 0.8));
    assert_eq!(rover.own.skill.handling_loss_per_s, 0.5 * team.skill.handling_loss_per_s);
    assert_eq!(rover.own.skill.pass[0].speed_m_s, 8.0);
    assert_eq!(rover.own.skill.continuation, team.skill.continuation);
    let known = |class: ShotClass| rover.shooting[class as usize];
    assert!(known(ShotClass::Three).is_some() && known(ShotClass::Rim).is_none());
    let threes = &rover.known[0];
    assert_eq!((threes.shots, threes.counted, threes.share), ("open threes", Some((38, 95)), 0.4));
    let drawn = (38.0 + 30.0 * threes.level) / 125.0;
    assert!((threes.played - drawn).abs() < 1e-6 && threes.level > 0.2 && threes.level < 0.4, "{threes:?}");
    assert!(setup.individuals.iter().flatten().count() == 1);
}

#[test]
fn a_roster_says_the_same_and_a_player_of_its_role_lies_over_its_row() {
    let list = r#"
[[player]]
role = "rover"
name = "Kit"
threes_made = 9
threes_attempted = 30
sprint_s = 3.1
[[player]]
role = "other-post"
licence = "inside-only"
sprint_s = 3.5
[[player]]
role = "off-guard"
sprint_s = 3.3
"#;
    let roster = "role;name;threes;licence;sprint s\nRover;Kit;9 of 30;;3,1\nOther post;;;inside only;3,5\noff-guard;;;;3,3\n";
    let listed = setup(list, "");
    assert_eq!(setup("roster = \"our.csv\"", roster).individuals, listed.individuals);
    assert!(player(&listed, 2).own.body.sprint_m_s > listed.attackers.body.sprint_m_s);
    let over = "roster = \"our.csv\"\n[[player]]\nrole = \"rover\"\nthrees = 0.4\n";
    let over = setup(over, roster);
    assert_eq!(player(&over, 2).known[0].counted, None);
    assert_eq!((player(&over, 2).name.as_str(), player(&over, 2).known[0].played), ("Kit", 0.4));
    assert_eq!(player(&over, 4), player(&listed, 4));
}

#[test]
fn one_value_of_a_player_can_be_varied_by_his_role() {
    let question = "scenario = \"s.toml\"\n[[variant]]\nname = \"v\"\n[factors]\n\"player.rover.open_threes\" = [0.25, 0.48]\n";
    for rest in ["", "[[player]]\nrole = \"rover\"\nfree_throws = 0.9\n", "roster = \"our.csv\""] {
        let files = [
            ("s.toml", small(rest)),
            ("e.toml", question.into()),
            ("our.csv", "role,rim\nrover,0.6\n".into()),
        ];
        let folder =
            Folder::with(&files.each_ref().map(|(name, text): &(&str, String)| (*name, text.as_str())));
        let read = experiment(&folder.path("e.toml")).unwrap_or_else(|faults| panic!("{faults}"));
        let played: Vec<Vec<f32>> = read
            .variants
            .iter()
            .map(|variant| player(&variant.setup, 2).known.iter().map(|known| known.played).collect())
            .collect();
        assert_eq!(played.len(), 2);
        assert!(played[0].contains(&0.25) && played[1].contains(&0.48), "{rest}: {played:?}");
    }
}

#[test]
fn what_is_wrong_with_a_player_is_said_where_it_stands() {
    let said = |lines: &str, expected: &str| {
        let told = faults(&format!("[[player]]\n{lines}"), "");
        assert!(told.contains(expected), "{lines}:\n{told}");
    };
    said("name = \"Kit\"", "player.1.role: found nothing, allowed lead-guard");
    said("role = \"rovr\"", "did you mean `rover`?");
    said("role = \"rover\"\nthrees = 40", "player.1.threes: found 40, allowed 0.01 to 0.99");
    said(
        "role = \"rover\"\nthrees_made = 9",
        "player.1.threes_attempted: found nothing, allowed a whole number",
    );
    said(
        "role = \"rover\"\nthrees_made = 9\nthrees_attempted = 8",
        "player.1.threes_made: found 9, allowed no more than threes_attempted, 8",
    );
    said(
        "role = \"rover\"\nthrees = 0.4\nthrees_made = 1\nthrees_attempted = 2",
        "allowed one of threes, or threes_made and threes_attempted",
    );
    said("role = \"rover\"\nthrees = 0.4\nopen_threes = 0.4", "allowed one of threes and open_threes");
    said(
        "role = \"rover\"\n[[player]]\nrole = \"rover\"",
        "player.2.role: found \"rover\", allowed one player a role",
    );
    said("role = \"rover\"\nsprint_s = 3.2", "allowed it beside usual.sprint_s, or such a time of 3 players");
    said("role = \"rover\"\nsprint_s = 5.0\n[usual]\nsprint_s = 3.3", "where 3.30 s is usual");
    said("role = \"rover\"\nbody = { friction = 0.5 }", "player.1.body.friction: found an unknown key");
    said(
        "role = \"rover\"\nreach_m = 2.5\nbody = { standing_reach_m = 2.5 }",
        "one of reach_m and body.standing_reach_m",
    );
}

#[test]
fn what_is_wrong_with_a_roster_is_said_by_row_and_column() {
    let said = |roster: &str, expected: &str| {
        let told = faults("roster = \"our.csv\"", roster);
        assert!(told.contains(expected), "{roster}:\n{told}");
    };
    said("", "our.csv: found an empty file, allowed a CSV file");
    said("\u{feff}", "our.csv: found an empty file");
    said("role,threees\nrover,0.4\n", "our.csv:1:6: found the heading \"threees\"");
    said("role,threes\nrover,abc\n", "our.csv:2:7: player 1.threes: found abc, allowed a number");
    said("role,height_m\nrover,1,88\n", "our.csv:2:9: found a row of 3 cells, allowed 2 cells");
    said("role;height_m\nrover;1,880\n", "our.csv:2:7: player 1.height_m: found 1,880");
    said(
        "role,threes_made,threes_attempted\nrover,9,8\n",
        "our.csv:2:7: player 1.threes_made: found 9, allowed no more than",
    );
    said("role,name\ncentre,Mo\n", "our.csv:2:1: player Mo.role: found centre");
    let told = faults("roster = \"other.csv\"", "role\n");
    assert!(told.contains("no such file"), "{told}");
}
