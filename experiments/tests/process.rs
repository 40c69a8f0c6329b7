//! What only a process of its own can show: the examples of the help pages as a shell runs them, readers that go
//! away, full disks, colours, the width of the terminal. All else about the command line is tested by
//! calling it as a function, with the other promises.
#![cfg(unix)]

mod support;

use std::fs;
use std::path::Path;
use std::process::Command;

use support::{ZONEPROBE, names, outcome, zoneprobe};
use tempfile::TempDir;

/// The user's folder with the project's own examples, where its guides have them.
fn home() -> TempDir {
    let home = support::home();
    let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/examples");
    let copies = home.path().join("scenarios/examples");
    fs::create_dir_all(&copies).expect("a folder");
    for file in fs::read_dir(own).expect("the examples").flatten() {
        fs::copy(file.path(), copies.join(file.file_name())).expect("a copied file");
    }
    home
}

const COMMANDS: [&str; 20] = [
    "compare",
    "simulate",
    "film",
    "find",
    "power",
    "worth",
    "scout",
    "chart",
    "who",
    "sheet",
    "verify",
    "again",
    "merge",
    "check",
    "catalog",
    "show",
    "keys",
    "schema",
    "completions",
    "man",
];

/// The example as it stands, but for the number of possessions, which is small.
fn shortened(example: &str) -> String {
    let words: Vec<&str> = example.split(' ').collect();
    if let Some(at) = words.iter().position(|word| *word == "--possessions") {
        let few = if words[1] == "worth" { "8" } else { "32" };
        return [&words[..=at], &[few], &words[at + 2..]].concat().join(" ");
    }
    match words[1] {
        play @ ("compare" | "simulate") => example.replacen(play, &format!("{play} --possessions 32"), 1),
        _ => example.into(),
    }
}

#[test]
fn every_example_in_the_help_works_as_it_stands() {
    let home = home();
    let folder = Path::new(ZONEPROBE).parent().expect("a program lies in a folder");
    let path = format!("{}:/usr/bin:/bin", folder.display());
    for page in std::iter::once("").chain(COMMANDS) {
        let args: Vec<&str> = [page, "--help"].into_iter().filter(|arg| !arg.is_empty()).collect();
        let (exit, help, _) = outcome(&mut zoneprobe(&args));
        assert_eq!(exit, Some(0));
        let first = help.lines().next().unwrap_or_default();
        assert!(
            first.starts_with(char::is_uppercase) && first.len() > 20,
            "it opens with its purpose: {first}"
        );
        let end = help.split("\nExamples:\n").nth(1).unwrap_or_default();
        let examples: Vec<&str> =
            end.lines().take_while(|line| line.starts_with("  ")).map(str::trim_start).collect();
        assert!((2..=4).contains(&examples.len()), "{page}: {} examples in\n{help}", examples.len());
        for example in examples {
            assert!(example.starts_with("zoneprobe "), "{page}: {example} was wrapped");
            let mut shell = Command::new("sh");
            shell.args(["-c", &shortened(example)]).current_dir(home.path()).env("PATH", &path);
            let (exit, out, err) = outcome(&mut shell);
            assert_eq!(exit, Some(0), "{example}: {err}");
            let file = example.split(" > ").nth(1).map(|rest| rest.split(' ').next().unwrap_or_default());
            let kept =
                file.map_or(0, |file| fs::metadata(home.path().join(file)).map_or(0, |file| file.len()));
            let quiet = example.contains("check") && example.contains("--quiet");
            assert!(
                quiet || !out.is_empty() || kept > 0 || example.contains("--out"),
                "{example}: no result"
            );
        }
    }
}

#[test]
fn a_reader_that_has_gone_away_is_no_failure_and_costs_no_result() {
    let home = home();
    for args in [
        &["catalog"][..],
        &["--help"],
        &["completions", "bash"],
        &["man"],
        &["check", "our-night.toml"],
        &["film", "--possession", "3"],
        &["compare", "--possessions", "64", "--out", "out", "--quiet"],
    ] {
        let (reader, writer) = std::io::pipe().expect("a pipe");
        drop(reader);
        let (exit, _, err) = outcome(zoneprobe(args).current_dir(home.path()).stdout(writer));
        assert_eq!((exit, err.as_str()), (Some(0), ""), "{args:?}");
    }
    assert!(home.path().join("out/comparison.csv").is_file(), "the result is kept");
    let (reader, writer) = std::io::pipe().expect("a pipe");
    drop(reader);
    let (exit, _, err) = outcome(zoneprobe(&["check", "nowhere.toml"]).stdout(writer));
    assert_eq!(exit, Some(2), "a bad file is a bad file, whoever reads: {err}");
}

#[test]
fn no_terminal_no_bar_and_no_colour() {
    let home = home();
    let args = ["simulate", "our-night.toml", "--possessions", "64"];
    let (exit, out, err) = outcome(zoneprobe(&args).current_dir(home.path()));
    assert!(exit == Some(0) && err.starts_with("written to results/our-night-1\n"), "{err}");
    assert!(![out.as_str(), &err].concat().contains(['\u{1b}', '\r']), "{out}{err}");
    let (exit, quiet, err) = outcome(zoneprobe(&args).arg("--quiet").current_dir(home.path()));
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    assert_eq!(quiet, out, "the result is the same");
    assert_eq!(names(&home.path().join("results")), ["our-night-1", "our-night-1-2"]);
}

#[test]
fn a_default_folder_that_cannot_be_made_is_refused_before_the_run() {
    let home = home();
    fs::write(home.path().join("results"), "mine").expect("a written file");
    // So many possessions would take days.
    let args = ["simulate", "our-night.toml", "--possessions", "1073741824"];
    let (exit, out, err) = outcome(zoneprobe(&args).current_dir(home.path()));
    assert_eq!((exit, out.as_str()), (Some(2), ""));
    assert_eq!(err, "zoneprobe: results is a file and results need a folder; name another with --out\n");
    assert_eq!(fs::read(home.path().join("results")).expect("a file"), b"mine");
}

#[test]
fn colour_is_as_the_environment_and_the_option_say() {
    let coloured = |args: &[&str], variables: &[(&str, &str)]| {
        let mut command = zoneprobe(args);
        command.envs(variables.iter().copied());
        let (exit, _, err) = outcome(&mut command);
        assert_eq!(exit, Some(2), "{args:?}: {err}");
        assert!(err.contains("nowhere"), "errors are shown: {err}");
        err.contains("\u{1b}[")
    };
    let check = ["check", "nowhere.toml", "--quiet"];
    assert!(!coloured(&check, &[]), "this is no terminal");
    assert!(coloured(&check, &[("CLICOLOR_FORCE", "1")]));
    assert!(!coloured(&check, &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]));
    assert!(coloured(&["--color", "always", "check", "nowhere.toml"], &[("NO_COLOR", "1")]));
    assert!(!coloured(&["check", "nowhere.toml", "--color", "never"], &[("CLICOLOR_FORCE", "1")]));
    assert!(coloured(&["nowhere", "--color=always"], &[]), "a line that cannot be read, too");
    assert!(!coloured(&["nowhere", "--color=never"], &[("CLICOLOR_FORCE", "1")]));
}

#[test]
fn help_is_as_wide_as_the_terminal_up_to_a_limit() {
    for (columns, widest) in [("60", 60), ("300", 100)] {
        let (_, help, _) = outcome(zoneprobe(&["compare", "--help"]).env("COLUMNS", columns));
        let lines = help.lines().filter(|line| !line.starts_with("  zoneprobe "));
        let reached = lines.map(|line| line.chars().count()).max().unwrap_or_default();
        assert!((widest - 25..=widest).contains(&reached), "{reached} columns of {columns}");
        assert!(help.contains("[default: 1]") && help.contains("- csv:"), "defaults and values are shown");
    }
}

#[test]
fn bash_completes_commands_options_and_bundled_names() {
    let home = home();
    let (_, script, _) = outcome(&mut zoneprobe(&["completions", "bash"]));
    fs::write(home.path().join("zoneprobe.bash"), script).expect("a written file");
    let asks = "source zoneprobe.bash; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); \
                _zoneprobe zoneprobe \"${COMP_WORDS[COMP_CWORD]}\" \"${COMP_WORDS[COMP_CWORD - 1]}\"; \
                echo \"${COMPREPLY[*]}\"";
    for (line, offered) in [
        (&["zoneprobe", "comp"][..], "compare"),
        (&["zoneprobe", "compare", "rou"], "routes-against-sink"),
        (&["zoneprobe", "simulate", "sun"], "sunken-122"),
        (&["zoneprobe", "compare", "--dr"], "--dry-run"),
        (&["zoneprobe", "compare", "--rank-by", "open_look_r"], "open_look_rate"),
        (&["zoneprobe", "film", "--variant", "baseline"], "baseline-run"),
        (&["zoneprobe", "catalog", "--format", "js"], "json"),
    ] {
        let mut bash = Command::new("bash");
        bash.args(["-c", asks, "bash"]).args(line).current_dir(home.path());
        let (exit, out, err) = outcome(&mut bash);
        assert_eq!((exit, err.as_str()), (Some(0), ""), "{line:?}");
        assert!(out.split_whitespace().any(|word| word == offered), "{line:?}: {out}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_a_failed_run_and_said_in_words() {
    let full = || fs::OpenOptions::new().write(true).open("/dev/full").expect("a device that is always full");
    let (exit, _, err) = outcome(zoneprobe(&["catalog"]).stdout(full()));
    assert_eq!(
        (exit, err.as_str()),
        (Some(1), "zoneprobe: cannot print the result: no space left on device\n")
    );
    let home = home();
    let args = ["compare", "my-question.toml", "--possessions", "64", "--out", "out"];
    let (exit, _, err) = outcome(zoneprobe(&args).current_dir(home.path()).stdout(full()));
    assert_eq!(exit, Some(1), "{err}");
    assert!(home.path().join("out/comparison.csv").is_file(), "what could not be printed was kept");
}
