//! The key reference and the schemas are what the loader reads, and the files in the repository are fresh.

use std::path::{Path, PathBuf};

use super::small;
use crate::{FILE_KINDS, bundled, check, json_schema, key_reference, key_reference_markdown};

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

/// A TOML text as JSON.
fn as_json(text: &str) -> serde_json::Value {
    let document = toml_edit::Document::parse(text).expect("valid TOML");
    table(document.as_table())
}

fn table(table: &dyn toml_edit::TableLike) -> serde_json::Value {
    let entries = table.iter().map(|(key, item)| (key.to_owned(), of_item(item)));
    serde_json::Value::Object(entries.collect())
}

fn of_item(item: &toml_edit::Item) -> serde_json::Value {
    match item {
        toml_edit::Item::ArrayOfTables(tables) => tables.iter().map(|inner| table(inner)).collect(),
        toml_edit::Item::Value(value) => of_value(value),
        _ => item.as_table_like().map_or(serde_json::Value::Null, table),
    }
}

fn of_value(value: &toml_edit::Value) -> serde_json::Value {
    match value {
        toml_edit::Value::String(text) => text.value().as_str().into(),
        toml_edit::Value::Integer(whole) => (*whole.value()).into(),
        toml_edit::Value::Float(number) => (*number.value()).into(),
        toml_edit::Value::Boolean(flag) => (*flag.value()).into(),
        toml_edit::Value::Datetime(date) => date.to_string().into(),
        toml_edit::Value::Array(list) => list.iter().map(of_value).collect(),
        toml_edit::Value::InlineTable(inner) => table(inner),
    }
}

/// What the schema of a kind has against a file; empty where it has nothing.
fn against(kind: &str, text: &str) -> Vec<String> {
    let schema = json_schema(kind).expect("a known kind");
    let schema = serde_json::from_str(&schema).expect("a schema is JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("a valid schema");
    validator.iter_errors(&as_json(text)).map(|error| error.to_string()).collect()
}

/// The kind of the files in a folder of bundled ones.
fn kind_of(folder: &str) -> &'static str {
    match folder {
        "scenarios" => "scenario",
        "experiments" => "experiment",
        "zones" => "zone",
        "attacks" => "attack",
        "routes" => "route",
        "levels" => "level",
        "rules" => "rules",
        _ => "option",
    }
}

#[test]
fn every_bundled_file_holds_to_its_schema_and_is_of_its_kind() {
    for (folder, name, text) in bundled::FILES {
        let kind = kind_of(folder);
        assert_eq!(against(kind, text), Vec::<String>::new(), "{folder}/{name}");
        let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("data/{folder}/{name}.toml"));
        assert_eq!(check(&file).map_err(|faults| faults.to_string()), Ok(kind), "{folder}/{name}");
        assert_eq!(check(Path::new(name)).map_err(|faults| faults.to_string()), Ok(kind), "{name}");
    }
}

#[test]
fn broken_files_do_not_hold_to_their_schemas() {
    let route = "[[program]]\n[[program.step]]\n";
    for (kind, text) in [
        ("scenario", small("[zone]\nsnik_back_m = 1.0\n").replace("zone = { use = \"1-2-2\" }\n", "")),
        ("scenario", small("").replace("\"1-2-2\"", "\"1-2-2\", sink_back_m = 4.0")),
        ("scenario", small("").replace("\"1-2-2\"", "\"1-2-2\", sink_back_ft = 6.0")),
        ("scenario", small("").replace("\"1-2-2\"", "\"1-2-2\", sink_back_m = 1.0, sink_back_ft = 3.0")),
        ("scenario", small("limits.frozen_zone = 1\n")),
        ("scenario", "name = \"x\"\n".into()),
        ("experiment", "scenario = \"sunken-122\"\npossessions = 0\n".into()),
        ("experiment", "scenario = \"sunken-122\"\n[[variant]]\nset = {}\n".into()),
        ("route", format!("{route}to = {{ floor = [1.0, 2.0], seal = true }}\n")),
        ("route", format!("{route}to = {{ by_post = \"near\" }}\n")),
        ("route", format!("{route}to = {{ home = true }}\npace = \"run\"\n")),
        ("zone", "[columns]\nfront = [1]\n".into()),
        ("level", "[body]\nmass_kg = 80.0\n".into()),
        ("rules", "[floor]\nlane_width_m = 12\n".into()),
    ] {
        assert!(!against(kind, &text).is_empty(), "{kind}:\n{text}");
    }
    assert_eq!(against("scenario", &small("")), Vec::<String>::new());
    assert_eq!(against("route", &format!("{route}to = {{ home = true }}\n")), Vec::<String>::new());
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
    assert!(distance.meaning.ends_with("Only with `behind` or `screen`."), "{}", distance.meaning);
    assert!(find("level", "head.reaction_s").source.contains("secondary page"));
    assert!(find("rules", "floor.three_radius_m").default.contains("international 6.75"));
    for entry in &entries {
        assert!(!entry.meaning.is_empty(), "{} of {} has no meaning", entry.key, entry.kind);
    }
}
