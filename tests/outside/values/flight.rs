//! Flight times of shots by distance, and of every level's passes by kind and length.

use engine::setup::{PassKind, PassSkill};
use engine::shot_flight_s;
use serde_json::{Value, json};

use crate::bundled::{names, setup};

/// Lengths at which times are printed, m.
fn lengths() -> impl Iterator<Item = f32> {
    (2..=60).map(|quarter| quarter as f32 * 0.25)
}

fn times(pass: &PassSkill, kind: PassKind) -> Vec<[f64; 2]> {
    lengths().map(|m| [f64::from(m), f64::from(pass.flight_s(kind, m))]).collect()
}

/// The longest of the printed lengths at which a pass is thrown, m.
fn reach(pass: &PassSkill, kind: PassKind) -> f64 {
    lengths().filter(|m| pass.flight_within_reach_s(kind, *m).is_some()).map(f64::from).fold(0.0, f64::max)
}

pub fn values() -> Value {
    let mut passes = Vec::new();
    for level in names("level") {
        let setup = setup("us-high-school", &level);
        for kind in PassKind::ALL {
            let pass = &setup.attackers.skill.pass[kind as usize];
            passes.push(json!({
                "level": level,
                "kind": format!("{kind:?}").to_lowercase(),
                "speed_m_s": f64::from(pass.speed_m_s),
                "release_height_m": f64::from(pass.release_height_m),
                "catch_height_m": f64::from(pass.catch_height_m),
                "reach_m": reach(pass, kind),
                "times": times(pass, kind),
            }));
        }
    }
    json!({
        "shot": lengths().map(|m| [f64::from(m), f64::from(shot_flight_s(m))]).collect::<Vec<_>>(),
        "passes": passes,
    })
}
