//! What a user types: the bare command answers the bundled question and writes its files whole; unusable
//! input exits with 2 and says where, before anything is written; the rows on the screen are the rows on disk.
//!
//! What it has caught: nothing yet.

use std::fs;
use std::path::Path;

use experiments::app::Exit;

use crate::support::{argument, files_under, folder, question, workspace, zoneprobe};

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
        "comparison.csv",
        "differences.csv",
        "films.csv",
        "manifest.json",
        "passes.csv",
        "paths.csv",
        "pictures",
        "places.csv",
        "report.html",
    ];
    assert_eq!(names(&out), files);
    let report = format!("report: {}", argument(&out.join("report.html")));
    assert!(told.err.contains("written to") && told.err.trim_end().ends_with(&report), "{}", told.err);
    let question = question();
    let shown = told.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(shown.contains(question.question.split('?').next().unwrap_or_default()), "{}", told.out);
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
    let scenario = "name = \"s\"\nrules = \"us-high-school\"\nzone = { use = \"1-2-2\" }\n\
                    level = { attack = \"high-school\", defence = \"high-school\" }\nattack = { use = \"rover\" }\n";
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
