//! A chart of possessions is held against what a result predicts: a 3-2 that was scouted as a 2-3 is found out, and nothing is
//! said of a chart from the model itself but as often as is stated; practice is kept apart; nothing is written over.
//!
//! What it has caught: nothing yet.

use std::fs;
use std::sync::Arc;

use engine::setup::Setup;
use experiments::charting::{Predicted, fits, judged, play};
use experiments::error::Exit;
use experiments::stats::{Generator, wilson_interval};
use scenarios::Charted;

use crate::looks::Z_3_ERRORS;
use crate::support::{argument, folder, loaded, over, zoneprobe};

/// Possessions of a chart.
const CHARTED: usize = 100;

/// The zone of the plan, played by an attack.
fn setup(zone: &str, attack: (&str, &str)) -> Arc<Setup> {
    let (route, plan) = (format!("\"{}\"", attack.0), format!("\"{}\"", attack.1));
    let zone = format!("\"{zone}\"");
    loaded(over("plain-32", [("zone.use", &zone), ("attack.rover.route", &route), ("attack.plan", &plan)]))
}

fn predicted(zone: &str, attack: (&str, &str), (seed, possessions): (u64, u64)) -> Predicted {
    let threads = rayon::current_num_threads();
    play(&setup(zone, attack), (zone, seed), possessions, threads).expect("possessions")
}

/// Possessions drawn from those that were played.
fn drawn(from: &Predicted, many: usize, random: &mut Generator) -> Vec<Charted> {
    let all = from.possessions();
    let one = |draw: f64| {
        let mut left = (draw * all as f64) as u64;
        let found = from.ends.iter().find(|(_, count)| {
            let is_it = left < *count;
            left = left.saturating_sub(*count);
            is_it
        });
        found.unwrap_or(&from.ends[0]).0.clone()
    };
    (0..many).map(|_| one(random.uniform())).collect()
}

/// How many of so many charts of `true_zone` are told from the plan, and of how many the true zone is what fits best.
fn found(planned: &Predicted, true_zone: &Predicted, (repeats, many): (usize, usize)) -> (u64, u64) {
    let mut random = Generator::new(5);
    let (mut flagged, mut named) = (0, 0);
    for _ in 0..repeats {
        let charted = drawn(true_zone, many, &mut random);
        let told = judged(&charted, std::slice::from_ref(planned), 0);
        flagged += u64::from(told.iter().any(experiments::charting::Judged::is_outside));
        let chances = fits(&charted, &[planned.clone(), true_zone.clone()]).chances;
        named += u64::from(chances[1] > 0.5);
    }
    (flagged, named)
}

const ATTACKS: [(&str, &str); 3] =
    [("seam-cross", "inside-first"), ("hold-wing", "inside-first"), ("corner-drop", "drive-first")];

#[test]
#[ignore = "plays 120,000 possessions; prints the table of experiments/studies/charting.md"]
fn which_zones_are_told_from_one_another() {
    println!("| attack | planned | true | possessions | told off | likelier than the plan |");
    println!("| --- | --- | --- | --- | --- | --- |");
    for attack in ATTACKS {
        let zones = ["2-3", "3-2", "1-2-2", "2-1-2", "1-3-1"];
        let planned = zones.map(|zone| predicted(zone, attack, (1, 4096)));
        let truth = zones.map(|zone| predicted(zone, attack, (2, 4096)));
        for (p, plan) in planned.iter().enumerate() {
            for (t, own) in truth.iter().enumerate() {
                for many in [20, 50, CHARTED] {
                    let (flagged, named) = found(plan, own, (400, many));
                    let share = |n: u64| n as f64 / 400.0;
                    println!(
                        "| {} {} | {} | {} | {many} | {:.3} | {:.3} |",
                        attack.0,
                        attack.1,
                        zones[p],
                        zones[t],
                        share(flagged),
                        share(named)
                    );
                }
            }
        }
    }
}

#[test]
fn a_zone_that_was_taken_for_another_is_found_out_and_the_right_one_is_not() {
    let planned = predicted("2-3", ATTACKS[0], (1, 2048));
    let right = predicted("2-3", ATTACKS[0], (2, 2048));
    let wrong = predicted("3-2", ATTACKS[0], (2, 2048));
    let repeats = 400;
    let flagged = found(&planned, &wrong, (repeats, CHARTED)).0;
    let power = wilson_interval(flagged, repeats as u64, Z_3_ERRORS).expect("charts");
    assert!(power.high >= 0.9, "{power:?}");
    let false_words = found(&planned, &right, (repeats, CHARTED)).0;
    let false_words = wilson_interval(false_words, repeats as u64, Z_3_ERRORS).expect("charts");
    assert!(false_words.low <= 0.05, "{false_words:?}");
}

const CHART: &str = "possession;session;call;zone;high_post;low_post;end;who;place;space\n\
    1;game;;23;yes;no;three-made;3;wing;wide-open\n2;game;stays;;no;no;turnover;;;\n3;practice;;;yes;;two-made;rover;rim;guarded\n\
    4;;;man;;;;;;\n5;;;;;;;;;\n";
const QUESTION: &str = "question = \"Q?\"\nscenario = \"our.toml\"\npossessions = 64\nbaseline = \"stays\"\n\
    [[variant]]\nname = \"stays\"\nset = { \"attack.rover.route\" = \"hold-wing\" }\n\
    [[variant]]\nname = \"crosses\"\nset = { \"attack.rover.route\" = \"seam-cross\" }\n";
const OURS: &str = "name = \"Ours\"\nrules = \"us-high-school\"\nroster = \"our.csv\"\nzone = { use = \"2-3\" }\n\
    level = { attack = \"high-school\", defence = \"high-school\" }\nattack = { use = \"rover\", plan = \"inside-first\" }\n\
    [[opponent]]\nwho = \"back-line\"\nlate = \"seldom\"\n";
const ROSTER: &str = "role;name;open threes;licence\nrover;Kit;38 of 95;\nother post;;;inside only\n";

#[test]
fn a_chart_is_judged_by_session_and_makes_new_files_beside_the_old() {
    let files = [("chart.csv", CHART), ("q.toml", QUESTION), ("our.toml", OURS), ("our.csv", ROSTER)];
    let home = folder(&files);
    let at = |name: &str| home.path().join(name);
    let (result, chart) = (at("result"), at("chart.csv"));
    let run = zoneprobe(&["compare", argument(&at("q.toml")), "--out", argument(&result), "--quiet"]);
    assert_eq!(run.exit, Exit::Done, "{}", run.err);
    let told = |out: &str, more: &[&str]| {
        let (own, out) = (at("our.csv"), at(out));
        let args = [
            "chart",
            argument(&chart),
            "--against",
            argument(&result),
            "--players",
            argument(&own),
            "--variant",
        ];
        let args = [&args[..], &["crosses", "--out", argument(&out), "--quiet"], more].concat();
        let told = zoneprobe(&args);
        assert_eq!(told.exit, Exit::Done, "{}", told.err);
        let text = |name: &str| fs::read_to_string(out.join(name)).unwrap_or_default();
        (
            told.out.split_whitespace().collect::<Vec<_>>().join(" "),
            text("charted-players.csv"),
            text("charted.toml"),
        )
    };
    let (words, players, _) = told("out", &[]);
    for expected in [
        "As planned: crosses.",
        "Game: 2 possessions",
        "Practice: 1 possession,",
        "That is little.",
        "another shape than planned: man-to-man 1.",
        "rover (Kit): 1 of 1 open threes charted; 38 of 95 before, 39 of 96 now.",
        "Shots of practice are not added",
    ] {
        assert!(words.contains(expected), "{expected}:\n{words}");
    }
    assert_eq!(players.lines().nth(1), Some("rover,Kit,39 of 96,"));
    // The shot of practice is counted only where that is asked for.
    let (together, players, _) = told("together", &["--together"]);
    assert!(
        together.contains("Charted: 3 possessions") && players.contains("1 of 1"),
        "{together}\n{players}"
    );
    let scenario = at("our.toml");
    let more = ["--scenario", argument(&scenario), "--possessions", "16"];
    let (explained, _, question) = told("explained", &more);
    assert!(explained.contains("Too close to call"), "{explained}");
    assert!(
        question.contains("as-charted-1") && question.contains("\"roster\" = \"charted-players.csv\""),
        "{question}"
    );
    let judged = zoneprobe(&["check", argument(&at("explained").join("charted.toml"))]);
    assert_eq!(judged.exit, Exit::Done, "{}", judged.err);
    assert_eq!(
        told("again", &[&more[..], &["--threads", "1"]].concat()),
        (explained, players_of(&at("explained")), question)
    );
    assert_eq!(fs::read_to_string(at("our.csv")).expect("the roster"), ROSTER);
}

fn players_of(out: &std::path::Path) -> String {
    fs::read_to_string(out.join("charted-players.csv")).expect("players")
}

#[test]
fn what_is_wrong_with_a_chart_is_said_where_it_stands() {
    let home = folder(&[("q.toml", QUESTION), ("our.toml", OURS), ("our.csv", ROSTER)]);
    let result = home.path().join("result");
    let made = [
        "compare",
        argument(&home.path().join("q.toml")),
        "--possessions",
        "16",
        "--out",
        argument(&result),
        "--quiet",
    ]
    .map(str::to_owned);
    assert_eq!(zoneprobe(&made.each_ref().map(String::as_str)).exit, Exit::Done);
    let head = "possession,session,call,end,who,place,line_made,line_shot\n";
    for (rows, expected) in [
        (
            "1,game,staiys,turnover,,,,\n",
            &["chart.csv:2:8", "allowed stays or crosses", "did you mean `stays`?"][..],
        ),
        ("1,game,,three-mad,3,wing,,\n", &["chart.csv:2:9", "did you mean `three-made`?"]),
        ("1,game,,three-made,3,rim,,\n", &["chart.csv:2:22", "corner, wing or top beside a three"]),
        ("1,game,,free-throws,4,,3,2\n", &["no more than line_shot, 2"]),
        ("1,game,,free-throws,4,,1,\n", &["line_shot"]),
        ("1,game,,turnover,,,,\n1,game,,turnover,,,,\n", &["chart.csv:3:1", "each number once in a session"]),
        ("1,game,,turnover,6,,,\n", &["chart.csv:2:18"]),
        ("1,game,,,,,,\n2,,,,,,,\n", &["a row a possession"]),
        ("1,game,,turnover,,,,,9\n", &["a row of 9 cells"]),
    ] {
        let file = home.path().join("chart.csv");
        fs::write(&file, format!("\u{feff}{head}{rows}")).expect("a written file");
        let told = zoneprobe(&["chart", argument(&file), "--against", argument(&result)]);
        assert_eq!(told.exit, Exit::Unusable, "{rows}: {}", told.out);
        let err = told.err.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
        assert!(expected.iter().all(|expected| err.contains(expected)), "{rows}: {}", told.err);
    }
    fs::write(home.path().join("empty.csv"), "").expect("a written file");
    for args in
        [&["chart", argument(&home.path().join("empty.csv")), "--against", argument(&result)][..], &["chart"]]
    {
        assert_eq!(zoneprobe(args).exit, Exit::Unusable, "{args:?}");
    }
    let blank = home.path().join("blank");
    assert_eq!(zoneprobe(&["chart", "--out", argument(&blank), "--quiet"]).exit, Exit::Done);
    let form = zoneprobe(&["chart", argument(&blank.join("chart.csv")), "--against", argument(&result)]);
    assert!(form.exit == Exit::Unusable && form.err.contains("a row a possession"), "{}", form.err);
}
