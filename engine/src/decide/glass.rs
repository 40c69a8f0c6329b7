//! A shot in the air, a rebound or a loose ball: who goes where.

use super::{View, nearest_defender};
use crate::law::floor::side_of;
use crate::math::{Vec2, max, min, vec2};
use crate::slots::{ATTACK, DEFENCE};
use crate::state::{Ball, BallState, Belief, Plan, Wishes};

/// Who stays out waits so far above the arc until the ball has come down, m, and goes there at this speed, m/s.
/// (assumed)
const SAFETY_M: f32 = 1.6;
const SAFETY_M_S: f32 = 3.0;

/// How far from a loose ball a player still goes for it, m.
const CHASE_M: f32 = 5.0;

/// Attackers on the glass stand wider by this share of the shot's length, which counts up to so much, m. (common
/// practice, no source: long shots bring long rebounds)
const LONG_SHARE: f32 = 0.1;
const LONG_M: f32 = 8.0;

/// A defender has a man to box out within so far of himself and of the rim, m. (assumed)
const MAN_M: f32 = 4.5;
const BOX_OUT_M: f32 = 7.0;
/// One who is so far outside the place where the ball comes down is waited for there, m. (assumed)
const MEETS_M: f32 = 1.8;

/// Who has nobody to box out waits so far from the rim, a long shot aside, m. (assumed)
const RING_M: f32 = 1.4;

/// Nobody boxes out nearer to a line than this, m.
const EDGE_M: f32 = 0.4;
/// He stands so far from the man he boxes out, centre to centre, m. (assumed)
const BODY_M: f32 = 0.6;

/// Where the ball falls, if he has learned it; while he knows only of the shot, nobody knows.
fn landing(mind: &Belief) -> Option<Vec2> {
    (mind.ball != Vec2::RIM).then_some(mind.ball)
}

/// Rank of a player among his own by distance to a point, as he believes.
fn rank(view: &View<'_>, to: Vec2) -> usize {
    let mine = (view.me.at - to).len2();
    let team = if view.me.slot.attacks() { ATTACK } else { DEFENCE };
    team.into_iter().filter(|mate| *mate != view.me.slot && (view.mind.at(*mate) - to).len2() < mine).count()
}

/// An attacker: to the glass if he was sent, else back on defence; for a loose ball the nearest two.
pub fn attack(view: &View<'_>, ball: &Ball, plan: &Plan, wishes: &mut Wishes) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if view.clock.now < view.mind.jumps_until {
        wishes.go(view.me.slot, here, 0.5, ball_way);
        return;
    }
    if let Some(down) = landing(view.mind) {
        let near = here.distance(down) < CHASE_M && rank(view, down) < 3;
        if near && (plan.crashes || matches!(ball.state, BallState::Loose { .. })) {
            wishes.go(view.me.slot, down, f32::INFINITY, (down - here).unit_or(ball_way));
            return;
        }
    }
    if matches!(ball.state, BallState::Loose { .. }) {
        wishes.go(view.me.slot, plan.home, 3.0, ball_way);
    } else if plan.crashes {
        // Spread over three places about the rim, the far side of the shot first; a long shot comes off long.
        let shot = view.mind.sighted_ball();
        let sign = -side_of(shot, view.side);
        let wide = LONG_SHARE * min(shot.len(), LONG_M);
        let spots = [vec2(sign * (1.2 + wide), 0.8), vec2(0.0, 1.8 + wide), vec2(-sign * (1.2 + wide), 1.0)];
        let mut best = (f32::INFINITY, spots[0]);
        for spot in spots {
            let taken = ATTACK.into_iter().any(|mate| {
                mate != view.me.slot && (view.mind.at(mate) - spot).len2() < (here - spot).len2()
            });
            let cost = here.distance(spot) + if taken { 1.5 } else { 0.0 };
            if cost < best.0 {
                best = (cost, spot);
            }
        }
        wishes.go(view.me.slot, best.1, f32::INFINITY, ball_way);
    } else {
        // Back for the break, but no farther than he can still play from: the ball is nobody's yet.
        let back = vec2(plan.home.x * 0.6, max(here.y, view.given.setup.court.three_radius_m + SAFETY_M));
        wishes.go(view.me.slot, back, SAFETY_M_S, ball_way);
    }
}

/// A defender: boxes out the nearest attacker, then goes for the ball.
pub fn defend(view: &View<'_>, wishes: &mut Wishes) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if let Some(down) = landing(view.mind)
        && here.distance(down) < CHASE_M
        && rank(view, down) < 3
    {
        wishes.go(view.me.slot, down, f32::INFINITY, (down - here).unit_or(ball_way));
        return;
    }
    let mut man = (MAN_M * MAN_M, None);
    for other in ATTACK {
        let at = view.mind.at(other);
        let d2 = (at - here).len2();
        if d2 < man.0 && at.len() < BOX_OUT_M && nearest_defender(view.mind, at).0 == view.me.slot {
            man = (d2, Some(at));
        }
    }
    let ring_m = RING_M + LONG_SHARE * min(view.mind.sighted_ball().len(), LONG_M);
    let to = match man.1 {
        // Against his man, on the rim's side of him; farther in than the ball comes down he lets nobody drive him.
        Some(at) => {
            let out_m = at.len();
            let meets = if out_m > ring_m + MEETS_M { ring_m } else { out_m - BODY_M };
            at.unit_or(vec2(0.0, 1.0)) * max(meets, min(ring_m, out_m + BODY_M))
        }
        // Nobody to box out: to where such a shot comes off, before his own side of the rim.
        None => {
            let way = vec2(here.x, max(here.y, 0.0)).unit_or(vec2(0.0, 1.0));
            way * min(ring_m, here.len())
        }
    };
    let to = view.given.setup.court.inside(to, EDGE_M);
    wishes.go(view.me.slot, to, f32::INFINITY, ball_way);
    wishes.brace[view.me.slot] = 1.0;
}
