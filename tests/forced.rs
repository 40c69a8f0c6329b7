//! What every look of a plan costs where it is forced: taken in possessions drawn at random in which its condition holds,
//! whatever it seems to be worth and whatever stands before it. A look that costs more than it should has no place in the
//! plan. Judged whole by a study (`tests/studied.rs`).
//!
//! What it has caught: nothing yet.

use std::fmt::Write as _;
use std::sync::Arc;

use engine::setup::{Forced, Setup};
use engine::{Measure, PossessionRecord};

use crate::looks::Seen;
use crate::studied;
use crate::support::{changed, loaded, over, question, records_in, text_of};
use crate::trade::estimate::{Series, combination};

const STUDY: &str = "experiments/studies/forced.md";
const AROUND: [&str; 2] = ["## What was found\n", "## How to read it\n"];
const HEAD: &str = "\n| ball at | look | possessions in which it was forced | taken anyway | net points that it costs (95 %) | costs less than .03 |\n\
                    | --- | --- | --- | --- | --- | --- |\n";
const PLAN: &str = "inside-first";
const SEED: u64 = 12;
/// Possessions of each route.
const POSSESSIONS: u64 = 2000;
/// Holds on which a look is forced if it comes up: every other one, so that it is not always the first that has it.
const SHARE: f32 = 0.5;
/// Standard errors to either side of an interval at 95 %.
const Z_95_ONE_LOOK: f64 = 1.960;
/// The most that a look may cost, points a possession.
const MOST_POINTS: f64 = 0.03;

/// A look, by its places in the plan, and how a page has it.
struct Tried {
    order: usize,
    look: usize,
    at: String,
    what: String,
}

/// Every look that the plan's file orders.
fn every_look() -> Vec<Tried> {
    let file: toml::Table = toml::from_str(&text_of(&format!("scenarios/data/plans/{PLAN}.toml")))
        .expect("a bundled plan is TOML");
    let array = |of: &toml::Table, key: &str| of[key].as_array().expect("a list").clone();
    let words = |value: &toml::Value| match value {
        toml::Value::Array(all) => {
            all.iter().map(|one| one.as_str().unwrap_or_default()).collect::<Vec<_>>().join(", ")
        }
        toml::Value::String(one) => one.clone(),
        other => other.to_string(),
    };
    let mut all = Vec::new();
    for (order, looks) in array(&file, "look").iter().enumerate() {
        let looks = looks.as_table().expect("a table");
        for (look, what) in array(looks, "order").iter().enumerate() {
            let what = what.as_table().expect("a table");
            let part = |key: &str| what.get(key).map(words);
            let what = match (part("pass"), part("drive")) {
                (Some(to), _) => {
                    let side = part("side").map_or(String::new(), |side| format!(", {side} side"));
                    let when = part("when").map_or(String::new(), |when| format!(", {when}"));
                    format!(
                        "pass to {to} at {}{side}{when}",
                        part("at").unwrap_or_else(|| "any place".into())
                    )
                }
                (None, Some(lane)) => format!("drive: {lane}"),
                (None, None) => "shoot".into(),
            };
            all.push(Tried { order, look, at: words(&looks["at"]), what });
        }
    }
    all
}

fn routes() -> Vec<Arc<Setup>> {
    let route = |name: &str| loaded(over("sunken-122", [("attack.rover.route", format!("{name:?}"))]));
    question().variants.iter().map(|variant| route(&variant.name)).collect()
}

fn with(setup: &Setup, forced: Forced) -> Arc<Setup> {
    changed(setup, |setup| setup.attack.plan.as_mut().expect("a plan").forced = Some(forced))
}

/// The possessions of a route, apart from those of any other.
fn played(setup: &Arc<Setup>, route: u64) -> Vec<PossessionRecord> {
    const APART: u64 = 10_000;
    records_in(setup, SEED, route * APART..route * APART + POSSESSIONS)
}

/// What was found of a look.
struct Found {
    forced: u64,
    /// Share of these in which the possession went as it would have gone.
    anyway: f64,
    costs: f64,
    ends: (f64, f64),
}

fn look(tried: &Tried, routes: &[Arc<Setup>], own: &[Vec<PossessionRecord>]) -> (Seen, Found) {
    let forced = Forced { order: tried.order, look: tried.look, share: SHARE };
    let (mut costs, mut anyway) = (Series::new(), 0);
    for ((nth, setup), own) in (0..).zip(routes).zip(own) {
        let other = played(&with(setup, forced), nth);
        for (own, other) in own.iter().zip(&other).filter(|(_, other)| other.forced) {
            let points = |record: &PossessionRecord| record.real(Measure::ExpectedNetPoints);
            costs.push((points(own) - points(other), 1.0));
            anyway += u64::from(own.digest == other.digest);
        }
    }
    let count = costs.len() as f64;
    let mean = combination(&[(1.0, &costs)]);
    let ends = mean.interval(Z_95_ONE_LOOK);
    let seen = if costs.len() < 2 { Seen::Open } else { Seen::within(ends, f64::NEG_INFINITY, MOST_POINTS) };
    (seen, Found { forced: costs.len() as u64, anyway: anyway as f64 / count, costs: mean.value, ends })
}

#[test]
#[ignore = "five minutes: every look of the plan"]
fn study_of_every_look_that_is_ordered() {
    let routes = routes();
    let own: Vec<_> = (0..).zip(&routes).map(|(nth, setup)| played(setup, nth)).collect();
    let mut table = HEAD.to_owned();
    for tried in every_look() {
        let (seen, Found { forced, anyway, costs, ends: (low, high) }) = look(&tried, &routes, &own);
        let told = format!(
            "{} | {} | {forced} | {anyway:.2} | {costs:+.3} ({low:+.3} to {high:+.3}) | {}",
            tried.at,
            tried.what,
            seen.word()
        );
        println!("{told}");
        writeln!(table, "| {told} |").expect("a string takes all text");
    }
    studied::write(STUDY, AROUND, &table);
}

#[test]
fn a_look_is_forced_once_and_changes_only_possessions_in_which_it_is() {
    let setup = &routes()[0];
    let shot = every_look().into_iter().find(|tried| tried.at == "wing" && tried.what == "shoot");
    let shot = shot.expect("the plan lets a wing shoot");
    let force = |share| {
        let forced = Forced { order: shot.order, look: shot.look, share };
        records_in(&with(setup, forced), SEED, 0..400)
    };
    let (own, never, half, always) = (records_in(setup, SEED, 0..400), force(0.0), force(0.5), force(1.0));
    assert_eq!(own, never);
    let count = |records: &[PossessionRecord]| records.iter().filter(|record| record.forced).count();
    assert!(0 < count(&half) && count(&half) < count(&always), "{} and {}", count(&half), count(&always));
    for (own, always) in own.iter().zip(&always) {
        assert!(always.forced || own == always, "{} went otherwise", own.possession);
    }
}
