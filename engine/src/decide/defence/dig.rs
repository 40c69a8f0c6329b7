//! The dig: with the ball in the low post the nearest front defender drops toward it to swipe at it.

use super::{Defender, POST_M, Shift};
use crate::math::{Vec2, vec2};
use crate::setup::Line;

/// A full dig brings him that near to the post, so that his hand is on the ball, m. (assumed)
const SWIPES_FROM_M: f32 = 0.7;

/// Where he digs from, if it is he who digs.
pub fn place(d: &Defender<'_>, shift: &Shift<'_>) -> Option<Vec2> {
    // He starts with the entry pass: by the catch the post is half-way into his move.
    let at = match d.holder() {
        Some((_, at, _)) => at,
        None if d.view.mind.owner().is_some() => d.view.mind.ball,
        None => return None,
    };
    if at.len2() > POST_M * POST_M || d.zone.columns[shift.column].line != Line::Front {
        return None;
    }
    let anchor = shift.anchors[shift.column];
    let mine = (anchor - at).len2();
    let nearer = |c: usize| {
        let free = c != shift.column && c != shift.taker_column && d.zone.columns[c].line == Line::Front;
        free && (shift.anchors[c] - at).len2() < mine
    };
    if (0..5).any(nearer) {
        return None;
    }
    let hand = at + (anchor - at).unit_or(vec2(0.0, 1.0)) * SWIPES_FROM_M;
    Some(anchor.toward(hand, d.zone.dig))
}
