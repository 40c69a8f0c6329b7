//! The words of routes and options do what they say: seen on films, by where players are when a program ends.
//!
//! What it has caught: a dribble at a team-mate that was given up at the next thought.

use engine::film::{Action, Film, What};
use engine::film_possession;
use engine::math::{Vec2, vec2};
use engine::slots::{ROVER, Slot};

use crate::support::matchup;

/// Films of a route and a guard option against the sinking 1-2-2, no post options.
fn films(route: &str, guards: &str, count: u64) -> Vec<Film> {
    let setup = matchup(&[
        ("attack.rover.route", &format!("\"{route}\"")),
        ("attack.posts.options", "{}"),
        ("attack.guards.options", guards),
    ]);
    (0..count).map(|possession| film_possession(&setup, 4, possession)).collect()
}

/// Where a player was at a time.
fn place(film: &Film, player: Slot, time_s: f32) -> Vec2 {
    let frame = film.frames.iter().find(|frame| frame.time_s >= time_s).or(film.frames.last());
    frame.expect("a film has frames").players[usize::from(player)]
}

#[test]
fn guards_drop_to_the_corners_as_the_rover_lifts() {
    // Possessions that last long enough for it: how many have him on top, and a guard in each corner, at some time.
    let (mut long, mut on_top, mut cornered) = (0, 0, [0, 0]);
    for film in films("lift-high", "{}", 240) {
        if film.frames.len() < 200 {
            continue;
        }
        long += 1;
        let seen =
            |player: usize, near: &dyn Fn(Vec2) -> bool| film.frames.iter().any(|f| near(f.players[player]));
        on_top += i32::from(seen(2, &|at| at.distance(vec2(0.0, 7.2)) < 1.2));
        for guard in [0, 1] {
            cornered[guard] +=
                i32::from(seen(guard, &|at| vec2(at.x.abs(), at.y).distance(vec2(6.4, -0.2)) < 1.2));
        }
    }
    println!("of {long}: rover on top {on_top}, guards in a corner {cornered:?}");
    assert!(long >= 30, "{long} possessions of ten seconds");
    assert!(on_top * 2 >= long, "the rover came out on top in {on_top} of {long}");
    assert!(
        cornered.iter().all(|count| count * 2 >= long),
        "guards reached corners in {cornered:?} of {long}"
    );
}

#[test]
fn a_free_rover_chooses_more_than_one_route() {
    let mut chosen = Vec::new();
    for film in films("free-run", "{}", 60) {
        for event in &film.events {
            if let What::ProgramStart { by: ROVER, program, .. } = event.what {
                chosen.push(program);
            }
        }
    }
    let starts = chosen.len();
    chosen.sort_unstable();
    chosen.dedup();
    assert!(chosen.len() >= 4, "{starts} starts, of {chosen:?} only");
}

#[test]
fn a_dribble_at_the_other_guard_gets_somewhere_and_he_makes_way() {
    let (mut dribbles, mut metres, mut curls) = (0, 0.0, 0);
    for film in films("hold-wing", "{ dribble-at-curl = 1.0 }", 240) {
        let mut from: Option<(Slot, f32)> = None;
        for event in &film.events {
            match &event.what {
                What::Decision { by, options, chosen } => {
                    let dribbles_on = matches!(options[*chosen].action, Action::DribbleAt(_));
                    if let (Some((player, since)), false) = (from, dribbles_on) {
                        metres += place(&film, player, since).distance(place(&film, player, event.time_s));
                        from = None;
                    } else if from.is_none() && dribbles_on {
                        dribbles += 1;
                        from = Some((*by, event.time_s));
                    }
                }
                What::ProgramEnd { by, .. } if by.is_guard() => curls += 1,
                _ => {}
            }
        }
    }
    assert!(dribbles >= 20, "{dribbles} dribbles in 240 possessions");
    let mean = metres / dribbles as f32;
    assert!(mean >= 1.5, "{dribbles} dribbles of {mean} m on average");
    assert!(curls >= 10, "the other guard made way {curls} times");
}
