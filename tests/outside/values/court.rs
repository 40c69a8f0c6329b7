//! The floor and the clocks of every rule set, as loaded.

use serde_json::{Map, Value, json};

use crate::bundled::{names, setup};

pub fn values() -> Value {
    let of = |rules: String| {
        let setup = setup(&rules, "high-school");
        let (court, officials) = (&setup.court, &setup.officials);
        let figures = json!({
            "lane_half_m": f64::from(court.lane_half_m),
            "free_throw_y_m": f64::from(court.free_throw_y_m),
            "three_radius_m": f64::from(court.three_radius_m),
            "three_corner_x_m": f64::from(court.three_corner_x_m),
            "half_width_m": f64::from(court.half_width_m),
            "baseline_y_m": f64::from(court.baseline_y_m),
            "midcourt_y_m": f64::from(court.midcourt_y_m),
            "straight_end_y_m": f64::from(court.straight_end_y()),
            "shot_clock_s": officials.shot_clock_s.map(f64::from),
            "shot_clock_rebound_s": f64::from(officials.shot_clock_rebound_s),
            "three_seconds_s": f64::from(officials.three_seconds_s),
            "closely_guarded_s": officials.closely_guarded_s.map(f64::from),
            "closely_guarded_m": f64::from(officials.closely_guarded_m),
        });
        (rules, figures)
    };
    Value::Object(names("rules").into_iter().map(of).collect::<Map<_, _>>())
}
