//! Guarding the ball: between it and the rim at the stated distance, closing out when he comes from afar.

use super::{Defender, RUN_M, fly_by, trap};
use crate::math::{Vec2, max, vec2};
use crate::state::{Duty, Wishes};

/// Within this distance of the rim he stays in touch, m.
const IN_TOUCH_M: f32 = 3.6;
/// From farther away he closes out, m.
const CLOSES_FROM_M: f32 = 2.2;
/// No room that a poor shooter is given makes a guard come nearer than this, m. (assumed)
const NEAREST_M: f32 = 0.6;

/// Guards the ball.
pub fn guard(d: &Defender<'_>, duty: &mut Duty, trapped: bool, wishes: &mut Wishes) {
    let (zone, here, slot) = (d.zone, d.view.me.at, d.view.me.slot);
    let held = d.holder();
    let (at, velocity) = match held {
        Some((_, at, velocity)) => (at, velocity),
        None => (d.view.mind.ball, vec2(0.0, 0.0)),
    };
    if zone.fly_by > 0.0 && fly_by::run(d, duty, at, wishes) {
        return;
    }
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let far = here.distance(at) > CLOSES_FROM_M;
    let touch = d.view.given.setup.defenders.body.radius_m * 2.0 + 0.08;
    let wanted = if at.len() < IN_TOUCH_M {
        touch
    } else if trapped {
        trap::ON_BALL_M
    } else {
        let stop = if far { zone.closeout_stop_m } else { zone.on_ball_m };
        match d.view.mind.owner() {
            Some(man) if zone.respect > 0.0 => max(stop + d.view.given.slack_m[man], NEAREST_M),
            _ => stop,
        }
    };
    // Against a drive he plays the place where the driver will be: what he sees is a reaction old. Who knows the
    // present has nothing to make up for, and would only give ground.
    let late = !d.view.given.setup.limits.all_seeing_zone;
    let lead = if late && velocity.dot(to_rim) > 1.5 { 0.3 } else { 0.0 };
    let point = at + velocity * lead + to_rim * wanted + lean(d, at);
    let look = (at - here).unit_or(d.view.mind.gaze);
    let run = (point - here).len() > RUN_M;
    let look = if run { (point - here).unit_or(look) } else { look };
    wishes.go(slot, point, f32::INFINITY, look);
    wishes.moving(slot, velocity);
    if at.len() < IN_TOUCH_M {
        wishes.brace[slot] = 1.0;
    }
}

/// How far he leans the way of a fake that he bites on, m.
fn lean(d: &Defender<'_>, ball: Vec2) -> Vec2 {
    if d.view.clock.now >= d.view.mind.fooled_until {
        return vec2(0.0, 0.0);
    }
    (d.view.mind.fooled_to - ball).at_most(d.view.given.team(d.view.me.slot).head.bite_distance_m)
}
