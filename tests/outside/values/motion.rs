//! Sprints from rest, stepped by the engine's kernel, and the times of its table of arrival.

use engine::law::arrival::ArrivalTable;
use serde_json::{Value, json};

use crate::runner::{runner, sprint};

/// Runners by (top speed in m/s, time constant in s): national-team men, then the table of short distances.
const RUNNERS: [(f32, f32); 6] = [(8.48, 1.03), (8.4, 1.1), (7.8, 1.0), (7.0, 1.0), (6.5, 1.0), (6.0, 1.0)];
/// Steps, s.
const STEPS_S: [f32; 4] = [0.0125, 0.025, 0.05, 0.1];
/// Length of a sprint, s.
const SPRINT_S: f32 = 6.5;

pub fn values() -> Value {
    let mut sprints = Vec::new();
    let mut arrivals = Vec::new();
    for runs in RUNNERS {
        let params = runner(runs.0, runs.1);
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
