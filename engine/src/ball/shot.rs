//! A shot: its chance is settled at the release; the ball then flies to the rim.

use super::{Play, glass, share_in_step};
use crate::law::ball_height::of_shot_m;
use crate::law::shot::{flight_s, make_chance};
use crate::math::{Vec2, max};
use crate::random::Purpose;
use crate::record::Outcome;
use crate::slots::Slot;
use crate::state::{BallEvent, BallState, Glass, Handling, Signal};

/// Releases a shot.
pub fn release(c: &mut Play<'_>, by: Slot, at_s: f32) {
    let at = c.bodies.at(by);
    let setup = &c.given.setup;
    let (_, space_m) = c.bodies.nearest_defender(at);
    let skill = &setup.player(by).skill;
    let (chance, points) =
        make_chance(&setup.court, &skill.shot, c.traits.shooter(by), at, space_m, c.hold.off_catch);
    let three = points > 2.0;
    let made = c.streams.coin(by, Purpose::Make, chance);
    let far_m = at.len();
    c.ball.state = BallState::Shot { by, from: at, rim_s: at_s + flight_s(far_m), made, three };
    c.hold.handling = Handling::Hold;
    c.events.post(at_s, BallEvent::Shot);
    c.say(at_s, at, Signal::Shot { by, metres: far_m, space_m, chance, three });
    // How many are to go to the offensive glass; each finds for himself whether he is one of them.
    let many = c.given.setup.attackers.skill.crash + c.streams.uniform(by, Purpose::Crash);
    for plan in &mut c.plans.attack {
        plan.glass = Glass::Wanted(many as u8);
    }
}

/// One step of a shot from a place in the air; what it brings if it goes in.
pub fn step(c: &mut Play<'_>, by: Slot, from: Vec2, rim_s: f32, made: Option<u8>) {
    let far_m = from.len();
    let now = c.clocks.now;
    let left = max(rim_s - now, 0.0);
    let span = flight_s(far_m);
    let ball = c.bodies.ball();
    // Along the floor it moves evenly toward the rim.
    let at = ball.toward(Vec2::RIM, share_in_step(c, left));
    c.bodies.put_ball(at);
    let gone = 1.0 - left / span;
    c.ball.height = of_shot_m(span, gone);
    if rim_s > now {
        return;
    }
    if let Some(points) = made {
        c.say(rim_s, Vec2::RIM, Signal::Made { by, points });
        c.ball.state = BallState::Dead;
        c.end(Outcome::Made);
    } else {
        c.say(rim_s, Vec2::RIM, Signal::Missed { by });
        glass::bounce(c, by, from, rim_s);
    }
}
