//! Same seed, same bytes: run twice, on any number of threads, in any batches and world widths, in debug and
//! release builds, on any machine.
//!
//! The last two are held by a committed golden file, `golden/bundled.txt`: how much was played, and the digest
//! of it. Counts that differ say that the play changed; a digest alone, that only the figures did.
//! To see it elsewhere: `cargo test -p zoneprobe-promises determinism`, with `--release` as well.
//!
//! What it has caught: nothing yet.

use std::fs;

use engine::{Arena, Measure};
use experiments::digest::ResultDigest;
use experiments::error::Exit;

use crate::support::{
    argument, every_matchup, play, question, records, sum, text_of, variant, workspace, zoneprobe,
};

/// The files of a run of the bundled question, and its result digest.
fn run(seed: &str, more: &[&str]) -> (Vec<Vec<u8>>, String) {
    let home = tempfile::tempdir().expect("a temporary folder");
    let out = home.path().join("out");
    let mut args = vec!["--possessions", "200", "--seed", seed, "--quiet", "--out", argument(&out)];
    args.extend(more);
    let told = zoneprobe(&args);
    assert_eq!(told.exit, Exit::Done, "{more:?}: {}", told.err);
    let names = ["comparison.csv", "differences.csv", "manifest.json"];
    let files = names.map(|name| fs::read(out.join(name)).unwrap_or_else(|error| panic!("{name}: {error}")));
    let manifest: serde_json::Value = serde_json::from_slice(&files[2]).expect("a manifest is JSON");
    let digest = manifest["result_digest"].as_str().expect("a manifest has the result's digest");
    (files.to_vec(), digest.to_owned())
}

#[test]
fn threads_batches_and_repetition_cannot_be_seen_in_the_files() {
    let (files, digest) = run("1", &["--threads", "1"]);
    let ways: [&[&str]; 7] = [
        &["--threads", "1"],
        &["--threads", "2"],
        &["--threads", "3"],
        &["--threads", "8"],
        &["--batch", "1"],
        &["--batch", "7"],
        &["--batch", "64"],
    ];
    for way in ways {
        let (again, own) = run("1", way);
        assert_eq!(own, digest, "{way:?}");
        assert!(again == files, "{way:?}: the files differ though the digest does not");
    }
    assert_ne!(run("2", &[]).1, digest, "another seed is another result");
}

#[test]
fn the_width_of_an_arena_and_the_range_asked_for_cannot_be_seen_in_the_records() {
    let (setup, other) = (variant("seam-cross"), variant("corner-drop"));
    let whole = play(&mut Arena::new(1), &setup, 1, 0..150);
    for width in [7, 64] {
        let mut arena = Arena::new(width);
        assert!(play(&mut arena, &setup, 1, 0..150) == whole, "width {width}");
        // A used world plays like a new one, and the middle of a range like the range alone.
        play(&mut arena, &other, 9, 5..40);
        assert!(play(&mut arena, &setup, 1, 31..90) == whole[31..90], "width {width}, part of the range");
    }
}

#[test]
fn every_route_against_every_zone_plays_alike_in_any_world() {
    let digest_of = |width: usize, pieces: &[std::ops::Range<u64>]| {
        let mut digest = ResultDigest::default();
        let mut arena = Arena::new(width);
        for (nth, (_, setup)) in every_matchup().iter().enumerate() {
            for piece in pieces {
                arena.play(setup, 5, piece.clone(), &mut |r| digest.add(nth, r.possession, r.digest));
            }
        }
        digest.to_string()
    };
    let whole = digest_of(64, &[0..12, 12..20]);
    for (width, pieces) in [(1, vec![0..8, 8..20]), (7, vec![0..7, 7..14, 14..20]), (64, vec![10..20, 0..10])]
    {
        assert_eq!(digest_of(width, &pieces), whole, "width {width}, {pieces:?}");
    }
}

const GOLDEN: &str = "tests/golden/bundled.txt";
const CHANGES: &str = "tests/golden/CHANGES.md";

/// The digest in a golden file's text.
fn digest_in(golden: &str) -> &str {
    golden.lines().find_map(|line| line.strip_prefix("digest ")).expect("a golden file has its digest")
}

#[test]
fn the_golden_digest_holds() {
    let (mut played, mut passes, mut shots) = (0, 0, 0);
    let mut digest = ResultDigest::default();
    for (nth, variant) in question().variants.iter().enumerate() {
        let records = records(&variant.setup, 1, 256);
        played += records.len();
        passes += sum(&records, Measure::Passes);
        shots += sum(&records, Measure::Shots);
        records.iter().for_each(|record| digest.add(nth, record.possession, record.digest));
    }
    let now = format!("possessions {played}\npasses {passes}\nshots {shots}\ndigest {digest}\n");
    if std::env::var_os("ZONEPROBE_BLESS").is_some_and(|value| value == "1") {
        fs::write(workspace().join(GOLDEN), &now).expect("the golden file is written");
        return;
    }
    let golden = text_of(GOLDEN);
    assert!(
        now == golden,
        "the bundled question no longer plays as in {GOLDEN}.\nthen:\n{golden}now:\n{now}\
         If that was not meant, something depends on more than setup, seed and possession, or a change reached \
         further than it should. If it was meant: ZONEPROBE_BLESS=1 cargo test -p zoneprobe-promises golden \
         rewrites the file; then say in {CHANGES} which effect moved, by how much and why."
    );
}

#[test]
fn the_golden_digest_has_its_entry_in_the_changes() {
    let golden = text_of(GOLDEN);
    let digest = digest_in(&golden);
    assert!(
        text_of(CHANGES).contains(digest),
        "{CHANGES} has no entry for {digest}: say which effect moved, by how much and why"
    );
}
