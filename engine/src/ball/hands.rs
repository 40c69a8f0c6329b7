//! Whether a defender's hand gets to a ball in flight: out in time, high enough, and round the bodies.

use super::Play;
use crate::law::conduct::deciding::HALF_DECISION_S;
use crate::law::deflection::{PASSER_IN_THE_WAY_FROM_S, UNSEEN_LATER_S};
use crate::law::reach::{
    PASSIVE_M, body_height_m, hand_height_m, hand_needs_s, hand_reach_m, passes_body_m, touches,
};
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
    let body = &c.given.player(slot).body;
    let reach = hand_reach_m(out_s, body.hand_m_s, c.traits.arm[slot], c.traits.lunge[slot]);
    if off > reach {
        return None;
    }
    let height = leg.heights.0 + (leg.heights.1 - leg.heights.0) * share;
    if height > hand_height_m(out_s, off, c.traits.standing_reach[slot], body.jump_m) {
        return None;
    }
    let ball = leg.from.toward(leg.to, share);
    // What strikes his body needs no hand; who does not move puts none out.
    let strikes = off <= PASSIVE_M;
    if !strikes && c.given.setup.limits.frozen_zone {
        return None;
    }
    let spare_s = out_s - hand_needs_s(off, body.hand_m_s, c.traits.arm[slot]);
    let gets_there =
        || flight.luck[slot.in_team()] < touches(spare_s) && !blocked(c, flight, out_s, at, (ball, height));
    if strikes || gets_there() { Some((share, ball)) } else { None }
}

/// Whether an attacker's body is in the way of a hand that has been going out from `at` to `ball` for `out_s`.
fn blocked(c: &Play<'_>, flight: &Flight, out_s: f32, at: Vec2, (ball, height_m): (Vec2, f32)) -> bool {
    ATTACK.into_iter().any(|slot| {
        let receiver = slot == flight.to;
        let over = height_m >= body_height_m(receiver, c.traits.standing_reach[slot]);
        if over || slot == flight.from && out_s < PASSER_IN_THE_WAY_FROM_S {
            return false;
        }
        passes_body_m(c.bodies.at(slot), c.traits.radius[slot], receiver, at, ball) < 0.0
    })
}
