//! Stage 6, `ball`: it is held, flies, is caught, tipped, stolen, shot and rebounded.
//!
//! One file for each state of the ball ([`held`], [`pass`], [`shot`], [`glass`] for a rebound, [`loose`]), with what they
//! share beside them: [`control`] starts a hold, [`hands`] asks which defender gets to a pass, [`feet`] judges travelling.
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

use crate::law::floor::off_floor;
use crate::math::Vec2;
use crate::random::Streams;
use crate::record::{Outcome, TurnoverKind};
use crate::slots::{BALL, Slot};
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};
use bevy_ecs::query::QueryData;

/// What the ball's stage works on.
#[derive(QueryData)]
#[query_data(mutable)]
pub(crate) struct Possession {
    clocks: &'static mut Clocks,
    bodies: &'static mut Bodies,
    traits: &'static Traits,
    minds: &'static Minds,
    side: &'static Side,
    events: &'static mut EventQueue,
    ball: &'static mut Ball,
    hold: &'static mut Hold,
    allowance: &'static mut Allowance,
    progress: &'static mut Progress,
    plans: &'static mut Plans,
    streams: &'static mut Streams,
    signals: &'static mut Signals,
}

/// One possession as the ball's stage sees and changes it, and what it is played with.
pub(crate) struct Play<'a> {
    pub given: &'a Given,
    pub clocks: &'a mut Clocks,
    pub bodies: &'a mut Bodies,
    pub traits: &'a Traits,
    pub minds: &'a Minds,
    pub side: f32,
    pub events: &'a mut EventQueue,
    pub ball: &'a mut Ball,
    pub hold: &'a mut Hold,
    pub allowance: &'a mut Allowance,
    pub progress: &'a mut Progress,
    pub plans: &'a mut Plans,
    pub streams: &'a mut Streams,
    pub signals: &'a mut Signals,
}

impl Play<'_> {
    /// Says that something happened.
    pub fn say(&mut self, time_s: f32, at: Vec2, what: Signal) {
        self.signals.say(time_s, at, what);
    }
    /// Ends the possession.
    pub fn end(&mut self, outcome: Outcome) {
        end(self.clocks, self.signals, self.bodies, outcome);
    }
    /// Ends the possession by a turnover.
    pub fn turnover(&mut self, kind: TurnoverKind, by: Slot) {
        self.ball.state = BallState::Dead;
        turnover(self.clocks, self.bodies, self.signals, kind, by);
    }
}

/// Share of the rest of its way that a ball goes in this step which comes to its end in `left_s` after it.
fn share_in_step(c: &Play<'_>, left_s: f32) -> f32 {
    let step_s = c.given.setup.step_s;
    step_s / (left_s + step_s)
}

/// Lets the ball go on by one step.
pub fn ball(given: Res<Given>, mut possessions: Query<Possession>) {
    for mut p in &mut possessions {
        if p.clocks.status != Status::Playing {
            continue;
        }
        let mut play = Play {
            given: &given,
            clocks: &mut p.clocks,
            bodies: &mut p.bodies,
            traits: p.traits,
            minds: p.minds,
            side: p.side.0,
            events: &mut p.events,
            ball: &mut p.ball,
            hold: &mut p.hold,
            allowance: &mut p.allowance,
            progress: &mut p.progress,
            plans: &mut p.plans,
            streams: &mut p.streams,
            signals: &mut p.signals,
        };
        let before = play.bodies.ball();
        match play.ball.state {
            BallState::Held { by } => held::step(&mut play, by),
            BallState::Pass(flight) => pass::step(&mut play, flight),
            BallState::Shot { by, from, rim_s, made, three } => {
                shot::step(&mut play, by, from, rim_s, made.then_some(if three { 3 } else { 2 }));
            }
            BallState::Rebound { down, down_s } => glass::step(&mut play, down, down_s),
            BallState::Loose { at, from_s, last, loser, was_pass } => {
                loose::step(&mut play, at, from_s, (last, loser), was_pass);
            }
            BallState::Dead => {}
        }
        // A number that is none must not spread, and nobody gets far off the floor: the possession ends here as a fault.
        let moved = (play.bodies.ball() - before) * (1.0 / given.setup.step_s);
        if !moved.len2().is_finite() || off_floor(&given.setup.court, &play.bodies.0) {
            play.end(Outcome::Fault);
        }
        play.bodies.0.vx[BALL] = moved.x;
        play.bodies.0.vy[BALL] = moved.y;
    }
}
