//! What teaching is worth: plans against each other and against none in every bundled zone, how well a plan is known, and short
//! lists of looks against long ones. Judged whole by a study (`tests/studied.rs`); the tests glance at what it has shown.
//!
//! What it has caught: nothing yet.

use std::fmt::Write as _;
use std::sync::Arc;

use engine::Measure;
use engine::setup::Setup;

use crate::looks::{Seen, Z_95, two_looks};
use crate::played::keeping;
use crate::studied::{self, GLANCE};
use crate::support::{argument, folder, loaded, mean, over, paired, question, records_in};

const STUDY: &str = "experiments/studies/plans.md";
const AROUND: [&str; 2] = ["## What was found\n", "## How to read it\n"];
const SEED: u64 = 5;
/// Possessions of each route at the first look.
const FIRST: u64 = 600;
/// Possessions of each route with each plan in each zone.
const IN_ZONE: u64 = 300;
/// The routes of a comparison have possessions of their own, so that their errors add up.
const APART: u64 = 100_000;

const ZONES: [&str; 6] = ["1-2-2", "3-2", "2-3", "2-1-2", "1-3-1", "man-to-man"];
/// The last is no plan: the control.
const PLANS: [&str; 4] = ["inside-first", "ball-movement", "drive-first", "free"];
const INSIDE_FIRST: &str = "inside-first";

/// Something that is taught, or not, against something else: both as overrides of the bundled matchup.
struct Lesson {
    words: &'static str,
    better: fn() -> Vec<(String, String)>,
    worse: fn() -> Vec<(String, String)>,
    verdict: Seen,
}

fn drilled(share: &str) -> Vec<(String, String)> {
    vec![("attack.drilled".into(), share.into())]
}

/// *Inside first* with the first two looks of each place and its last one, the way out.
fn short_lists() -> String {
    let plan = scenarios::bundled_text(INSIDE_FIRST).expect("a bundled plan");
    let mut short = String::new();
    let mut order: Option<Vec<&str>> = None;
    for line in plan.lines() {
        match &mut order {
            None => {
                writeln!(short, "{line}").expect("a string takes all text");
                order = line.starts_with("order = [").then(Vec::new);
            }
            Some(looks) if line != "]" => looks.push(line),
            Some(looks) => {
                let last = looks.last().copied().filter(|_| looks.len() > 2);
                for kept in looks.iter().take(2).copied().chain(last).chain(["]"]) {
                    writeln!(short, "{kept}").expect("a string takes all text");
                }
                order = None;
            }
        }
    }
    short
}

const LESSONS: [Lesson; 3] = [
    Lesson {
        words: "known whole, over known by half",
        better: || drilled("1.0"),
        worse: || drilled("0.5"),
        verdict: Seen::Shown,
    },
    Lesson {
        words: "known by half, over not known",
        better: || drilled("0.5"),
        worse: || drilled("0.0"),
        verdict: Seen::Shown,
    },
    Lesson {
        words: "five to eight looks a place, over the first two and the way out",
        better: || drilled("1.0"),
        worse: || {
            let folder = folder(&[("short.toml", short_lists().as_str())]);
            let path = format!("{:?}", argument(&folder.keep().join("short.toml")));
            vec![("attack.plan".into(), path)]
        },
        verdict: Seen::Open,
    },
];

fn with(route: &str, scenario: &str, overrides: &[(String, String)]) -> Arc<Setup> {
    let route = ("attack.rover.route".to_owned(), format!("{route:?}"));
    loaded(over(scenario, std::iter::once(&route).chain(overrides).map(|(path, value)| (path, value))))
}

/// What the first brings more than the second over the seven routes of the bundled question, in expected net points, the
/// standard error of that, and the mean of the first.
fn over_routes(
    scenario: &str,
    [first, second]: [&[(String, String)]; 2],
    possessions: u64,
) -> (f64, f64, f64) {
    let variants = question().variants;
    let (mut more, mut squares, mut level) = (0.0, 0.0, 0.0);
    for (nth, variant) in (0..).zip(&variants) {
        let own = nth * APART..nth * APART + possessions;
        let [a, b] = [first, second]
            .map(|own_overrides| with(&variant.name, scenario, own_overrides))
            .map(|setup| records_in(&setup, SEED, own.clone()));
        let (difference, error) = paired(&b, &a, Measure::ExpectedNetPoints);
        more += difference;
        squares += error * error;
        level += mean(&a, Measure::ExpectedNetPoints);
    }
    let routes = variants.len() as f64;
    (more / routes, squares.sqrt() / routes, level / routes)
}

fn look(lesson: &Lesson, possessions: u64) -> (Seen, (f64, (f64, f64))) {
    let (better, worse) = ((lesson.better)(), (lesson.worse)());
    let (more, error, _) = over_routes("sunken-122", [&better, &worse], possessions);
    let ends = (more - Z_95 * error, more + Z_95 * error);
    (Seen::within(ends, 0.0, f64::INFINITY), (more, ends))
}

#[test]
#[ignore = "five minutes: every plan in every zone"]
fn study_of_every_plan() {
    let mut table =
        String::from("\n| what is known | net points more (95 %) | holds |\n| --- | --- | --- |\n");
    let mut wrong = Vec::new();
    for lesson in &LESSONS {
        let (seen, (more, (low, high))) = two_looks(FIRST, |count| look(lesson, count));
        let told = format!("{} | {more:+.3} ({low:+.3} to {high:+.3}) | {}", lesson.words, seen.word());
        writeln!(table, "| {told} |").expect("a string takes all text");
        if seen != lesson.verdict {
            wrong.push(format!("{seen:?}, and the verdict in force is {:?}: {told}", lesson.verdict));
        }
    }
    table += "\n| zone | plan | net points | more than without a plan (95 %) |\n| --- | --- | --- | --- |\n";
    let plan = |name: &str, zone: &str| {
        [("attack.plan", name), ("zone.use", zone)].map(|(key, value)| (key.to_owned(), format!("{value:?}")))
    };
    // The control of a zone is played once.
    for zone in ZONES {
        keeping(|| {
            for name in PLANS {
                let pair = [&plan(name, zone)[..], &plan("free", zone)[..]];
                let (more, error, level) = over_routes("plain-122", pair, IN_ZONE);
                let told = if name == "free" {
                    String::from("-")
                } else {
                    format!("{more:+.3} ({:+.3} to {:+.3})", more - 1.96 * error, more + 1.96 * error)
                };
                writeln!(table, "| {zone} | {name} | {level:.3} | {told} |")
                    .expect("a string takes all text");
            }
        });
    }
    println!("{table}");
    studied::write(STUDY, AROUND, &table);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_lesson_does_the_contrary_of_what_was_found() {
    for lesson in &LESSONS {
        let (seen, (more, (low, high))) = look(lesson, FIRST.div_ceil(GLANCE));
        assert!(
            !studied::contradicts(seen, lesson.verdict),
            "{}: {more:+.3} ({low:+.3} to {high:+.3})",
            lesson.words
        );
    }
}

#[test]
fn short_lists_have_three_looks_and_are_a_plan() {
    let (whole, short) = (scenarios::bundled_text(INSIDE_FIRST).expect("a bundled plan"), short_lists());
    let looks = |text: &str| text.lines().filter(|line| line.starts_with("  {")).count();
    let orders = |text: &str| text.lines().filter(|line| line.starts_with("order = [")).count();
    assert_eq!(looks(&short), 3 * orders(&short));
    assert!(orders(&short) == orders(whole) && looks(whole) > 5 * orders(whole));
}
