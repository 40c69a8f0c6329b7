//! Where the ball leaves a passer's hands: he steps and reaches round the man in front of him.

use crate::math::{Vec2, max};
use crate::setup::PassKind;
use crate::slots::{DEFENCE, Slot};

/// How far to the side a pivot and the arms take the ball, m. (assumed: a step of 0.3 m and half an arm)
const ROUND_M: f32 = 0.6;
/// A defender within this distance is one to pass round, m. (assumed)
const IN_FRONT_M: f32 = 1.8;
/// A defender whose centre is this far beside the straight way is in nobody's way, m. (assumed)
const CLEAR_M: f32 = 0.8;

/// Where a pass of this kind starts, as the passer believes the defenders to stand. A lob rises over the man in front and
/// needs no step round him. `side` decides for a man who stands exactly in the way, so that the rule mirrors.
pub fn hands(defender_at: impl Fn(Slot) -> Vec2, kind: PassKind, from: Vec2, to: Vec2, side: f32) -> Vec2 {
    if kind == PassKind::Lob {
        return from;
    }
    let way = (to - from).unit_or(Vec2::RIM);
    let mut nearest = (IN_FRONT_M * IN_FRONT_M, None);
    for slot in DEFENCE {
        let off = defender_at(slot) - from;
        let beside = way.cross(off);
        if off.dot(way) > 0.0 && max(beside, -beside) < CLEAR_M && off.len2() < nearest.0 {
            nearest = (off.len2(), Some(beside));
        }
    }
    match nearest.1 {
        None => from,
        Some(beside) => {
            let away = if beside == 0.0 {
                side
            } else if beside > 0.0 {
                -1.0
            } else {
                1.0
            };
            from + way.quarter() * (away * ROUND_M)
        }
    }
}
