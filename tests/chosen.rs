//! What is left of a choice is measured, put on record and made again; and factors are told over all cells or not at all.
//! (That the choice itself is right: `tests/until_sure.rs`. Kills: `experiments/tests/faults/kept.rs`.)
//!
//! What it has caught: nothing yet.

use std::collections::BTreeSet;

use experiments::error::Exit;
use experiments::records::POSSESSIONS;
use experiments::records::read::{RecordFiles, texts};

use crate::support::{argument, folder, zoneprobe};

/// Four cells of what the attack is taught, of which not all go to the low post alike.
const TAUGHT: &str = r#"
scenario = "sunken-122"
possessions = 24
rank_by = "low_post_touch_rate"
[factors]
"attack.rover.route" = ["hold-wing", "seam-cross"]
"attack.plan" = ["free", "inside-first"]
"#;

#[test]
fn what_is_left_of_a_choice_is_on_record_and_factors_are_not_told_of_it() {
    let met =
        TAUGHT.replace("attack.plan", "zone.use").replace("\"free\", \"inside-first\"", "\"1-2-2\", \"3-2\"");
    let home = folder(&[("taught.toml", TAUGHT), ("met.toml", &met)]);
    let (file, out) = (home.path().join("taught.toml"), home.path().join("out"));
    let chosen =
        ["compare", argument(&file), "--until-sure", "0.001", "--budget", "1024", "--records", "possessions"];
    let told = zoneprobe(&[&chosen[..], &["--quiet", "--out", argument(&out)]].concat());
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let words = told.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("What each factor is worth is not told after a choice"), "{}", told.out);
    assert!(words.contains("Play it without --until-sure for that."), "{}", told.out);
    assert!(!out.join("effects.csv").exists());

    let manifest = std::fs::read_to_string(out.join("manifest.json")).expect("a manifest");
    let manifest: serde_json::Value = serde_json::from_str(&manifest).expect("JSON");
    let measured: BTreeSet<&str> = manifest["variants"]
        .as_array()
        .expect("variants")
        .iter()
        .filter_map(|variant| variant["name"].as_str())
        .collect();
    assert!((1..4).contains(&measured.len()), "{measured:?}: somebody was dropped");
    let records = RecordFiles::open(&out).unwrap_or_else(|error| panic!("{error}"));
    let (mut rows, mut recorded) = (0, BTreeSet::new());
    records
        .each(POSSESSIONS, &["variant"], &mut |_, batch| {
            rows += batch.num_rows();
            recorded.extend(texts(batch, 0).into_iter().flatten().map(String::from));
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
    assert!(recorded.iter().map(String::as_str).eq(measured.iter().copied()), "{recorded:?}, {measured:?}");
    assert_eq!(rows, 24 * measured.len());

    let found = zoneprobe(&[
        "find",
        argument(&out),
        "possession < 3",
        "--limit",
        "1",
        "--quiet",
        "--out",
        argument(&home.path().join("films")),
    ]);
    assert_eq!(found.exit, Exit::Done, "{}", found.err);
    assert!(
        found.out.starts_with(&format!("{} of {rows} possessions\n", 3 * measured.len())),
        "{}",
        found.out
    );
    for command in ["again", "verify"] {
        let told = zoneprobe(&[command, argument(&out)]);
        assert_eq!(told.exit, Exit::Done, "{command}: {}{}", told.out, told.err);
    }

    let met = home.path().join("met.toml");
    let refused = zoneprobe(&["compare", argument(&met), "--until-sure", "0.001"]);
    assert_eq!(refused.exit, Exit::Unusable, "{}", refused.out);
    assert!(
        refused.err.contains("is met, not chosen") && refused.err.contains("ask for one setting at a time"),
        "{}",
        refused.err
    );
}
