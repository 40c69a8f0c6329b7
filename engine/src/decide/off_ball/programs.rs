//! Programs of movement: walking through the steps of one.

use super::conditions::all_hold;
use super::locus::target;
use super::{Mover, gap, locus};
use crate::decide::View;
use crate::decide::intent::Intent;
use crate::law::conduct::programs::{CROWDED_M, LEG_EDGE_M, NEXT_CHANCE_S, OCCUPIED_M, RUNS_BLIND_M};
use crate::law::conduct::walking::{JOG_M_S, WALK_M_S};
use crate::math::Vec2;
use crate::setup::{Pace, Program, Step, Then};
use crate::slots::ATTACK;
use crate::state::{Plan, Signal};

/// Top speed of a pace, m/s.
fn speed_of(pace: Pace) -> f32 {
    match pace {
        Pace::Walk => WALK_M_S,
        Pace::Jog => JOG_M_S,
        Pace::Sprint => f32::INFINITY,
    }
}

/// A team-mate who is seen to have a movement of his own ends it where this leg leads, and is nearer: one of the two goes
/// elsewhere. One who is at home there makes way (see `spacing`).
fn overtaken(view: &View<'_>, plan: &Plan, step: &Step) -> bool {
    let to = locus::resolve(view, &plan.leg(), step.to);
    let mine = (view.me.at - to).len2();
    ATTACK.into_iter().any(|mate| {
        mate != view.me.slot
            && (view.mind.at(mate) - to).len2() < mine
            && target(view, &view.mind.mates[mate])
                .is_some_and(|goes| (goes - to).len2() < OCCUPIED_M * OCCUPIED_M)
    })
}

/// A team-mate is seen to run the same movement and is farther on with it, both having begun it within a reaction or out
/// of each other's sight: one of the two gives it up. His own leg ends at `to`.
fn doubled(view: &View<'_>, plan: &Plan, to: Vec2) -> bool {
    let left = (view.me.at - to).len2();
    ATTACK.into_iter().any(|mate| {
        let his = &view.mind.mates[mate];
        let nearer = |end: Vec2| (view.mind.at(mate) - end).len2() < left;
        mate != view.me.slot
            && his.program == plan.program
            && (his.step > plan.step || his.step == plan.step && target(view, his).is_some_and(nearer))
    })
}

/// Follows the present program; false where it has just ended.
pub fn follow(view: &View<'_>, m: &mut Mover<'_>) -> bool {
    let me = view.me.slot;
    let Some(index) = m.plan.program else { return false };
    let Some(program) = view.given.setup.attack.programs.get(usize::from(index)) else { return false };
    loop {
        let plan = &mut *m.plan;
        let Some(step) = program.steps.get(usize::from(plan.step)) else {
            end(view, m, program);
            return false;
        };
        let to = view.given.setup.court.inside(locus::resolve(view, &plan.leg(), step.to), LEG_EDGE_M);
        if doubled(view, plan, to) || gap::gives_way(view, to) {
            m.rest[usize::from(index)] = view.clock.now + NEXT_CHANCE_S;
            stop(view, m);
            return false;
        }
        if view.me.at.distance(to) <= step.within_m && plan.arrived_s.is_infinite() {
            plan.arrived_s = view.clock.now;
        }
        if !leg_is_over(view, plan, step) {
            walk(view, plan, program, step, to, &mut m.intent);
            return true;
        }
        next_leg(view, plan, program);
        let nth = plan.step;
        if let Some(next) = program.steps.get(usize::from(nth)) {
            if overtaken(view, m.plan, next) {
                end(view, m, program);
                return false;
            }
            m.notes.add(
                view.clock.now,
                view.me.at,
                Signal::ProgramStep { by: me, program: index, step: nth },
            );
        }
    }
}

/// Whether he goes on to the next leg: he has waited long enough at the end of this one, has a reason to leave it, finds a
/// team-mate there, or it has taken too long.
fn leg_is_over(view: &View<'_>, plan: &Plan, step: &Step) -> bool {
    let there = plan.arrived_s.is_finite();
    let lingered = there && view.clock.now - plan.arrived_s >= step.linger_s;
    let leaves = there && !step.leave_when.is_empty() && all_hold(view, plan, &step.leave_when);
    let crowded = there && view.crowded(view.me.at, CROWDED_M);
    lingered || leaves || crowded || view.clock.now - plan.step_s > step.longest_s
}

/// Begins the next leg from here.
fn next_leg(view: &View<'_>, plan: &mut Plan, program: &Program) {
    let here = view.me.at;
    plan.step += 1;
    plan.step_sign = locus::ball_sign(view.mind, plan.start_sign);
    plan.step_from = here;
    plan.step_turn = locus::turn(view, here, program.steps.get(usize::from(plan.step)));
    plan.step_s = view.clock.now;
    plan.arrived_s = f32::INFINITY;
}

/// Walks a leg to its end `to`, or waits there.
fn walk(view: &View<'_>, plan: &Plan, program: &Program, step: &Step, to: Vec2, intent: &mut Intent<'_>) {
    let here = view.me.at;
    let last = usize::from(plan.step) + 1 == program.steps.len();
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    let running = step.pace == Pace::Sprint && here.distance(to) > RUNS_BLIND_M;
    let look = if running { (to - here).unit_or(ball_way) } else { ball_way };
    intent.go(to, speed_of(step.pace), look);
    if step.linger_s == 0.0 && !last {
        intent.run_through();
    }
    if plan.arrived_s.is_finite() {
        intent.brace();
    }
}

/// Ends the program: it is left alone for a while, and where it says so its end is home now.
fn end(view: &View<'_>, m: &mut Mover<'_>, program: &Program) {
    if let Some(index) = m.plan.program {
        m.rest[usize::from(index)] = view.clock.now + program.rest_s;
    }
    if program.then == Then::Stay {
        m.plan.home = view.me.at;
    }
    stop(view, m);
}

/// Breaks off the present program, if there is one.
fn stop(view: &View<'_>, m: &mut Mover<'_>) {
    let Some(index) = m.plan.program.take() else { return };
    m.notes.add(view.clock.now, view.me.at, Signal::ProgramEnd { by: view.me.slot, program: index });
    m.plan.last_program = Some(index);
    m.plan.last_s = view.clock.now;
    m.plan.arrived_s = f32::INFINITY;
}
