//! Holding the shape: the anchor, drawn toward the attacker of one's area; the dials move it from there.

use super::area::{LOOSE_M, Man};
use super::{
    Defender, PERIMETER_M, POST_M, RUN_M, Shift, area, dig, drive, guard_point, reversal, rim_help, trap,
};
use crate::math::{Vec2, clamp, max, vec2};
use crate::setup::PostStance;
use crate::slots::Slot;
use crate::state::{Duty, Wishes};

/// A set defender does not shuffle after every twitch, m.
const SETTLED_M: f32 = 0.22;
/// Who does not take a ball outside keeps so far from it, m: two on one spot guard one. (assumed)
const APART_M: f32 = 1.7;
/// Room that a poor shooter is given brings nobody nearer to the rim than this, m. (assumed)
const SAGS_TO_M: f32 = 1.5;

/// Holds his place and looks after whoever is in his area.
pub fn shape(d: &Defender<'_>, shift: &Shift<'_>, duty: &mut Duty, wishes: &mut Wishes) {
    let zone = d.zone;
    let man = match zone.marks {
        Some(_) => {
            let who = Slot::attacker(d.view.me.slot.in_team());
            Man { who: Some(who), at: d.view.mind.at(who), two: false }
        }
        None => area::man(d, shift),
    };
    duty.man = man.who;
    let mut target = target(d, shift, duty, &man);
    if zone.reversal_denial > 0.0 {
        target = reversal::deny(d, shift, duty.ball_side, target);
    }
    if zone.post_stance[usize::from(duty.place)] == PostStance::Front {
        target = rim_help::shade(d, shift, duty.ball_side, target);
    }
    if let Some((_, ball, _)) = d.holder()
        && ball.len2() > PERIMETER_M * PERIMETER_M
        && zone.marks.is_none()
    {
        let off = target - ball;
        let inward = (Vec2::RIM - ball).unit_or(vec2(0.0, -1.0));
        target = ball + off.unit_or(inward) * max(off.len(), APART_M);
    }
    if zone.dig > 0.0
        && let Some(place) = dig::place(d, shift)
    {
        return dart(d, place, wishes);
    }
    if zone.stunt_m > 0.0
        && let Some(place) = drive::stunt(d, shift, duty, target)
    {
        return dart(d, place, wishes);
    }
    let way = target - d.view.me.at;
    let distance = way.len();
    let settled = distance < SETTLED_M;
    let to = if settled { d.view.me.at } else { target };
    let cap = if settled { 0.5 } else { 1.0 + 2.6 * distance };
    let ball_way = (d.view.mind.sighted_ball() - d.view.me.at).unit_or(d.view.mind.gaze);
    let look = if distance > RUN_M { way.unit_or(ball_way) } else { ball_way };
    wishes.go(d.view.me.slot, to, cap, look);
    if man.who.is_some() && man.at.len() < 3.0 && distance < 1.0 {
        wishes.brace[d.view.me.slot] = 1.0;
    }
}

/// Goes there as quickly as he can, his eyes on the ball: a swipe at a post, a step at a driver.
fn dart(d: &Defender<'_>, to: Vec2, wishes: &mut Wishes) {
    wishes.go(
        d.view.me.slot,
        to,
        f32::INFINITY,
        (d.view.mind.sighted_ball() - d.view.me.at).unit_or(d.view.mind.gaze),
    );
}

/// Where he stands but for denial, dig and stunt.
fn target(d: &Defender<'_>, shift: &Shift<'_>, duty: &Duty, man: &Man) -> Vec2 {
    let zone = d.zone;
    let anchor = shift.anchors[shift.column];
    let Some(who) = man.who else { return anchor };
    let at = man.at;
    if let Some(on) = &shift.trap
        && shift.column != usize::from(on.trap.goalie)
    {
        return trap::intercept(d, anchor, at);
    }
    let age = d.view.mind.age[who];
    let fresh = clamp(1.0 - age / d.memory_s(), 0.0, 1.0);
    let target = if zone.marks.is_some() {
        // His man is his man: in the post by the stance, elsewhere between man, ball and rim.
        if at.len() < POST_M { guard_point::of(d, duty, at) } else { anchor }
    } else {
        let near = clamp(1.0 - at.len() / LOOSE_M, 0.0, 1.0);
        let pull = (zone.match_up + (1.0 - zone.match_up) * near) * fresh;
        // Between two he plays neither's hip.
        let guard = if man.two { at } else { guard_point::of(d, duty, at) };
        // What he is unsure of he follows less far.
        let unsure = d.view.given.team(d.view.me.slot).head.memory_error_m_s * age;
        anchor + ((guard - anchor) * pull).at_most(max(zone.carry_m - unsure, 0.0))
    };
    let slack = d.view.given.slack_m[who];
    if slack != 0.0 && at.len() > POST_M {
        let from_rim = target.len();
        let room = slack * fresh;
        return target.unit_or(vec2(0.0, 1.0)) * max(from_rim - room, crate::math::min(from_rim, SAGS_TO_M));
    }
    target
}
