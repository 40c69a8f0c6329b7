//! Whatever scenario a user may write, if the loader takes it, it is basketball's bookkeeping that comes out: numbers that
//! are numbers, bodies on the floor and no faster than they can be, one ball, one ending whose parts add up; its mirror
//! image from the other side; and the same again from the same seed.
//!
//! Scenarios are drawn by `proptest`, which shrinks what fails to a few keys: rules, levels, zone, attack, route and options
//! by name, and numbers anywhere in their ranges for some of the keys of the reference. `PROPTEST_CASES=2000 cargo test
//! --workspace --test promises any_scenario` tries two thousand instead of some dozens.
//!
//! What it has caught: bodies three metres off the floor at speeds that nobody runs (such speeds are refused now); a ball that
//! leaps into the hands of whoever wins the race to a rebound (a known limit).

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use engine::film::{Film, Frame, What};
use engine::math::max;
use engine::setup::{Setup, SideChoice};
use engine::{Arena, Measure, Outcome, PossessionRecord};
use proptest::prelude::*;

use crate::mirror::first_difference;
use crate::support::{changed, over, play};

/// Names of what is bundled, by kind.
static NAMES: LazyLock<BTreeMap<&str, Vec<String>>> = LazyLock::new(|| {
    let mut names: BTreeMap<_, Vec<String>> = BTreeMap::new();
    for entry in scenarios::catalog() {
        names.entry(entry.kind).or_default().push(entry.name);
    }
    names
});

/// A key of a scenario that takes a number, and the ends of its range.
struct Dial {
    key: String,
    whole: bool,
    low: f64,
    high: f64,
}

/// The dials of a scenario, outside of lists and names of one's own.
static DIALS: LazyLock<Vec<Dial>> = LazyLock::new(|| {
    let reference = scenarios::key_reference();
    let of_scenario = reference.into_iter().filter(|entry| entry.kind == "scenario");
    let dials = of_scenario.filter_map(|entry| {
        let whole = entry.value == "whole number";
        let fits = whole || entry.value == "number";
        let (low, high) = entry.range.split_once(" to ")?;
        let ends = (low.parse().ok()?, high.parse().ok()?);
        let named = !entry.key.contains("[]") && !entry.key.contains("NAME");
        (fits && named).then_some(Dial { key: entry.key, whole, low: ends.0, high: ends.1 })
    });
    dials.collect()
});

/// A name of a kind.
fn name(kind: &'static str) -> impl Strategy<Value = String> {
    (0..NAMES[kind].len()).prop_map(move |n| NAMES[kind][n].clone())
}

/// Some options of a kind, each with its weight, as a table.
fn options(kind: &'static str) -> impl Strategy<Value = String> {
    proptest::sample::subsequence(NAMES[kind].clone(), 0..=3).prop_flat_map(|names| {
        let count = names.len();
        (Just(names), proptest::collection::vec(0.0..=1.0_f64, count)).prop_map(|(names, weights)| {
            let each = names.iter().zip(weights).map(|(name, weight)| format!("{name} = {weight:.3}"));
            format!("{{ {} }}", each.collect::<Vec<_>>().join(", "))
        })
    })
}

/// How the attack plays: a whole attack, or a route of the rover with options of posts and guards.
fn attack() -> impl Strategy<Value = Vec<(String, String)>> {
    let quoted = |name: String| format!("\"{name}\"");
    let whole = name("attack").prop_map(move |attack| {
        vec![
            ("attack.use".to_owned(), quoted(attack)),
            ("attack.rover".to_owned(), "{}".to_owned()),
            ("attack.posts.options".to_owned(), "{}".to_owned()),
        ]
    });
    let rover = (name("route"), options("post option"), options("guard option")).prop_map(
        move |(route, posts, guards)| {
            vec![
                ("attack.rover.route".to_owned(), quoted(route)),
                ("attack.posts.options".to_owned(), posts),
                ("attack.guards.options".to_owned(), guards),
            ]
        },
    );
    prop_oneof![1 => whole, 3 => rover]
}

/// Up to six dials, each anywhere in its range.
fn dials() -> impl Strategy<Value = Vec<(String, String)>> {
    let one = (0..DIALS.len(), 0.0..=1.0_f64).prop_map(|(n, share)| {
        let Dial { key, whole, low, high } = &DIALS[n];
        let value = low + (high - low) * share;
        let value = if *whole { format!("{:.0}", value) } else { format!("{value:.4}") };
        (key.clone(), value)
    });
    proptest::collection::vec(one, 0..=6)
}

/// A scenario as a user may write it: what is set beside the bundled one.
fn scenario() -> impl Strategy<Value = BTreeMap<String, String>> {
    let named = (name("rules"), name("level"), name("level"), name("zone"));
    (named, attack(), dials()).prop_map(|((rules, attackers, defenders, zone), attack, dials)| {
        let named =
            [("rules", rules), ("level.attack", attackers), ("level.defence", defenders), ("zone.use", zone)];
        let named = named.map(|(key, name)| (key.to_owned(), format!("\"{name}\"")));
        dials.into_iter().chain(named).chain(attack).collect()
    })
}

/// Beyond a line by no more than this: who is shoved out or runs out comes back, m. (assumed)
const BEYOND_LINE_M: f32 = 1.0;
/// No shot flies faster, m/s. (a choice: twice what a long one makes along the floor, from memory)
const FASTEST_SHOT_M_S: f32 = 15.0;
/// What rounding adds to a way. (a choice)
const ROUNDED: f32 = 1.01;
/// A team-mate's speed lies within so many spreads of the team's. (assumed)
const SPREADS: f32 = 5.0;
/// Bodies that overlap are put apart by no more than this in a step, m. (assumed)
const SHOVED_M: f32 = 0.3;
/// A whistle is heard, and the ball put in again, within so many steps. (assumed)
const STEPS_LATE: f32 = 2.0;
/// Possessions of each scenario, and their seed.
const POSSESSIONS: u64 = 2;
const SEED: u64 = 1;

/// What is wrong with a frame alone.
fn wrong_frame(setup: &Setup, frame: &Frame) -> Option<String> {
    let court = &setup.court;
    let at = frame.time_s;
    for (n, place) in frame.players.iter().enumerate() {
        if !(place.x.is_finite() && place.y.is_finite()) {
            return Some(format!("player {n} is at {place:?} at {at} s"));
        }
        let along = max(court.baseline_y_m - place.y, place.y - court.midcourt_y_m);
        let beyond = max(place.x.abs() - court.half_width_m, along);
        if beyond > BEYOND_LINE_M {
            return Some(format!("player {n} is {beyond:.2} m beyond a line at {at} s"));
        }
        let facing = frame.facing[n].len();
        if (facing - 1.0).abs() > 0.01 {
            return Some(format!("player {n} faces {:?} at {at} s", frame.facing[n]));
        }
    }
    let ball = frame.ball;
    if !(ball.x.is_finite() && ball.y.is_finite() && frame.ball_height_m.is_finite()) {
        return Some(format!("the ball is at {ball:?} at {at} s"));
    }
    if frame.ball_height_m < 0.0 {
        return Some(format!("the ball is {} m high at {at} s", frame.ball_height_m));
    }
    (frame.holder.is_some() && frame.air.is_some()).then(|| format!("held and in the air at {at} s"))
}

/// Who is faster between two frames that follow each other than his body lets him be.
fn wrong_run(setup: &Setup, before: &Frame, after: &Frame) -> Option<String> {
    let (dt, at) = (after.time_s - before.time_s, after.time_s);
    for n in 0..10 {
        let body = if n < 5 { &setup.attackers.body } else { &setup.defenders.body };
        let top = body.sprint_m_s + SPREADS * body.sprint_spread_m_s;
        let moved = before.players[n].distance(after.players[n]);
        if moved > top * dt + SHOVED_M {
            return Some(format!("player {n} moves {moved:.2} m in a step at {at} s"));
        }
    }
    None
}

/// The ball leaps between two frames that follow each other: farther than the hardest throw goes and a hand reaches.
fn wrong_flight(setup: &Setup, before: &Frame, after: &Frame) -> Option<String> {
    let (dt, at) = (after.time_s - before.time_s, after.time_s);
    let throws = setup.attackers.skill.pass.iter().map(|pass| pass.speed_m_s);
    let fastest = throws.fold(FASTEST_SHOT_M_S, max);
    let reach = max(setup.attackers.skill.catch_far_m, setup.defenders.body.lunge_reach_m);
    let moved = before.ball.distance(after.ball);
    (moved > (fastest * dt + reach) * ROUNDED).then(|| format!("the ball leaps {moved:.2} m at {at} s"))
}

/// What is wrong with a film.
fn wrong_film(setup: &Setup, film: &Film) -> Option<String> {
    let happened = |before: &Frame, after: &Frame, which: fn(&What) -> bool| {
        let since = before.time_s - STEPS_LATE * setup.step_s;
        film.events.iter().any(|event| which(&event.what) && (since..=after.time_s).contains(&event.time_s))
    };
    // A dead ball that the attack keeps is put in again from a new start.
    let anew = |what: &What| matches!(what, What::Foul { .. } | What::OutOfBounds { retained: true });
    // Whoever wins the race to a rebound has it at once, though he may stand some steps away (a known limit of the model:
    // `engine/MODEL.md`).
    let rebound = |what: &What| matches!(what, What::Rebound { .. });
    let alone = film.frames.iter().find_map(|frame| wrong_frame(setup, frame));
    alone.or_else(|| {
        film.frames.windows(2).filter(|pair| !happened(&pair[0], &pair[1], anew)).find_map(|pair| {
            let (before, after) = (&pair[0], &pair[1]);
            let leaps = || wrong_flight(setup, before, after).filter(|_| !happened(before, after, rebound));
            wrong_run(setup, before, after).or_else(leaps)
        })
    })
}

/// What does not add up in a record.
fn wrong_sums(record: &PossessionRecord) -> Option<String> {
    use Measure as M;
    let of = |measure| record.value(measure);
    let endings: i64 = Outcome::ALL.iter().map(|outcome| of(Measure::ALL[*outcome as usize])).sum();
    let claims = [
        ("no fault", record.outcome != Outcome::Fault),
        ("one ending", endings == 1 && of(Measure::ALL[record.outcome as usize]) == 1),
        ("made shots among shots", (0..=of(M::Shots)).contains(&of(M::ShotsMade))),
        ("threes among shots", (0..=of(M::Shots)).contains(&of(M::Threes))),
        ("made threes among made shots", (0..=of(M::ShotsMade)).contains(&of(M::ThreesMade))),
        ("made threes among threes", of(M::ThreesMade) <= of(M::Threes)),
        ("a made shot where it ends so", record.outcome != Outcome::Made || of(M::ShotsMade) >= 1),
        ("points from shots and free throws alone", points_add_up(record)),
    ];
    let broken = claims.iter().find(|(_, holds)| !holds)?;
    Some(format!("{}: {record:?}", broken.0))
}

/// Two for a made shot, three for a made three; what free throws bring lies between none and three.
fn points_add_up(record: &PossessionRecord) -> bool {
    let points = record.value(Measure::Points) as f64 / Measure::Points.unit().scale();
    let field = 2 * record.value(Measure::ShotsMade) + record.value(Measure::ThreesMade);
    let free = points - field as f64;
    let most = if record.outcome == Outcome::FreeThrows { 3.0 } else { 0.0 };
    (0.0..=most).contains(&free)
}

/// What is wrong with a setup: the first fault of a few possessions.
fn wrong(setup: &Arc<Setup>) -> Option<String> {
    let sides = [SideChoice::Right, SideChoice::Left].map(|side| changed(setup, |s| s.attack.side = side));
    let mut arena = Arena::new(1);
    for possession in 0..POSSESSIONS {
        let [right, left] = [&sides[0], &sides[1]].map(|setup| arena.film(setup, SEED, possession));
        let found = wrong_film(setup, &right).or_else(|| wrong_sums(&right.record)).or_else(|| {
            first_difference(&right, &left).map(|difference| format!("not mirrored: {difference}"))
        });
        if let Some(found) = found {
            return Some(format!("possession {possession}: {found}"));
        }
        if arena.film(&sides[0], SEED, possession).record != right.record {
            return Some(format!("possession {possession} is another the second time"));
        }
    }
    let alone = play(&mut arena, setup, SEED, 0..POSSESSIONS);
    let together = play(&mut Arena::new(POSSESSIONS as usize), setup, SEED, 0..POSSESSIONS);
    (alone != together).then(|| "another when played side by side".to_owned())
}

/// Some dozens of scenarios, or as many as are asked for.
fn how() -> ProptestConfig {
    let cases = std::env::var("PROPTEST_CASES").map_or(48, |n| n.parse().expect("a whole number of cases"));
    ProptestConfig {
        cases,
        failure_persistence: None,
        max_global_rejects: 65_536,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(how())]

    #[test]
    fn whatever_the_loader_takes_is_played_by_the_book(set in scenario()) {
        let setup = over("plain-122", &set).ok();
        prop_assume!(setup.is_some());
        let found = setup.as_ref().and_then(wrong);
        prop_assert!(found.is_none(), "{}", found.unwrap_or_default());
    }
}
