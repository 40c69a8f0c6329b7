//! Whom a defender looks after: the attackers in his area, and what he does where there are two.

use super::{Defender, Shift};
use crate::math::{Vec2, clamp};
use crate::setup::OverloadRule;
use crate::slots::{ATTACK, Slot};

/// Distance from the rim at which a defender no longer tightens on an attacker, m.
pub const LOOSE_M: f32 = 6.5;
/// A shooter who is given a metre more room than usual is thought this much less dangerous. (assumed)
const LESS_FOR_ROOM: f32 = 0.4;

/// Whom he looks after.
pub struct Man {
    /// The attacker, if there is one.
    pub who: Option<Slot>,
    /// Where he is believed; halfway between the two whom the rule has him between.
    pub at: Vec2,
    /// There are two.
    pub two: bool,
}

/// The attacker of his area who is his to look after.
pub fn man(d: &Defender<'_>, shift: &Shift<'_>) -> Man {
    let mind = d.view.mind;
    let memory = d.memory_s();
    let anchor = shift.anchors[shift.column];
    let trapper = shift.trap.as_ref().map_or(usize::MAX, |on| usize::from(on.trap.trapper));
    let mut best = (0.0_f32, None, Vec2::RIM);
    let mut second = (0.0_f32, None, Vec2::RIM);
    for other in ATTACK {
        if Some(other) == mind.owner() {
            continue;
        }
        let at = mind.at(other);
        let mine = (at - anchor).len2();
        let another = (0..5).any(|c| {
            c != shift.column
                && c != shift.taker_column
                && c != trapper
                && (at - shift.anchors[c]).len2() < mine
        });
        if another {
            continue;
        }
        let fresh = 1.0 - mind.age[other] / memory;
        let near = clamp(1.0 - at.len() / LOOSE_M, 0.0, 1.0);
        // Nearer the rim is worse; in one's own neighbourhood is more one's own.
        let mut danger = fresh * (0.35 + near) / (1.0 + 0.15 * mine);
        if d.zone.respect > 0.0 {
            danger *= 1.0 - LESS_FOR_ROOM * d.view.given.slack_m[other] * (1.0 - near);
        }
        if danger <= 0.0 {
            continue;
        }
        let worth = match d.zone.overload {
            OverloadRule::Danger | OverloadRule::Between => danger,
            OverloadRule::NearestRim => fresh / (0.5 + at.len()),
            OverloadRule::NearestBall => fresh / (0.5 + at.distance(mind.ball_now())),
        };
        if worth > best.0 {
            second = best;
            best = (worth, Some(other), at);
        } else if worth > second.0 {
            second = (worth, Some(other), at);
        }
    }
    if d.zone.overload == OverloadRule::Between && second.1.is_some() {
        return Man { who: best.1, at: (best.2 + second.2) * 0.5, two: true };
    }
    Man { who: best.1, at: best.2, two: false }
}
