//! Going for a pass in the air.

use super::Defender;
use crate::math::{min, to_segment};
use crate::state::Wishes;

/// Nobody leaves his place by more than this for a pass, m. (assumed)
const GAMBLE_M: f32 = 2.6;

/// Goes for a pass in the air where he believes that his hand gets there first.
pub fn go_for_pass(d: &Defender<'_>, wishes: &mut Wishes) -> bool {
    let (me, mind, here) = (&d.view.me, d.view.mind, d.view.me.at);
    let body = &d.view.given.team(me.slot).body;
    if body.lunge_reach_m <= 0.0 || mind.owner().is_none() {
        return false;
    }
    let (from, to) = (mind.ball_now(), mind.ball);
    let way = to - from;
    let length = way.len();
    if length < 1.0 {
        return false;
    }
    let (_, share) = to_segment(here, from, to);
    // A little further on, so that the ball comes to him.
    let share = min(share + 0.1, 0.95);
    let point = from.toward(to, share);
    let ball_s = share * length / 10.0;
    let mine = d.view.given.arrival(me.slot).time_to(here, me.velocity, point, me.lunge_m);
    // Beyond a stride or two he would leave his place for a gamble.
    if mine > ball_s || here.distance(point) > GAMBLE_M {
        return false;
    }
    wishes.go(d.view.me.slot, point, f32::INFINITY, (from - here).unit_or(mind.gaze));
    wishes.wish.through[d.view.me.slot] = 1.0;
    true
}
