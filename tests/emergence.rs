//! Promise: a screen and a seal are worth something because bodies are in the way, and for no other reason.
//!
//! Fixed scenes: both effects vanish at body radius 0 and grow with strength, each by three standard errors over two
//! looks (`tests/looks.rs`). Has caught: scenes that a foul had ended were counted as endless delays.

use engine::Arena;
use engine::arrange::{PassEnd, Scene};
use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, PassKind, PostStance, Setup, SideChoice};
use engine::slots::Slot;
use rayon::prelude::*;
use std::sync::Arc;

use crate::looks::{Demand, Z_3_ERRORS, demand};
use crate::trade::estimate::{Series, combination, difference};

const CORNER: Vec2 = vec2(6.4, -0.2);
const ROVER: Slot = Slot::of(2);
const NEAR_POST: Slot = Slot::of(3);
const FAR_POST: Slot = Slot::of(4);
const NEAR_BACK: Slot = Slot::of(8);

/// The bundled matchup with the rover on the right, no whistle, and these bodies.
pub fn setup(radius_m: f32, strength: f32) -> Setup {
    let bundled = scenarios::bundled_question().expect("the bundled question loads");
    let mut setup = (*bundled.variants[0].setup).clone();
    setup.attack.side = SideChoice::Right;
    setup.officials.whistle_m_s = 1e3;
    setup.attackers.body.radius_m = radius_m;
    setup.defenders.body.radius_m = radius_m;
    setup.attackers.body.strength = strength;
    // The helper wants to get round the post to the ball, not behind him, and goes for his anchor: with the place that a
    // zone's file gives who plays a post on the block he would come from another side.
    setup.zone.post_stance = [PostStance::ThreeQuarter; BallPlace::COUNT];
    setup.zone.on_post = None;
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

/// That of bodies of this size, blinkered, without a screener and with one.
fn closeouts(radius_m: f32, strength: f32, count: u64) -> [Series; 2] {
    [false, true].map(|screened| {
        let mut setup = setup(radius_m, strength);
        blinkered(&mut setup);
        closeouts_s(setup, screened, count).into_iter().map(|s| (f64::from(s), 1.0)).collect()
    })
}

/// Ends of what the second has more of.
fn gain([without, with]: &[Series; 2]) -> (f64, f64) {
    difference(without, with).interval(Z_3_ERRORS)
}

/// Ends of by how much the second pair's gain is larger than the first's.
fn growth([a, b]: &[Series; 2], [c, d]: &[Series; 2]) -> (f64, f64) {
    combination(&[(1.0, d), (-1.0, c), (-1.0, b), (1.0, a)]).interval(Z_3_ERRORS)
}

#[test]
fn a_blind_screen_delays_the_closeout_by_bodies_alone() {
    demand(200, |count| {
        vec![
            Demand::at_least("delay, s", gain(&closeouts(0.23, 1.0, count)), 0.15),
            Demand::within("delay at radius 0, s", gain(&closeouts(0.0, 1.0, count)), 0.01),
        ]
    });
}

#[test]
fn a_stronger_screener_delays_more() {
    demand(200, |count| {
        let delays = [0.3, 1.0, 2.5].map(|strength| closeouts(0.23, strength, count));
        delays.windows(2).map(|pair| Demand::at_least("longer, s", growth(&pair[0], &pair[1]), 0.0)).collect()
    });
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

/// That without a seal and with one.
fn entries(radius_m: f32, strength: f32, count: u64) -> [Series; 2] {
    [false, true].map(|sealed| {
        let caught = entries_caught(setup(radius_m, strength), sealed, count);
        caught.into_iter().map(|caught| (f64::from(u8::from(caught)), 1.0)).collect()
    })
}

#[test]
fn a_seal_completes_entries_by_bodies_alone() {
    demand(1000, |count| {
        vec![
            Demand::at_least("more entries", gain(&entries(0.23, 1.0, count)), 0.15),
            Demand::within("more entries at radius 0", gain(&entries(0.0, 1.0, count)), 0.01),
        ]
    });
}

#[test]
fn a_stronger_seal_saves_more_of_the_entries() {
    // Strength is the team's: it helps the receiver hold his own place as well, the more the greater it is. So: of the
    // entries that are stopped without a seal, how many does it save? From 1.2 on nearly none more.
    demand(3000, |count| {
        let saved = [0.3, 0.55, 1.2].map(|strength| saved(&entries(0.23, strength, count)));
        saved
            .windows(2)
            .map(|pair| {
                Demand::at_least("more saved", difference(&pair[0], &pair[1]).interval(Z_3_ERRORS), 0.0)
            })
            .collect()
    });
}

/// What a seal saves, over what is stopped without one.
fn saved([without, with]: &[Series; 2]) -> Series {
    without.iter().zip(with).map(|(without, with)| (with.0 - without.0, 1.0 - without.0)).collect()
}
