//! Guarding the ball: closing out on the holder from afar, and standing between him and the rim.
//!
//! He goes for a point off the holder toward the rim, at a wanted distance: the zone's closeout distance while he comes
//! from afar, its on-ball distance once he is near, more for a poor shooter, less for a good one (respect), in touch with a man inside, close in
//! a trap. A driver is guarded where he will be; a fake that he bites on pulls him off that point.

use super::{Defender, fly_by};
use crate::decide::intent::Intent;
use crate::law::conduct::on_ball_defence::{
    IN_TOUCH_ROOM_M, LEADS_BY_S, LEADS_FROM_M_S, NEVER_NEARER_M, TRAP_ON_BALL_M,
};
use crate::law::conduct::zone_shape::RUNS_FROM_M;
use crate::law::floor::{INSIDE_M, way_to_rim};
use crate::math::{Vec2, max};
use crate::state::Duty;

/// Guards the ball.
pub fn guard(d: &Defender<'_>, duty: &mut Duty, trapped: bool, intent: &mut Intent<'_>) {
    let here = d.view.me.at;
    let (at, velocity) = d.ball_to_guard();
    if d.zone.fly_by > 0.0 && fly_by::run(d, duty, at, intent) {
        return;
    }
    let to_rim = way_to_rim(at);
    // Against a drive he plays the place where the driver will be: what he sees is a reaction old. Who knows the
    // present has nothing to make up for, and would only give ground.
    let late = !d.view.given.setup.limits.all_seeing_zone;
    let lead = if late && velocity.dot(to_rim) > LEADS_FROM_M_S { LEADS_BY_S } else { 0.0 };
    let point = at + velocity * lead + to_rim * wanted_m(d, at, trapped) + d.lean();
    let look = (at - here).unit_or(d.view.mind.gaze);
    let run = (point - here).len() > RUNS_FROM_M;
    let look = if run { (point - here).unit_or(look) } else { look };
    intent.go(point, f32::INFINITY, look);
    intent.moving(velocity);
    if at.len() < INSIDE_M {
        intent.brace();
    }
}

/// How far from a holder at `at` he wants to stand, m.
fn wanted_m(d: &Defender<'_>, at: Vec2, trapped: bool) -> f32 {
    if at.len() < INSIDE_M {
        return d.view.given.player(d.view.me.slot).body.radius_m * 2.0 + IN_TOUCH_ROOM_M;
    }
    if trapped {
        return TRAP_ON_BALL_M;
    }
    let closes_out = d.view.me.at.distance(at) > d.zone.closeout_from_m;
    let stop = if closes_out { d.zone.closeout_stop_m } else { d.zone.on_ball_m };
    match d.view.mind.owner() {
        Some(man) if d.zone.respect > 0.0 => max(stop + d.view.given.slack_m[man], NEVER_NEARER_M),
        _ => stop,
    }
}
