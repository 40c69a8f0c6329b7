//! Shots and passes fly as long as a ball does, to within a step of the engine where nothing else is marked.

use engine::setup::{PassKind, PassSkill};
use engine::shot_flight_s;
use serde::Deserialize;

use super::bundled::setup;
use super::{near, values};

/// Cosine of 52 degrees, the angle of the printed speeds.
const COS_52: f64 = 0.615_661_475_325_658_3;

#[derive(Deserialize)]
struct File {
    tolerance: Tolerance,
    shots: Shots,
    engine_shot: EngineShot,
    passes: Passes,
}

#[derive(Deserialize)]
struct Tolerance {
    step_s: f64,
    law_s: f64,
}

#[derive(Deserialize)]
struct Shots {
    row: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    what: String,
    m: f32,
    v52: f64,
}

#[derive(Deserialize)]
struct EngineShot {
    shortest_s: f64,
    times: Vec<Time>,
}

#[derive(Deserialize)]
struct Time {
    m: f32,
    free_s: f64,
    drag_s: f64,
    off: bool,
}

#[derive(Deserialize)]
struct Passes {
    cell: Vec<Cell>,
}

#[derive(Deserialize)]
struct Cell {
    m: f32,
    speed: f32,
    drag_s: Option<f64>,
}

#[test]
fn a_shot_flies_as_long_as_a_ball_at_its_angle() {
    let file = values::<File>("flight");
    for time in file.engine_shot.times {
        let (got, what) = (f64::from(shot_flight_s(time.m)), format!("from {} m", time.m));
        near(got, time.free_s, file.tolerance.law_s, &what);
        assert_eq!((time.drag_s - got).abs() > file.tolerance.step_s, time.off, "{what}: {got}, with drag");
    }
    near(shot_flight_s(0.3), file.engine_shot.shortest_s, 1e-6, "at the rim");
    for row in file.shots.row {
        // Its own height of release, where the engine has one for all.
        near(shot_flight_s(row.m), f64::from(row.m) / (row.v52 * COS_52), file.tolerance.step_s, &row.what);
    }
}

#[test]
fn a_pass_flies_as_long_as_a_ball_and_is_not_thrown_where_none_flies() {
    let file = values::<File>("flight");
    let setup = setup("us-high-school", "high-school");
    for kind in [PassKind::Chest, PassKind::Overhead] {
        for cell in &file.passes.cell {
            let pass = PassSkill { speed_m_s: cell.speed, ..setup.attackers.skill.pass[kind as usize] };
            let what = format!("{kind:?}, {} m at {} m/s", cell.m, cell.speed);
            match cell.drag_s {
                Some(drag) => near(pass.flight_s(kind, cell.m), drag, file.tolerance.step_s, &what),
                None => assert!(pass.flight_within_reach_s(kind, cell.m).is_none(), "{what} is thrown"),
            }
        }
    }
}
