//! The key reference and the schemas are what the loader reads, and the files in the repository are fresh.

use std::path::{Path, PathBuf};

use super::{Folder, check, small};
use crate::schema::program::ROLES;
use crate::{FILE_KINDS, bundled, json_schema, key_reference, key_reference_markdown, scenario};

/// Compares a text with a file of the crate; renews the file where that is asked for.
fn fresh(file: &str, text: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(file);
    if std::env::var_os("ZONEPROBE_BLESS").is_some() {
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(&path, text).expect("a written file");
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    let renew = "renew it with ZONEPROBE_BLESS=1 cargo test -p zoneprobe-scenarios reference";
    assert!(written == text, "{file} is stale; {renew}");
}

#[test]
fn the_reference_document_is_fresh() {
    fresh("KEYS.md", &key_reference_markdown());
}

#[test]
fn the_reference_schemas_are_fresh() {
    for kind in FILE_KINDS {
        fresh(&format!("schemas/{kind}.schema.json"), &json_schema(kind).expect("a known kind"));
    }
    assert_eq!(json_schema("rover"), None);
}

/// The kind of the files in a folder of bundled ones.
fn kind_of(folder: &str) -> &'static str {
    match folder {
        "scenarios" => "scenario",
        "experiments" => "experiment",
        "zones" => "zone",
        "attacks" => "attack",
        "routes" => "route",
        "plans" => "plan",
        "levels" => "level",
        "rules" => "rules",
        "worth" => "worth",
        _ => "option",
    }
}

#[test]
fn every_bundled_file_is_of_its_kind() {
    for (folder, name, _) in bundled::FILES {
        let kind = kind_of(folder);
        let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("data/{folder}/{name}.toml"));
        assert_eq!(check(&file).map_err(|faults| faults.to_string()), Ok(kind), "{folder}/{name}");
        assert_eq!(check(Path::new(name)).map_err(|faults| faults.to_string()), Ok(kind), "{name}");
    }
}

#[test]
fn the_reference_knows_every_key_with_its_unit_and_range() {
    let entries = key_reference();
    let find = |kind: &str, key: &str| {
        let found = entries.iter().find(|entry| entry.kind == kind && entry.key == key);
        found.unwrap_or_else(|| panic!("{kind} has no {key}"))
    };
    let sink = find("scenario", "zone.sink_back_m");
    assert_eq!((sink.unit, sink.range.as_str(), sink.default.as_str()), ("m", "0 to 1.5", "0"));
    let distance = find("route", "program[].step[].to.distance_m");
    assert_eq!((distance.default.as_str(), distance.source.as_str()), ("0.8", "assumed"));
    assert!(distance.meaning.ends_with("Only with `behind`."), "{}", distance.meaning);
    let frame = find("route", "program[].step[].to.frame");
    assert!(frame.meaning.ends_with("Only with `floor`, `line_gap` or `screen`."), "{}", frame.meaning);
    let on_ball = find("zone", "rows.top.on_ball");
    assert_eq!(on_ball.default, "needed");
    assert!(on_ball.meaning.ends_with("Not with `marks`."), "{}", on_ball.meaning);
    assert!(find("level", "head.reaction_s").source.contains("secondary page"));
    assert!(find("rules", "floor.three_radius_m").default.contains("international 6.75"));
    for entry in &entries {
        assert!(!entry.meaning.is_empty(), "{} of {} has no meaning", entry.key, entry.kind);
    }
}

#[test]
fn the_reference_tells_the_truth_about_what_hangs_on_the_start() {
    let entries = key_reference();
    let default = |key: &str| {
        let found = entries.iter().find(|entry| entry.kind == "scenario" && entry.key == key);
        found.map_or("", |entry| entry.default.as_str())
    };
    for (state, words) in
        [("set", "in the set"), ("arriving", "when arriving"), ("rebound", "after a rebound")]
    {
        let text = small(&format!("start = {{ state = \"{state}\" }}\n"));
        let folder = Folder::with(&[("s.toml", &text)]);
        let setup = scenario(&folder.path("s.toml")).unwrap_or_else(|faults| panic!("{faults}")).setup;
        let used = format!("{} {words}", setup.officials.clock_used_s);
        assert!(default("clock.clock_used_s").contains(&used), "{used}");
        let ball = format!("{} {words}", ROLES[usize::from(setup.attack.ball_starts_with)]);
        assert!(default("start.ball").contains(&ball), "{ball}");
    }
}
