//! Everybody stays on the floor: nobody gets farther than half a metre beyond a line, who steps on one with the ball has lost
//! it, who is over one comes back, and stepping out with the ball is as rare as in the game.
//!
//! What it has caught: a ball-handler who played on 0.4 m beyond the sideline; receivers who were led over it, and ran on.

use std::sync::Arc;

use engine::arrange::{PassEnd, Playing, Scene};
use engine::film::{Film, What};
use engine::math::{Vec2, max, vec2};
use engine::setup::{Court, PassKind, Setup};
use engine::slots::{ATTACK, DEFENCE};
use engine::{Arena, Measure};
use rayon::prelude::*;

use crate::support::{every_matchup, loaded, question, records, sum, variant};

/// Nobody gets farther than this beyond a line, m: who runs at it brakes before it, and a shove carries him so far.
const OVER_M: f32 = 0.5;
/// A foot stands so far beside the body's centre, m.
const FOOT_M: f32 = 0.2;
/// A shooter jumps less than this before the ball leaves his hands, s.
const IN_THE_AIR_S: f32 = 0.2;
/// Films of each matchup.
const EACH: u64 = 4;
const SEED: u64 = 1;

/// How far beyond a sideline or the baseline a place lies, m; below 0 inside.
fn beyond(court: &Court, at: Vec2) -> f32 {
    max(at.x.abs() - court.half_width_m, court.baseline_y_m - at.y)
}

/// Whoever has the ball with a foot on a line has jumped for a shot.
fn judge_holders(court: &Court, film: &Film, name: &str) {
    for frame in &film.frames {
        let Some(holder) = frame.holder else { continue };
        if beyond(court, frame.players[holder.index()]) <= -FOOT_M {
            continue;
        }
        let shoots = |what: &What| matches!(what, What::Shot { .. } | What::Foul { shooting: true, .. });
        let soon = |time_s: f32| time_s >= frame.time_s && time_s < frame.time_s + IN_THE_AIR_S;
        assert!(
            film.events.iter().any(|event| soon(event.time_s) && shoots(&event.what)),
            "{name}, possession {}, {} s: {holder:?} plays on at {:?}",
            film.record.possession,
            frame.time_s,
            frame.players[holder.index()]
        );
    }
}

#[test]
fn everybody_stays_on_the_floor_and_nobody_plays_on_outside() {
    every_matchup().par_iter().for_each(|(name, setup)| {
        let (court, mut arena) = (&setup.court, Arena::new(1));
        for possession in 0..EACH {
            let film = arena.film(setup, SEED, possession);
            judge_holders(court, &film, name);
            let places = film.frames.iter().flat_map(|frame| frame.players);
            let over = |at: Vec2| max(beyond(court, at), at.y - court.midcourt_y_m);
            let farthest = places.map(over).fold(f32::NEG_INFINITY, max);
            assert!(farthest < OVER_M, "{name}, possession {possession}: {farthest} m off the floor");
        }
    });
}

#[test]
fn the_man_who_played_on_beyond_the_sideline_does_so_no_more() {
    let experiment = loaded(scenarios::experiment("every-route".as_ref()));
    let found = experiment.variants.iter().find(|variant| variant.name == "lift-high");
    let setup = &found.expect("the route").setup;
    let mut arena = Arena::new(1);
    // He did in 15 of the first 1024, by his centre alone.
    for possession in 0..256 {
        judge_holders(&setup.court, &arena.film(setup, SEED, possession), "lift-high");
    }
}

#[test]
fn stepping_out_with_the_ball_is_as_rare_as_in_the_game() {
    // 2.6 % of the turnovers of 1,993 games of senior internationals: under one in a hundred possessions.
    for variant in question().variants {
        let played = records(&variant.setup, SEED, 2048);
        let steps = sum(&played, Measure::TurnoverSteppedOut);
        assert!(steps * 100 < played.len() as i64, "{}: {steps} of {}", variant.name, played.len());
    }
}

/// A setup whose rover starts on the right, and a scene of the off guard with the ball and the lead guard somewhere else.
fn scene(at: Vec2) -> (Arc<Setup>, Scene) {
    let mut setup = (*variant("hold-wing")).clone();
    setup.attack.side = engine::setup::SideChoice::Right;
    let stand = vec![(ATTACK[1], vec2(2.0, 6.0)), (ATTACK[0], at)];
    (Arc::new(setup), Scene { stand, ball: ATTACK[1], ..Scene::default() })
}

fn played(scene: &Scene, setup: &Arc<Setup>, seconds: f32) -> Playing {
    let mut playing = scene.start(Arena::new(1), setup, SEED, 0);
    for _ in 0..(seconds / setup.step_s) as usize {
        playing.step();
    }
    playing
}

#[test]
fn who_catches_with_a_foot_on_the_line_is_out_and_who_stands_inside_is_not() {
    for (x, end) in [(7.3, PassEnd::Caught), (7.5, PassEnd::Lost), (7.8, PassEnd::Lost)] {
        let (setup, mut scene) = scene(vec2(x, 5.0));
        scene.rooted = vec![ATTACK[0]];
        scene.pass = Some((ATTACK[0], PassKind::Chest, 0.3));
        let mut playing = scene.start(Arena::new(1), &setup, SEED, 0);
        while playing.pass_to(ATTACK[0]) == PassEnd::Flying && !playing.over() {
            playing.step();
        }
        assert_eq!(playing.pass_to(ATTACK[0]), end, "x = {x}");
    }
}

#[test]
fn who_holds_the_ball_beyond_a_line_has_lost_it() {
    for (at, over) in [
        (vec2(8.0, 4.0), true),
        (vec2(-8.0, 4.0), true),
        (vec2(3.0, -1.5), true),
        (vec2(7.3, 4.0), false),
        (vec2(3.0, -1.3), false),
    ] {
        let (setup, mut scene) = scene(at);
        scene.ball = ATTACK[0];
        scene.stand = vec![(ATTACK[0], at)];
        assert_eq!(played(&scene, &setup, setup.step_s).over(), over, "{at:?}");
    }
}

#[test]
fn who_is_over_a_line_without_the_ball_comes_back() {
    for at in [vec2(8.6, 4.0), vec2(-8.6, 4.0), vec2(4.0, -2.4)] {
        let (setup, mut scene) = scene(at);
        scene.stand.push((DEFENCE[0], vec2(at.x * 1.05, at.y - 0.8)));
        let playing = played(&scene, &setup, 2.0);
        for who in [ATTACK[0], DEFENCE[0]] {
            let now = playing.at(who);
            assert!(beyond(&setup.court, now) < -FOOT_M, "{who:?} from {at:?} is at {now:?}");
        }
    }
}
