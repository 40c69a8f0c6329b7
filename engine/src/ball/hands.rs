//! Whether a defender's hand gets to a ball in flight: out in time, high enough, and round the bodies.

use super::Court;
use crate::components::Flight;
use crate::lanes::ATTACK;
use crate::math::{Vec2, max, min, to_segment};

/// Width of a body and its hanging arms that a ball cannot pass, m beyond the torso. (assumed)
const PASSIVE_M: f32 = 0.10;
/// How far an elbow can bend a hand's way round a body: the share of the torso that really stops it. (assumed)
const SOLID: f32 = 0.85;

/// The part of a flight within the step: where the ball was and is, and when.
#[derive(Clone, Copy, Debug)]
pub struct Leg {
    /// Ball at the start of the leg, m.
    pub from: Vec2,
    /// Ball at its end, m.
    pub to: Vec2,
    /// Time at its start, s.
    pub from_s: f32,
    /// Time at its end, s.
    pub to_s: f32,
    /// Heights at both ends, m.
    pub heights: (f32, f32),
}

/// Where on the leg (share) the hand of `lane` meets the ball, if it does.
pub fn meets(c: &Court<'_>, lane: usize, flight: &Flight, leg: &Leg) -> Option<(f32, Vec2)> {
    let at = c.bodies.at(lane);
    if c.traits.arm[lane] <= 0.0 {
        return None;
    }
    let (off, share) = to_segment(at, leg.from, leg.to);
    if off > c.traits.lunge[lane] {
        return None;
    }
    let time_s = leg.from_s + (leg.to_s - leg.from_s) * share;
    // The hand starts out one reaction after the release, if the pass was in his field of view.
    let saw = c.minds.0[lane].sees_ball;
    let out_s = time_s - flight.start_s - (c.traits.reaction[lane] + 0.05) - if saw { 0.0 } else { 0.3 };
    let body = &c.given.setup.defenders.body;
    let passive = c.traits.radius[lane] + PASSIVE_M;
    let stretched = min(passive + max(out_s, 0.0) * body.hand_m_s, c.traits.lunge[lane]);
    if off > max(passive, stretched) {
        return None;
    }
    let height = leg.heights.0 + (leg.heights.1 - leg.heights.0) * share;
    let jump = if out_s > 0.15 { body.jump_m * min(out_s * 2.0, 1.0) * 0.6 } else { 0.0 };
    // A hand stretched out sideways is lower than one held straight up.
    let high = c.traits.standing_reach[lane] + jump - 0.45 * off;
    if height > if off > passive && out_s <= 0.0 { 1.6 } else { high } {
        return None;
    }
    let ball = leg.from.toward(leg.to, share);
    let blocked = ATTACK.into_iter().any(|a| {
        if a == usize::from(flight.from) && out_s < 0.1 {
            return false;
        }
        let (beside, along) = to_segment(c.bodies.at(a), at, ball);
        along > 0.0 && beside < c.traits.radius[a] * SOLID
    });
    if blocked { None } else { Some((share, ball)) }
}
