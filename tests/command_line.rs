//! What a user types: the bare command answers the bundled question and writes its files whole; unusable input exits
//! with 2 and says where and what would do, before anything is run or written; nothing is written over; the rows on
//! the screen are the rows on disk. What needs a process of its own stands beside the program.
//!
//! What it has caught: nothing yet.

use std::ffi::OsString;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

use experiments::app;
use experiments::console::Console;
use experiments::error::Exit;
use experiments::units::Units;
use serde_json::Value;

use crate::support::{Told, argument, files_under, folder, question, workspace, zoneprobe};

/// A scenario with nothing special about it.
const SCENARIO: &str = "name = \"s\"\nrules = \"us-high-school\"\nzone = { use = \"1-2-2\" }\n\
    level = { attack = \"high-school\", defence = \"high-school\" }\nattack = { use = \"rover\" }\n";
/// So many possessions would take days.
const DAYS: &str = "1073741824";

/// The files in a folder, in order.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").file_name());
    let mut names: Vec<String> = entries.map(|name| name.to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn the_bare_command_answers_the_bundled_question() {
    let home = folder(&[]);
    let out = home.path().join("deep/out");
    let told = zoneprobe(&["--possessions", "40", "--out", argument(&out)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let files = [
        "answers.csv",
        "best_by_net.csv",
        "breakdowns.csv",
        "calls.csv",
        "choices.csv",
        "comparison.csv",
        "defenders.csv",
        "differences.csv",
        "duties.csv",
        "ends.csv",
        "films.csv",
        "free.csv",
        "inputs",
        "manifest.json",
        "pass_pairs.csv",
        "passes.csv",
        "paths.csv",
        "pictures",
        "places.csv",
        "players.csv",
        "positions.csv",
        "regions.csv",
        "report.html",
        "runs.csv",
        "shooting.csv",
        "stands.csv",
        "starts.csv",
        "verdict.json",
        "ways.csv",
    ];
    assert_eq!(names(&out), files);
    let report = format!("report: {}", argument(&out.join("report.html")));
    assert!(told.err.contains("written to") && told.err.trim_end().ends_with(&report), "{}", told.err);
    let question = question();
    let shown = told.out.split_whitespace().collect::<Vec<_>>().join(" ");
    // Told by US rules.
    let asked = Units::Ft.retold(&question.question).into_owned();
    assert!(shown.contains(asked.split('?').next().unwrap_or_default()), "{}", told.out);
    for variant in &question.variants {
        assert!(told.out.contains(&variant.name), "{} is not in\n{}", variant.name, told.out);
    }
    let manifest = fs::read(out.join("manifest.json")).expect("a manifest");
    let manifest: serde_json::Value = serde_json::from_slice(&manifest).expect("a manifest is JSON");
    assert_eq!((manifest["seed"].as_u64(), manifest["possessions"].as_u64()), (Some(1), Some(40)));
    let text = manifest.to_string();
    assert!(!text.contains(argument(home.path())), "the manifest tells of this machine");
}

#[test]
fn rows_on_the_screen_are_the_rows_on_disk() {
    let home = folder(&[]);
    let out = home.path().join("out");
    let args = ["--possessions", "40", "--format", "csv", "--quiet", "--out", argument(&out)];
    let told = zoneprobe(&args);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""));
    assert_eq!(told.out, fs::read_to_string(out.join("comparison.csv")).expect("rows"));
    let mut rows = csv::Reader::from_reader(told.out.as_bytes());
    let head = rows.headers().expect("a header").clone();
    for column in ["variant", "possessions", "open_look_rate", "open_look_rate_low", "open_look_rate_high"] {
        assert!(head.iter().any(|own| own == column), "no column {column}");
    }
    let rows: Vec<_> = rows.records().map(|row| row.expect("rows of equal length")).collect();
    let played: Vec<&str> = rows.iter().map(|row| &row[0]).collect();
    let question = question();
    assert_eq!(played, question.variants.iter().map(|v| v.name.as_str()).collect::<Vec<_>>());
    assert!(rows.iter().all(|row| &row[1] == "40"));
}

#[test]
fn unusable_input_exits_with_2_and_says_why() {
    let scenario = SCENARIO;
    let home = folder(&[
        ("bad.toml", "name = \"unclosed\n"),
        ("unknown.toml", &scenario.replace("use = \"1-2-2\"", "use = \"1-2-2\", snik_back_m = 1.2")),
        ("range.toml", &scenario.replace("use = \"1-2-2\"", "use = \"1-2-2\", sink_back_m = 9.0")),
        ("route.toml", &scenario.replace("use = \"rover\"", "rover = { route = \"seam-crosss\" }")),
        ("fine.toml", scenario),
    ]);
    let file = |name: &str| argument(&home.path().join(name)).to_owned();
    for (name, word) in [
        ("nowhere.toml", "nowhere.toml"),
        ("bad.toml", "bad.toml"),
        ("unknown.toml", "snik_back_m"),
        ("range.toml", "sink_back_m"),
        ("route.toml", "seam-crosss"),
    ] {
        let out = file("out");
        for args in [
            vec!["check", &file(name)],
            vec!["simulate", &file(name), "--possessions", "5", "--out", &out],
            vec!["compare", &file(name), "--possessions", "5", "--out", &out],
            vec!["film", &file(name), "--possession", "5", "--out", &out],
        ] {
            let told = zoneprobe(&args);
            assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{args:?}");
            assert!(told.err.contains(word), "{args:?}: {}", told.err);
        }
        assert!(!home.path().join("out").exists(), "{name}: something was written");
    }
    let told =
        zoneprobe(&["simulate", &file("fine.toml"), "--possessions", "5", "--out", argument(home.path())]);
    assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""));
    assert!(told.err.contains("not an empty folder"), "{}", told.err);
    let told = zoneprobe(&["simulate", &file("fine.toml"), "--possessions", "5", "--out", &file("out")]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
}

#[test]
fn a_film_is_told_line_by_line() {
    let args = ["film", "sunken-122", "--seed", "4", "--possession", "17"];
    let told = zoneprobe(&args);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""));
    let timed = told.out.lines().filter(|line| line.get(5..7) == Some(" s")).count();
    assert!(timed >= 5, "{}", told.out);
    assert!(told.out.contains("starts with the ball") && told.out.contains("the end: "), "{}", told.out);
    assert_eq!(zoneprobe(&args).out, told.out, "a film is the same when it is shown again");
}

#[test]
fn nothing_is_wrong_with_the_bundled_files() {
    let files =
        [files_under("scenarios/data/scenarios", "toml"), files_under("scenarios/data/experiments", "toml")];
    for file in files.concat() {
        let told = zoneprobe(&["check", argument(&workspace().join(&file))]);
        assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""), "{file}");
        assert!(told.out.contains("nothing wrong"), "{}", told.out);
    }
}

#[test]
fn the_catalog_lists_everything_bundled() {
    let told = zoneprobe(&["catalog"]);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""));
    let routes = files_under("scenarios/data/routes", "toml");
    assert!(routes.len() >= 10, "routes are bundled");
    let words: Vec<&str> = told.out.lines().filter_map(|line| line.split_whitespace().next()).collect();
    for file in files_under("scenarios/data", "toml") {
        let name = file.rsplit('/').next().unwrap_or_default().trim_end_matches(".toml");
        assert!(words.contains(&name), "{name} is not in\n{}", told.out);
    }
}

/// A result in JSON.
fn document(told: &Told) -> Value {
    serde_json::from_str(&told.out).unwrap_or_else(|error| panic!("{error} in\n{}{}", told.out, told.err))
}

fn words(value: &Value) -> Vec<&str> {
    value.as_array().expect("a list").iter().filter_map(Value::as_str).collect()
}

#[test]
fn all_files_are_judged_and_one_bad_one_is_enough() {
    let unknown = SCENARIO.replace("use = \"1-2-2\"", "use = \"1-2-2\", snik_back_m = 1.2");
    let home =
        folder(&[("fine.toml", SCENARIO), ("unknown.toml", &unknown), ("bad.toml", "name = \"open\n")]);
    let files: Vec<String> = ["unknown.toml", "fine.toml", "bad.toml"]
        .map(|name| argument(&home.path().join(name)).into())
        .to_vec();
    let check = |more: &[&str]| {
        zoneprobe(
            &["check"]
                .iter()
                .chain(files.iter().map(String::as_str).collect::<Vec<_>>().iter())
                .chain(more)
                .copied()
                .collect::<Vec<_>>(),
        )
    };
    let told = check(&[]);
    assert_eq!(told.exit, Exit::Unusable);
    assert_eq!(told.out, format!("{}: scenario, nothing wrong\n", files[1]));
    assert!(told.err.contains("snik_back_m") && told.err.contains("bad.toml"), "{}", told.err);
    let told = check(&["--quiet"]);
    assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""));
    assert!(told.err.contains("snik_back_m"), "errors are never quiet: {}", told.err);

    let told = check(&["--format", "json"]);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Unusable, "zoneprobe: 2 of 3 files cannot be used\n"));
    let page = document(&told);
    assert_eq!(page["ok"], false);
    let judged: Vec<&Value> = page["files"].as_array().expect("a list").iter().collect();
    let told: Vec<(&str, Option<&str>, Option<bool>)> = judged
        .iter()
        .map(|file| (file["file"].as_str().expect("a name"), file["kind"].as_str(), file["ok"].as_bool()))
        .collect();
    let expected = [
        (files[0].as_str(), None, Some(false)),
        (files[1].as_str(), Some("scenario"), Some(true)),
        (files[2].as_str(), None, Some(false)),
    ];
    assert_eq!(told, expected);
    let fault = &judged[0]["faults"][0];
    assert_eq!((fault["file"].as_str(), fault["line"].as_u64()), (Some(files[0].as_str()), Some(3)));
    assert_eq!(fault["column"].as_u64(), Some(25));
    assert_eq!(
        (fault["key"].as_str(), fault["found"].as_str()),
        (Some("zone.snik_back_m"), Some("zone.snik_back_m"))
    );
    assert_eq!(fault["nearest"], "sink_back_m");
    assert!(fault["allowed"].as_str().is_some_and(|allowed| allowed.contains("sink_back_m")), "{fault}");
    assert!(fault["message"].as_str().is_some_and(|message| message.contains("did you mean")), "{fault}");
    assert!(judged[1]["faults"].as_array().is_some_and(Vec::is_empty));
    let broken = &judged[2]["faults"][0];
    assert_eq!((broken["line"].as_u64(), broken["key"].as_str()), (Some(1), Some("")), "{broken}");

    let told = zoneprobe(&["check", &files[1], "routes-against-sink", "--format", "json", "--quiet"]);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""));
    assert_eq!(document(&told)["files"][1]["kind"], "experiment");
}

#[test]
fn a_ranking_column_that_does_not_exist_is_a_fault_of_the_file() {
    let question = "question = \"?\"\nscenario = \"sunken-122\"\nrank_by = \"open_looks\"\nvariant = [{ name = \"a\" }]\n";
    let home = folder(&[("q.toml", question)]);
    let file = argument(&home.path().join("q.toml")).to_owned();
    let told = zoneprobe(&["check", &file, "--format", "json"]);
    assert_eq!(told.exit, Exit::Unusable);
    let fault = &document(&told)["files"][0]["faults"][0];
    assert_eq!((fault["key"].as_str(), fault["line"].as_u64()), (Some("rank_by"), Some(3)), "{fault}");
    assert_eq!(
        (fault["found"].as_str(), fault["nearest"].as_str()),
        (Some("\"open_looks\""), Some("open_look_rate"))
    );
}

#[test]
fn a_word_that_is_neither_a_file_nor_bundled_is_answered_with_where_to_look() {
    for args in [
        &["compare", "sunken"][..],
        &["simulate", "sunken"],
        &["film", "sunken", "--possession", "1"],
        &["check", "sunken"],
    ] {
        let told = zoneprobe(args);
        assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{args:?}");
        assert!(told.err.contains("`zoneprobe catalog`"), "{args:?}: {}", told.err);
    }
}

#[test]
fn a_dry_run_tells_the_plan_and_writes_nothing() {
    let home = folder(&[]);
    let out = home.path().join("out");
    let question = question();
    let dry = |more: &[&str]| {
        let args = [
            "compare",
            "--dry-run",
            "--possessions",
            DAYS,
            "--seed",
            "5",
            "--threads",
            "3",
            "--out",
            argument(&out),
        ];
        zoneprobe(&[&args, more].concat())
    };
    let told = dry(&[]);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""));
    let flat = told.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "attack.rover.route = \"seam-cross\"",
        "1,073,741,824 possessions for each route, 7,516,192,768 in all; seed 5, 3 threads",
        "21 times 4,096 more, 86,016 in all",
        "the first 256 of each once more, 1,792 in all",
        "at most 2 times 2,048 once more, 4,096 in all",
        "good_look_rate (good looks), against hold-wing",
        argument(&out),
        "Nothing was played or written",
    ] {
        assert!(flat.contains(part), "{part} is not in\n{}", told.out);
    }
    let told = dry(&["--format", "json", "--rank-by", "drives"]);
    let page = document(&told);
    // Seven variants; under three rules each, 4,096 possessions; the first 256 once more; and 2,048 of two leaders.
    let besides = 21 * 4096 + 7 * 256 + 2 * 2048;
    assert_eq!(page["possessions_in_all"].as_u64(), Some(7_516_192_768 + besides));
    assert_eq!(page["command"], format!("zoneprobe compare --possessions {DAYS} --seed 5 --rank-by drives"));
    assert_eq!((page["rank_by"].as_str(), page["out"].as_str()), (Some("drives"), Some(argument(&out))));
    let planned: Vec<&str> =
        page["variants"].as_array().expect("variants").iter().filter_map(|v| v["name"].as_str()).collect();
    assert_eq!(planned, question.variants.iter().map(|v| v.name.as_str()).collect::<Vec<_>>());
    let told = dry(&["--format", "csv"]);
    let mut rows = csv::Reader::from_reader(told.out.as_bytes());
    assert_eq!(rows.headers().expect("a header"), ["variant", "key", "value"].as_slice());
    assert_eq!(rows.records().count(), question.variants.len());
    assert!(names(home.path()).is_empty(), "something was written");
    fs::write(&out, "").expect("a file");
    assert_eq!(dry(&[]).exit, Exit::Unusable, "what the run would refuse, the dry run refuses");
    let told =
        zoneprobe(&["simulate", "sunken-122", "--dry-run", "--out", argument(&home.path().join("new"))]);
    assert_eq!(told.exit, Exit::Done);
    assert!(told.out.contains("as-given") && !told.out.contains("rank by"), "{}", told.out);
}

#[test]
fn an_output_that_cannot_be_is_refused_before_the_run_and_never_written_over() {
    let home = folder(&[("file", "mine")]);
    let place = |name: &str| argument(&home.path().join(name)).to_owned();
    let used = place("used");
    let told = zoneprobe(&["--possessions", "40", "--quiet", "--out", &used]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let before = fs::read(home.path().join("used/comparison.csv")).expect("rows");
    let (file, below, long) = (place("file"), place("file/deep/out"), place(&"x".repeat(1000)));
    for (out, word) in [
        (&used, "not an empty folder"),
        (&file, "is a file and results need a folder"),
        (&below, "is a file and results need a folder"),
        (&long, "cannot write in the folder"),
    ] {
        for args in [
            &["--possessions", DAYS][..],
            &["compare", "--possessions", DAYS],
            &["simulate", "sunken-122", "--possessions", DAYS],
            &["film", "--possession", "1"],
            &["man"],
        ] {
            let told = zoneprobe(&[args, &["--out", out]].concat());
            assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{args:?} --out {out}");
            assert!(told.err.contains(word) && told.err.contains("name another with --out"), "{}", told.err);
            assert!(!told.err.contains("os error"), "{}", told.err);
        }
    }
    assert_eq!(fs::read(home.path().join("used/comparison.csv")).expect("rows"), before);
    assert_eq!(fs::read(home.path().join("file")).expect("a file"), b"mine");
    assert_eq!(names(home.path()), ["file", "used"]);
}

#[test]
fn numbers_that_cannot_be_are_answered_with_those_that_can() {
    for (args, words) in [
        (&["--possessions", "0"][..], ["too small", "1 to 1,073,741,824"]),
        (&["--possessions", "1073741825"], ["too large", "1 to 1,073,741,824"]),
        (&["--possessions", "8,192"], ["without separators, 8192", "1 to 1,073,741,824"]),
        (&["--threads", "0"], ["too small, allowed is a whole number from 1 to ", "no faster"]),
        (
            &["--threads", "100000"],
            ["too large, allowed is a whole number from 1 to ", "more than processors are no faster"],
        ),
        (
            &["--batch", "1025"],
            ["too large, allowed is a whole number from 1 to 1,024", "take memory and are no faster"],
        ),
        (&["--seed", "lucky"], ["not a whole number", "0 to 18,446,744,073,709,551,615"]),
        (&["--seed", "-1"], ["below zero", "0 to 18,446,744,073,709,551,615"]),
        (&["film", "--possession", "1.5"], ["not a whole number", "0 to"]),
        (&["--rank-by", "turnovers_rate"], ["did you mean turnover_rate?", "keys columns"]),
        (&["--format", "xml"], ["table, csv, json", "--format"]),
    ] {
        let told = zoneprobe(args);
        assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{args:?}");
        assert!(words.iter().all(|word| told.err.contains(word)), "{args:?}: {}", told.err);
    }
}

#[test]
fn another_ranking_column_ranks_and_is_noted() {
    let home = folder(&[]);
    let run = |name: &str, more: &[&str]| {
        let out = home.path().join(name);
        let args = ["compare", "--possessions", "40", "--format", "json", "--quiet", "--out", argument(&out)];
        document(&zoneprobe(&[&args, more].concat()))
    };
    let (usual, other) = (run("usual", &[]), run("other", &["--rank-by", "passes"]));
    assert_eq!(usual["result_digest"], other["result_digest"], "the possessions are the same");
    assert_eq!(
        (usual["rank_by"].as_str(), other["rank_by"].as_str()),
        (Some("good_look_rate"), Some("passes"))
    );
    assert_eq!(other["command"], "zoneprobe compare --possessions 40 --seed 1 --rank-by passes");
    let rows = other["results"].as_array().expect("rows");
    let passes = |row: &Value| row["figures"]["passes"]["estimate"].as_f64().expect("a figure");
    let best = rows.iter().find(|row| row["rank"] == 1).expect("a first");
    assert!(rows.iter().all(|row| passes(row) <= passes(best)), "the first has the most");
    assert!(other["note"].as_str().is_some_and(|note| note.contains("do not predict a game")));
    assert!(words(&other["sentences"])[0].contains("passes"), "{}", other["sentences"]);
}

#[test]
fn one_matchup_has_its_three_formats() {
    let home = folder(&[]);
    let run = |format: &str| {
        let out = home.path().join(format);
        zoneprobe(&[
            "simulate",
            "sunken-122",
            "--possessions",
            "40",
            "--format",
            format,
            "--quiet",
            "--out",
            argument(&out),
        ])
    };
    let (table, rows, page) = (run("table"), run("csv"), run("json"));
    assert!([&table, &rows, &page].iter().all(|told| told.exit == Exit::Done && told.err.is_empty()));
    assert!(table.out.contains("40 possessions, seed 1") && table.out.contains("open_look_rate"));
    assert_eq!(csv::Reader::from_reader(rows.out.as_bytes()).records().count(), 1);
    assert_eq!(document(&page)["results"][0]["variant"], "as-given");
}

#[test]
fn the_catalog_is_the_same_in_every_format() {
    let [table, rows, page] =
        ["table", "csv", "json"].map(|format| zoneprobe(&["catalog", "--format", format]));
    let page = document(&page);
    let entries = page.as_array().expect("a list");
    let rows: Vec<_> =
        csv::Reader::from_reader(rows.out.as_bytes()).records().map(|row| row.expect("a row")).collect();
    assert!(entries.len() > 20 && rows.len() == entries.len());
    for (row, entry) in rows.iter().zip(entries) {
        assert_eq!(
            row,
            [&entry["kind"], &entry["name"], &entry["line"]].map(|v| v.as_str().unwrap_or("none")).as_slice()
        );
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(table.out.contains(&row[1]) && words(&table.out).contains(&words(&row[2])), "{row:?}");
    }
}

#[test]
fn the_manual_has_a_page_for_each_command_and_is_never_written_over() {
    let home = folder(&[]);
    let out = home.path().join("man");
    let told = zoneprobe(&["man"]);
    assert_eq!((told.exit, told.err.as_str()), (Exit::Done, ""));
    let args = ["man", "--out", argument(&out)];
    let written = zoneprobe(&args);
    assert_eq!((written.exit, written.out.as_str()), (Exit::Done, ""));
    assert!(written.err.starts_with("written to "), "{}", written.err);
    assert_eq!(fs::read_to_string(out.join("zoneprobe.1")).expect("the main page"), told.out);
    let help = zoneprobe(&["--help"]).out;
    let commands =
        help.split("Commands:\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("a list");
    let commands: Vec<&str> = commands.lines().filter_map(|line| line.split_whitespace().next()).collect();
    assert!(commands.contains(&"compare") && commands.contains(&"man"), "{commands:?}");
    for command in commands.iter().filter(|command| **command != "help") {
        assert!(out.join(format!("zoneprobe-{command}.1")).is_file(), "{command} has no page");
    }
    assert_eq!(zoneprobe(&args).exit, Exit::Unusable);
}

#[test]
fn a_result_that_cannot_be_printed_is_a_failed_run_and_is_kept() {
    struct Full;
    impl Write for Full {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(io::ErrorKind::StorageFull.into())
        }
        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }
    let home = folder(&[]);
    let out = home.path().join("out");
    let args = ["zoneprobe", "--possessions", "40", "--quiet", "--out", argument(&out)].map(OsString::from);
    let mut err = Vec::new();
    let exit = app::run(args, &mut Console { out: &mut Full, err: &mut err, colour: false, width: 100 });
    assert_eq!(exit, Exit::Failed);
    assert_eq!(String::from_utf8_lossy(&err), "zoneprobe: cannot print the result: no storage space\n");
    assert!(out.join("comparison.csv").is_file(), "what could not be printed was kept");
}

/// Characters that a terminal obeys, or that are not seen.
fn is_odd(letter: char) -> bool {
    !matches!(letter, '\n' | '\t') && scenarios::is_hidden(letter)
}

#[test]
fn words_of_the_line_are_shown_and_not_obeyed() {
    let home = folder(&[]);
    let odd = "x\u{1b}[31m\u{7}\u{9b}\u{202e}y";
    let shown = "x\\u{1b}[31m\\u{7}\\u{9b}\\u{202e}y";
    let at = |name: &str| argument(&home.path().join(name)).to_owned();
    let taken = at(odd);
    fs::create_dir(&taken).expect("a name that the system takes");
    fs::write(home.path().join(odd).join("a.txt"), "").expect("a written file");
    fs::write(at(&format!("{odd}.toml")), SCENARIO).expect("a written file");
    let (file, nowhere) = (at(&format!("{odd}.toml")), at(&format!("{odd}/nowhere")));
    for line in [
        vec!["check", &file],
        vec!["check", "--format", "json", &file],
        vec!["compare", &file],
        vec!["compare", odd],
        vec![odd],
        vec!["--", odd],
        vec!["--color", "always", odd],
        vec!["compare", "--rank-by", odd],
        vec!["compare", "--possessions", odd],
        vec!["compare", "--out", &taken],
        vec!["film", "--possession", "1", "--variant", odd],
        vec!["show", odd],
        vec!["schema", odd],
        vec!["verify", &taken],
        vec!["verify", &nowhere],
        vec!["sheet", &nowhere],
    ] {
        let told = zoneprobe(&line);
        assert_eq!(told.exit, Exit::Unusable, "{line:?}");
        // Colours are the program's own.
        let plain = told.err.replace("\u{1b}[", "").replace("\u{1b}", "");
        let plain = if line[0] == "--color" { plain } else { told.err };
        assert!(!plain.contains(is_odd) && !told.out.contains(is_odd), "{line:?}: {plain:?} {:?}", told.out);
        let whole = plain.split_whitespace().filter(|word| *word != "│").collect::<String>() + &told.out;
        let escaped = told.out.contains("x\\u001b[31m\\u0007\\u009b\\u202ey");
        assert!(whole.contains(shown) || escaped, "{line:?}: {plain:?} {:?}", told.out);
    }
}

#[test]
fn an_output_folder_may_be_called_anything_and_is_told_as_it_is_shown() {
    let home = folder(&[]);
    let out = home.path().join("o\u{1b}[31m\u{202e}");
    let run = |more: &[&str]| {
        let line =
            [&["simulate", "sunken-122", "--possessions", "3", "--out", argument(&out)], more].concat();
        zoneprobe(&line)
    };
    let json = run(&["--dry-run", "--format", "json"]);
    assert_eq!(document(&json)["out"].as_str(), Some(argument(&out)), "a program reads it as it is");
    for told in [json, run(&["--dry-run"]), run(&[])] {
        assert_eq!(told.exit, Exit::Done, "{}", told.err);
        assert!(!told.out.contains(is_odd) && !told.err.contains(is_odd), "{:?} {:?}", told.out, told.err);
    }
    assert!(out.join("report.html").is_file());
    let told = zoneprobe(&["verify", argument(&out)]);
    assert!(told.exit == Exit::Done && told.out.contains("o\\u{1b}[31m\\u{202e}: all"), "{:?}", told.out);
    fs::write(out.join("more\u{7}.txt"), "").expect("a written file");
    let told = zoneprobe(&["verify", argument(&out)]);
    assert!(told.exit == Exit::Failed && told.out == "extra: more\\u{7}.txt\n", "{:?}", told.out);
}

#[test]
fn the_help_says_what_exit_codes_mean() {
    let help = zoneprobe(&["--help"]).out;
    let flat = help.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("0 done; 1 the run failed or was stopped; 2 a file or an option cannot be used"),
        "{help}"
    );
    assert_eq!([Exit::Done, Exit::Failed, Exit::Unusable].map(|exit| exit as u8), [0, 1, 2]);
}
