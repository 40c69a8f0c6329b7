//! The dig: with the ball in the low post the nearest front defender drops toward it to swipe at it, by the zone's share of
//! the way.

use super::{Defender, Shift};
use crate::law::conduct::help::DIGS_FROM_M;
use crate::law::conduct::post_defence::POST_WITHIN_M;
use crate::math::{Vec2, vec2};
use crate::setup::Line;

/// Where he digs from, if it is he who digs.
pub fn place(d: &Defender<'_>, shift: &Shift<'_>) -> Option<Vec2> {
    // He starts with the entry pass: by the catch the post is half-way into his move.
    let at = match d.holder() {
        Some((_, at, _)) => at,
        None if d.view.mind.owner().is_some() => d.view.mind.ball,
        None => return None,
    };
    let front = d.zone.positions[shift.position].line == Line::Front;
    if at.len2() > POST_WITHIN_M * POST_WITHIN_M || !front || shift.nearer(d.zone, Some(Line::Front), at) > 0
    {
        return None;
    }
    let anchor = shift.anchor();
    let hand = at + (anchor - at).unit_or(vec2(0.0, 1.0)) * DIGS_FROM_M;
    Some(anchor.toward(hand, d.zone.dig))
}
