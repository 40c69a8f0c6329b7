//! Stepped sprints and the table of arrival run the published times.

use engine::law::arrival::ArrivalTable;
use serde::Deserialize;

use super::runner::{runner, sprint};
use super::{near, values};

const STEP_S: f32 = 0.05;

#[derive(Deserialize)]
struct File {
    splits: Splits,
    short: Short,
    three_quarter_court: ThreeQuarterCourt,
}

#[derive(Deserialize)]
struct Splits {
    v_max_m_s: f32,
    tau_s: f32,
    within_s: f64,
    times: Vec<Split>,
}

#[derive(Deserialize)]
struct Split {
    m: f64,
    s: f64,
}

#[derive(Deserialize)]
struct Short {
    runner: Vec<Runner>,
}

#[derive(Deserialize)]
struct Runner {
    v_max_m_s: f32,
    tau_s: f32,
    seconds: Vec<f64>,
}

#[derive(Deserialize)]
struct ThreeQuarterCourt {
    m: f64,
    tau_s: f32,
    start_s: f64,
    within_s: f64,
    group: Vec<Group>,
}

#[derive(Deserialize)]
struct Group {
    who: String,
    s: f64,
    v_max_m_s: f32,
}

/// When a sprint from rest crosses a distance, s; straight between two steps.
fn crossing(v_max: f32, tau_s: f32, metres: f64) -> f64 {
    let run: Vec<f64> = sprint(&runner(v_max, tau_s), STEP_S, 10.0).into_iter().map(f64::from).collect();
    let after = run.iter().position(|&at| at >= metres).expect("a run long enough");
    let before = if after == 0 { 0.0 } else { run[after - 1] };
    f64::from(STEP_S) * (after as f64 + (metres - before) / (run[after] - before))
}

#[test]
fn national_team_splits_are_run() {
    let splits = values::<File>("sprint").splits;
    for split in splits.times {
        let got = crossing(splits.v_max_m_s, splits.tau_s, split.m);
        near(got, split.s, splits.within_s, &format!("{} m", split.m));
    }
}

#[test]
fn short_distances_take_the_printed_times() {
    for one in values::<File>("sprint").short.runner {
        let table = ArrivalTable::new(&runner(one.v_max_m_s, one.tau_s));
        for (metres, printed) in (1_u8..).zip(one.seconds) {
            let what = format!("{metres} m at {} m/s", one.v_max_m_s);
            // Printed to 0.01 s; the first metre is bent within a step, and the table interpolates.
            near(crossing(one.v_max_m_s, one.tau_s, f64::from(metres)), printed, 0.008, &what);
            near(table.time(f32::from(metres), 0.0, 0.0), printed, 0.015, &what);
        }
    }
}

#[test]
fn three_quarters_of_the_court_take_the_measured_time() {
    let court = values::<File>("sprint").three_quarter_court;
    for group in court.group {
        let got = crossing(group.v_max_m_s, court.tau_s, court.m) - court.start_s;
        near(got, group.s, court.within_s, &group.who);
    }
}
