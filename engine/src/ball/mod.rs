//! Stage 6, `ball`: it is held, flies, is caught, tipped, stolen, shot and rebounded.
//!
//! Events happen in continuous time inside the step; bodies are where the step left them.

mod control;
mod feet;
mod glass;
mod hands;
mod held;
mod loose;
mod pass;
mod shot;

use crate::math::Vec2;
use crate::random::Streams;
use crate::record::Outcome;
use crate::slots::BALL;
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// What the ball's stage works on.
pub(crate) struct Court<'a> {
    pub given: &'a Given,
    pub clocks: &'a mut Clocks,
    pub bodies: &'a mut Bodies,
    pub traits: &'a Traits,
    pub minds: &'a Minds,
    pub side: f32,
    pub board: &'a mut Board,
    pub ball: &'a mut Ball,
    pub plans: &'a mut Plans,
    pub streams: &'a mut Streams,
    pub signals: &'a mut Signals,
}

impl Court<'_> {
    /// Says that something happened.
    pub fn say(&mut self, time_s: f32, at: Vec2, what: Signal) {
        self.signals.say(time_s, at, what);
    }
}

/// Lets the ball go on by one step.
pub fn ball(
    given: Res<Given>,
    mut slots: Query<(
        &mut Clocks,
        &mut Bodies,
        &Traits,
        &Minds,
        &Side,
        &mut Board,
        &mut Ball,
        &mut Plans,
        &mut Streams,
        &mut Signals,
    )>,
) {
    for (
        mut clocks,
        mut bodies,
        traits,
        minds,
        side,
        mut board,
        mut ball,
        mut plans,
        mut streams,
        mut signals,
    ) in &mut slots
    {
        if clocks.status != Status::Playing {
            continue;
        }
        let mut court = Court {
            given: &given,
            clocks: &mut clocks,
            bodies: &mut bodies,
            traits,
            minds,
            side: side.0,
            board: &mut board,
            ball: &mut ball,
            plans: &mut plans,
            streams: &mut streams,
            signals: &mut signals,
        };
        let before = court.bodies.at(BALL);
        match court.ball.state {
            BallState::Held { by } => held::step(&mut court, usize::from(by)),
            BallState::Pass(flight) => pass::step(&mut court, flight),
            BallState::Shot { by, rim_s, made, far_m } => shot::step(&mut court, by, rim_s, made, far_m),
            BallState::Rebound { down, down_s } => glass::step(&mut court, down, down_s),
            BallState::Loose { at, from_s, last, loser, was_pass } => {
                loose::step(&mut court, at, from_s, (last, loser), was_pass);
            }
            BallState::Dead => {}
        }
        // A number that is none must not spread: the possession ends here as a fault.
        let rows = &court.bodies.0;
        let sum: f32 = rows.px[..=BALL].iter().chain(&rows.py[..=BALL]).sum();
        if !sum.is_finite() {
            crate::clock::end(court.clocks, court.signals, court.bodies, Outcome::Fault);
        }
        let moved = (court.bodies.at(BALL) - before) * (1.0 / given.setup.step_s);
        court.bodies.0.vx[BALL] = moved.x;
        court.bodies.0.vy[BALL] = moved.y;
    }
}
