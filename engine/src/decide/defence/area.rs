//! Whom a defender looks after: of the attackers without the ball who are nearer to his anchor than to any other defender's
//! off the ball, the one who weighs most by the zone's rule for two in one area.
//!
//! Danger grows toward the rim, falls with the distance from his own anchor, with the age of what he remembers, and for a
//! shooter who is given room.

use super::{Defender, Shift};
use crate::law::conduct::zone_shape::{
    DANGER_FALLS_PER_M2, DANGER_OUTSIDE, LESS_DANGER_PER_M, NEAREST_OFFSET_M, TIGHTENS_WITHIN_M,
};
use crate::math::{Vec2, clamp};
use crate::setup::OverloadRule;
use crate::slots::{ATTACK, Slot};

/// Whom he looks after.
pub struct Man {
    /// The attacker, if there is one.
    pub who: Option<Slot>,
    /// Where he is believed; halfway between the two whom the rule has him between.
    pub at: Vec2,
    /// There are two.
    pub two: bool,
}

/// How near to the rim a place is: 1 under it, 0 where defenders no longer tighten.
pub fn nearness(at: Vec2) -> f32 {
    clamp(1.0 - at.len() / TIGHTENS_WITHIN_M, 0.0, 1.0)
}

/// The attacker of his area who is his to look after.
pub fn man(d: &Defender<'_>, shift: &Shift<'_>) -> Man {
    let mut best = (0.0_f32, None, Vec2::RIM);
    let mut second = (0.0_f32, None, Vec2::RIM);
    for other in ATTACK {
        let at = d.view.mind.at(other);
        if Some(other) == d.view.mind.owner() || !in_area(shift, at) {
            continue;
        }
        let Some(weight) = weight(d, shift, other, at) else { continue };
        if weight > best.0 {
            second = best;
            best = (weight, Some(other), at);
        } else if weight > second.0 {
            second = (weight, Some(other), at);
        }
    }
    if d.zone.overload == OverloadRule::Between && second.1.is_some() {
        return Man { who: best.1, at: (best.2 + second.2) * 0.5, two: true };
    }
    Man { who: best.1, at: best.2, two: false }
}

/// Whether a place is in his area: no other defender off the ball is anchored nearer. Who traps looks after nobody.
fn in_area(shift: &Shift<'_>, at: Vec2) -> bool {
    let trapper = shift.trap.as_ref().map(|on| usize::from(on.trap.trapper));
    let mine = (at - shift.anchor()).len2();
    !(0..shift.anchors.len()).any(|c| {
        c != shift.position
            && c != shift.on_ball_position
            && Some(c) != trapper
            && (at - shift.anchors[c]).len2() < mine
    })
}

/// How much an attacker of his area weighs by the zone's rule; `None` where he is no danger.
fn weight(d: &Defender<'_>, shift: &Shift<'_>, other: Slot, at: Vec2) -> Option<f32> {
    let (fresh, near) = (d.fresh(other), nearness(at));
    let off2 = (at - shift.anchor()).len2();
    let mut danger = fresh * (DANGER_OUTSIDE + near) / (1.0 + DANGER_FALLS_PER_M2 * off2);
    if d.zone.respect > 0.0 {
        danger *= 1.0 - LESS_DANGER_PER_M * d.view.given.slack_m[other] * (1.0 - near);
    }
    (danger > 0.0).then(|| match d.zone.overload {
        OverloadRule::Danger | OverloadRule::Between => danger,
        OverloadRule::NearestRim => fresh / (NEAREST_OFFSET_M + at.len()),
        OverloadRule::NearestBall => fresh / (NEAREST_OFFSET_M + at.distance(d.view.mind.ball_now())),
    })
}
