//! Which program of movement a player starts.

use super::conditions::all_hold;
use super::locus::target;
use super::{Mover, gap, locus};
use crate::decide::value::PassTry;
use crate::decide::{View, nearest_defender};
use crate::law::conduct::programs::{LEG_EDGE_M, NEXT_CHANCE_S, OCCUPIED_M, POST_CLEAR_M};
use crate::law::floor::side_of;
use crate::law::shot::make_chance;
use crate::math::{Vec2, to_segment};
use crate::setup::{Choice, PassKind, Program, ProgramKind};
use crate::slots::{ATTACK, POSTS};
use crate::state::{Plan, Signal};

/// Starts the first program that the player may and wants to run; true where he runs one.
pub fn start(view: &View<'_>, m: &mut Mover<'_>) -> bool {
    let (me, here) = (view.me.slot, view.me.at);
    let mut plan = *m.plan;
    plan.start_sign = side_of(here, view.side);
    plan.step_from = here;
    plan.step_turn = 0.0;
    let Some(index) = choose(view, m, &plan) else { return false };
    plan.program = Some(index as u8);
    plan.step = 0;
    plan.step_s = view.clock.now;
    plan.arrived_s = f32::INFINITY;
    plan.step_sign = locus::ball_sign(view.mind, plan.start_sign);
    plan.step_turn = locus::turn(view, here, view.given.setup.attack.programs[index].steps.first());
    *m.plan = plan;
    m.notes.add(view.clock.now, here, Signal::ProgramStart { by: me, program: index as u8 });
    true
}

/// The program that he would start: the first that fits, or the most promising where routes are chosen among.
fn choose(view: &View<'_>, m: &mut Mover<'_>, plan: &Plan) -> Option<usize> {
    let me = view.me.slot;
    let attack = &view.given.setup.attack;
    let mut best: Option<(f32, usize)> = None;
    for (index, program) in attack.programs.iter().enumerate() {
        let may = program.who.has(me.index())
            && program.weight > 0.0
            && view.clock.now >= m.rest[index]
            && all_hold(view, plan, &program.when)
            && !gap::closed(view, plan, program)
            && !taken(view, index, program)
            && !occupied(view, plan, program);
        if !may {
            continue;
        }
        if program.weight < 1.0 && !m.draws.takes_occasion(program.weight) {
            m.rest[index] = view.clock.now + NEXT_CHANCE_S;
            continue;
        }
        if attack.route_choice == Choice::First || program.kind != ProgramKind::Route {
            return best.map(|(_, index)| index).or(Some(index));
        }
        let worth = promise(view, plan, program);
        if best.is_none_or(|b| worth > b.0) {
            best = Some((worth, index));
        }
    }
    best.map(|(_, index)| index)
}

/// What a catch at the best of the places where the program stays would be worth, as he sees it now, points.
fn promise(view: &View<'_>, plan: &Plan, program: &Program) -> f32 {
    let setup = &view.given.setup;
    let last = program.steps.len() - 1;
    let mut best = 0.0;
    for (nth, step) in program.steps.iter().enumerate() {
        if nth < last && step.linger_s <= 0.0 {
            continue;
        }
        let at = setup.court.inside(locus::resolve(view, &plan.leg(), step.to), LEG_EDGE_M);
        let room = nearest_defender(view.mind, at).1;
        let shooter = view.team.shooter(view.me.slot);
        let skill = &setup.player(view.me.slot).skill.shot;
        let (makes, points) = make_chance(&setup.court, skill, shooter, at, room, true);
        let pass = PassTry {
            kind: PassKind::Chest,
            from: view.ball_at(),
            to: at,
            receiver: view.me.slot,
            wait_s: 0.0,
        };
        let arrives = pass.completion(view);
        let worth = arrives * makes * points;
        if worth > best {
            best = worth;
        }
    }
    best
}

/// One man at a time: another of the same kind of player already runs this program, as he has seen.
fn taken(view: &View<'_>, index: usize, program: &Program) -> bool {
    ATTACK.into_iter().any(|other| {
        other != view.me.slot
            && view.mind.mates[other].program.is_some_and(|runs| usize::from(runs) == index)
            && program.who.has(other.index())
    })
}

/// A team-mate is believed to stand where the first leg ends, or to be on his way there.
fn occupied(view: &View<'_>, plan: &Plan, program: &Program) -> bool {
    let Some(step) = program.steps.first() else { return false };
    let to = locus::resolve(view, &plan.leg(), step.to);
    let near = |at: Vec2| (at - to).len2() < OCCUPIED_M * OCCUPIED_M;
    if view.me.slot.is_post() && in_the_way(view, to) {
        return true;
    }
    ATTACK.into_iter().any(|mate| {
        // A man on the move counts where he is going, one who stays where he is.
        mate != view.me.slot && near(target(view, &view.mind.mates[mate]).unwrap_or(view.mind.at(mate)))
    })
}

/// The other post is still in the lane, without the ball, beside the way that this one would take: he has to clear
/// first.
fn in_the_way(view: &View<'_>, to: Vec2) -> bool {
    POSTS.into_iter().any(|mate| {
        let at = view.mind.at(mate);
        let inside =
            mate != view.me.slot && view.mind.owner() != Some(mate) && view.given.setup.court.in_lane(at);
        inside && to_segment(at, view.me.at, to).0 < POST_CLEAR_M
    })
}
