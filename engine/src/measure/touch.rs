//! Paint, post and short-corner touches: controlled ball with the holder's centre in a stated place.

use super::Seen;
use crate::components::{BallState, Tally};
use crate::lanes::NOBODY;
use crate::math::Vec2;
use crate::measures::Measure as M;
use crate::setup::Court;

/// Bit of the lane widened by 0.45 m on each side, up to the free-throw line (a paint touch).
pub const LANE: u8 = 1;
/// Bit of the low post: 1.2 <= |x| <= 2.8, -0.6 <= y <= 2.2.
pub const LOW_POST: u8 = 2;
/// Bit of the high post: |x| <= 2.4, 3.0 <= y <= 5.2.
pub const HIGH_POST: u8 = 4;
/// Bit of the short corner: lane edge + 0.45 < |x| <= 4.5, y <= 0.9.
pub const SHORT_CORNER: u8 = 8;

/// The touch bits of a place.
pub fn touch_class(court: &Court, at: Vec2) -> u8 {
    let x = at.x.abs();
    let wide = court.lane_half_m + 0.45;
    let mut bits = 0;
    if x <= wide && at.y <= court.free_throw_y_m {
        bits |= LANE;
    }
    if (1.2..=2.8).contains(&x) && (-0.6..=2.2).contains(&at.y) {
        bits |= LOW_POST;
    }
    if x <= 2.4 && (3.0..=5.2).contains(&at.y) {
        bits |= HIGH_POST;
    }
    if x > wide && x <= 4.5 && at.y <= 0.9 {
        bits |= SHORT_CORNER;
    }
    bits
}

/// Counts the touches of the step.
pub fn count(seen: &Seen<'_>, tally: &mut Tally) {
    let BallState::Held { by } = seen.ball.state else {
        tally.holder = NOBODY;
        tally.touch = 0;
        return;
    };
    tally.add_real(M::HoldTime, f64::from(seen.given.setup.step_s));
    let now = touch_class(&seen.given.setup.court, seen.bodies.at(usize::from(by)));
    let before = if tally.holder == by { tally.touch } else { 0 };
    let new = now & !before;
    tally.holder = by;
    tally.touch = now;
    tally.add(M::LowPostTouches, i64::from(new & LOW_POST != 0));
    tally.add(M::HighPostTouches, i64::from(new & HIGH_POST != 0));
    tally.add(M::ShortCornerTouches, i64::from(new & SHORT_CORNER != 0));
    if !seen.clocks.first_chance {
        return;
    }
    for (bit, flag) in [
        (LANE, M::PaintTouch),
        (LOW_POST, M::LowPostTouch),
        (HIGH_POST, M::HighPostTouch),
        (SHORT_CORNER, M::ShortCornerTouch),
    ] {
        if now & bit != 0 {
            tally.flag(flag);
        }
    }
    if now & (LOW_POST | HIGH_POST) != 0 {
        tally.flag(M::PostTouch);
    }
}
