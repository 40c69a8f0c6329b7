//! A design that was killed goes on to the same bytes, is made again from its folder, and its numbers are those of its cells.

use super::kept::{all, blocks, check_same, until_kept};
use super::*;

/// Two variants in each of some cells, of which parts are kept.
pub(crate) const DESIGN: &str = r#"
question = "Which dials matter?"
scenario = "our-night.toml"
possessions = 65
rank_by = "good_look_rate"
baseline = "stay"
[[variant]]
name = "stay"
set = { "attack.rover.route" = "hold-wing" }
[[variant]]
name = "cross"
set = { "attack.rover.route" = "seam-cross" }
[design]
kind = "sobol"
cells = 16
draws = "own"
leading = 1
[[design.factor]]
key = "zone.sink_back_m"
range = [0.0, 1.2]
[[design.factor]]
key = "zone.post_help_rule"
values = ["far-back-crosses", "near-wing-drops"]
"#;

#[test]
fn a_design_that_was_killed_goes_on_to_the_same_bytes_and_is_made_again() {
    let home = home();
    fs::write(home.path().join("design.toml"), DESIGN).expect("a written file");
    let run = |args: &[&str]| {
        outcome(zoneprobe(&[&["compare", "design.toml"], args].concat()).current_dir(home.path()))
    };
    let (exit, planned, err) = run(&["--dry-run", "--out", "out"]);
    assert_eq!(exit, Some(0), "{err}");
    for words in [
        "16 cells (sobol), 2 variants in each, on possessions of their own; 65 of each, 2,080 in all",
        "by a pilot of",
        "the leading variant and",
    ] {
        assert!(
            planned.split_whitespace().collect::<Vec<_>>().join(" ").contains(words),
            "{words}: {planned}"
        );
    }
    assert!(!home.path().join("out").exists(), "nothing was written");
    let (exit, shown, err) = run(&["--out", "whole", "--quiet", "--threads", "1"]);
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    assert!(shown.contains("zone.sink_back_m") && shown.contains("leading/report.html"), "{shown}");

    let out = home.path().join("out");
    let mut killed = started(&["compare", "design.toml", "--out", "out"], home.path());
    until_kept(&out, 1);
    killed.kill().expect("killed");
    killed.wait().expect("an end");
    let (exit, _, err) = run(&["--out", "out", "--resume", "--rank-by", "drives"]);
    assert!(exit == Some(2) && err.contains("asked for by another command"), "{err}");
    let damaged = out.join("parts").join(&blocks(&out)[0]);
    fs::write(&damaged, "half").expect("a written file");
    let (exit, again, err) = run(&["--out", "out", "--resume", "--threads", "3"]);
    assert_eq!((exit, again), (Some(0), shown), "{err}");
    assert!(
        err.contains(" is damaged; what it held is played again\n") && err.contains("going on after "),
        "{err}"
    );
    check_same(&home.path().join("whole"), &out);

    let moved = home.path().join("elsewhere");
    fs::rename(&out, &moved).expect("a moved folder");
    let other = |args: &[&str]| outcome(zoneprobe(args).current_dir("/"));
    let (exit, said, err) = other(&["again", moved.to_str().expect("a path")]);
    assert!(exit == Some(0) && said.contains("made again, byte for byte"), "{said}{err}");
    let (exit, _, err) = other(&["verify", moved.join("leading").to_str().expect("a path")]);
    assert_eq!(exit, Some(0), "the leading ones are a result of their own: {err}");
    let (exit, said, err) = other(&["again", moved.join("leading").to_str().expect("a path")]);
    assert!(exit == Some(0) && said.contains("byte for byte"), "{said}{err}");
    tables_agree(&moved);
    let (exit, _, err) =
        outcome(zoneprobe(&["find", "elsewhere", "points > 1", "--list"]).current_dir(home.path()));
    assert!(exit == Some(2) && err.contains("zoneprobe compare leading.toml --records events"), "{err}");
}

#[test]
fn shards_of_a_design_in_any_order_make_the_bytes_of_one_run_and_no_others_do() {
    let home = home();
    // Cells that share their possessions have sums over all cells, which shards cut through.
    let own = DESIGN
        .replace("\"sobol\"\ncells = 16", "\"latin-hypercube\"\ncells = 34")
        .replace("leading = 1", "leading = 0");
    let same = own.replace("\"own\"", "\"same\"");
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    // With five there is one that has nothing to play.
    for (name, text, divisions) in [("same", &same, &[2, 5][..]), ("own", &own, &[])] {
        let file = format!("{name}.toml");
        fs::write(home.path().join(&file), text).expect("a written file");
        let play = ["compare", &file, "--seed", "5", "--quiet"];
        let whole = format!("{name}-whole");
        let (exit, shown, err) = run(&[&play[..], &["--out", &whole]].concat());
        assert_eq!((exit, err.as_str()), (Some(0), ""));
        for &of in divisions {
            let mut folders: Vec<String> = (1..=of).map(|nth| format!("{name}-{nth}-{of}")).collect();
            for (nth, folder) in folders.iter().enumerate() {
                let shard = format!("{}/{of}", nth + 1);
                let args = [&play[..], &["--shard", &shard, "--out", folder]].concat();
                assert_eq!(run(&args), (Some(0), String::new(), String::new()), "{folder}");
            }
            folders.rotate_left(of / 2);
            let folders: Vec<&str> = folders.iter().map(String::as_str).collect();
            let merged = format!("{name}-merged-{of}");
            let (exit, said, err) = run(&[&["merge", "--quiet", "--out", &merged][..], &folders].concat());
            assert_eq!((exit, said), (Some(0), shown.clone()), "{err}");
            check_same(&home.path().join(&whole), &home.path().join(&merged));
        }
    }
    // A shard that was killed is not whole, is refused as such, and goes on.
    let shard = ["compare", "own.toml", "--seed", "5", "--shard", "1/2", "--out", "killed"];
    let killed = home.path().join("killed");
    let mut first = started(&shard, home.path());
    until_kept(&killed, 1);
    first.kill().expect("killed");
    first.wait().expect("an end");
    let part = blocks(&killed)[0].clone();
    fs::write(killed.join("parts").join(&part), "half").expect("a written file");
    let other = ["compare", "own.toml", "--seed", "5", "--quiet", "--shard", "2/2", "--out", "other"];
    assert_eq!(run(&other).0, Some(0));
    let merge = ["merge", "killed", "other", "--quiet", "--out", "merged"];
    let (exit, _, err) = run(&merge);
    let word = "shard 1/2 in killed is not whole: ";
    assert!(exit == Some(2) && err.contains(word) && err.contains(&format!("killed/parts/{part}")), "{err}");
    assert!(!home.path().join("merged").exists());
    let (exit, _, err) = run(&[&shard[..], &["--resume"]].concat());
    assert!(exit == Some(0) && err.contains("shard 1/2 is whole in killed"), "{err}");
    assert_eq!(run(&merge).0, Some(0));
    check_same(&home.path().join("own-whole"), &home.path().join("merged"));
    for (folders, word) in [
        (&["killed"][..], "shard 2/2 is missing"),
        (
            &["killed", "same-2-2"],
            "same-2-2 is not of the run that killed is of: it has another text of own.toml",
        ),
    ] {
        let (exit, _, err) = run(&[&["merge", "--out", "none"][..], folders].concat());
        assert!(exit == Some(2) && err.contains(word), "{folders:?}: {err}");
    }
}

/// Rows of a file, by column.
fn rows(folder: &Path, name: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let bytes = all(folder).remove(name).unwrap_or_else(|| panic!("{name}"));
    let mut reader = csv::Reader::from_reader(bytes.as_slice());
    let head = reader.headers().expect("a header").clone();
    let row =
        |row: csv::StringRecord| head.iter().zip(&row).map(|(k, v)| (k.to_owned(), v.to_owned())).collect();
    reader.records().map(|record| row(record.expect("a row"))).collect()
}

/// The effects of the listed factor and of the variants are differences of averages of cells.
fn tables_agree(folder: &Path) {
    let (cells, effects) = (rows(folder, "comparison.csv"), rows(folder, "effects.csv"));
    assert_eq!(cells.len(), 32);
    let number =
        |row: &std::collections::BTreeMap<String, String>, key: &str| row[key].parse::<f64>().expect(key);
    let average = |key: &str, value: &str| {
        let own: Vec<f64> = cells
            .iter()
            .filter(|row| if key == "variant" { row[key].ends_with(value) } else { row[key] == value })
            .map(|row| number(row, "good_look_rate"))
            .collect();
        own.iter().sum::<f64>() / own.len() as f64
    };
    let main = |factor: &str| {
        let is_it = |row: &&std::collections::BTreeMap<String, String>| {
            row["effect"] == "main" && row["factor"] == factor && row["measure"] == "good_look_rate"
        };
        number(effects.iter().find(is_it).expect("a row"), "change")
    };
    // Every cell has both variants, so their effect is the plain difference to the last digit.
    assert!((main("variant") - (average("variant", "cross") - average("variant", "stay"))).abs() < 2e-6);
    // Half of a Sobol sequence has each rule; the sinks of both halves are nearly the same.
    let rule = average("zone.post_help_rule", "near-wing-drops")
        - average("zone.post_help_rule", "far-back-crosses");
    assert!((main("zone.post_help_rule") - rule).abs() < 0.01, "{rule}");
    let within = rows(folder, "differences.csv");
    let own = within.iter().filter(|row| row["measure"] == "good_look_rate");
    let sum: f64 = own.clone().map(|row| number(row, "difference")).sum();
    assert_eq!(own.clone().count(), 16, "one comparison a cell");
    assert!((sum / 16.0 - main("variant")).abs() < 2e-6, "the mean of the differences within cells");
    assert!(own.clone().all(|row| !row["p_bh"].is_empty() && row["reference"].ends_with("/ stay")));
}
