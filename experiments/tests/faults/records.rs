//! Records outlive what a run outlives: stopped, killed, damaged, in shards, made again. What is compared is every byte.

use super::kept::{all, blocks, check_same, until_kept};
use super::*;

/// A run with records that has two blocks.
const LONG: [&str; 6] = ["simulate", "our-night.toml", "--possessions", "1100", "--records", "events"];

/// The files in which records are written aside.
fn aside(folder: &Path) -> Vec<String> {
    let folder = folder.join("parts/records");
    if folder.exists() { names(&folder) } else { Vec::new() }
}

#[test]
fn records_of_a_run_that_was_killed_and_of_shards_are_those_of_one_run_and_are_made_again() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let (exit, shown, err) = run(&[&LONG[..], &["--out", "whole", "--quiet"]].concat());
    assert_eq!(exit, Some(0), "{err}");
    let whole = home.path().join("whole");
    let records: Vec<String> = all(&whole).into_keys().filter(|name| name.ends_with(".parquet")).collect();
    assert_eq!(records, ["events.parquet", "possessions.parquet"]);

    let out = home.path().join("out");
    let mut killed = started(&[&LONG[..], &["--out", "out"]].concat(), home.path());
    until_kept(&out, 1);
    killed.kill().expect("killed");
    killed.wait().expect("an end");
    let kept: Vec<String> = aside(&out).into_iter().filter(|name| name.ends_with(".records")).collect();
    assert_eq!(kept.len(), blocks(&out).len(), "a block that is kept has its records: {kept:?}");
    let damaged = out.join("parts/records").join(&kept[0]);
    let mut bytes = fs::read(&damaged).expect("a file");
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(&damaged, bytes).expect("a written file");
    // The same run without its records is another.
    let without = [&LONG[..4], &["--out", "out", "--resume"]].concat();
    let (exit, _, err) = run(&without);
    assert!(exit == Some(2) && err.contains("records of events, not nothing"), "{err}");
    let (exit, again, err) = run(&[&LONG[..], &["--out", "out", "--resume", "--batch", "9"]].concat());
    assert_eq!((exit, again), (Some(0), shown), "{err}");
    assert!(err.contains(".records is damaged; what it held is played again\n"), "{err}");
    check_same(&whole, &out);
    assert!(!out.join("parts").exists());

    for nth in 1..=3 {
        let (shard, folder) = (format!("{nth}/3"), format!("shard-{nth}"));
        let args = [&LONG[..], &["--quiet", "--shard", &shard, "--out", &folder]].concat();
        assert_eq!(run(&args).0, Some(0));
    }
    let (exit, _, err) = run(&["merge", "shard-2", "shard-3", "shard-1", "--quiet", "--out", "merged"]);
    assert_eq!(exit, Some(0), "{err}");
    check_same(&whole, &home.path().join("merged"));

    let (exit, said, err) = run(&["again", "merged"]);
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    assert!(said.contains("files are made again, byte for byte"), "{said}");
    let path = out.join("events.parquet");
    let mut bytes = fs::read(&path).expect("a file");
    bytes[100] ^= 1;
    fs::write(&path, bytes).expect("a written file");
    for command in ["again", "verify"] {
        let (exit, said, _) = run(&[command, "out"]);
        assert!(exit == Some(1) && said.ends_with(": events.parquet\n"), "{said}");
    }
}
