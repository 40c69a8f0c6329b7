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

/// Where a pass of this kind starts, as the passer believes the defenders to stand. A lob goes over them. `side` decides for a man who stands exactly in the way, so that the rule mirrors.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;

    /// Hands of a pass from (0, 8) to (0, 1) past one man; the others are far away.
    fn past(kind: PassKind, man: Vec2, side: f32) -> Vec2 {
        let at = |slot| if slot == DEFENCE[0] { man } else { vec2(20.0, 20.0) };
        hands(at, kind, vec2(0.0, 8.0), vec2(0.0, 1.0), side)
    }

    #[test]
    fn every_pass_but_a_lob_goes_round_the_man_in_front_on_his_open_side() {
        for kind in PassKind::ALL {
            let off = |man, side| past(kind, man, side).x;
            let round = if kind == PassKind::Lob { 0.0 } else { ROUND_M };
            for open in [1.0, -1.0] {
                assert_eq!(off(vec2(-0.2 * open, 7.0), 1.0), open * round, "{kind:?}");
            }
            assert_eq!(off(vec2(0.0, 7.0), 1.0), -off(vec2(0.0, 7.0), -1.0), "{kind:?}: squarely in the way");
            assert_eq!(off(vec2(0.0, 7.0), 1.0).abs(), round, "{kind:?}");
        }
    }

    #[test]
    fn who_is_beside_behind_or_far_is_in_nobodys_way() {
        for man in [vec2(0.9, 7.0), vec2(0.0, 9.0), vec2(0.0, 6.0)] {
            assert_eq!(past(PassKind::Overhead, man, 1.0), vec2(0.0, 8.0), "{man:?}");
        }
    }
}
