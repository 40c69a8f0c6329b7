//! A defender while a shot, a rebound or a loose ball is nobody's: boxes out the nearest attacker, then goes for the ball.

use crate::decide::chase;
use crate::decide::intent::Intent;
use crate::decide::{View, nearest_defender};
use crate::law::conduct::glass::*;
use crate::law::rebound::mean_distance_m;
use crate::math::{Vec2, max, min, vec2};
use crate::slots::ATTACK;
use crate::state::Whose;

/// After the ball, if he is among the nearest to where it comes down; else on his man, or where such a shot comes off.
pub fn decide(view: &View<'_>, intent: &mut Intent<'_>) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if let Some(down) = chase::landing(view.mind)
        && here.distance(down) < CHASE_M
        && chase::rank(view, down) < CHASERS
    {
        intent.go(down, f32::INFINITY, (down - here).unit_or(ball_way));
        return;
    }
    let loose = view.mind.whose == Whose::Loose;
    let from = if loose { view.mind.sighted_ball() } else { view.mind.shot_from };
    let ring_m = mean_distance_m(from.len());
    let to = match man_to_box_out(view) {
        // Against his man, on the rim's side of him; farther in than the ball comes down he lets nobody drive him.
        Some(at) => {
            let out_m = at.len();
            let meets = if out_m > ring_m + MEETS_OUTSIDE_M { ring_m } else { out_m - BOX_OUT_BODY_M };
            at.unit_or(vec2(0.0, 1.0)) * max(meets, min(ring_m, out_m + BOX_OUT_BODY_M))
        }
        // Nobody to box out: to where such a shot comes off, before his own side of the rim.
        None => {
            let way = vec2(here.x, max(here.y, 0.0)).unit_or(vec2(0.0, 1.0));
            way * min(ring_m, here.len())
        }
    };
    let to = view.given.setup.court.inside(to, BOX_OUT_EDGE_M);
    intent.go(to, f32::INFINITY, ball_way);
    intent.brace();
}

/// Where the nearest attacker near the rim is to whom no other defender is nearer.
fn man_to_box_out(view: &View<'_>) -> Option<Vec2> {
    let mut man = (BOX_OUT_MAN_M * BOX_OUT_MAN_M, None);
    for other in ATTACK {
        let at = view.mind.at(other);
        let d2 = (at - view.me.at).len2();
        if d2 < man.0 && at.len() < BOX_OUT_RIM_M && nearest_defender(view.mind, at).0 == view.me.slot {
            man = (d2, Some(at));
        }
    }
    man.1
}
