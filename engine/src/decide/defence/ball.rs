//! Where a defender has the ball: its place in the zone's table and its side, with hysteresis.

use super::{Defender, taker};
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{Bump, Table};
use crate::state::Duty;

/// Half of the dead band in which the ball's side does not change, m.
const SIDE_BAND_M: f32 = 0.25;
/// A place has to be nearer by this much to take over, m.
const PLACE_BAND_M: f32 = 0.5;
/// How far the ball moves for each metre of an anchor, roughly (read off the zone's table).
const BALL_PER_ANCHOR: f32 = 4.0;
/// The one who bumps is that near to the ball before the other leaves it, m. (assumed)
const BUMPS_FROM_M: f32 = 1.6;

/// The ball as he believes it, moved toward a fake that he bites on.
pub fn believed(d: &Defender<'_>) -> Vec2 {
    let mind = d.view.mind;
    if d.view.clock.now >= mind.fooled_until {
        return mind.ball;
    }
    // He plays a ball that is on its way to where the fake pointed. An anchor moves about a quarter as far
    // as the ball does, so this much of the way moves him by the stated distance.
    let way = mind.fooled_to - mind.ball;
    let most = d.view.given.team(d.view.me.slot).head.bite_distance_m * BALL_PER_ANCHOR;
    mind.ball + way.at_most(most)
}

/// Brings the ball's side, place and holder up to date.
pub fn locate(d: &Defender<'_>, ball: Vec2, duty: &mut Duty) {
    if ball.x * duty.ball_side < -SIDE_BAND_M {
        duty.ball_side = -duty.ball_side;
        duty.bumped = false;
    }
    let before = duty.place;
    duty.place = shape::place_of(d.zone, ball, duty.ball_side, before, PLACE_BAND_M);
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

/// The second act of a place.
#[derive(Clone, Copy)]
pub enum Second<'t> {
    /// There is none, or not yet.
    No,
    /// The delay is over: the one who bumps is on his way, the first taker stays until he has come.
    Coming(&'t Bump),
    /// He has come: the ball is his, the other goes back.
    Come(&'t Bump),
}

/// How far the bump of the ball's place has got, as he believes.
pub fn bump<'t>(d: &Defender<'_>, table: &'t Table, duty: &mut Duty) -> Second<'t> {
    let Some(bump) = &table.bumps[usize::from(duty.place)] else { return Second::No };
    if duty.bumped {
        return Second::Come(bump);
    }
    if d.view.clock.now - duty.place_s <= d.zone.bump_delay_s {
        return Second::No;
    }
    let who = taker::slot_of(d, duty, bump.taker);
    let at = d.view.whereabouts(who);
    duty.bumped = (at - d.view.mind.ball).len2() < BUMPS_FROM_M * BUMPS_FROM_M;
    if duty.bumped { Second::Come(bump) } else { Second::Coming(bump) }
}
