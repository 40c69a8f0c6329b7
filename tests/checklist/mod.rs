//! The checklist of an attack: every line of `tests/reference/outcomes.toml` and `checklist.toml`, those without a published
//! source and those that only films show too, for high school and for college. Written into a study (`tests/studied.rs`) by
//!
//!     ZONEPROBE_BLESS=1 cargo test --workspace --test promises study_of_the_checklist -- --ignored --nocapture
//!
//! which fails where a line lies outside and its file gives no reason, or inside though it gives one. Lines with a published
//! source are held at every change (`tests/reference/outcomes.rs`).

mod continuation; // rises of continuation values as the clock falls
mod passing; // how the ball goes round, and what passers believe
mod table; // the lines in a table, how many lie inside, and the reasons of those that do not
mod watched; // looks at films, by their names in the file

use crate::reference::line::{File, LEVELS, Level, Line, Matchup, played};
use crate::reference::outcomes::file;
use crate::studied;
use crate::trade::estimate::{Estimate, combination};

use self::table::{Found, told};

const STUDY: &str = "experiments/studies/checklist.md";
const AROUND: [&str; 2] = ["## What was found\n", "## How to read it\n"];
/// How many times as many possessions the study has as the tests.
const MORE: u64 = 8;

/// What every line comes to at a level.
fn found<'a>(file: &'a File, level: &Level) -> Vec<Found<'a>> {
    let possessions = MORE * file.possessions;
    let played = played(file, level, possessions);
    let films = watched::films(&played, file.seed, possessions);
    let of = |line: &Line| -> Estimate {
        match &line.watched {
            Some(name) => combination(&[(1.0, watched::named(&films, name))]),
            None if line.continuation => exactly(continuation::rises(&played[0].setup)),
            None => line.rate(&played),
        }
    };
    file.line.iter().map(|line| Found { line, rate: of(line) }).collect()
}

/// What is counted and not drawn by lot.
fn exactly(count: usize) -> Estimate {
    Estimate { value: count as f64, error: 0.0 }
}

#[test]
#[ignore = "minutes: every line at both levels, with 21,504 films each"]
fn study_of_the_checklist() {
    let file = file();
    let by_level = LEVELS.each_ref().map(|level| found(&file, level));
    let text = told(&by_level);
    println!("{text}");
    studied::write(STUDY, AROUND, &text);
    let wrong: Vec<String> = LEVELS
        .iter()
        .zip(&by_level)
        .flat_map(|(level, lines)| lines.iter().filter_map(|found| found.line.wrong(level, found.rate)))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_look_at_films_is_a_line_once_and_every_line_has_one_measure() {
    let file = file();
    let mut named: Vec<&str> = file.line.iter().filter_map(|line| line.watched.as_deref()).collect();
    named.sort_unstable();
    let mut looks: Vec<&str> = watched::LOOKS.iter().map(|(name, _)| *name).collect();
    looks.sort_unstable();
    assert_eq!(named, looks);
    for line in &file.line {
        let ways = [line.is_measured(), line.watched.is_some(), line.continuation];
        assert_eq!(ways.iter().filter(|way| **way).count(), 1, "{}", line.what);
    }
}

/// A few possessions of the first matchup of a level.
fn few(level: &Level, possessions: u64) -> (File, Vec<Matchup>) {
    let mut file = file();
    file.scenarios.truncate(1);
    let mut played = played(&file, level, possessions);
    played.truncate(1);
    (file, played)
}
