//! Promise: a screen and a seal are worth something because bodies are in the way, and for no other reason.
//!
//! Fixed scenes: both effects vanish at body radius 0 and grow with strength. Has caught: scenes that a foul
//! had ended were counted as endless delays.

use engine::Arena;
use engine::arrange::{PassEnd, Scene};
use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, PassKind, PostStance, Setup, SideChoice};
use rayon::prelude::*;
use std::sync::Arc;

const CORNER: Vec2 = vec2(6.4, -0.2);
const ROVER: u8 = 2;
const NEAR_POST: u8 = 3;
const FAR_POST: u8 = 4;
const NEAR_BACK: u8 = 8;

/// The bundled matchup with the rover on the right, no whistle, and these bodies.
pub fn setup(radius_m: f32, strength: f32) -> Setup {
    let bundled = scenarios::bundled_question().expect("the bundled question loads");
    let mut setup = (*bundled.variants[0].setup).clone();
    setup.attack.side = SideChoice::Right;
    setup.officials.whistle_m_s = 1e3;
    setup.attackers.body.radius_m = radius_m;
    setup.defenders.body.radius_m = radius_m;
    setup.attackers.body.strength = strength;
    // The helper wants to get round the post to the ball, not behind him.
    setup.zone.post_stance = [PostStance::ThreeQuarter; BallPlace::COUNT];
    setup
}

/// An arena for each worker, handed from scene to scene.
fn kept_arena() -> Option<Arena> {
    Some(Arena::new(1))
}

/// Defenders who see nothing but what they look straight at: a screener is felt, not seen.
pub fn blinkered(setup: &mut Setup) {
    setup.defenders.head.sharp_cos = 0.999_999_9;
    setup.defenders.head.notice_per_s = 0.0;
}

/// Seconds until the near back is within 1.3 m of the catch in the corner, with or without a standing
/// screener whom he has not seen before, by possession.
pub fn closeouts_s(setup: Setup, screened: bool, count: u64) -> Vec<f32> {
    let setup = Arc::new(setup);
    let mut scene = Scene {
        stand: vec![(NEAR_BACK, vec2(2.4, 0.2)), (ROVER, CORNER)],
        rooted: vec![ROVER],
        ball: ROVER,
        ..Scene::default()
    };
    if screened {
        scene.stand.push((NEAR_POST, vec2(3.9, 0.0)));
        scene.rooted.push(NEAR_POST);
    }
    (0..count)
        .into_par_iter()
        .map_init(kept_arena, |kept, possession| {
            let mut playing = scene.start(kept.take().expect("the arena came back"), &setup, 1, possession);
            let mut arrived = None;
            for step in 1..200 {
                playing.step();
                assert!(!playing.over(), "nothing ends the scene");
                if playing.at(NEAR_BACK).distance(CORNER) < 1.3 {
                    arrived = Some(step as f32 * setup.step_s);
                    break;
                }
            }
            *kept = Some(playing.arena());
            arrived.unwrap_or_else(|| panic!("possession {possession}: the back never gets there"))
        })
        .collect()
}

/// The mean of that over bodies of this size, blinkered.
fn closeout_s(radius_m: f32, strength: f32, screened: bool) -> f32 {
    let mut setup = setup(radius_m, strength);
    blinkered(&mut setup);
    let times = closeouts_s(setup, screened, 200);
    times.iter().sum::<f32>() / times.len() as f32
}

fn screen_delay_s(radius_m: f32, strength: f32) -> f32 {
    closeout_s(radius_m, strength, true) - closeout_s(radius_m, strength, false)
}

#[test]
fn a_blind_screen_delays_the_closeout_by_bodies_alone() {
    let delay = screen_delay_s(0.23, 1.0);
    assert!(delay >= 0.15, "delay {delay} s");
    let without = screen_delay_s(0.0, 1.0);
    assert!(without.abs() <= 0.01, "delay {without} s at radius 0");
}

#[test]
fn a_stronger_screener_delays_more() {
    let delays = [0.3, 1.0, 2.5].map(|strength| screen_delay_s(0.23, strength));
    assert!(delays[0] < delays[1] && delays[1] < delays[2], "delays {delays:?} s");
}

/// Whether a bounce entry to the near post is caught while the helper comes from (0.2, 1.3), the other post either
/// between helper and pass or beside the helper, by possession.
pub fn entries_caught(setup: Setup, sealed: bool, count: u64) -> Vec<bool> {
    let setup = Arc::new(setup);
    let sealer = if sealed { vec2(1.15, 1.15) } else { vec2(0.2, 2.4) };
    let scene = Scene {
        stand: vec![
            (NEAR_POST, vec2(2.2, 0.8)),
            (FAR_POST, sealer),
            (NEAR_BACK, vec2(0.2, 1.3)),
            (ROVER, vec2(5.2, 4.2)),
        ],
        rooted: vec![NEAR_POST, FAR_POST],
        ball: ROVER,
        pass: Some((NEAR_POST, PassKind::Bounce, 0.5)),
        ..Scene::default()
    };
    (0..count)
        .into_par_iter()
        .map_init(kept_arena, |kept, possession| {
            let mut playing = scene.start(kept.take().expect("the arena came back"), &setup, 1, possession);
            let mut end = PassEnd::Flying;
            for _ in 0..60 {
                playing.step();
                end = playing.pass_to(NEAR_POST);
                if end != PassEnd::Flying {
                    break;
                }
            }
            *kept = Some(playing.arena());
            end == PassEnd::Caught
        })
        .collect()
}

fn entries(radius_m: f32, strength: f32, sealed: bool) -> f32 {
    mean(&entries_caught(setup(radius_m, strength), sealed, 4000))
}

fn mean(caught: &[bool]) -> f32 {
    caught.iter().filter(|caught| **caught).count() as f32 / caught.len() as f32
}

fn seal_gain(radius_m: f32, strength: f32) -> f32 {
    entries(radius_m, strength, true) - entries(radius_m, strength, false)
}

#[test]
fn a_seal_completes_entries_by_bodies_alone() {
    let gain = seal_gain(0.23, 1.0);
    assert!(gain >= 0.15, "gain {gain}");
    let without = seal_gain(0.0, 1.0);
    assert!(without.abs() <= 0.01, "gain {without} at radius 0");
}

#[test]
fn a_stronger_seal_saves_more_of_the_entries() {
    // Strength is the team's: it helps the receiver hold his own place as well, the more the greater it is. So: of the
    // entries that are stopped without a seal, how many does it save? From 1.2 on nearly none more.
    const COUNT: u64 = 12_000;
    let saved = [0.3, 0.55, 1.2].map(|strength| {
        let caught = |sealed| mean(&entries_caught(setup(0.23, strength), sealed, COUNT));
        let (with, without) = (caught(true), caught(false));
        let variance = |share: f32| share * (1.0 - share) / COUNT as f32;
        let error = (variance(with) + variance(without)).sqrt() / (1.0 - without);
        ((with - without) / (1.0 - without), error)
    });
    println!("saved {saved:?}");
    for pair in saved.windows(2) {
        let error = pair[0].1.hypot(pair[1].1);
        assert!(pair[1].0 - pair[0].0 > 3.0 * error, "saved {saved:?}");
    }
}
