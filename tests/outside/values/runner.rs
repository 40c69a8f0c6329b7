//! A sprint from rest, straight ahead, stepped by the engine's kernel.

use engine::law::kernel::{Gait, GaitParams, Rows, Targets, advance};
use engine::slots::ROW;

/// A runner; what does not matter to a sprint straight ahead is ordinary.
pub fn runner(v_max: f32, tau_s: f32) -> GaitParams {
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
    (0..ROW).for_each(|lane| gait.set(lane, params, dt));
    let targets = Targets { ty: [1000.0; ROW], cap: [20.0; ROW], through: [1.0; ROW], ..Targets::default() };
    let mut rows = Rows { fy: [1.0; ROW], ..Rows::default() };
    let mut step = || {
        advance(dt, 1.0, &gait, &targets, &mut rows);
        rows.py.iter_mut().zip(rows.dy).for_each(|(y, by)| *y += by);
        rows.py[0]
    };
    (0..(seconds / dt).round() as u32).map(|_| step()).collect()
}
