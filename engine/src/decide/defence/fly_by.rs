//! The fly-by: who would come too late to a shooter if he stopped runs past him with a hand up, and is out of
//! the play until he has stopped and turned.
//!
//! He judges his own time to the place where a closeout stops, braking included, against the time at which he
//! expects the release. Nothing happens to the shot but that a body is nearer when it leaves the hands; what it
//! costs is the way back.

use super::Defender;
use crate::decide::intent::Intent;
use crate::law::conduct::on_ball_defence::{
    BRAKING_TAKES_S, EXPECTED_PASS_M_S, EXPECTED_RELEASE_S, FLY_BY_BESIDE_M, FLY_BY_BEYOND_M, FLY_BY_LATE_S,
    FLY_BY_LONGEST_S, FLY_BY_PAST_M, FLY_BY_THERE_M,
};
use crate::law::conduct::zone_shape::PERIMETER_FROM_M;
use crate::math::{Vec2, max, vec2};
use crate::state::Duty;

/// Runs past the shooter, if that is what he has begun or begins now.
pub fn run(d: &Defender<'_>, duty: &mut Duty, at: Vec2, intent: &mut Intent<'_>) -> bool {
    let now = d.view.clock.now;
    if now < duty.fly.0 {
        let way = (duty.fly.1 - d.view.me.at).unit_or(d.view.mind.gaze);
        if (d.view.me.at - at).dot(way) < FLY_BY_PAST_M {
            go(duty.fly.1, way, intent);
            return true;
        }
        // Past him: from here on he has to stop and turn.
        duty.fly.0 = f32::NEG_INFINITY;
        return false;
    }
    if at.len() < PERIMETER_FROM_M || !too_late(d, duty, at) {
        return false;
    }
    let way = (at - d.view.me.at).unit_or(vec2(0.0, 1.0));
    // On the side from which he comes; dead ahead, on the possession's side.
    let turn = (Vec2::RIM - at).cross(d.view.me.at - at);
    let side = if turn > 0.0 || (turn == 0.0 && d.view.side > 0.0) { -1.0 } else { 1.0 };
    let to = at + way.quarter() * (FLY_BY_BESIDE_M * side) + way * FLY_BY_BEYOND_M;
    duty.fly = (now + FLY_BY_LONGEST_S, to);
    go(to, (to - d.view.me.at).unit_or(way), intent);
    true
}

fn go(to: Vec2, way: Vec2, intent: &mut Intent<'_>) {
    intent.go(to, f32::INFINITY, way);
    intent.run_through();
}

/// Whether he would be too late if he stopped, by as much as the zone asks for.
fn too_late(d: &Defender<'_>, duty: &Duty, at: Vec2) -> bool {
    if d.view.mind.owner().is_none() || d.view.me.at.distance(at) < FLY_BY_THERE_M {
        return false;
    }
    let left = if d.view.mind.flies() {
        d.view.ball_at().distance(d.view.mind.ball) / EXPECTED_PASS_M_S + EXPECTED_RELEASE_S
    } else {
        EXPECTED_RELEASE_S - (d.view.clock.now - duty.held.1)
    };
    // The shot is gone, or he is not about to shoot: he closes out as always.
    if left < 0.0 {
        return false;
    }
    let stop = d.zone.closeout_stop_m;
    let runs = d.view.given.arrival(d.view.me.slot).time_to(d.view.me.at, d.view.me.velocity, at, stop);
    let late = runs + BRAKING_TAKES_S - left;
    late > max((1.0 - d.zone.fly_by) * FLY_BY_LATE_S, 0.0) && late < 2.0 * FLY_BY_LATE_S
}
