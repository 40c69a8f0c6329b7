//! How far somebody gets who starts running at full effort: the mono-exponential sprint of `law::kernel` in one dimension.

use crate::math::exp;
use crate::setup::Body;

/// How far a speed of 1 m/s at the start carries him in a time, s: it dies away with the sprint's time constant.
#[inline]
pub fn glide_s(body: &Body, run_s: f32) -> f32 {
    // Often there is no time to run at all, and an exponential is dear.
    if run_s == 0.0 { 0.0 } else { body.sprint_tau_s * (1.0 - exp(-run_s / body.sprint_tau_s)) }
}

/// How far he runs from rest in a time, m.
#[inline]
pub fn from_rest_m(body: &Body, run_s: f32) -> f32 {
    after_glide_m(body, run_s, glide_s(body, run_s))
}

/// The same where the glide of that time is known.
#[inline]
pub fn after_glide_m(body: &Body, run_s: f32, glide_s: f32) -> f32 {
    body.sprint_m_s * (run_s - glide_s)
}
