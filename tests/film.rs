//! A film is the very possession that the batch counted, and what it shows is on the floor and in order.
//!
//! What it has caught: nothing yet.

use engine::film::{Film, What};
use engine::setup::Setup;
use engine::{Arena, film_possession};
use rayon::prelude::*;

use crate::support::{WIDTH, every_matchup, play, question};

/// How far a body may be pushed over a line, m.
const OVER_THE_LINE_M: f32 = 1.0;

fn check(setup: &Setup, film: &Film) {
    let court = &setup.court;
    for frame in &film.frames {
        let at = frame.time_s;
        for (player, p) in frame.players.iter().enumerate() {
            let inside = p.x.abs() <= court.half_width_m + OVER_THE_LINE_M
                && p.y >= court.baseline_y_m - OVER_THE_LINE_M
                && p.y <= court.midcourt_y_m + OVER_THE_LINE_M;
            assert!(inside, "player {player} is at {p:?} at {at} s");
            let facing = frame.facing[player];
            assert!((facing.len() - 1.0).abs() < 1e-3, "player {player} faces {facing:?} at {at} s");
        }
        let ball = frame.ball;
        assert!(ball.x.is_finite() && ball.y.is_finite(), "the ball is at {ball:?} at {at} s");
        let height = frame.ball_height_m;
        assert!(height.is_finite() && height >= 0.0, "the ball is {height} m high at {at} s");
    }
    for pair in film.frames.windows(2) {
        let passed = pair[1].time_s - pair[0].time_s;
        assert!((passed - setup.step_s).abs() < 1e-4, "a step of {passed} s at {} s", pair[0].time_s);
    }
    // What happens inside a step carries its own time; stages of one step may tell it in their own order.
    let mut latest = f32::NEG_INFINITY;
    for event in &film.events {
        assert!(event.at.x.is_finite() && event.at.y.is_finite(), "{event:?}");
        assert!(event.time_s >= latest - setup.step_s - 1e-4, "{event:?} comes after {latest} s");
        latest = if event.time_s > latest { event.time_s } else { latest };
    }
    let first = film.events.first().map(|event| &event.what);
    assert!(matches!(first, Some(What::Start { .. })), "a film starts with {first:?}");
    let ends = film.events.iter().filter_map(|event| match event.what {
        What::End { outcome, .. } => Some(outcome),
        _ => None,
    });
    assert_eq!(ends.collect::<Vec<_>>(), [film.record.outcome], "one end, the record's");
}

#[test]
fn films_of_every_route_against_every_zone_are_the_possessions_of_the_batch() {
    every_matchup().par_iter().for_each(|(name, setup)| {
        for record in play(&mut Arena::new(WIDTH), setup, 22, 0..12) {
            let film = film_possession(setup, 22, record.possession);
            assert!(film.record == record, "{name}, possession {}", record.possession);
            check(setup, &film);
        }
    });
}

#[test]
fn films_are_the_possessions_of_the_batch() {
    let question = question();
    let variants = question.variants.len() as u64;
    let each = 200_u64.div_ceil(variants);
    question.variants.par_iter().for_each(|variant| {
        let batch = play(&mut Arena::new(WIDTH), &variant.setup, 21, 0..each);
        for record in batch {
            let film = film_possession(&variant.setup, 21, record.possession);
            assert!(film.record == record, "{}, possession {}", variant.name, record.possession);
            check(&variant.setup, &film);
        }
    });
}
