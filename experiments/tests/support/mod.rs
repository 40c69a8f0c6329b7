//! The program as a process, and a folder to run it in.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

/// The program under test.
pub const ZONEPROBE: &str = env!("CARGO_BIN_EXE_zoneprobe");

/// The program with nothing of the tester's own terminal about it.
pub fn zoneprobe(args: &[&str]) -> Command {
    let mut command = Command::new(ZONEPROBE);
    command.args(args).stdin(Stdio::null());
    for name in ["NO_COLOR", "CLICOLOR_FORCE", "COLUMNS", "TERM"] {
        command.env_remove(name);
    }
    command
}

pub fn outcome(command: &mut Command) -> (Option<i32>, String, String) {
    let Output { status, stdout, stderr } = command.output().expect("a process");
    let text = |bytes| String::from_utf8(bytes).expect("output is UTF-8");
    (status.code(), text(stdout), text(stderr))
}

/// A folder with the user's files that the help pages speak of.
pub fn home() -> TempDir {
    let home = tempfile::tempdir().expect("a temporary folder");
    let night = "name = \"Our night\"\nrules = \"us-high-school\"\nzone = { use = \"3-2\" }\n\
                 level = { attack = \"high-school\", defence = \"high-school\" }\nattack = { use = \"rover\" }\n";
    let question = "question = \"Does a seal help?\"\nscenario = \"our-night.toml\"\nvariant = [\n  \
                    { name = \"plain\" },\n  \
                    { name = \"seal\", set = { \"attack.posts.options\" = { seal-helper = 1.0 } } },\n]\n";
    fs::write(home.path().join("our-night.toml"), night).expect("a written file");
    fs::write(home.path().join("my-question.toml"), question).expect("a written file");
    home
}

pub fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").file_name());
    let mut names: Vec<String> = entries.map(|name| name.to_string_lossy().into_owned()).collect();
    names.sort();
    names
}
