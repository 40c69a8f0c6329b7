//! What a body of a team can do, in the terms of the law of motion.

use super::kernel::GaitParams;
use crate::setup::Body;

/// Movement class of a body with this top speed.
pub fn gait_of(body: &Body, sprint_m_s: f32) -> GaitParams {
    GaitParams {
        v_max: sprint_m_s,
        tau_s: body.sprint_tau_s,
        slide_fraction: body.slide_share,
        slide_tau_s: body.slide_tau_s,
        backpedal_fraction: body.backpedal_share,
        braking_m_s2: body.braking_m_s2,
        lateral_m_s2: body.lateral_m_s2,
        turn_rad_s: body.turn_rad_s,
    }
}
