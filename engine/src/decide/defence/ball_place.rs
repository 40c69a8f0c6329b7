//! Where a defender has the ball: its side and its place in the zone's table, both with hysteresis, who holds it and since
//! when; and how far the bump of that place has got (after a delay another position takes the ball from the one who went
//! first).

use super::{Defender, on_ball_defender};
use crate::law::conduct::on_ball_defence::BUMPED_OFF_WITHIN_M;
use crate::law::conduct::zone_shape::{PLACE_CHANGES_BY_M, SIDE_CHANGES_BEYOND_M};
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{Bump, Table};
use crate::state::Duty;

/// Brings the ball's side, place and holder up to date.
pub fn locate(d: &Defender<'_>, ball: Vec2, duty: &mut Duty) {
    if ball.x * duty.ball_side < -SIDE_CHANGES_BEYOND_M {
        duty.ball_side = -duty.ball_side;
        duty.bumped = false;
    }
    let before = duty.place;
    duty.place = shape::place_of(d.zone, ball, duty.ball_side, before, PLACE_CHANGES_BY_M);
    if duty.place != before {
        duty.place_s = d.view.clock.now;
        duty.bumped = false;
    }
    let held = d.view.mind.holder();
    if held != duty.held.0 {
        duty.held = (held, d.view.clock.now);
        super::burns::count(d, duty);
    }
}

/// How far the bump of a ball place has got.
#[derive(Clone, Copy)]
pub enum BumpStage<'t> {
    /// There is none, or not yet.
    No,
    /// The delay is over: the one who bumps is on his way, the one who went first stays until he has come.
    Coming(&'t Bump),
    /// He has come: the ball is his, the other goes back.
    Done(&'t Bump),
}

impl<'t> BumpStage<'t> {
    /// The bump, once it is done.
    pub fn done(self) -> Option<&'t Bump> {
        match self {
            BumpStage::Done(bump) => Some(bump),
            _ => None,
        }
    }
}

/// How far the bump of the ball's place has got, as he believes.
pub fn bump<'t>(d: &Defender<'_>, table: &'t Table, duty: &mut Duty) -> BumpStage<'t> {
    let Some(bump) = &table.bumps[usize::from(duty.place)] else { return BumpStage::No };
    if duty.bumped {
        return BumpStage::Done(bump);
    }
    if d.view.clock.now - duty.place_s <= d.zone.bump_delay_s {
        return BumpStage::No;
    }
    let who = on_ball_defender::slot_of(d, duty, bump.on_ball);
    let at = d.view.whereabouts(who);
    duty.bumped = (at - d.view.mind.ball).len2() < BUMPED_OFF_WITHIN_M * BUMPED_OFF_WITHIN_M;
    if duty.bumped { BumpStage::Done(bump) } else { BumpStage::Coming(bump) }
}
