//! Going for a pass in the air.

use super::Defender;
use crate::decide::ball_at;
use crate::math::{min, to_segment};
use crate::slots::NOBODY;
use crate::state::Wishes;

/// Nobody leaves his place by more than this for a pass, m. (assumed)
const GAMBLE_M: f32 = 2.6;

/// Goes for a pass in the air where he believes that his hand gets there first.
pub fn go_for_pass(d: &Defender<'_>, wishes: &mut Wishes) -> bool {
    let (scene, mind, here) = (d.scene, d.mind, d.here);
    let body = &scene.given.team(d.lane).body;
    if body.lunge_reach_m <= 0.0 || mind.holder == NOBODY {
        return false;
    }
    let (from, to) = (ball_at(mind), mind.ball);
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
    let velocity = scene.bodies.velocity(d.lane);
    let mine = scene.given.arrival(d.lane).time_to(here, velocity, point, scene.traits.lunge[d.lane]);
    // Beyond a stride or two he would leave his place for a gamble.
    if mine > ball_s || here.distance(point) > GAMBLE_M {
        return false;
    }
    wishes.go(d.lane, point, f32::INFINITY, (from - here).unit_or(mind.gaze));
    wishes.wish.through[d.lane] = 1.0;
    true
}
