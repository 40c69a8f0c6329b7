//! Holding the shape: where a defender stands who has nothing to do with the ball, and how he gets there.
//!
//! He starts from his anchor and is drawn toward the attacker of his area, the more the nearer that one is to the rim and
//! the more the zone matches up, as far as its carry distance; room for a poor shooter, denial of the reversal and help
//! behind a fronted post move him from there. He walks to that place and stands; a dig or a stunt takes him off it for a
//! moment. Man-to-man his anchor follows his man.

use super::area::Man;
use super::{Defender, Shift, area, dig, guard_off_ball, reversal, rim_help, stunt, trap};
use crate::decide::intent::Intent;
use crate::law::conduct::post_defence::POST_WITHIN_M;
use crate::law::conduct::zone_shape::{
    BRACES_FOR_MAN_WITHIN_M, BRACES_NEAR_PLACE_M, HOLD_PACE_M_S, HOLD_PACE_PER_M, KEEPS_OFF_BALL_M,
    PERIMETER_FROM_M, ROOM_ENDS_M, RUNS_FROM_M, SETS_FEET_FROM_M_S, SETS_FEET_WITHIN_M, SETTLED_PACE_M_S,
    SETTLED_WITHIN_M,
};
use crate::law::floor::way_to_rim;
use crate::math::{Vec2, max, min, vec2};
use crate::setup::PostStance;
use crate::slots::{ATTACK, Slot};
use crate::state::Duty;

/// Holds his place and looks after whoever is in his area.
pub fn shape(d: &Defender<'_>, shift: &Shift<'_>, duty: &mut Duty, intent: &mut Intent<'_>) {
    let man = match d.zone.marks {
        Some(_) => {
            let who = Slot::attacker(d.view.me.slot.in_team());
            Man { who: Some(who), at: d.view.mind.at(who), two: false }
        }
        None => area::man(d, shift),
    };
    duty.man = man.who;
    let place = keep_off_ball(d, place(d, shift, duty, &man) + d.lean());
    if let Some(to) = leaves_it_for(d, shift, duty, place) {
        intent.go(to, f32::INFINITY, d.way_to_ball());
        return;
    }
    stand(d, &man, place, intent);
}

/// Where a dig or a stunt takes him for a moment, as quickly as he can.
fn leaves_it_for(d: &Defender<'_>, shift: &Shift<'_>, duty: &mut Duty, place: Vec2) -> Option<Vec2> {
    if d.zone.dig > 0.0
        && let Some(to) = dig::place(d, shift)
    {
        return Some(to);
    }
    if d.zone.stunt_m > 0.0 { stunt::place(d, shift, duty, place) } else { None }
}

/// Goes to his place at a pace that falls as he nears it, and stands there.
fn stand(d: &Defender<'_>, man: &Man, place: Vec2, intent: &mut Intent<'_>) {
    let here = d.view.me.at;
    if run_at(d) {
        intent.go(here, SETTLED_PACE_M_S, d.way_to_ball());
        intent.brace();
        return;
    }
    let way = place - here;
    let distance = way.len();
    let settled = distance < SETTLED_WITHIN_M;
    let to = if settled { here } else { place };
    let cap = if settled { SETTLED_PACE_M_S } else { HOLD_PACE_M_S + HOLD_PACE_PER_M * distance };
    let ball_way = d.way_to_ball();
    let look = if distance > RUNS_FROM_M { way.unit_or(ball_way) } else { ball_way };
    intent.go(to, cap, look);
    if man.who.is_some() && man.at.len() < BRACES_FOR_MAN_WITHIN_M && distance < BRACES_NEAR_PLACE_M {
        intent.brace();
    }
}

/// Whether an attacker without the ball is about to run into him: then he sets his feet rather than meet him halfway.
fn run_at(d: &Defender<'_>) -> bool {
    let (here, mind) = (d.view.me.at, d.view.mind);
    ATTACK.into_iter().any(|other| {
        let off = here - mind.at(other);
        let far = off.len();
        far < SETS_FEET_WITHIN_M
            && mind.velocity(other).dot(off) > SETS_FEET_FROM_M_S * far
            && Some(other) != mind.holder()
    })
}

/// Where he stands but for digs and stunts, the ball's neighbourhood not yet kept free.
fn place(d: &Defender<'_>, shift: &Shift<'_>, duty: &Duty, man: &Man) -> Vec2 {
    let mut place = by_his_man(d, shift, duty, man);
    if d.zone.reversal_denial > 0.0 {
        place = reversal::deny(d, shift, duty.ball_side, place);
    }
    if d.zone.post_stance[usize::from(duty.place)] == PostStance::Front {
        place = rim_help::shade(d, shift, duty.ball_side, place);
    }
    place
}

/// In a zone, a place moved off a ball that is held outside: two on one spot guard one.
fn keep_off_ball(d: &Defender<'_>, place: Vec2) -> Vec2 {
    match d.holder() {
        Some((_, ball, _)) if ball.len2() > PERIMETER_FROM_M * PERIMETER_FROM_M && d.zone.marks.is_none() => {
            let off = place - ball;
            ball + off.unit_or(way_to_rim(ball)) * max(off.len(), KEEPS_OFF_BALL_M)
        }
        _ => place,
    }
}

/// His anchor, drawn toward the man whom he looks after.
fn by_his_man(d: &Defender<'_>, shift: &Shift<'_>, duty: &Duty, man: &Man) -> Vec2 {
    let anchor = shift.anchor();
    let Some(who) = man.who else { return anchor };
    let at = man.at;
    if let Some(on) = &shift.trap
        && shift.position != usize::from(on.trap.goalie)
    {
        return trap::intercept(d, anchor, at);
    }
    let fresh = d.fresh(who);
    let place = if d.zone.marks.is_some() {
        // His man is his man: in the post by the stance, elsewhere between man, ball and rim.
        if at.len() < POST_WITHIN_M { guard_off_ball::point(d, duty, at) } else { anchor }
    } else {
        let pull = (d.zone.match_up + (1.0 - d.zone.match_up) * area::nearness(at)) * fresh;
        // Between two he plays neither's hip.
        let guard = if man.two { at } else { guard_off_ball::point(d, duty, at) };
        // What he is unsure of he follows less far.
        let unsure = d.view.given.player(d.view.me.slot).head.memory_error_m_s * d.view.mind.age[who];
        anchor + ((guard - anchor) * pull).at_most(max(d.zone.carry_m - unsure, 0.0))
    };
    let slack = d.view.given.slack_m[who];
    if slack != 0.0 && at.len() > POST_WITHIN_M {
        let from_rim = place.len();
        let room = slack * fresh;
        return place.unit_or(vec2(0.0, 1.0)) * max(from_rim - room, min(from_rim, ROOM_ENDS_M));
    }
    place
}
