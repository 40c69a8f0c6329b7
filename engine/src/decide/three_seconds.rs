//! Three-second sense: how long a man in the lane needs to get out of it, and where to.

use super::View;
use crate::law::conduct::walking::{LANE_MARGIN_S, LANE_OUT_WITHIN_M};
use crate::law::floor::out_of_lane;
use crate::math::Vec2;

/// The nearest way out of the lane.
pub fn exit(view: &View<'_>, here: Vec2) -> Vec2 {
    out_of_lane(&view.given.setup.court, here, view.side)
}

/// Time left before he must be out and time that he needs, s; `None` for a man outside the lane.
pub fn count(view: &View<'_>) -> Option<(f32, f32)> {
    let here = view.me.at;
    let setup = &view.given.setup;
    if view.me.slot.defends() || !setup.court.in_lane(here) {
        return None;
    }
    let left = setup.officials.three_seconds_s - view.clock.in_lane;
    let out = exit(view, here);
    let needs = view.given.arrival(view.me.slot).time_to(here, view.me.velocity, out, LANE_OUT_WITHIN_M);
    Some((left, needs + LANE_MARGIN_S))
}
