//! Going for a pass in the air: a defender whose hand would be at a point of its way before the ball, within a stride or
//! two of his place.

use super::Defender;
use crate::decide::intent::Intent;
use crate::law::conduct::on_ball_defence::EXPECTED_PASS_M_S;
use crate::law::conduct::zone_shape::{
    GAMBLE_FARTHER_ON_SHARE, GAMBLE_LATEST_SHARE, GAMBLE_SHORTEST_M, GAMBLES_WITHIN_M,
};
use crate::math::{min, to_segment};

/// Goes for a pass in the air where he believes that his hand gets there first.
pub fn go_for_pass(d: &Defender<'_>, intent: &mut Intent<'_>) -> bool {
    let (me, mind, here) = (&d.view.me, d.view.mind, d.view.me.at);
    let body = &d.view.given.player(me.slot).body;
    if body.lunge_reach_m <= 0.0 || mind.owner().is_none() {
        return false;
    }
    let (from, to) = (mind.ball_now(), mind.ball);
    let length = (to - from).len();
    if length < GAMBLE_SHORTEST_M {
        return false;
    }
    let (_, share) = to_segment(here, from, to);
    let share = min(share + GAMBLE_FARTHER_ON_SHARE, GAMBLE_LATEST_SHARE);
    let point = from.toward(to, share);
    let ball_s = share * length / EXPECTED_PASS_M_S;
    let mine = d.view.given.arrival(me.slot).time_to(here, me.velocity, point, me.lunge_m);
    if mine > ball_s || here.distance(point) > GAMBLES_WITHIN_M {
        return false;
    }
    intent.go(point, f32::INFINITY, (from - here).unit_or(mind.gaze));
    intent.run_through();
    true
}
