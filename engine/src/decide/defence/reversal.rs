//! Denying the reversal: with the ball outside, the front defender nearest to the lane between it and the next perimeter
//! player toward the other side steps into that lane, by the zone's share of the way, less where he saw that player long
//! ago.

use super::{Defender, Shift};
use crate::law::conduct::zone_shape::{
    MEETS_PASS_SHARE, PERIMETER_FROM_M, REVERSAL_FARTHER_M, REVERSAL_FROM_Y_M,
};
use crate::math::Vec2;
use crate::setup::Line;
use crate::slots::{ATTACK, Slot};

/// His place, moved into the lane, if it is he who denies.
pub fn deny(d: &Defender<'_>, shift: &Shift<'_>, ball_side: f32, from: Vec2) -> Vec2 {
    let Some((holder, at, _)) = d.holder() else { return from };
    if at.len2() < PERIMETER_FROM_M * PERIMETER_FROM_M || d.zone.positions[shift.position].line != Line::Front
    {
        return from;
    }
    let Some((guard, there)) = next_outlet(d, ball_side, holder, at) else { return from };
    let lane = there.toward(at, MEETS_PASS_SHARE);
    if shift.nearer(d.zone, Some(Line::Front), lane) > 0 {
        return from;
    }
    from.toward(lane, d.zone.reversal_denial * d.fresh(guard))
}

/// The nearest perimeter player on the way to the other side, and where he is.
fn next_outlet(d: &Defender<'_>, ball_side: f32, holder: Slot, at: Vec2) -> Option<(Slot, Vec2)> {
    let mut next = (f32::INFINITY, None);
    for other in ATTACK {
        let there = d.view.mind.at(other);
        let onward = (there.x - at.x) * ball_side < -REVERSAL_FARTHER_M;
        let outside = there.y > REVERSAL_FROM_Y_M && there.len2() > PERIMETER_FROM_M * PERIMETER_FROM_M;
        let far = (there - at).len2();
        if other != holder && onward && outside && far < next.0 {
            next = (far, Some((other, there)));
        }
    }
    next.1
}
