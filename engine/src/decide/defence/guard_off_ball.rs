//! Where to stand against an attacker without the ball: in the post by the zone's stance for the ball's place, in touch;
//! outside, sagging toward the rim and by the zone's denial into the passing lane.

use super::Defender;
use crate::law::conduct::post_defence::{
    FULL_DENIAL_M, LEAST_SAG_M, MOST_SAG_M, POST_TOUCH_ROOM_M, POST_WITHIN_M, SAGS_BEYOND_M,
    THREE_QUARTER_BALL, THREE_QUARTER_RIM,
};
use crate::law::floor::way_to_rim;
use crate::math::{Vec2, max, min, vec2};
use crate::setup::PostStance;
use crate::state::Duty;

/// Where to stand against an attacker at `at`.
pub fn point(d: &Defender<'_>, duty: &Duty, at: Vec2) -> Vec2 {
    let to_ball = (d.view.ball_at() - at).unit_or(vec2(0.0, 1.0));
    let to_rim = way_to_rim(at);
    if at.len() < POST_WITHIN_M {
        let touch = d.view.given.player(d.view.me.slot).body.radius_m * 2.0 + POST_TOUCH_ROOM_M;
        return match d.zone.post_stance[usize::from(duty.place)] {
            PostStance::Behind => at + to_rim * touch,
            PostStance::ThreeQuarter => {
                at + (to_ball * THREE_QUARTER_BALL + to_rim * THREE_QUARTER_RIM).unit_or(to_rim) * touch
            }
            PostStance::Front => at + to_ball * touch,
        };
    }
    let sag = at + to_rim * min(MOST_SAG_M, max(at.len() - SAGS_BEYOND_M, LEAST_SAG_M));
    sag + to_ball * (d.zone.denial * FULL_DENIAL_M)
}
