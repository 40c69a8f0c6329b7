//! The trap: with the ball at a called place a second man comes. One of the others stays by the rim (goalie),
//! the two left play the passing lanes (interceptors). It ends when the ball leaves the place.

use super::{Defender, on_ball_defender};
use crate::decide::intent::Intent;
use crate::law::conduct::on_ball_defence::{
    TRAP_ANGLE_COSINE, TRAP_ANGLE_SINE, TRAP_ON_BALL_M, TRAP_WITHIN_M,
};
use crate::law::conduct::zone_shape::{INTERCEPTOR_LEAVES_SHARE, MEETS_PASS_SHARE, RUNS_FROM_M};
use crate::law::floor::way_to_rim;
use crate::math::Vec2;
use crate::setup::{Table, Trap};
use crate::slots::Slot;
use crate::state::Duty;

/// A trap that is on.
pub struct On<'t> {
    /// Its roles and row.
    pub trap: &'t Trap,
    /// The second man.
    pub second: Slot,
}

/// The trap that is on, as he believes.
pub fn on<'t>(
    d: &Defender<'_>,
    table: &'t Table,
    duty: &Duty,
    on_ball_defender: Slot,
    ball: Vec2,
) -> Option<On<'t>> {
    let trap = table.traps[usize::from(duty.place)].as_ref()?;
    d.view.mind.owner()?;
    // A ball that only passes by on the dribble or lies between two places is not trapped.
    let place = d.zone.ball_places[usize::from(duty.place)].sided(duty.ball_side);
    if (ball - place).len2() > TRAP_WITHIN_M * TRAP_WITHIN_M {
        return None;
    }
    let second = on_ball_defender::slot_of(d, duty, trap.trapper);
    // Where the trapper has the ball already, the place's own on-ball defender is the second man.
    let second = if second == on_ball_defender {
        on_ball_defender::slot_of(d, duty, table.on_ball[usize::from(duty.place)][0])
    } else {
        second
    };
    (second != on_ball_defender).then_some(On { trap, second })
}

/// Comes as the second man, beside the one on the ball.
pub fn close(d: &Defender<'_>, intent: &mut Intent<'_>) {
    let (at, velocity) = d.ball_to_guard();
    let here = d.view.me.at;
    let to_rim = way_to_rim(at);
    let turn = to_rim.cross(here - at);
    let side = if turn > 0.0 || (turn == 0.0 && d.view.side > 0.0) { 1.0 } else { -1.0 };
    let angle = to_rim * TRAP_ANGLE_COSINE + to_rim.quarter() * (TRAP_ANGLE_SINE * side);
    let point = at + angle * TRAP_ON_BALL_M;
    let way = point - here;
    let look = if way.len() > RUNS_FROM_M { way } else { at - here };
    intent.go(point, f32::INFINITY, look.unit_or(d.view.mind.gaze));
    intent.moving(velocity);
}

/// Where an interceptor stands whose man is at `man`: in the lane between him and the ball.
pub fn intercept(d: &Defender<'_>, anchor: Vec2, man: Vec2) -> Vec2 {
    let lane = man.toward(d.view.ball_at(), MEETS_PASS_SHARE);
    anchor + ((lane - anchor) * INTERCEPTOR_LEAVES_SHARE).at_most(d.zone.carry_m)
}
