//! Whether a defender's hand gets to a ball in flight: out in time, high enough, and round the bodies.

use super::Play;
use crate::law::conduct::deciding::HALF_DECISION_S;
use crate::law::deflection::{PASSER_IN_THE_WAY_FROM_S, SOLID_SHARE, UNSEEN_LATER_S};
use crate::law::reach::{OVER_HEADS_M, hand_height_m, hand_reach_m};
use crate::math::{Vec2, to_segment};
use crate::slots::{ATTACK, Slot};
use crate::state::Flight;

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

/// Where on the leg (share) a defender's hand meets the ball, and that place, if it does.
pub fn meets(c: &Play<'_>, slot: Slot, flight: &Flight, leg: &Leg) -> Option<(f32, Vec2)> {
    let at = c.bodies.at(slot);
    if c.traits.arm[slot] <= 0.0 {
        return None;
    }
    let (off, share) = to_segment(at, leg.from, leg.to);
    if off > c.traits.lunge[slot] {
        return None;
    }
    let time_s = leg.from_s + (leg.to_s - leg.from_s) * share;
    // The hand starts out one reaction after the release, later if the pass was not in his field of view.
    let unseen_s = if c.minds.0[slot].sees_ball { 0.0 } else { UNSEEN_LATER_S };
    let out_s = time_s - flight.start_s - (c.traits.reaction[slot] + HALF_DECISION_S) - unseen_s;
    let body = &c.given.setup.defenders.body;
    let reach = hand_reach_m(out_s, body.hand_m_s, c.traits.arm[slot], c.traits.lunge[slot]);
    if off > reach {
        return None;
    }
    let height = leg.heights.0 + (leg.heights.1 - leg.heights.0) * share;
    if height > hand_height_m(out_s, off, c.traits.standing_reach[slot], body.jump_m) {
        return None;
    }
    let ball = leg.from.toward(leg.to, share);
    let blocked = height < OVER_HEADS_M && blocked(c, flight.from, out_s, at, ball);
    if blocked { None } else { Some((share, ball)) }
}

/// Whether an attacker's body is in the way of a hand that has been going out from `at` to `ball` for `out_s`.
fn blocked(c: &Play<'_>, passer: Slot, out_s: f32, at: Vec2, ball: Vec2) -> bool {
    ATTACK.into_iter().any(|slot| {
        if slot == passer && out_s < PASSER_IN_THE_WAY_FROM_S {
            return false;
        }
        let (beside, along) = to_segment(c.bodies.at(slot), at, ball);
        along > 0.0 && beside < c.traits.radius[slot] * SOLID_SHARE
    })
}
