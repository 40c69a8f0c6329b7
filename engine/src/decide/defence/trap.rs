//! The trap: with the ball at a called place a second man comes. One of the others stays by the rim (goalie),
//! the two left play the passing lanes (interceptors). It ends when the ball leaves the place.

use super::{Defender, RUN_M, taker};
use crate::math::{Vec2, vec2};
use crate::setup::{Table, Trap};
use crate::slots::Slot;
use crate::state::{Duty, Wishes};

/// How near the two come to the ball, m. (assumed)
pub const ON_BALL_M: f32 = 0.75;
/// The second man closes the side from which he comes: cosine and sine of 65 degrees off the line to the rim.
/// (assumed)
const BESIDE: (f32, f32) = (0.42, 0.91);
/// The pass is thrown that far from the receiver, as a share of its way, when an interceptor means to meet it.
/// (assumed)
const MEETS: f32 = 0.35;
/// How much of the way from his anchor to the lane an interceptor goes, within his carry distance. (assumed)
const LEAVES: f32 = 0.8;

/// A trap that is on.
pub struct On<'t> {
    /// Its roles and row.
    pub trap: &'t Trap,
    /// The second man.
    pub second: Slot,
}

/// The trap that is on, as he believes.
pub fn on<'t>(d: &Defender<'_>, table: &'t Table, duty: &Duty, taker: Slot, ball: Vec2) -> Option<On<'t>> {
    let trap = table.traps[usize::from(duty.place)].as_ref()?;
    if d.view.mind.owner().is_none() {
        return None;
    }
    // A ball that only passes by on the dribble or lies between two places is not trapped.
    let place = d.zone.ball_places[usize::from(duty.place)].sided(duty.ball_side);
    if (ball - place).len2() > 2.2 * 2.2 {
        return None;
    }
    let second = taker::slot_of(d, duty, trap.trapper);
    // Where the trapper has the ball already, the place's own taker is the second man.
    let second = if second == taker {
        taker::slot_of(d, duty, table.takers[usize::from(duty.place)][0])
    } else {
        second
    };
    (second != taker).then_some(On { trap, second })
}

/// Comes as the second man, beside the one on the ball.
pub fn close(d: &Defender<'_>, wishes: &mut Wishes) {
    let (at, velocity) = match d.holder() {
        Some((_, at, velocity)) => (at, velocity),
        None => (d.view.mind.ball, vec2(0.0, 0.0)),
    };
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let turn = to_rim.cross(d.view.me.at - at);
    let side = if turn > 0.0 || (turn == 0.0 && d.view.side > 0.0) { 1.0 } else { -1.0 };
    let point = at + (to_rim * BESIDE.0 + to_rim.quarter() * (BESIDE.1 * side)) * ON_BALL_M;
    let way = point - d.view.me.at;
    let look = if way.len() > RUN_M { way } else { at - d.view.me.at };
    wishes.go(d.view.me.slot, point, f32::INFINITY, look.unit_or(d.view.mind.gaze));
    wishes.moving(d.view.me.slot, velocity);
}

/// Where an interceptor stands whose man is at `man`: in the lane between him and the ball.
pub fn intercept(d: &Defender<'_>, anchor: Vec2, man: Vec2) -> Vec2 {
    let ball = d.view.ball_at();
    anchor + ((man.toward(ball, MEETS) - anchor) * LEAVES).at_most(d.zone.carry_m)
}
