//! Programs of movement: starting one whose conditions hold, and walking through its steps.

use super::conditions::all_hold;
use super::locus;
use crate::decide::value::completion;
use crate::decide::{View, nearest_defender};
use crate::law::floor::side_of;
use crate::law::shot::make_chance;
use crate::math::{Vec2, to_segment};
use crate::random::{Purpose, Streams};
use crate::setup::{Choice, Pace, PassKind, Program, ProgramKind, Step, Then};
use crate::slots::{ATTACK, POSTS, Slot};
use crate::state::{Plan, Plans, Signal, Signals, Wishes};

/// A chance at a program that was not taken comes again no sooner than this, s.
const NEXT_CHANCE_S: f32 = 1.5;

/// A place with a team-mate this near, or on his way there, is taken, m. (common practice, no source)
const OCCUPIED_M: f32 = 1.6;
/// A post waits while the other one is in the lane within this distance of his way, m. (assumed)
const CLEAR_M: f32 = 2.0;
/// A player does not wait beside a team-mate this near, m. (common practice, no source)
const CROWDED_M: f32 = 1.2;

/// Top speed of a pace, m/s.
pub fn speed_of(pace: Pace) -> f32 {
    match pace {
        Pace::Walk => 1.6,
        Pace::Jog => 3.2,
        Pace::Sprint => f32::INFINITY,
    }
}

/// Starts the first program that the player may and wants to run; true where he runs one.
pub fn start(view: &View<'_>, plans: &mut Plans, streams: &mut Streams, signals: &mut Signals) -> bool {
    let here = view.me.at;
    let attack = &view.given.setup.attack;
    let mut plan = plans.attack[view.me.slot];
    plan.start_sign = side_of(here, view.side);
    plan.step_from = here;
    plan.step_turn = 0.0;
    let mut best: Option<(f32, usize)> = None;
    for (index, program) in attack.programs.iter().enumerate() {
        if !program.who.has(view.me.slot.index())
            || program.weight <= 0.0
            || view.clock.now < plans.rest[view.me.slot][index]
        {
            continue;
        }
        if !all_hold(view, &plan, &program.when)
            || taken(plans, view.me.slot, index, program)
            || occupied(view, plans, &plan, program)
        {
            continue;
        }
        if program.weight < 1.0 && !streams.coin(view.me.slot, Purpose::Weight, program.weight) {
            plans.rest[view.me.slot][index] = view.clock.now + NEXT_CHANCE_S;
            continue;
        }
        if attack.route_choice == Choice::First || program.kind != ProgramKind::Route {
            best = best.or(Some((0.0, index)));
            break;
        }
        let worth = promise(view, &plan, program);
        if best.is_none_or(|b| worth > b.0) {
            best = Some((worth, index));
        }
    }
    let Some((_, index)) = best else { return false };
    plan.program = Some(index as u8);
    plan.step = 0;
    plan.step_s = view.clock.now;
    plan.arrived_s = f32::INFINITY;
    plan.step_sign = locus::ball_sign(view.mind, &plan);
    plan.step_turn = locus::turn(view, here, attack.programs[index].steps.first());
    plans.attack[view.me.slot] = plan;
    signals.say(view.clock.now, here, Signal::ProgramStart { by: view.me.slot, program: index as u8 });
    true
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
        let at = setup.court.inside(locus::resolve(view, plan, step.to), 0.4);
        let room = nearest_defender(view.mind, at).1;
        let shooter = view.team.shooter(view.me.slot);
        let (makes, points) = make_chance(&setup.court, &setup.attackers.skill.shot, shooter, at, room, true);
        let arrives = completion(view, PassKind::Chest, view.ball_at(), at, view.me.slot, 0.0);
        let worth = arrives * makes * points;
        if worth > best {
            best = worth;
        }
    }
    best
}

/// One man at a time: another of the same kind of player already runs this program.
fn taken(plans: &Plans, me: Slot, index: usize, program: &Program) -> bool {
    ATTACK.into_iter().any(|other| {
        other != me
            && plans.attack[other].program.is_some_and(|runs| usize::from(runs) == index)
            && program.who.has(other.index())
    })
}

/// A team-mate stands where the first leg ends, or is on his way there.
fn occupied(view: &View<'_>, plans: &Plans, plan: &Plan, program: &Program) -> bool {
    let Some(step) = program.steps.first() else { return false };
    let to = locus::resolve(view, plan, step.to);
    let near = |at: Vec2| (at - to).len2() < OCCUPIED_M * OCCUPIED_M;
    if view.me.slot.is_post() && in_the_way(view, to) {
        return true;
    }
    ATTACK.into_iter().any(|mate| {
        // A man on the move counts where he is going, one who stays where he is.
        mate != view.me.slot && near(target(view, &plans.attack[mate]).unwrap_or(view.mind.at(mate)))
    })
}

/// The other post is still in the lane, without the ball, beside the way that this one would take: he has to clear
/// first.
fn in_the_way(view: &View<'_>, to: Vec2) -> bool {
    POSTS.into_iter().any(|mate| {
        let at = view.mind.at(mate);
        let inside =
            mate != view.me.slot && view.mind.owner() != Some(mate) && view.given.setup.court.in_lane(at);
        inside && to_segment(at, view.me.at, to).0 < CLEAR_M
    })
}

/// A team-mate who has a movement of his own ends it where this leg leads, and is nearer: one of the two goes
/// elsewhere. One who is at home there makes way (see `spacing`).
fn overtaken(view: &View<'_>, plans: &Plans, step: &Step) -> bool {
    let to = locus::resolve(view, &plans.attack[view.me.slot], step.to);
    let mine = (view.me.at - to).len2();
    ATTACK.into_iter().any(|mate| {
        mate != view.me.slot
            && (view.mind.at(mate) - to).len2() < mine
            && target(view, &plans.attack[mate])
                .is_some_and(|goes| (goes - to).len2() < OCCUPIED_M * OCCUPIED_M)
    })
}

/// Where the present leg of a plan leads, as he believes; `None` without a program.
pub fn target(view: &View<'_>, plan: &Plan) -> Option<Vec2> {
    let program = view.given.setup.attack.programs.get(usize::from(plan.program?))?;
    let step = program.steps.get(usize::from(plan.step))?;
    Some(locus::resolve(view, plan, step.to))
}

/// Follows the present program; false where it has just ended.
pub fn follow(view: &View<'_>, plans: &mut Plans, wishes: &mut Wishes, signals: &mut Signals) -> bool {
    let here = view.me.at;
    let setup = &view.given.setup;
    let Some(index) = plans.attack[view.me.slot].program.map(usize::from) else { return false };
    let Some(program) = setup.attack.programs.get(index) else { return false };
    loop {
        let plan = &mut plans.attack[view.me.slot];
        let Some(step) = program.steps.get(usize::from(plan.step)) else {
            end(view, plans, program, signals);
            return false;
        };
        let to = setup.court.inside(locus::resolve(view, plan, step.to), 0.4);
        let distance = here.distance(to);
        if distance <= step.within_m && plan.arrived_s.is_infinite() {
            plan.arrived_s = view.clock.now;
        }
        let there = plan.arrived_s.is_finite();
        let lingered = there && view.clock.now - plan.arrived_s >= step.linger_s;
        let leaves = there && !step.leave_when.is_empty() && all_hold(view, plan, &step.leave_when);
        let crowded = there && view.crowded(here, CROWDED_M);
        if lingered || leaves || crowded || view.clock.now - plan.step_s > step.longest_s {
            plan.step += 1;
            plan.step_sign = locus::ball_sign(view.mind, plan);
            plan.step_from = here;
            plan.step_turn = locus::turn(view, here, program.steps.get(usize::from(plan.step)));
            plan.step_s = view.clock.now;
            plan.arrived_s = f32::INFINITY;
            let nth = plan.step;
            if let Some(next) = program.steps.get(usize::from(nth)) {
                if overtaken(view, plans, next) {
                    end(view, plans, program, signals);
                    return false;
                }
                let what = Signal::ProgramStep { by: view.me.slot, program: index as u8, step: nth };
                signals.say(view.clock.now, here, what);
            }
            continue;
        }
        let last = usize::from(plan.step) + 1 == program.steps.len();
        let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
        let running = step.pace == Pace::Sprint && distance > 1.2;
        let look = if running { (to - here).unit_or(ball_way) } else { ball_way };
        wishes.go(view.me.slot, to, speed_of(step.pace), look);
        if step.linger_s == 0.0 && !last {
            wishes.wish.through[view.me.slot] = 1.0;
        }
        if there {
            wishes.brace[view.me.slot] = 1.0;
        }
        return true;
    }
}

fn end(view: &View<'_>, plans: &mut Plans, program: &Program, signals: &mut Signals) {
    let here = view.me.at;
    if let Some(index) = plans.attack[view.me.slot].program {
        plans.rest[view.me.slot][usize::from(index)] = view.clock.now + program.rest_s;
    }
    let plan = &mut plans.attack[view.me.slot];
    if program.then == Then::Stay {
        plan.home = here;
    }
    stop(view.clock.now, here, view.me.slot, plans, signals);
}

/// Breaks off the present program, if there is one.
pub fn stop(now: f32, here: Vec2, me: Slot, plans: &mut Plans, signals: &mut Signals) {
    let plan = &mut plans.attack[me];
    let Some(program) = plan.program.take() else { return };
    signals.say(now, here, Signal::ProgramEnd { by: me, program });
    plan.last_program = Some(program);
    plan.last_s = now;
    plan.arrived_s = f32::INFINITY;
}
