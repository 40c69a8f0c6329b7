//! A loose ball: whoever gets there first has it.

use super::Play;
use super::control::{How, gain};
use crate::law::ball_height::LOOSE_M;
use crate::law::loose_ball::{LONGEST_S, PICK_UP_M, PICK_UP_S};
use crate::math::Vec2;
use crate::record::TurnoverKind;
use crate::slots::{ALL, Slot};
use crate::state::{BallEvent, BallState, Handling, Signal};

/// The ball falls loose at a place, to be had from `from_s` on; out of bounds it is dead. `last` touched it
/// last, `loser` is the attacker who would answer for its loss.
pub fn fall(c: &mut Play<'_>, at: Vec2, from_s: f32, (last, loser): (Slot, Slot), was_pass: bool) {
    c.hold.handling = Handling::Hold;
    if !c.given.setup.court.in_bounds(at) {
        let retained = !last.attacks();
        c.ball.state = BallState::Dead;
        let now = c.clocks.now;
        c.say(now, at, Signal::OutOfBounds { retained });
        if retained {
            c.clocks.reset_set = true;
        } else {
            c.turnover(TurnoverKind::BadPass, loser);
        }
        return;
    }
    c.ball.state = BallState::Loose { at, from_s, last, loser, was_pass };
    c.events.post(c.clocks.now, BallEvent::Loose { at });
}

/// One step of a loose ball.
pub fn step(c: &mut Play<'_>, at: Vec2, from_s: f32, (last, loser): (Slot, Slot), was_pass: bool) {
    c.bodies.put_ball(at);
    c.ball.height = LOOSE_M;
    let now = c.clocks.now;
    if now < from_s {
        return;
    }
    let mut nearest = (f32::INFINITY, ALL[0]);
    for slot in ALL {
        let reaches = slot.attacks() || c.traits.arm[slot] > 0.0;
        let d = c.bodies.at(slot).distance(at);
        if reaches && d < nearest.0 {
            nearest = (d, slot);
        }
    }
    if nearest.0 > PICK_UP_M && now < from_s + LONGEST_S {
        return;
    }
    let by = nearest.1;
    if by.attacks() {
        gain(c, by, now, PICK_UP_S, How::Pickup);
        return;
    }
    c.say(now, at, Signal::Pickup { by });
    c.ball.state = BallState::Dead;
    let tipped = was_pass && !last.attacks();
    let kind = match (tipped, was_pass) {
        (true, _) => TurnoverKind::Intercepted,
        (false, true) => TurnoverKind::BadPass,
        (false, false) => TurnoverKind::Handling,
    };
    c.turnover(kind, loser);
}
