//! Three-second sense: how long a man in the lane needs to get out of it, and where to.

use super::View;
use crate::law::conduct::walking::{LANE_CLEAR_M, LANE_MARGIN_S, LANE_OUT_WITHIN_M};
use crate::math::{Vec2, vec2};

/// The nearest way out of the lane: to the side or, from high up, over the free-throw line.
pub fn exit(view: &View<'_>, here: Vec2) -> Vec2 {
    let court = &view.given.setup.court;
    let sign = if here.x < 0.0 || (here.x == 0.0 && view.side < 0.0) { -1.0 } else { 1.0 };
    let side = vec2(sign * (court.lane_half_m + LANE_CLEAR_M), here.y);
    let up = vec2(here.x, court.free_throw_y_m + LANE_CLEAR_M);
    if (up - here).len2() < (side - here).len2() { up } else { side }
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
