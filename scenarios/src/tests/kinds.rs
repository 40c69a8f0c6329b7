//! Every kind of file is told by its keys, and checked as what it is.

use std::path::Path;

use super::{Folder, check, small};
use crate::{experiment, key_reference};

/// What a text in a file of this name is taken for, or its faults.
fn judged(name: &str, text: &str) -> String {
    let folder = Folder::with(&[]);
    let file = folder.path(name);
    std::fs::create_dir_all(file.parent().expect("a folder")).expect("a folder");
    std::fs::write(&file, text).expect("a written file");
    check(&file).map_or_else(|faults| folder.shown(&faults.to_string()), str::to_owned)
}

#[test]
fn keys_tell_the_kind_and_the_folder_where_they_do_not() {
    let program = "[[program]]\nstep = [{ to = { home = true } }]\n";
    assert_eq!(judged("a.toml", &small("")), "scenario");
    assert_eq!(judged("a.toml", "scenario = \"sunken-122\"\nvariant = [{ name = \"a\" }]\n"), "experiment");
    assert_eq!(judged("a.toml", program), "route or option");
    assert_eq!(judged("routes/a.toml", program), "route");
    assert_eq!(judged("guards/a.toml", program), "option");
    assert_eq!(judged("a.toml", &format!("home = [5.0, 4.0]\n{program}")), "route");
    assert_eq!(
        judged("a.toml", &format!("{program}who = [\"guards\"]\n").replace("step", "weight = 0.5\nstep")),
        "option"
    );
    assert_eq!(judged("routes/a.toml", "line = \"stands\"\n"), "route");
    assert!(
        judged("routes/a.toml", &small("zzz = 1\n")).starts_with("routes/a.toml:6:1: zzz: "),
        "keys go first"
    );
    assert_eq!(check(Path::new("seam-cross")).ok(), Some("route"));
    assert_eq!(check(Path::new("far-flash")).ok(), Some("option"));
}

#[test]
fn a_misspelt_key_does_not_hide_the_kind() {
    let said = judged("a.toml", "[[progam]]\nstep = [{ to = { home = true } }]\n");
    assert!(
        said.contains("progam: found an unknown key") && said.contains("did you mean `program`?"),
        "{said}"
    );
    let said = judged("a.toml", "title = \"x\"\n");
    assert!(
        said.starts_with("a.toml: found no key by which a kind of file is known, allowed a scenario, "),
        "{said}"
    );
}

#[test]
fn a_route_by_itself_may_name_the_positions_of_any_zone() {
    let route = |position: &str| {
        judged(
            "a.toml",
            &format!("[[program]]\nstep = [{{ to = {{ seam = [\"point\", \"{position}\"] }} }}]\n"),
        )
    };
    for position in ["near wing", "far back", "near front", "middle of a zone of one's own"] {
        assert_eq!(route(position), "route or option", "{position}");
    }
    assert!(route("near wnig").contains("did you mean `near wing`?"), "{}", route("near wnig"));
}

#[test]
fn what_cannot_be_played_is_named_for_what_it_is() {
    let folder = Folder::with(&[("a.toml", "home = [5.0, 4.0]\n")]);
    let said = experiment(&folder.path("a.toml")).map_or_else(|faults| faults.to_string(), |_| String::new());
    assert_eq!(folder.shown(&said), "a.toml: found a route, allowed a scenario or an experiment");
}

#[test]
fn every_condition_and_place_that_the_loader_names_is_in_the_reference() {
    let entries = key_reference();
    for (text, table) in [
        ("[[program]]\nwhen = [{}]\nstep = [{ to = { home = true } }]\n", "program[].when[]"),
        ("[[program]]\nstep = [{ to = {} }]\n", "program[].step[].to"),
    ] {
        let said = judged("a.toml", text);
        let named = said.rsplit("a table with one of ").next().unwrap_or_default();
        let names: Vec<&str> =
            named.split([',', ' ']).filter(|word| !word.is_empty() && *word != "or").collect();
        assert!(names.len() >= 7, "{said}");
        for name in names {
            let key = format!("{table}.{name}");
            assert!(entries.iter().any(|entry| entry.kind == "route" && entry.key == key), "{key}");
        }
    }
}
