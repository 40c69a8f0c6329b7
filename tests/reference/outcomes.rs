//! What comes out of possessions lies within published bands of the level of play, or is named as lying outside, with the
//! reason.
//!
//! `outcomes.toml` has the lines. Bands are ranges of leagues near ours, so a line may lie over an end of its band:
//! then the test says nothing. What is marked `off` has to stay outside, or the mark has to go. The whole table, of eight
//! times as many possessions, is printed by
//!
//!     cargo test --workspace --test promises outcomes_of_all_lines -- --ignored --nocapture

use engine::{Measure, PossessionRecord};
use serde::Deserialize;

use super::values;
use crate::looks::{Seen, Z_3_ERRORS};
use crate::support::{loaded, over, question, records};
use crate::trade::estimate::{Estimate, Series, combination};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    scenarios: Vec<String>,
    seed: u64,
    possessions: u64,
    line: Vec<Line>,
}

/// One rate: the sum of some measures over the sum of others, or over the possessions.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    what: String,
    above: Vec<String>,
    #[serde(default)]
    below: Vec<String>,
    high_school: [f64; 2],
    college: [f64; 2],
    #[serde(default)]
    target: bool,
    #[serde(default)]
    memory: bool,
    source: String,
    #[serde(default)]
    off: Off,
}

/// Why a level lies outside.
#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Off {
    high_school: Option<String>,
    college: Option<String>,
}

/// A level of play as the scenarios have it: what is set over them.
struct Level {
    name: &'static str,
    set: &'static [(&'static str, &'static str)],
    band: fn(&Line) -> [f64; 2],
    off: fn(&Line) -> Option<&str>,
}

const LEVELS: [Level; 2] = [
    Level {
        name: "high school",
        set: &[],
        band: |line| line.high_school,
        off: |line| line.off.high_school.as_deref(),
    },
    Level {
        name: "college",
        set: &[
            ("rules", "\"us-college-men\""),
            ("clock.shot_clock_s", "30.0"),
            ("level.attack", "\"college\""),
            ("level.defence", "\"college\""),
        ],
        band: |line| line.college,
        off: |line| line.off.college.as_deref(),
    },
];

/// The records of every scenario and route, each in order of possession.
fn played(file: &File, level: &Level, possessions: u64) -> Vec<Vec<PossessionRecord>> {
    let routes: Vec<String> =
        question().variants.into_iter().map(|variant| format!("\"{}\"", variant.name)).collect();
    let matchups =
        file.scenarios.iter().flat_map(|scenario| routes.iter().map(move |route| (scenario, route)));
    let play = |(scenario, route): (&String, &String)| {
        let set = level.set.iter().copied().chain([("attack.rover.route", route.as_str())]);
        records(&loaded(over(scenario, set)), file.seed, possessions)
    };
    matchups.map(play).collect()
}

impl Line {
    /// The rate over all matchups. Those of one possession share their luck, so each possession is counted as one.
    fn rate(&self, played: &[Vec<PossessionRecord>]) -> Estimate {
        let total = |measures: &[String], of: usize| -> f64 {
            let real = |name: &String, record: &PossessionRecord| {
                let measure = Measure::ALL.iter().find(|measure| measure.key() == name);
                record.real(*measure.unwrap_or_else(|| panic!("no measure {name}")))
            };
            played.iter().flat_map(|records| measures.iter().map(|name| real(name, &records[of]))).sum()
        };
        let each = |of| {
            let below = if self.below.is_empty() { played.len() as f64 } else { total(&self.below, of) };
            (total(&self.above, of), below)
        };
        let series: Series = (0..played[0].len()).map(each).collect();
        combination(&[(1.0, &series)])
    }
}

/// What is seen of a line at a level.
fn seen(line: &Line, level: &Level, rate: Estimate) -> Seen {
    let [low, high] = (level.band)(line);
    // A rate cannot lie below 0, but its interval can.
    let low = if low == 0.0 { f64::NEG_INFINITY } else { low };
    Seen::within(rate.interval(Z_3_ERRORS), low, high)
}

#[test]
fn outcomes_lie_within_published_bands_or_are_named() {
    let file: File = values("outcomes");
    let mut wrong = Vec::new();
    for level in &LEVELS {
        let played = played(&file, level, file.possessions);
        for line in file.line.iter().filter(|line| !line.memory) {
            let rate = line.rate(&played);
            let told = format!(
                "{}, {}: {:.3} +- {:.3}, band {:?} ({})",
                line.what,
                level.name,
                rate.value,
                Z_3_ERRORS * rate.error,
                (level.band)(line),
                line.source
            );
            match (seen(line, level, rate), (level.off)(line)) {
                (Seen::Refuted, None) => wrong.push(format!("outside: {told}")),
                (Seen::Shown, Some(reason)) => {
                    wrong.push(format!("inside by now: {told}; said was: {reason}"))
                }
                _ => {}
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
#[ignore = "prints the table of all lines"]
fn outcomes_of_all_lines() {
    let file: File = values("outcomes");
    println!("| rate | level | | band | found | source |\n| --- | --- | --- | --- | --- | --- |");
    for level in &LEVELS {
        let played = played(&file, level, 8 * file.possessions);
        let (mut inside, mut of) = (0, 0);
        for line in &file.line {
            let (rate, [low, high]) = (line.rate(&played), (level.band)(line));
            let is_inside = (low..=high).contains(&rate.value);
            let kind = if line.target {
                "target"
            } else if line.memory {
                "memory"
            } else {
                "check"
            };
            if !line.target {
                (inside, of) = (inside + usize::from(is_inside), of + 1);
            }
            let (what, name, error, source) = (&line.what, level.name, 1.96 * rate.error, &line.source);
            let mark = if is_inside { "" } else { " (outside)" };
            println!(
                "| {what} | {name} | {kind} | {low}-{high} | {:.3} +- {error:.3}{mark} | {source} |",
                rate.value
            );
        }
        println!("{}: {inside} of {of} that are no target inside\n", level.name);
    }
}
