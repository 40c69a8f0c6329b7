//! Sprints from rest, stepped by the engine's kernel, and the times of its table of arrival.

use engine::motion::arrival::ArrivalTable;
use engine::motion::kernel::{Gait, GaitParams, LANES, Rows, Wish, advance};
use serde_json::{Value, json};

/// Runners by (top speed in m/s, time constant in s): national-team men, then the table of short distances.
const RUNNERS: [(f32, f32); 6] = [(8.48, 1.03), (8.4, 1.1), (7.8, 1.0), (7.0, 1.0), (6.5, 1.0), (6.0, 1.0)];
/// Steps, s.
const STEPS_S: [f32; 4] = [0.0125, 0.025, 0.05, 0.1];
/// Length of a sprint, s.
const SPRINT_S: f32 = 6.5;

/// A runner; what does not matter to a sprint straight ahead is ordinary.
pub fn runner((v_max, tau_s): (f32, f32)) -> GaitParams {
    GaitParams {
        v_max,
        tau_s,
        slide_fraction: 0.6,
        slide_tau_s: 0.4,
        backpedal_fraction: 0.65,
        braking_m_s2: 5.0,
        lateral_m_s2: 4.5,
        turn_rad_s: 6.0,
    }
}

/// Distance from the start after each step of `dt` seconds, m.
pub fn sprint(params: &GaitParams, dt: f32, seconds: f32) -> Vec<f32> {
    let mut gait = Gait::default();
    (0..LANES).for_each(|lane| gait.set(lane, params, dt));
    let wish = Wish { ty: [1000.0; LANES], cap: [20.0; LANES], through: [1.0; LANES], ..Wish::default() };
    let mut rows = Rows { fy: [1.0; LANES], ..Rows::default() };
    let mut step = || {
        advance(dt, 1.0, &gait, &wish, &mut rows);
        rows.py.iter_mut().zip(rows.dy).for_each(|(y, by)| *y += by);
        rows.py[0]
    };
    (0..(seconds / dt).round() as u32).map(|_| step()).collect()
}

pub fn values() -> Value {
    let mut sprints = Vec::new();
    let mut arrivals = Vec::new();
    for runs in RUNNERS {
        let params = runner(runs);
        let (v_max, tau_s) = (f64::from(runs.0), f64::from(runs.1));
        for dt in STEPS_S {
            sprints.push(json!({
                "v_max_m_s": v_max,
                "tau_s": tau_s,
                "step_s": f64::from(dt),
                "metres": crate::exact(sprint(&params, dt, SPRINT_S)),
            }));
        }
        let table = ArrivalTable::new(&params);
        for metres in 1..=15_u8 {
            let seconds = table.time(f32::from(metres), 0.0, 0.0);
            arrivals.push(json!([v_max, tau_s, metres, f64::from(seconds)]));
        }
    }
    json!({ "sprints": sprints, "arrivals": arrivals })
}
