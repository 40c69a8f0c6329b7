//! Records that are divided by variant, and kills while records are put together: after the last possession, before the folder
//! is whole. What is compared is every byte.

use super::kept::{all, blocks, check_same, until_kept};
use super::*;

/// Two variants with names that folders and readers could misread. What differs is met, so no answers of the zone are played.
const NAMES: &str = r#"
question = "Does a sink help?"
scenario = "our-night.toml"
possessions = 300
variant = [
  { name = "12" },
  { name = "a sink, ü/%", set = { "zone.sink_back_m" = 0.6 } },
]
"#;

const PLAY: [&str; 6] = ["compare", "names.toml", "--quiet", "--records", "events", "--divide-records"];

/// The folder in which records are put together.
const DRAFT: &str = ".zoneprobe-draft";

/// Waits until the records of a run are being put together; false where the run had ended by then.
fn until_assembling(run: &mut Child, folder: &Path) -> bool {
    let begun = Instant::now();
    while !folder.join(DRAFT).exists() {
        assert!(begun.elapsed() < PATIENCE, "nothing is put together in {}", folder.display());
        if run.try_wait().expect("a process").is_some() {
            return false;
        }
        sleep(Duration::from_millis(1));
    }
    true
}

/// A folder with the files of the user, and in it a whole result and a run of which every block is kept.
fn prepared() -> tempfile::TempDir {
    let home = home();
    fs::write(home.path().join("names.toml"), NAMES).expect("a written file");
    let (exit, _, err) = outcome(zoneprobe(&PLAY).args(["--out", "whole"]).current_dir(home.path()));
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    let kept = home.path().join("kept");
    let mut run = started(&[&PLAY[..], &["--out", "kept"]].concat(), home.path());
    until_kept(&kept, 1);
    run.kill().expect("killed");
    run.wait().expect("an end");
    assert!(!kept.join("manifest.json").exists(), "it was still at it");
    // It may have begun to put them together.
    let _ = fs::remove_dir_all(kept.join(DRAFT));
    fs::remove_file(kept.join(LOCK)).expect("a dead run's lock");
    home
}

/// Kills, or stops, runs that go on with what is kept at moments from the first file of records to the end, and lets each go
/// on once more. How many were caught before the folder was whole.
fn caught(home: &Path, times: u64) -> u64 {
    let (kept, out) = (home.join("kept"), home.join("out"));
    let args = [&PLAY[..], &["--out", "out", "--resume"]].concat();
    let copied = || {
        let done = Command::new("cp").arg("-r").args([&kept, &out]).status().expect("cp");
        assert!(done.success());
    };
    copied();
    let mut run = started(&args, home);
    assert!(until_assembling(&mut run, &out));
    let begun = Instant::now();
    assert_eq!(ended(run).0, Some(0));
    let long = begun.elapsed();
    let (mut chance, mut caught) = (chances(23), 0);
    for nth in 0..times {
        fs::remove_dir_all(&out).expect("removed");
        copied();
        let mut run = started(&args, home);
        if until_assembling(&mut run, &out) {
            sleep(long.mul_f64(chance(1000) as f64 / 1000.0));
        }
        // Every third is asked to stop, and clears away what it was at.
        let is_asked = nth % 3 == 2;
        if is_asked && run.try_wait().expect("a process").is_none() {
            signal("TERM", &run);
        } else {
            let _ = run.kill();
        }
        run.wait().expect("an end");
        if out.join("manifest.json").exists() && !out.join(LOCK).exists() {
            check_same(&home.join("whole"), &out);
            continue;
        }
        // Once the manifest is there, only the lock may be left to be cleared.
        if !out.join("manifest.json").exists() {
            caught += 1;
            assert_eq!(blocks(&out), blocks(&kept), "what had been played is kept");
            if is_asked {
                assert_eq!(names(&out), ["parts"], "nothing half put together is left");
            }
        }
        let (exit, err) = ended(started(&args, home));
        assert_eq!(exit, Some(0), "{err}");
        check_same(&home.join("whole"), &out);
    }
    caught
}

#[test]
fn records_that_are_divided_outlive_kills_while_they_are_put_together_and_are_merged_found_and_made_again() {
    let home = prepared();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let whole = home.path().join("whole");
    let records: Vec<String> = all(&whole).into_keys().filter(|name| name.ends_with(".parquet")).collect();
    let named = |table: &str, name: &str| format!("{table}/variant={name}/part-0.parquet");
    let encoded = "a%20sink%2C%20%C3%BC%2F%25";
    let wanted = ["events", "possessions"].map(|table| [named(table, "12"), named(table, encoded)]);
    assert_eq!(records, wanted.concat());
    assert!(caught(home.path(), 3) >= 1, "some were caught");

    for nth in 1..=3 {
        let (shard, folder) = (format!("{nth}/3"), format!("shard-{nth}"));
        assert_eq!(run(&[&PLAY[..], &["--shard", &shard, "--out", &folder]].concat()).0, Some(0));
    }
    let (exit, _, err) = run(&["merge", "shard-2", "shard-3", "shard-1", "--quiet", "--out", "merged"]);
    assert_eq!(exit, Some(0), "{err}");
    check_same(&whole, &home.path().join("merged"));
    for command in ["again", "verify"] {
        let (exit, said, err) = run(&[command, "merged"]);
        assert_eq!(exit, Some(0), "{command}: {said}{err}");
    }

    // The same in one file has the same rows, and the same is found in them.
    let one = [&PLAY[..5], &["--out", "one"]].concat();
    assert_eq!(run(&one).0, Some(0));
    for filter in
        ["open_look and not made", "variant = 'a sink, ü/%' and happened(event = 'shot' and nearest_m > 1)"]
    {
        let of =
            |folder: &str| run(&["find", folder, filter, "--list", "--limit", "5000", "--format", "csv"]);
        let (exit, found, err) = of("merged");
        assert_eq!(exit, Some(0), "{err}");
        assert!(found.lines().count() > 20, "{filter}: {found}");
        assert_eq!(of("one").1, found, "{filter}");
    }
    let (exit, _, err) =
        run(&["find", "merged", "variant <> '12'", "--limit", "1", "--quiet", "--out", "films"]);
    assert_eq!(exit, Some(0), "{err}");
    assert!(names(&home.path().join("films")).contains(&format!("{encoded}-0.html")));
    let file = home.path().join("merged").join(&records[3]);
    let mut bytes = fs::read(&file).expect("a file");
    bytes[100] ^= 1;
    fs::write(&file, bytes).expect("a written file");
    for command in ["again", "verify"] {
        let (exit, said, _) = run(&[command, "merged"]);
        assert!(exit == Some(1) && said.ends_with(&format!(": {}\n", records[3])), "{said}");
    }
}

#[test]
#[ignore = "minutes: 20 kills while records are put together"]
fn kills_at_twenty_moments_while_records_are_put_together_cost_no_byte() {
    let home = prepared();
    let caught = caught(home.path(), 20);
    println!("20 kills and stops while records are put together: {caught} before the folder was whole");
    assert!(caught >= 10, "{caught}");
}
