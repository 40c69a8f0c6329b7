//! A disk that is full when the result is put together: what was played stays, and going on with it makes the same bytes.
//!
//! A limit on the size of a file stands for the disk: the blocks fit, the result does not. It is set by `prlimit` of util-linux.

use super::kept::{blocks, check_same};
use super::*;

/// More than what is tried out before anything is played (2 MiB) and than any block, less than the events of all.
const MOST_BYTES: &str = "--fsize=2300000";
/// A run whose events take some 2.6 MB.
const RUN: [&str; 7] =
    ["simulate", "our-night.toml", "--possessions", "3800", "--records", "events", "--quiet"];

#[test]
fn what_was_played_before_the_disk_was_full_is_gone_on_with() {
    let home = home();
    let full = |folder: &str| {
        let mut command = Command::new("sh");
        // Who ignores the signal is told by the failing write instead.
        command.args(["-c", "trap '' XFSZ; exec prlimit \"$@\"", "sh", MOST_BYTES, ZONEPROBE]);
        outcome(command.args(RUN).args(["--out", folder]).current_dir(home.path()))
    };
    let (exit, said, err) = full("out");
    assert_eq!((exit, said.as_str()), (Some(1), ""), "{err}");
    assert!(err.contains("out") && err.contains("--resume"), "{err}");
    let out = home.path().join("out");
    assert_eq!((names(&out), blocks(&out).len()), (vec!["parts".to_owned()], 4), "{err}");
    let run = |args: &[&str]| outcome(zoneprobe(&[&RUN[..], args].concat()).current_dir(home.path()));
    let (exit, _, err) = run(&["--out", "out", "--resume"]);
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    let (exit, _, err) = run(&["--out", "whole"]);
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    check_same(&home.path().join("whole"), &out);
    assert!(
        fs::metadata(out.join("events.parquet")).expect("a file").len() > 2_300_000,
        "it would have fitted"
    );
}
