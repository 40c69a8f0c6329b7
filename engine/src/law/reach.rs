//! How far a hand gets, and what stops it: one law for the ball's stage and for what players believe.

use crate::math::{Vec2, exp, logistic, max, min};

/// Width of a body and its hanging arms that a ball cannot pass, m from the centre. (assumed)
pub const PASSIVE_M: f32 = 0.33;
/// A lunge carries the hand on at this share of the arm's own speed. (assumed)
const LUNGE_SHARE: f32 = 0.5;
/// Height above which a ball is played over the bodies' heads rather than round them, m. (assumed)
pub const OVER_HEADS_M: f32 = 2.0;
/// Height up to which a hand that has not moved yet stops a ball, m. (assumed)
pub const PASSIVE_HEIGHT_M: f32 = 1.6;

/// Horizontal reach of a hand that has been going out for `out_s`, m: the arm first, then the lunge.
#[inline]
pub fn hand_reach_m(out_s: f32, hand_m_s: f32, arm_m: f32, lunge_m: f32) -> f32 {
    let out = max(out_s, 0.0) * hand_m_s;
    let stretched = min(PASSIVE_M + out, max(arm_m, PASSIVE_M));
    let lunging = max(out - max(arm_m - PASSIVE_M, 0.0), 0.0) * LUNGE_SHARE;
    min(stretched + lunging, max(lunge_m, stretched))
}

/// Time constant with which a hand that has time to spare at the ball becomes sure of touching it, s: the hand has to be
/// where the ball is, not only as far out. (fitted to the turnovers and the bad passes of high school, .18 to .25 and .08
/// to .11 a possession: play-by-play of 2015, senior men, under-19 and under-16; plausible .03 to .15, and at its end)
const SURE_WITHIN_S: f32 = 0.15;
/// Time to spare at which a hand touches every other ball, s. (derived from the time constant of the touch)
pub const EVEN_CHANCE_S: f32 = SURE_WITHIN_S * std::f32::consts::LN_2;

/// Chance that a hand touches the ball which has so much time to spare there.
#[inline]
pub fn touches(spare_s: f32) -> f32 {
    1.0 - exp(-max(spare_s, 0.0) / SURE_WITHIN_S)
}

/// A body in the way of a hand stops it with this share of its radius: an elbow bends round the rest. (assumed)
const SOLID_SHARE: f32 = 0.85;
/// A receiver holds off who is in touch with him with his body and his arms, to either side by this many of his radii.
/// (assumed: .41 m of a man of .23 m)
const RECEIVER_SHARE: f32 = 1.78;
/// A defender this near to a receiver, centre to centre, is in touch with him, in radii of the receiver's torso. (assumed:
/// two torsos and a hand's breadth, .7 m)
const TOUCHES_WITHIN_RADII: f32 = 3.0;

/// A ball within this distance of a body has arrived at it, m. (assumed)
const ARRIVED_M: f32 = 0.05;

/// Below this height a body stands in a hand's way, m: a receiver's as high as he reaches for the ball.
#[inline]
pub fn body_height_m(receiver: bool, standing_reach_m: f32) -> f32 {
    if receiver { standing_reach_m } else { OVER_HEADS_M }
}

/// By how much a hand that goes from `at` to a ball at `ball` passes a body at `body`, m: below 0 the body keeps it off;
/// infinite where the body is not between.
#[inline]
pub fn passes_body_m(body: Vec2, radius_m: f32, receiver: bool, at: Vec2, ball: Vec2) -> f32 {
    let (way, to_body) = (ball - at, body - at);
    let far = max(way.len(), ARRIVED_M);
    let along = to_body.dot(way) / far;
    // A body beyond the ball is not between; one at whom the ball has arrived is.
    if along <= 0.0 || along > far + ARRIVED_M {
        return f32::INFINITY;
    }
    let beside = to_body.cross(way) / far;
    let holds_off = receiver && to_body.len() < TOUCHES_WITHIN_RADII * radius_m;
    let solid = radius_m * if holds_off { RECEIVER_SHARE } else { SOLID_SHARE };
    max(beside, -beside) - solid
}

/// How long a hand needs to get so far, s: the arm first, then the lunge.
#[inline]
pub fn hand_needs_s(off_m: f32, hand_m_s: f32, arm_m: f32) -> f32 {
    let arm = min(off_m, max(arm_m, PASSIVE_M)) - PASSIVE_M;
    let lunge = max(off_m - max(arm_m, PASSIVE_M), 0.0) / LUNGE_SHARE;
    (max(arm, 0.0) + lunge) / hand_m_s
}

/// Share of its height that a jump for the ball gains each second, 1/s: the whole after half a second. (assumed)
const JUMP_PER_S: f32 = 2.0;
/// Share of his standing jump that a hand gains which goes for a pass: he goes up without a run or a gather. (assumed)
const JUMP_SHARE: f32 = 0.8;
/// A hand stretched out sideways is lower by this much for each metre that it is off the body's centre, m/m. (assumed)
const LOWER_PER_M: f32 = 0.45;

/// Width of the doubt in who gets higher to a ball that comes down between two jumpers, m. (assumed: a tenth of a
/// second early or late in a jump)
const JUMP_DOUBT_M: f32 = 0.15;
/// A defender within this distance of where a lob comes down goes up with the receiver, m. (assumed)
pub const GOES_UP_M: f32 = 0.95;

/// Chance that a jumping defender's hand gets to a lob as it is caught: `hand_m` his highest, `ball_m` the ball's.
#[inline]
pub fn gets_up(hand_m: f32, ball_m: f32) -> f32 {
    logistic((hand_m - ball_m) / JUMP_DOUBT_M)
}

/// Height that the hand reaches `off_m` to the side after `out_s`, m. Stretched out sideways it is lower; a
/// jump takes time.
#[inline]
pub fn hand_height_m(out_s: f32, off_m: f32, standing_reach_m: f32, jump_m: f32) -> f32 {
    if out_s <= 0.0 {
        return PASSIVE_HEIGHT_M;
    }
    standing_reach_m + jump_m * JUMP_SHARE * min(out_s * JUMP_PER_S, 1.0) - LOWER_PER_M * off_m
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hand_goes_out_with_the_arm_then_slower_with_the_lunge_and_no_farther() {
        let reach = |out_s| hand_reach_m(out_s, 4.0, 0.73, 1.23);
        assert_eq!([reach(-1.0), reach(0.0)], [PASSIVE_M; 2]);
        let speed = |from: f32| (reach(from + 0.04) - reach(from)) / 0.04;
        assert!((speed(0.05) - 4.0).abs() < 0.01, "the arm: {}", speed(0.05));
        assert!((speed(0.2) - 4.0 * LUNGE_SHARE).abs() < 0.01, "the lunge: {}", speed(0.2));
        assert!((reach(9.0) - 1.23).abs() < 1e-6);
    }

    #[test]
    fn a_hand_is_low_until_it_moves_then_rises_with_the_jump_and_sinks_sideways() {
        let height = |out_s, off_m| hand_height_m(out_s, off_m, 2.4, 0.5);
        assert_eq!(height(0.0, 0.0), PASSIVE_HEIGHT_M);
        assert!(height(0.1, 0.0) < height(0.4, 0.0));
        assert!((height(0.5, 0.0) - (2.4 + 0.5 * JUMP_SHARE)).abs() < 1e-6);
        assert_eq!(height(0.5, 0.0), height(2.0, 0.0));
        assert!((height(1.0, 0.0) - height(1.0, 1.0) - LOWER_PER_M).abs() < 1e-6);
    }
}
