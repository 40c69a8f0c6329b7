//! Denying the reversal: a front defender steps into the lane between the ball and the next guard.

use super::{Defender, PERIMETER_M, Shift};
use crate::math::{Vec2, clamp};
use crate::setup::Line;
use crate::slots::ATTACK;

/// He meets the pass at this share of its way from the guard. (assumed)
const MEETS: f32 = 0.35;
/// The next guard stands nearer to the middle or beyond it by this much, m. (assumed)
const FARTHER_M: f32 = 0.5;
/// From this height on the floor a perimeter player can reverse the ball, m. (assumed)
const HIGH_M: f32 = 3.5;

/// His place, moved into the lane by the stated share, if it is he who denies.
pub fn deny(d: &Defender<'_>, shift: &Shift<'_>, ball_side: f32, target: Vec2) -> Vec2 {
    let Some((holder, at, _)) = d.holder() else { return target };
    if at.len2() < PERIMETER_M * PERIMETER_M || d.zone.columns[shift.column].line != Line::Front {
        return target;
    }
    // The nearest perimeter player on the way to the other side.
    let mut next = (f32::INFINITY, None);
    for other in ATTACK {
        let there = d.view.mind.at(other);
        let onward = (there.x - at.x) * ball_side < -FARTHER_M;
        let outside = there.y > HIGH_M && there.len2() > PERIMETER_M * PERIMETER_M;
        let far = (there - at).len2();
        if other != holder && onward && outside && far < next.0 {
            next = (far, Some((other, there)));
        }
    }
    let Some((guard, there)) = next.1 else { return target };
    let lane = there.toward(at, MEETS);
    let mine = (shift.anchors[shift.column] - lane).len2();
    let nearer = |c: usize| {
        let free = c != shift.column && c != shift.taker_column && d.zone.columns[c].line == Line::Front;
        free && (shift.anchors[c] - lane).len2() < mine
    };
    if (0..5).any(nearer) {
        return target;
    }
    let fresh = clamp(1.0 - d.view.mind.age[guard] / d.memory_s(), 0.0, 1.0);
    target.toward(lane, d.zone.reversal_denial * fresh)
}
