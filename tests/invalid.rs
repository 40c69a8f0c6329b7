//! A file that cannot be used says what is wrong with it: for each broken file of `tests/invalid/` the words that
//! stand beside it, just as the command line prints them, with exit 2 and nothing on standard output.
//!
//! What it has caught: route files that were told off as broken scenarios.

use std::fs;
use std::path::Path;

use experiments::error::Exit;

use crate::support::{argument, files_under, folder, text_of, workspace, zoneprobe};

/// The folder, as seen from the folder that tests run in.
const FOLDER: &str = "invalid";

/// What `check` says of a file; it must refuse it.
fn refusal(file: &str) -> String {
    let told = zoneprobe(&["check", file]);
    assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{file}");
    assert!(!told.err.contains("/home/") && !told.err.contains(argument(workspace())), "{}", told.err);
    told.err
}

/// Compares what was said with the words beside the file; renews those where that is asked for.
fn compare(stem: &str, said: &str, stale: &mut Vec<String>) {
    let beside = workspace().join("tests").join(FOLDER).join(format!("{stem}.txt"));
    if std::env::var_os("ZONEPROBE_BLESS").is_some() {
        fs::write(&beside, said).expect("a written file");
    }
    if fs::read_to_string(&beside).unwrap_or_default() != said {
        stale.push(format!("{stem}:\n{said}"));
    }
}

#[test]
fn every_broken_file_says_what_is_wrong_with_it() {
    let files = files_under("tests/invalid", "toml");
    assert!(files.len() >= 28, "{} broken files", files.len());
    let mut stale = Vec::new();
    for file in &files {
        let name = file.rsplit('/').next().unwrap_or_default();
        let said = refusal(&format!("{FOLDER}/{name}"));
        compare(name.trim_end_matches(".toml"), &said, &mut stale);
    }
    assert!(
        stale.is_empty(),
        "these say something else; see whether it reads better, then renew with ZONEPROBE_BLESS=1 cargo test \
         -p zoneprobe-promises invalid\n\n{}",
        stale.join("\n")
    );
}

#[test]
fn what_is_no_text_file_says_so() {
    let home = folder(&[]);
    let binary = home.path().join("binary.toml");
    fs::write(&binary, [b'n', b'a', 0xff, 0xfe, 0x00]).expect("a written file");
    fs::create_dir(home.path().join("folder.toml")).expect("a folder");
    let mut stale = Vec::new();
    for (stem, name) in [
        ("no-text", "binary.toml"),
        ("no-file-but-a-folder", "folder.toml"),
        ("no-file", "nowhere.toml"),
        ("no-file-but-alike", "seam-corss"),
    ] {
        let typed =
            if name.contains('.') { argument(&home.path().join(name)).to_owned() } else { name.to_owned() };
        let told = zoneprobe(&["check", &typed]);
        assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{name}");
        let said = told.err.replace(&format!("{}/", argument(home.path())), "");
        // The folder's path is as long as the machine makes it, and the lines are broken accordingly.
        let said = said.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
        compare(stem, &format!("{said}\n"), &mut stale);
    }
    assert!(stale.is_empty(), "{}", stale.join("\n"));
}

#[test]
fn every_message_has_its_file() {
    let made_here = ["no-text", "no-file-but-a-folder", "no-file", "no-file-but-alike"];
    for message in files_under("tests/invalid", "txt") {
        let name = message.rsplit('/').next().unwrap_or_default().trim_end_matches(".txt");
        let file = format!("tests/invalid/{name}.toml");
        assert!(
            made_here.contains(&name) || workspace().join(&file).exists(),
            "{message} belongs to no file"
        );
        assert!(!text_of(&message).contains('\u{1b}'), "{message} has colours");
    }
}

#[test]
fn a_broken_file_is_refused_by_every_command_and_nothing_is_written() {
    let home = folder(&[]);
    let out = home.path().join("out");
    for name in ["key-misspelt", "route-misspelt", "possessions-absurd", "empty"] {
        let file = format!("{FOLDER}/{name}.toml");
        for command in ["simulate", "compare", "film"] {
            let count = if command == "film" { "--possession" } else { "--possessions" };
            let told = zoneprobe(&[command, &file, count, "5", "--out", argument(&out)]);
            assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""), "{command} {name}");
            assert!(told.err.contains(&file), "{}", told.err);
        }
    }
    assert!(!Path::new(&out).exists(), "something was written");
}
