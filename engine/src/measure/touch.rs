//! Paint, post and short-corner touches: controlled ball with the holder's centre in a stated place.

use super::Seen;
use crate::law::floor::{HIGH_POST, LANE, LOW_POST, SHORT_CORNER, touch_class};
use crate::measures::Measure as M;
use crate::state::{BallState, Tally};

/// Counts the touches of the step.
pub fn count(seen: &Seen<'_>, tally: &mut Tally) {
    let BallState::Held { by } = seen.ball.state else {
        tally.holder = None;
        tally.touch = 0;
        return;
    };
    tally.add_real(M::HoldTime, f64::from(seen.given.setup.step_s));
    let now = touch_class(&seen.given.setup.court, seen.bodies.at(by));
    let before = if tally.holder == Some(by) { tally.touch } else { 0 };
    let new = now & !before;
    tally.holder = Some(by);
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
