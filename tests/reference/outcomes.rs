//! What comes out of possessions lies within published bands of the level of play, or is named as lying outside, with the
//! reason.
//!
//! `outcomes.toml` has the outcomes, `checklist.toml` what a coach would hold the attack to besides (`line.rs`). Bands are
//! ranges of leagues near ours, so a line may lie over an end of its band: then the test says nothing. What is marked `off`
//! has to stay outside, or the mark has to go. All lines, of eight times as many possessions and with those that have no
//! published source, are in `experiments/studies/checklist.md`; `tests/checklist` prints them.

use serde::Deserialize;

use super::line::{File, LEVELS, Line, played};
use super::values;

/// The lines of `checklist.toml`; scenarios and possessions are those of `outcomes.toml`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct More {
    line: Vec<Line>,
}

/// All lines of both files.
pub fn file() -> File {
    let mut file: File = values("outcomes");
    let more: More = values("checklist");
    file.line.extend(more.line);
    file
}

#[test]
fn outcomes_lie_within_published_bands_or_are_named() {
    let file = file();
    let mut wrong = Vec::new();
    for level in &LEVELS {
        let played = played(&file, level, file.possessions);
        for line in file.line.iter().filter(|line| !line.memory) {
            assert!(line.watched.is_none() && !line.continuation, "{}: is watched by hand only", line.what);
            wrong.extend(line.wrong(level, line.rate(&played)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
