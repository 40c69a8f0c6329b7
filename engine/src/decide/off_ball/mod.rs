//! An attacker without the ball: meets a pass, follows a program, or stays where he can be seen.

mod conditions;
pub mod glass;
mod locus;
mod open;
mod programs;
mod spacing;
mod starting;

use crate::decide::{View, three_seconds};
use crate::law::conduct::walking::{LEADS_OUT_WITHIN_M, MEET_EDGE_M, MEET_STANDS_M};
use crate::math::Vec2;
use crate::random::Streams;
use crate::state::{Plans, Signals, Wishes};

/// Decides an off-ball attacker's intent.
pub fn decide(
    view: &View<'_>,
    plans: &mut Plans,
    wishes: &mut Wishes,
    streams: &mut Streams,
    signals: &mut Signals,
) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if view.mind.passed_to(view.me.slot) {
        meet(view, wishes, view.mind.ball);
        return;
    }
    if leave_lane(view, plans, wishes, ball_way) {
        return;
    }
    if plans.attack[view.me.slot].program.is_some() && programs::follow(view, plans, wishes, signals) {
        return;
    }
    if starting::start(view, plans, streams, signals) && programs::follow(view, plans, wishes, signals) {
        return;
    }
    open::stay(view, plans, wishes, streams, ball_way);
}

/// Goes to where the pass comes down; a man already there shows his hands.
fn meet(view: &View<'_>, wishes: &mut Wishes, down: Vec2) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    let to = view.given.setup.court.inside(down, MEET_EDGE_M);
    wishes.go(view.me.slot, to, f32::INFINITY, ball_way);
    if here.distance(to) < MEET_STANDS_M {
        wishes.brace[view.me.slot] = 1.0;
    }
}

/// Steps out of the lane before three seconds are called, unless what he is doing leads out in time.
fn leave_lane(view: &View<'_>, plans: &Plans, wishes: &mut Wishes, ball_way: Vec2) -> bool {
    let Some((left, needs)) = three_seconds::count(view) else { return false };
    if left > needs {
        return false;
    }
    let here = view.me.at;
    let velocity = view.me.velocity;
    if let Some(to) = programs::target(view, &plans.attack[view.me.slot]) {
        let leads_out = !view.given.setup.court.in_lane(to);
        if leads_out
            && view.given.arrival(view.me.slot).time_to(here, velocity, to, LEADS_OUT_WITHIN_M) < left
        {
            return false;
        }
    }
    wishes.go(view.me.slot, three_seconds::exit(view, here), f32::INFINITY, ball_way);
    true
}
