//! The stupid strategies that must lose to the plan of the bundled question, in expected net points, over its seven routes:
//! shooting at once, having ten seconds only, standing still. Judged whole by a study (`tests/studied.rs`), and held as
//! they are found: a control that wins is an expected failure, and the study says what is known of the reason.
//!
//! What it has caught: an attack that shoots a guarded three at once scores no less than one that plays.

use std::fmt::Write as _;
use std::sync::Arc;

use engine::Measure;
use engine::setup::Setup;

use crate::looks::{Seen, Z_95, two_looks};
use crate::studied::{self, GLANCE};
use crate::support::{argument, folder, lead_over, over};

const STUDY: &str = "experiments/studies/controls.md";
const AROUND: [&str; 2] = ["## What was found\n", "## What is known of the reasons\n"];
const HEAD: &str = "\n| control | net points a possession less than the plan (95 %) | to be at least | possessions of each | holds |\n\
                    | --- | --- | --- | --- | --- |\n";
const SEED: u64 = 8;
/// Possessions of each route at the first look.
const FIRST: u64 = 1200;

/// Whoever has the ball shoots, wherever he is.
const AT_ONCE: &str = "[[look]]\nat = [\"top\", \"slot\", \"wing\", \"corner\", \"short-corner\", \"low-post\", \"elbow\"]\n\
                       order = [{ shoot = true }]\n[[shot]]\nfrom = [\"rim\", \"inside\", \"outside-two\", \"three\"]\n";

struct Control {
    name: &'static str,
    /// The least by which it is to lose.
    least: f64,
    verdict: Seen,
    /// The setup of a route.
    setup: fn(&str) -> Arc<Setup>,
}

fn with(route: &str, more: &[(&str, &str)]) -> Arc<Setup> {
    let route = format!("{route:?}");
    over("sunken-122", [("attack.rover.route", route.as_str())].iter().chain(more).copied())
        .unwrap_or_else(|faults| panic!("{faults}"))
}

const CONTROLS: [Control; 3] = [
    Control {
        name: "shoots at once",
        least: 0.10,
        verdict: Seen::Refuted,
        setup: |route| {
            let folder = folder(&[("at-once.toml", AT_ONCE)]);
            with(route, &[("attack.plan", &format!("{:?}", argument(&folder.path().join("at-once.toml"))))])
        },
    },
    Control {
        name: "has ten seconds",
        least: 0.05,
        verdict: Seen::Refuted,
        // Of the 35 s of the clock.
        setup: |route| with(route, &[("clock.clock_used_s", "25.0")]),
    },
    Control {
        name: "stands still: nobody runs, the posts stay where they are",
        least: 0.0,
        verdict: Seen::Shown,
        setup: |_| with("hold-wing", &[("attack.posts.options", "{}"), ("attack.guards.options", "{}")]),
    },
];

/// What a look found: how much less, its two ends, and what that says of the bound.
struct Found {
    less: f64,
    ends: (f64, f64),
    possessions: u64,
    seen: Seen,
}

fn look(control: &Control, possessions: u64) -> Found {
    let (less, error) = lead_over(control.setup, Measure::ExpectedNetPoints, SEED, possessions);
    let ends = (less - Z_95 * error, less + Z_95 * error);
    Found { less, ends, possessions, seen: Seen::within(ends, control.least, f64::INFINITY) }
}

#[test]
#[ignore = "a minute: every control whole"]
fn study_of_every_control() {
    let (mut table, mut wrong) = (HEAD.to_owned(), Vec::new());
    for control in &CONTROLS {
        let (seen, found) = two_looks(FIRST, |count| {
            let found = look(control, count);
            (found.seen, found)
        });
        let Found { less, ends: (low, high), possessions, .. } = found;
        let told = format!(
            "{} | {less:+.3} ({low:+.3} to {high:+.3}) | {} | {possessions} for each route | {}",
            control.name,
            control.least,
            seen.word()
        );
        println!("{told}");
        writeln!(table, "| {told} |").expect("a string takes all text");
        if seen != control.verdict {
            wrong.push(format!("{seen:?}, and the verdict in force is {:?}: {told}", control.verdict));
        }
    }
    studied::write(STUDY, AROUND, &table);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_control_does_the_contrary_of_what_was_found() {
    for control in &CONTROLS {
        let found = look(control, FIRST.div_ceil(GLANCE));
        let (low, high) = found.ends;
        assert!(
            !studied::contradicts(found.seen, control.verdict),
            "{}: {low:.3} to {high:.3} net points less, and it was {:?}",
            control.name,
            control.verdict
        );
    }
}
