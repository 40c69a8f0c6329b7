//! Stage 1, `clock`: time goes on, and what only time decides is called.

use crate::law::floor::out_of_lane;
use crate::law::officiating::{LANE_LENIENCE_S, LEAVES_LANE_FROM_M_S, NOT_COUNTED_FROM_M_S};
use crate::math::Vec2;
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::slots::{ATTACK, Slot};
use crate::start;
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// Advances the clocks and calls violations of time; sets up again after a dead ball.
pub fn clock(given: Res<Given>, mut possessions: Query<Parts>) {
    let dt = given.setup.step_s;
    for mut parts in &mut possessions {
        if parts.clocks.status != Status::Playing {
            continue;
        }
        parts.signals.count = 0;
        parts.clocks.steps += 1;
        // A product rather than a sum: no drift over a possession.
        parts.clocks.now = parts.clocks.steps as f32 * dt;
        if parts.clocks.reset_set {
            parts.clocks.reset_set = false;
            start::set_up(&given, &mut parts);
        }
        violations(&given, dt, &mut parts);
    }
}

fn violations(given: &Given, dt: f32, parts: &mut PartsItem<'_, '_>) {
    let (bodies, ball) = (&*parts.bodies, &*parts.ball);
    let (clocks, signals) = (&mut *parts.clocks, &mut *parts.signals);
    let officials = &given.setup.officials;
    if ball.controlled() || matches!(ball.state, BallState::Loose { .. }) {
        clocks.shot_clock -= dt;
        if clocks.shot_clock <= 0.0 {
            return turnover(clocks, bodies, signals, TurnoverKind::ShotClock, holder_or_last(ball));
        }
    }
    if officials.shot_clock_s.is_none() && clocks.now >= officials.cap_s {
        return end(clocks, signals, bodies, Outcome::Expired);
    }
    if let Some(slot) = too_long_in_lane(given, dt, parts) {
        let (clocks, signals) = (&mut *parts.clocks, &mut *parts.signals);
        return turnover(clocks, &parts.bodies, signals, TurnoverKind::ThreeSeconds, slot);
    }
    closely_guarded(given, dt, parts);
}

/// Counts how long each attacker has been in the lane; who has been there too long, and is neither busy with the ball nor on
/// his way out.
fn too_long_in_lane(given: &Given, dt: f32, parts: &mut PartsItem<'_, '_>) -> Option<Slot> {
    let (bodies, ball, clocks) = (&*parts.bodies, &*parts.ball, &mut *parts.clocks);
    let (court, officials) = (&given.setup.court, &given.setup.officials);
    let controlled = ball.controlled();
    // Who does anything with the ball but hold it: he shoots, drives, dribbles, shows or throws a pass.
    let busy = if matches!(parts.hold.handling, Handling::Hold) { None } else { ball.holder() };
    let mut called = None;
    for slot in ATTACK {
        let at = bodies.at(slot);
        if !controlled || !court.in_lane(at) {
            clocks.in_lane[slot] = 0.0;
        } else if busy != Some(slot) {
            // Time in which he is busy is not counted, or he would be called as the ball leaves his hands.
            clocks.in_lane[slot] += dt;
            let too_long = clocks.in_lane[slot] > officials.three_seconds_s + LANE_LENIENCE_S;
            let leaves = || {
                let way = (out_of_lane(court, at, parts.side.0) - at).unit_or(Vec2::RIM);
                bodies.velocity(slot).dot(way) > LEAVES_LANE_FROM_M_S
            };
            if called.is_none() && too_long && !leaves() {
                called = Some(slot);
            }
        }
    }
    called
}

/// Counts how long the holder has held the ball closely guarded, and calls it when it is too long.
fn closely_guarded(given: &Given, dt: f32, parts: &mut PartsItem<'_, '_>) {
    let (bodies, ball, hold) = (&*parts.bodies, &*parts.ball, &*parts.hold);
    let (clocks, signals) = (&mut *parts.clocks, &mut *parts.signals);
    let officials = &given.setup.officials;
    let Some(limit) = officials.closely_guarded_s else { return };
    let BallState::Held { by } = ball.state else {
        clocks.guarded = 0.0;
        return;
    };
    let close = bodies.defended(bodies.at(by), officials.closely_guarded_m);
    // Before the first dribble whoever shifts his feet still holds it.
    let dribbles =
        !hold.off_catch && bodies.velocity(by).len2() > NOT_COUNTED_FROM_M_S * NOT_COUNTED_FROM_M_S;
    clocks.guarded = if close && !dribbles { clocks.guarded + dt } else { 0.0 };
    if clocks.guarded > limit {
        turnover(clocks, bodies, signals, TurnoverKind::FiveSeconds, by);
    }
}

fn holder_or_last(ball: &Ball) -> Slot {
    match ball.state {
        BallState::Held { by } => by,
        BallState::Pass(flight) => flight.from,
        _ => ATTACK[0],
    }
}
