//! Promise: the attack does nothing in films that one would laugh at on a floor: no shot through the back of the board, no
//! travelling in the instant of the catch, nobody outside who stands on one spot while the ball goes round, nobody who
//! keeps it for ever, hardly a hurried three in a defender's face, three seconds called on nobody who is on his way out.
//!
//! Ten possessions of each bundled attack against each bundled zone (man-to-man aside). Has caught, of the build before
//! it: 3.3 % of all shots through the board, all travelling within 0.05 s of the catch, 6.9 % of the six-second windows
//! without half a metre of way, a hold of 12.7 s, 11 % of early threes in a defender's face.

use std::sync::{Arc, LazyLock};

use engine::film::{Film, What};
use engine::math::Vec2;
use engine::setup::Setup;
use engine::{Arena, Measure, film::TurnoverKind};
use rayon::prelude::*;

use crate::support::{attacks_by_zone, changed, records, sum};

/// Possessions of each pair, and their seed.
const EACH: u64 = 12;
const SEED: u64 = 4711;
/// A window in which a man stands, s; the ball has changed hands twice in it, he is outside, and has gone less than this.
const WINDOW_S: f32 = 6.0;
const STANDS_M: f32 = 0.5;
const OUTSIDE_M: f32 = 5.0;
/// His way is added up over pieces of so long, s.
const PIECE_S: f32 = 0.5;

/// Attacks against zones, man-to-man aside.
static PAIRS: LazyLock<Vec<Arc<Setup>>> = LazyLock::new(attacks_by_zone);

static FILMS: LazyLock<Vec<(Arc<Setup>, Film)>> = LazyLock::new(|| {
    PAIRS
        .par_iter()
        .flat_map_iter(|setup| {
            let mut arena = Arena::new(1);
            (0..EACH).map(move |possession| (setup.clone(), arena.film(setup, SEED, possession)))
        })
        .collect()
});

#[test]
fn nobody_shoots_through_the_back_of_the_board() {
    let mut shots = 0;
    for (setup, film) in FILMS.iter() {
        for event in &film.events {
            if let What::Shot { by, .. } = event.what {
                shots += 1;
                assert!(!setup.court.behind_board(event.at), "{by:?} at {:?}", event.at);
            }
        }
    }
    assert!(shots > 200, "{shots}");
}

#[test]
fn a_man_travels_when_his_feet_have_moved_and_as_often_as_the_level_says() {
    // More than twice as often as at any level, to be counted in few possessions.
    const RATE: f32 = 0.03;
    let often: Vec<_> = PAIRS
        .iter()
        .map(|pair| changed(pair, |setup| setup.attackers.skill.travel_per_catch = RATE))
        .collect();
    let (mut catches, mut travels) = (0, 0);
    for (nth, setup) in often.iter().enumerate() {
        let records = records(setup, SEED + nth as u64, 32);
        // The hold that a possession begins with is counted as a catch and is none.
        catches += sum(&records, Measure::Catches) - records.len() as i64;
        travels += sum(&records, Measure::TurnoverTravel);
        let film = Arena::new(1).film(setup, SEED, nth as u64);
        let mut caught_s = f32::NEG_INFINITY;
        for event in &film.events {
            match event.what {
                What::Catch { .. } => caught_s = event.time_s,
                What::Turnover { kind: TurnoverKind::Travel, .. } => {
                    assert!(event.time_s - caught_s > 0.2, "{} s after the catch", event.time_s - caught_s);
                }
                _ => {}
            }
        }
    }
    let rate = travels as f64 / catches as f64;
    println!("{travels} of {catches} catches: {rate:.4}");
    assert!((rate / f64::from(RATE) - 1.0).abs() < 0.2, "{travels} of {catches}");
}

/// Windows in which an attacker outside never had the ball while it changed hands twice, and those in which he stood.
fn stood(setup: &Setup, film: &Film, player: usize) -> (usize, usize) {
    let piece = (PIECE_S / setup.step_s + 0.5) as usize;
    let pieces = (WINDOW_S / PIECE_S) as usize;
    let (mut windows, mut stood) = (0, 0);
    for window in film.frames.windows(piece * pieces + 1).step_by(piece) {
        let mut holders: Vec<_> = window.iter().filter_map(|frame| frame.holder).collect();
        holders.dedup();
        let own = holders.iter().any(|holder| usize::from(*holder) == player);
        if own || holders.len() < 3 || window[0].players[player].len() < OUTSIDE_M {
            continue;
        }
        let places: Vec<Vec2> = window.iter().step_by(piece).map(|frame| frame.players[player]).collect();
        let way: f32 = places.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
        windows += 1;
        stood += usize::from(way < STANDS_M);
    }
    (windows, stood)
}

#[test]
fn hardly_anybody_outside_stands_while_the_ball_goes_round() {
    let (mut windows, mut standing) = (0, 0);
    for (setup, film) in FILMS.iter() {
        for player in 0..5 {
            let (all, still) = stood(setup, film, player);
            (windows, standing) = (windows + all, standing + still);
        }
    }
    println!("{standing} of {windows} windows");
    assert!(windows > 1000, "{windows}");
    assert!((standing as f64) < 0.01 * windows as f64, "{standing} of {windows}");
}

#[test]
fn nobody_keeps_the_ball_for_ever() {
    let mut holds = Vec::new();
    for (setup, film) in FILMS.iter() {
        for held in film.frames.chunk_by(|a, b| a.holder == b.holder).filter(|held| held[0].holder.is_some())
        {
            holds.push(held.len() as f32 * setup.step_s);
        }
    }
    holds.sort_by(f32::total_cmp);
    let (most, longest) = (holds[holds.len() * 99 / 100], holds[holds.len() - 1]);
    println!("99 in 100 holds under {most} s, the longest {longest} s");
    assert!(holds.len() > 1000 && most < 4.0 && longest < 6.0, "{most} s, {longest} s");
}

#[test]
fn a_hurried_three_in_a_defenders_face_is_rare() {
    const FACE_M: f32 = 0.9;
    const TIME_LEFT_S: f32 = 15.0;
    let (mut threes, mut hurried) = (0, 0);
    for (setup, film) in FILMS.iter() {
        let officials = &setup.officials;
        let clock = officials.shot_clock_s.expect("a shot clock") - officials.clock_used_s;
        // After a rebound the clock is another one.
        let first = film.events.iter().take_while(|event| !matches!(event.what, What::Rebound { .. }));
        for event in first.filter(|event| clock - event.time_s > TIME_LEFT_S) {
            if let What::Shot { space_m, three: true, .. } = event.what {
                threes += 1;
                hurried += usize::from(space_m < FACE_M);
            }
        }
    }
    println!("{hurried} of {threes} early threes");
    assert!(threes >= 80 && 100 * hurried < 7 * threes, "{hurried} of {threes}");
}

#[test]
fn three_seconds_are_called_on_who_stays_and_not_on_who_leaves() {
    // A shorter count is called often enough to be seen. (a choice)
    const COUNT_S: f32 = 1.2;
    // The engine's bar, and what a shove may add to a speed between two frames. (a choice)
    const LEAVES_M_S: f32 = engine::law::officiating::LEAVES_LANE_FROM_M_S;
    const SHOVED_M_S: f32 = 0.1;
    let called: Vec<f32> = PAIRS
        .par_iter()
        .flat_map_iter(|setup| {
            let short = changed(setup, |setup| setup.officials.three_seconds_s = COUNT_S);
            let mut arena = Arena::new(1);
            (0..EACH).filter_map(move |possession| {
                let film = arena.film(&short, SEED, possession);
                let call = film.events.iter().find_map(|event| match event.what {
                    What::Turnover { kind: TurnoverKind::ThreeSeconds, by } => {
                        Some((event.time_s, by.index()))
                    }
                    _ => None,
                });
                let (time_s, by) = call?;
                let before: Vec<Vec2> = film
                    .frames
                    .iter()
                    .take_while(|frame| frame.time_s < time_s - 0.5 * short.step_s)
                    .map(|frame| frame.players[by])
                    .collect();
                let [.., from, to] = before[..] else { panic!("called at once") };
                let out = short.court.lane_half_m - to.x.abs();
                let up = short.court.free_throw_y_m - to.y;
                assert!(out >= 0.0 && up >= 0.0, "called at {to:?}");
                let (dx, dy) = ((to.x.abs() - from.x.abs()) / short.step_s, (to.y - from.y) / short.step_s);
                Some(if up < out { dy } else { dx })
            })
        })
        .collect();
    let fastest = called.iter().copied().fold(f32::NEG_INFINITY, engine::math::max);
    println!("{} calls, on nobody faster on his way out than {fastest} m/s", called.len());
    assert!(called.len() > 10 && fastest < LEAVES_M_S + SHOVED_M_S, "{} calls, {fastest} m/s", called.len());
}
