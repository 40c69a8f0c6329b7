//! For as long as one likes the program stays as it began: the same result to the bit in every round, and no memory that
//! grows. Ignored in the usual run; an hour of it on all cores, as a user would run it with everything written:
//! `cargo test --release -p zoneprobe-promises soak -- --ignored --nocapture`. `ZONEPROBE_SOAK_MINUTES` shortens it.
//!
//! What it has caught: nothing yet.

use std::fs;
use std::time::{Duration, Instant};

use experiments::error::Exit;

use crate::support::{argument, zoneprobe};

/// Possessions in a round: some seconds, in which everything is built, written and thrown away again.
const ROUND: &str = "2048";
/// Rounds before memory is looked at: allocators keep what they were given once.
const WARM: usize = 3;
/// So much more than at the beginning is no growth, KiB: what an allocator's pages come and go by (assumed).
const COMES_AND_GOES_KIB: u64 = 16 * 1024;

/// Memory of this process that is in use, KiB, as Linux tells it.
fn resident_kib() -> u64 {
    let status = fs::read_to_string("/proc/self/status").expect("Linux tells of a process");
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).expect("it tells of its memory");
    line.trim().trim_end_matches(" kB").trim().parse().expect("memory is a number")
}

/// The digest of a round.
fn round() -> String {
    let home = tempfile::tempdir().expect("a temporary folder");
    let out = home.path().join("out");
    let told = zoneprobe(&["compare", "--possessions", ROUND, "--quiet", "--out", argument(&out)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let manifest = fs::read(out.join("manifest.json")).expect("a manifest");
    let manifest: serde_json::Value = serde_json::from_slice(&manifest).expect("a manifest is JSON");
    manifest["result_digest"].as_str().expect("a manifest has the result's digest").to_owned()
}

/// The middle of some numbers.
fn median(numbers: &[u64]) -> u64 {
    let mut sorted = numbers.to_vec();
    sorted.sort_unstable();
    sorted[sorted.len() / 2]
}

#[test]
#[ignore = "an hour"]
fn an_hour_at_full_load_changes_nothing_and_keeps_nothing() {
    let minutes = std::env::var("ZONEPROBE_SOAK_MINUTES").map_or(60, |n| n.parse().expect("whole minutes"));
    let until = Instant::now() + Duration::from_secs(60 * minutes);
    let digest = round();
    let mut memory = Vec::new();
    while Instant::now() < until || memory.len() < WARM + 4 {
        assert_eq!(round(), digest, "round {}", memory.len() + 1);
        memory.push(resident_kib());
    }
    let warm = &memory[WARM..];
    let quarter = warm.len() / 4;
    let (first, last) = (median(&warm[..quarter]), median(&warm[warm.len() - quarter..]));
    println!(
        "{} rounds of {ROUND} possessions in {minutes} min, digest {digest}; memory {first} KiB in the first quarter, {last} in the last",
        memory.len()
    );
    assert!(last < first + COMES_AND_GOES_KIB, "memory grows from {first} to {last} KiB");
}
