//! A week as the guide tells it: players, a scouting sheet on Monday and a fuller one on Wednesday, the question, the sheet, the charted
//! game, the updated question.
//!
//! What it has caught: questions made of sightings and charts had one attack each, so that nothing could be chosen.

use std::fs;

use experiments::error::Exit;

use crate::support::{argument, folder, text_of, zoneprobe};

/// Possessions of each variant: the week has to run, not to decide.
const FEW: &str = "64";

#[test]
fn a_week_runs_from_players_to_the_sheet() {
    let guide = text_of("scenarios/GUIDE.md");
    for told in [
        "zoneprobe show our-five.toml",
        "zoneprobe scout monday.csv",
        "zoneprobe compare wednesday/scouted.toml",
        "zoneprobe compare week.toml",
        "zoneprobe chart game.csv",
        "zoneprobe compare charted/charted.toml",
    ] {
        assert!(guide.contains(told), "the guide no longer says {told}");
    }
    // The files of the guide's week, as they stand there.
    let file = |name: &str| {
        let (_, after) = guide.split_once(&format!("\n`{name}`")).unwrap_or_else(|| panic!("no {name}"));
        let (_, after) = after.split_once("\n\n```").expect("a file");
        let (_, after) = after.split_once('\n').expect("a file");
        after.split_once("```").expect("an end").0.to_owned()
    };
    let names = ["our-five.csv", "our-five.toml", "monday.csv", "wednesday.csv", "week.toml", "game.csv"];
    let texts = names.map(file);
    let files: Vec<(&str, &str)> = names.into_iter().zip(texts.iter().map(String::as_str)).collect();
    let home = folder(&files);
    let at = |name: &str| home.path().join(name);
    let run = |args: &[&str]| {
        let told = zoneprobe(args);
        assert_eq!(told.exit, Exit::Done, "{args:?}: {}", told.err);
        told.out
    };

    assert!(run(&["show", argument(&at("our-five.toml"))]).contains("rover (Kit)"));
    let scout = |sheet: &str, out: &str| {
        let (scenario, question, out) = (at("our-five.toml"), at("week.toml"), at(out));
        run(&[
            "scout",
            argument(&at(sheet)),
            "--scenario",
            argument(&scenario),
            "--question",
            argument(&question),
            "--possessions",
            "32",
            "--out",
            argument(&out),
            "--quiet",
        ])
    };
    let (little, more) = (scout("monday.csv", "monday"), scout("wednesday.csv", "wednesday"));
    assert!(little.contains("that is little") && !more.contains("that is little"), "{little}\n{more}");

    let midweek = run(&[
        "compare",
        argument(&at("wednesday").join("scouted.toml")),
        "--possessions",
        "16",
        "--out",
        argument(&at("midweek")),
        "--quiet",
    ]);
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat(&midweek).contains("the best is named for each of it"), "{midweek}");

    let out = at("out");
    run(&["compare", argument(&at("week.toml")), "--possessions", FEW, "--out", argument(&out), "--quiet"]);
    let sheet = at("sheet");
    run(&["sheet", argument(&out), "--out", argument(&sheet), "--quiet"]);
    let cards = fs::read_to_string(sheet.join("cards.html")).expect("cards");
    assert!(cards.contains("rover (Kit)"));
    run(&["verify", argument(&out)]);

    let (game, scenario, roster, charted) =
        (at("game.csv"), at("our-five.toml"), at("our-five.csv"), at("charted"));
    let told = run(&[
        "chart",
        argument(&game),
        "--against",
        argument(&out),
        "--players",
        argument(&roster),
        "--every-shot",
        "--scenario",
        argument(&scenario),
        "--possessions",
        FEW,
        "--out",
        argument(&charted),
        "--quiet",
    ]);
    assert!(told.contains("Game: 5 possessions") && told.contains("man-to-man 1"), "{told}");
    let counts = fs::read_to_string(charted.join("charted-players.csv")).expect("players");
    assert!(counts.contains("rover,Kit,,39 of 96,"), "{counts}");
    assert!(counts.contains("other-post,,35,,40 of 85,29 of 57,no-threes"), "{counts}");
    assert!(counts.contains("52 of 91"), "the first of two shots of a possession counts: {counts}");
    let next = charted.join("charted.toml");
    let question = fs::read_to_string(&next).expect("a question");
    for route in ["stays / as-planned", "crosses / as-planned", "drops / as-planned"] {
        assert!(question.contains(route), "{question}");
    }
    run(&["compare", argument(&next), "--possessions", FEW, "--out", argument(&at("next")), "--quiet"]);
}
