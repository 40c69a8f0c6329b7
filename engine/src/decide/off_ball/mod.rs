//! An attacker without the ball: meets a pass, follows a program, or stays where he can be seen.

mod conditions;
mod fills;
mod gap;
pub mod glass;
mod locus;
mod open;
mod programs;
mod spacing;
mod starting;

use crate::decide::draws::Draws;
use crate::decide::intent::Intent;
use crate::decide::shown::Notes;
use crate::decide::{View, three_seconds};
use crate::law::conduct::walking::{LEADS_OUT_WITHIN_M, LINE_CLEAR_M, MEET_STANDS_WITHIN_M};
use crate::math::Vec2;
use crate::state::{PROGRAMS, Plan};
pub use locus::target;

/// What an attacker without the ball may change, his own in every part.
pub struct Mover<'a> {
    /// How he moves.
    pub plan: &'a mut Plan,
    /// Until when he leaves each program alone, s.
    pub rest: &'a mut [f32; PROGRAMS],
    pub intent: Intent<'a>,
    pub draws: Draws<'a>,
    pub notes: Notes<'a>,
}

/// Decides an off-ball attacker's intent.
pub fn decide(view: &View<'_>, m: &mut Mover<'_>) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if view.mind.passed_to(view.me.slot) {
        meet(view, &mut m.intent, view.mind.ball);
        return;
    }
    if leave_lane(view, m, ball_way) {
        return;
    }
    if m.plan.program.is_some() && programs::follow(view, m) {
        return;
    }
    if starting::start(view, m) && programs::follow(view, m) {
        return;
    }
    open::stay(view, m, ball_way);
}

/// Goes to where the pass comes down; a man already there shows his hands.
fn meet(view: &View<'_>, intent: &mut Intent<'_>, down: Vec2) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    let to = view.given.setup.court.inside(down, LINE_CLEAR_M);
    intent.go(to, f32::INFINITY, ball_way);
    if here.distance(to) < MEET_STANDS_WITHIN_M {
        intent.brace();
    }
}

/// Steps out of the lane before three seconds are called, unless what he is doing leads out in time.
fn leave_lane(view: &View<'_>, m: &mut Mover<'_>, ball_way: Vec2) -> bool {
    let Some((left, needs)) = three_seconds::count(view) else { return false };
    if left > needs {
        return false;
    }
    let here = view.me.at;
    let velocity = view.me.velocity;
    if let Some(to) = locus::target(view, &m.plan.leg()) {
        let leads_out = !view.given.setup.court.in_lane(to);
        if leads_out
            && view.given.arrival(view.me.slot).time_to(here, velocity, to, LEADS_OUT_WITHIN_M) < left
        {
            return false;
        }
    }
    m.intent.go(three_seconds::exit(view, here), f32::INFINITY, ball_way);
    true
}
