//! Where to stand against an attacker without the ball: the post stances; outside, sagging and a share into the
//! passing lane.

use super::{Defender, POST_M};
use crate::math::{Vec2, max, min, vec2};
use crate::setup::PostStance;
use crate::state::Duty;

/// Where to stand against an attacker at `at`.
pub fn of(d: &Defender<'_>, duty: &Duty, at: Vec2) -> Vec2 {
    let ball = d.view.ball_at();
    let to_ball = (ball - at).unit_or(vec2(0.0, 1.0));
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let touch = d.view.given.setup.defenders.body.radius_m * 2.0 + 0.05;
    if at.len() < POST_M {
        return match d.zone.post_stance[usize::from(duty.place)] {
            PostStance::Behind => at + to_rim * touch,
            PostStance::ThreeQuarter => at + (to_ball * 0.6 + to_rim * 0.4).unit_or(to_rim) * touch,
            PostStance::Front => at + to_ball * touch,
        };
    }
    // Off the rim: sag toward it, and a share into the passing lane.
    let sag = at + to_rim * min(1.4, max(at.len() - 3.0, 0.6));
    sag + to_ball * (d.zone.denial * 1.2)
}
