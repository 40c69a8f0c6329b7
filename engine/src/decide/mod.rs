//! Stage 3, `decide`: attack and zone choose their intents from what they believe.
//!
//! A player decides when he learns something, and ten times a second otherwise, on his own phase.

mod defence;
mod glass;
mod off_ball;
mod on_ball;
mod three_seconds;
pub(crate) mod value;
mod way;

use crate::math::Vec2;
use crate::random::Streams;
use crate::slots::{ATTACK, BALL, DEFENCE, PLAYERS};
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// Time between decisions where nothing is learned, s.
const PERIOD_S: f32 = 0.1;

/// How much of a pass's flight a receiver has to see before he knows where it comes down, a reaction aside, s. (assumed)
const JUDGES_S: f32 = 0.4;

/// What a decision reads of the possession itself: only what the deciding player may know (his own body,
/// his hands, the clock on the wall) and the setup. Everything else comes from his beliefs.
pub(crate) struct Scene<'a> {
    pub given: &'a Given,
    pub clocks: &'a Clocks,
    pub bodies: &'a Bodies,
    pub traits: &'a Traits,
    pub side: f32,
    pub now: f32,
}

/// Lets every player decide who is due.
pub fn decide(
    given: Res<Given>,
    mut slots: Query<(
        &Clocks,
        &Bodies,
        &Traits,
        &Minds,
        &Side,
        &mut Board,
        &mut Ball,
        &mut Plans,
        &mut Wishes,
        &mut Menu,
        &mut Streams,
        &mut Signals,
    )>,
) {
    for (
        clocks,
        bodies,
        traits,
        minds,
        side,
        mut board,
        mut ball,
        mut plans,
        mut wishes,
        mut menu,
        mut streams,
        mut signals,
    ) in &mut slots
    {
        if clocks.status != Status::Playing {
            continue;
        }
        let scene = Scene { given: &given, clocks, bodies, traits, side: side.0, now: clocks.now };
        let dt = given.setup.step_s;
        for lane in 0..PLAYERS {
            wishes.wish.tx[lane] += wishes.tvx[lane] * dt;
            wishes.wish.ty[lane] += wishes.tvy[lane] * dt;
        }
        for lane in 0..PLAYERS {
            if clocks.now < plans.next_s[lane] {
                continue;
            }
            // The floor of ten decisions a second keeps its phase.
            while plans.next_s[lane] <= clocks.now {
                plans.next_s[lane] += PERIOD_S;
            }
            let mind = &minds.0[lane];
            let holds = ball.state == (BallState::Held { by: lane as u8 });
            if DEFENCE.contains(&lane) {
                defend(&scene, lane, mind, &ball, &mut plans, &mut wishes, &mut signals);
            } else if holds {
                let hands = on_ball::Hands {
                    board: &mut board,
                    ball: &mut ball,
                    plan: &mut plans.attack[lane],
                    wishes: &mut wishes,
                    menu: &mut menu,
                    streams: &mut streams,
                    signals: &mut signals,
                };
                on_ball::decide(&scene, lane, mind, hands);
            } else {
                attack_without_ball(
                    &scene,
                    lane,
                    mind,
                    &ball,
                    &mut plans,
                    &mut wishes,
                    &mut streams,
                    &mut signals,
                );
            }
            if !holds {
                way::steer_round(&scene, lane, mind, &mut wishes);
                way::keep_in(&scene, lane, &mut wishes);
            }
        }
    }
}

fn defend(
    scene: &Scene<'_>,
    lane: usize,
    mind: &Belief,
    ball: &Ball,
    plans: &mut Plans,
    wishes: &mut Wishes,
    signals: &mut Signals,
) {
    if scene.given.setup.limits.frozen_zone {
        let here = scene.bodies.at(lane);
        wishes.go(lane, here, 0.0, mind.gaze);
        return;
    }
    if scene.now < mind.jumps_until {
        // He has left his feet for a shot, or for one that never came.
        let here = scene.bodies.at(lane);
        wishes.go(lane, here, 0.5, mind.gaze);
        return;
    }
    match ball.state {
        BallState::Shot { .. } | BallState::Rebound { .. } | BallState::Loose { .. }
            if mind.in_air && mind.holder == crate::slots::NOBODY =>
        {
            glass::defend(scene, lane, mind, wishes);
        }
        _ => defence::decide(scene, lane, mind, &mut plans.defence[lane - 5], wishes, signals),
    }
}

#[expect(clippy::too_many_arguments, reason = "one call, each part of the slot by name")]
fn attack_without_ball(
    scene: &Scene<'_>,
    lane: usize,
    mind: &Belief,
    ball: &Ball,
    plans: &mut Plans,
    wishes: &mut Wishes,
    streams: &mut Streams,
    signals: &mut Signals,
) {
    match ball.state {
        BallState::Shot { .. } | BallState::Rebound { .. } | BallState::Loose { .. }
            if mind.in_air && mind.holder == crate::slots::NOBODY =>
        {
            glass::attack(scene, lane, mind, ball, &plans.attack[lane], wishes);
        }
        // He has seen it leave and fly: he goes where it really comes down, not where it was meant for.
        BallState::Pass(flight)
            if usize::from(flight.to) == lane
                && mind.in_air
                && usize::from(mind.holder) == lane
                && mind.sees_ball
                && scene.now > flight.start_s + scene.traits.reaction[lane] + JUDGES_S =>
        {
            off_ball::meet(scene, lane, mind, wishes, flight.end);
        }
        _ => off_ball::decide(scene, lane, mind, plans, wishes, streams, signals),
    }
}

/// Where the ball is believed to be now, on the floor.
pub(crate) fn ball_at(mind: &Belief) -> Vec2 {
    if mind.in_air { mind.at(BALL) } else { mind.ball }
}

/// The believed position of an attacker; a player knows his own.
pub(crate) fn whereabouts(scene: &Scene<'_>, me: usize, mind: &Belief, other: usize) -> Vec2 {
    if other == me { scene.bodies.at(me) } else { mind.at(other) }
}

/// The nearest believed defender to a point: his lane and distance, m.
pub(crate) fn nearest_defender(mind: &Belief, to: Vec2) -> (usize, f32) {
    let mut best = (DEFENCE.start, f32::INFINITY);
    for lane in DEFENCE {
        let d2 = (mind.at(lane) - to).len2();
        if d2 < best.1 {
            best = (lane, d2);
        }
    }
    (best.0, best.1.sqrt())
}

/// True where a team-mate is believed within `metres` of a point.
pub(crate) fn crowded(scene: &Scene<'_>, me: usize, mind: &Belief, at: Vec2, metres: f32) -> bool {
    ATTACK
        .into_iter()
        .any(|mate| mate != me && (whereabouts(scene, me, mind, mate) - at).len2() < metres * metres)
}
