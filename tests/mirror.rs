//! Left is right's mirror image: with everything else the same, a possession that starts on the left is the one
//! that starts on the right with x negated, to the bit, and a coin shows no favour to either.
//!
//! Formation, routes and zone are written as seen from the rover, so `attack.side` is all that has a left and a
//! right; it mirrors the start, not the film: the possession is then played in the court's own coordinates.
//! Zeros of either sign count as equal.
//!
//! What it has caught: nothing yet.

use std::sync::Arc;

use engine::film::Film;
use engine::math::Vec2;
use engine::setup::{Setup, SideChoice};
use engine::{Arena, Measure, film_possession};
use rayon::prelude::*;

use crate::support::{changed, every_matchup, matchup, mean, records, variant};

/// The bundled matchup on the right and on the left, with these overrides.
fn sides(overrides: &[(&str, &str)]) -> [Arc<Setup>; 2] {
    ["\"right\"", "\"left\""].map(|side| {
        let mut all = overrides.to_vec();
        all.push(("attack.side", side));
        matchup(&all)
    })
}

fn same(a: f32, b: f32) -> bool {
    (a + 0.0).to_bits() == (b + 0.0).to_bits()
}

fn mirrored(a: Vec2, b: Vec2) -> bool {
    same(-a.x, b.x) && same(a.y, b.y)
}

/// Where two films first fail to be mirror images.
pub fn first_difference(a: &Film, b: &Film) -> Option<String> {
    for (n, (a, b)) in a.frames.iter().zip(&b.frames).enumerate() {
        for player in 0..10 {
            let (p, q) = (a.players[player], b.players[player]);
            if !mirrored(p, q) || !mirrored(a.facing[player], b.facing[player]) {
                return Some(format!("frame {n}, player {player}: {p:?} against {q:?}"));
            }
        }
        if !mirrored(a.ball, b.ball) || !same(a.ball_height_m, b.ball_height_m) || a.holder != b.holder {
            return Some(format!("frame {n}, ball: {:?} against {:?}", a.ball, b.ball));
        }
        if !same(a.time_s, b.time_s) {
            return Some(format!("frame {n}: {} s against {} s", a.time_s, b.time_s));
        }
    }
    for (n, (a, b)) in a.events.iter().zip(&b.events).enumerate() {
        // Numbers print with all the digits that tell them apart.
        let (what, other) = (format!("{:?}", a.what), format!("{:?}", b.what));
        if what != other || !same(a.time_s, b.time_s) || !mirrored(a.at, b.at) {
            return Some(format!("event {n}: {what} at {} s against {other} at {} s", a.time_s, b.time_s));
        }
    }
    let sizes = |film: &Film| (film.frames.len(), film.events.len(), film.side.to_bits() & (u32::MAX >> 1));
    (sizes(a) != sizes(b)).then(|| "one film is longer than the other".into())
}

/// Films of the possessions `from..to` on either side.
fn check_films(overrides: &[(&str, &str)], range: std::ops::Range<u64>) {
    let [right, left] = sides(overrides);
    let found: Vec<String> = range
        .into_par_iter()
        .map_init(
            || Arena::new(1),
            |arena, possession| {
                let (a, b) = (arena.film(&right, 1, possession), arena.film(&left, 1, possession));
                assert!(a.side > 0.0 && b.side < 0.0);
                first_difference(&a, &b).map(|difference| format!("possession {possession}, {difference}"))
            },
        )
        .flatten()
        .collect();
    assert!(found.is_empty(), "{overrides:?}: {found:?}");
}

/// Records of possessions on either side: all measures but the side itself are equal.
fn check_records(overrides: &[(&str, &str)], count: u64) {
    let [right, left] = sides(overrides).map(|setup| records(&setup, 1, count));
    for (a, b) in right.iter().zip(&left) {
        for &measure in Measure::ALL.iter().filter(|measure| **measure != Measure::RightSide) {
            let (key, possession) = (measure.key(), a.possession);
            assert_eq!(a.value(measure), b.value(measure), "{overrides:?}, possession {possession}: {key}");
        }
        assert_eq!((a.value(Measure::RightSide), b.value(Measure::RightSide)), (1, 0));
    }
}

const SEAM_CROSS: (&str, &str) = ("attack.rover.route", "\"seam-cross\"");
const BASELINE_RUN: (&str, &str) = ("attack.rover.route", "\"baseline-run\"");

#[test]
fn films_that_are_no_mirror_images_are_told_apart() {
    let [right, left] = sides(&[SEAM_CROSS]);
    let films = [film_possession(&right, 1, 0), film_possession(&right, 1, 0), film_possession(&left, 1, 1)];
    assert!(first_difference(&films[0], &films[1]).is_some(), "the same film twice");
    assert!(first_difference(&films[0], &films[2]).is_some(), "films of two possessions");
}

#[test]
fn films_of_two_routes_and_the_other_zone_are_mirror_images_to_the_bit() {
    check_films(&[SEAM_CROSS], 0..2000);
    check_films(&[BASELINE_RUN], 2000..4000);
    // A ball that starts in the very middle has a side too, and it mirrors.
    let middle = ("attack.formation.lead-guard", "[0.0, 6.9]");
    check_films(&[SEAM_CROSS, middle, ("start.ball", "\"lead-guard\"")], 0..500);
    check_films(&[("zone.use", "\"3-2\"")], 0..2000);
}

#[test]
fn films_of_every_route_against_every_zone_are_mirror_images_to_the_bit() {
    let on = |setup: &Arc<Setup>, side| changed(setup, |setup| setup.attack.side = side);
    let found: Vec<String> = every_matchup()
        .into_par_iter()
        .map_init(
            || Arena::new(1),
            |arena, (name, setup)| {
                let (right, left) = (on(&setup, SideChoice::Right), on(&setup, SideChoice::Left));
                (0..16).find_map(|possession| {
                    let (a, b) = (arena.film(&right, 1, possession), arena.film(&left, 1, possession));
                    first_difference(&a, &b).map(|d| format!("{name}, possession {possession}, {d}"))
                })
            },
        )
        .flatten()
        .collect();
    assert!(found.is_empty(), "{found:?}");
}

#[test]
fn records_of_either_side_are_equal_for_every_zone_and_route() {
    check_records(&[("zone.use", "\"3-2\"")], 2000);
    for entry in scenarios::catalog().iter().filter(|entry| entry.kind == "route") {
        check_records(&[("attack.rover.route", &format!("\"{}\"", entry.name))], 200);
    }
    let options = [
        ("attack.posts.options", "{ far-flash = 0.7, seal-helper = 0.5, run-under = 0.6 }"),
        ("attack.guards.options", "{ quick-reversal = 0.6, look-off = 0.8, seam-cut = 0.7 }"),
        ("start.ball", "\"lead-guard\""),
    ];
    check_records(&options, 500);
}

#[test]
fn the_coin_favours_no_side() {
    // One count in 40,000 has a standard deviation of 0.25 %, so 1 % is four of them. A shot clock that is all
    // but gone ends a possession in its first steps; the coin was thrown before.
    let setup = variant("hold-wing");
    let full = setup.officials.shot_clock_s.expect("the bundled question has a shot clock");
    let hasty = changed(&setup, |setup| setup.officials.clock_used_s = full - 0.02);
    let records = records(&hasty, 1, 40_000);
    let right = mean(&records, Measure::RightSide);
    assert!((right - 0.5).abs() <= 0.01, "{right} of 40,000 went right");
    assert!(mean(&records, Measure::SecondsUsed) < 0.2, "the clock was meant to end these at once");
}
