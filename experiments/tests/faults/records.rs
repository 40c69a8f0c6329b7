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
    // There may be records of one block more: they are whole before the block is kept.
    let kept: Vec<String> = blocks(&out).iter().map(|name| name.replace(".json.gz", ".records")).collect();
    let there = aside(&out);
    assert!(kept.iter().all(|name| there.contains(name)), "a block that is kept has its records: {there:?}");
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

/// Waits until something is written aside in a folder.
fn until_aside(folder: &Path) {
    let begun = Instant::now();
    while aside(folder).is_empty() {
        assert!(begun.elapsed() < PATIENCE, "nothing is written aside in {}", folder.display());
        sleep(Duration::from_millis(2));
    }
}

#[test]
fn what_is_stopped_before_anything_is_kept_leaves_nothing_behind() {
    let home = home();
    let short = ["simulate", "our-night.toml", "--possessions", "600", "--records", "events", "--out", "out"];
    let out = home.path().join("out");
    let first = started(&short, home.path());
    until_aside(&out);
    signal("INT", &first);
    let (exit, err) = ended(first);
    assert!(exit == Some(1) && err.ends_with("; nothing was written\n"), "{err}");
    assert!(!out.exists(), "{:?}", all(&out).keys());

    let (exit, _, err) = outcome(zoneprobe(&short).arg("--quiet").current_dir(home.path()));
    assert_eq!(exit, Some(0), "{err}");
    let temporary = home.path().join("temporary");
    fs::create_dir(&temporary).expect("a folder");
    let mut command = zoneprobe(&["again", "out"]);
    command.current_dir(home.path()).env("TMPDIR", &temporary).stdout(Stdio::piped()).stderr(Stdio::piped());
    let again = command.spawn().expect("a process");
    let begun = Instant::now();
    while names(&temporary).is_empty() {
        assert!(begun.elapsed() < PATIENCE, "nothing in the folder for temporary files");
        sleep(Duration::from_millis(2));
    }
    let own = names(&temporary);
    assert!(own.len() == 1 && own[0].starts_with("zoneprobe-"), "{own:?}");
    until_aside(&temporary.join(&own[0]));
    signal("TERM", &again);
    let (exit, err) = ended(again);
    assert!(exit == Some(1) && err.starts_with("zoneprobe: stopped"), "{err}");
    assert_eq!(names(&temporary), [""; 0]);

    let (exit, _, err) = outcome(
        zoneprobe(&["again", "out"]).current_dir(home.path()).env("TMPDIR", home.path().join("none")),
    );
    assert!(exit == Some(1) && err.contains("cannot keep records in ") && err.contains("TMPDIR"), "{err}");
}

#[test]
fn a_result_with_records_goes_beside_what_somebody_put_in_its_folder() {
    let home = home();
    let args = ["simulate", "our-night.toml", "--possessions", "300", "--records", "events", "--out", "out"];
    let (out, beside) = (home.path().join("out"), home.path().join("out-2"));
    let run = started(&args, home.path());
    until_aside(&out);
    fs::write(out.join("notes.txt"), "mine").expect("a written file");
    let (exit, err) = ended(run);
    assert_eq!(exit, Some(0), "{err}");
    assert_eq!(names(&out), ["notes.txt"]);
    check_whole(&beside);
    assert!(names(&beside).contains(&"events.parquet".into()));

    fs::remove_dir_all(&out).expect("removed");
    let run = started(&args, home.path());
    until_aside(&out);
    fs::rename(&out, home.path().join("away")).expect("moved away");
    let (exit, err) = ended(run);
    assert_eq!(exit, Some(1));
    assert!(err.contains("the folder was taken away during the run; no folder of results was left"), "{err}");
    assert!(!out.exists());
}
