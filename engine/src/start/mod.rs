//! Starts a possession in its place in the world: draws its players, puts everyone where he begins, and lets everyone
//! know it.

mod opening;

pub use opening::starting_places;

use crate::law::conduct::deciding::{DECIDES_EVERY_S, HALF_DECISION_S};
use crate::law::counting::reversal_side;
use crate::law::gait::gait_of;
use crate::law::opening::{
    ARM_SHARE_OF_REACH, FIRST_GLANCE_SHARE, LONGEST_FIRST_WAIT_S, MOST_DEVIATIONS, MOST_DEVIATIONS_QUICK,
    SCATTER_M, SLOWEST_SPRINT_M_S, STARTS_INSIDE_M,
};
use crate::law::shape;
use crate::math::{Vec2, clamp, max, min, vec2};
use crate::measures::Measure;
use crate::random::{Purpose, Streams, TABLE, inner_unit, normal_quantile, unit};
use crate::setup::{SHOT_CLASSES, Setup, SideChoice, Start};
use crate::slots::{ALL, ATTACK, BALL, GUARDS, ROW, Slot, TEAM};
use crate::state::*;
use opening::Opening;

/// Begins a possession.
pub fn begin(given: &Given, seed: u64, possession: u64, parts: &mut PartsItem<'_, '_>) {
    let setup = &*given.setup;
    *parts.streams = Streams::new(seed, possession);
    parts.side.0 = match setup.attack.side {
        SideChoice::Right => 1.0,
        SideChoice::Left => -1.0,
        SideChoice::Either => {
            if parts.streams.coin(TABLE, Purpose::Side, 0.5) {
                1.0
            } else {
                -1.0
            }
        }
    };
    let officials = &setup.officials;
    let bonus = parts.streams.coin(TABLE, Purpose::Bonus, officials.bonus_share);
    let release = parts.streams.coin(TABLE, Purpose::ShiftMode, setup.defenders.head.shift_on_release);
    *parts.clocks = Clocks {
        status: Status::Playing,
        possession,
        shot_clock: officials.shot_clock_s.map_or(f32::INFINITY, |full| full - officials.clock_used_s),
        bonus,
        shift_on_release: release || setup.limits.all_seeing_zone,
        ..Clocks::default()
    };
    *parts.tally = Tally::default();
    parts.progress.forced = false;
    *parts.touches = Touches::default();
    parts.events.count = 0;
    parts.menu.forget();
    draw_players(given, parts);
    for slot in ALL {
        let phase = parts.streams.uniform(slot, Purpose::Phase);
        parts.plans.next_s[slot] = phase * DECIDES_EVERY_S;
        parts.minds.0[slot] = Belief::default();
        parts.minds.0[slot].next_glance =
            given.player(slot).head.glance_every_s * (FIRST_GLANCE_SHARE + phase);
    }
    parts.plans.rest = [[0.0; PROGRAMS]; 5];
    parts.plans.defence = [Duty::default(); 5];
    if setup.attack.start == Start::Rebound {
        parts.clocks.shot_clock = min(parts.clocks.shot_clock, officials.shot_clock_rebound_s);
    }
    let holder = Slot::attacker(usize::from(setup.attack.ball_starts_with));
    open(given, parts, setup.attack.start, holder);
    for slot in ATTACK {
        // Nobody starts his cuts on the same count in every possession.
        let wait = parts.streams.uniform(slot, Purpose::Weight) * LONGEST_FIRST_WAIT_S;
        parts.plans.rest[slot] = [wait; PROGRAMS];
    }
    parts.signals.count = 0;
    let at = parts.bodies.ball();
    parts.signals.say(0.0, at, Signal::Start { holder });
}

/// Sets the attack up again after a dead ball that it keeps, with the ball in the hands of a guard.
pub fn set_up(given: &Given, parts: &mut PartsItem<'_, '_>) {
    let starts = Slot::attacker(usize::from(given.setup.attack.ball_starts_with));
    open(given, parts, Start::Set, if starts.is_guard() { starts } else { GUARDS[1] });
}

/// Puts everyone in his place, the ball in the hands of the one who starts.
fn open(given: &Given, parts: &mut PartsItem<'_, '_>, start: Start, holder: Slot) {
    let setup = &*given.setup;
    let opening = Opening::new(setup, start, holder, parts.side.0);
    let place = shape::place_of(&setup.zone, opening.ball, opening.ball_side, 0, 0.0);
    place_players(setup, parts, &opening);
    start_plans(given, parts, place, opening.ball_side);
    parts.clocks.in_lane = [0.0; 5];
    parts.clocks.guarded = 0.0;
    start_hold(given, parts, &opening);
    let sample = Sample::of(&parts.bodies);
    parts.history.ring = [sample; History::LENGTH];
    parts.history.newest = 0;
    parts.events.post(parts.clocks.now, BallEvent::Control { by: holder });
    tell_all(parts, &sample, holder);
}

/// Puts the players a little off their places, and the ball where its holder is.
fn place_players(setup: &Setup, parts: &mut PartsItem<'_, '_>, opening: &Opening) {
    parts.bodies.0 = Default::default();
    for slot in ALL {
        let event = parts.streams.next_event(slot, Purpose::Individual);
        let mut scatter = |option| {
            (unit(parts.streams.option_bits(slot, Purpose::Individual, event, option)) - 0.5) * SCATTER_M
        };
        let off = vec2(scatter(0) * opening.side, scatter(1));
        let behind = if opening.start == Start::Arriving { scatter(2) / SCATTER_M + 0.5 } else { 0.0 };
        let (at, velocity) = opening.place(setup, slot, behind);
        let at = setup.court.inside(at + off, STARTS_INSIDE_M);
        parts.bodies.put(slot, at);
        parts.bodies.0.vx[slot] = velocity.x;
        parts.bodies.0.vy[slot] = velocity.y;
        let facing = if slot.attacks() { Vec2::RIM - at } else { opening.ball - at };
        let facing = facing.unit_or(vec2(0.0, 1.0));
        parts.bodies.0.fx[slot] = facing.x;
        parts.bodies.0.fy[slot] = facing.y;
        parts.intents.go(slot, at, 1.0, facing);
    }
    let ball_at = parts.bodies.at(opening.holder);
    parts.bodies.put_ball(ball_at);
    for slot in BALL..ROW {
        parts.bodies.0.fy[slot] = 1.0;
    }
}

/// The hold that begins here is a catch as any other, on its side of the floor.
fn start_hold(given: &Given, parts: &mut PartsItem<'_, '_>, opening: &Opening) {
    let (now, ball_at, holder) = (parts.clocks.now, parts.bodies.ball(), opening.holder);
    parts.tally.add(Measure::Catches, 1);
    parts.tally.reversal_from = reversal_side(ball_at.x);
    *parts.ball = Ball::default();
    *parts.hold = Hold::default();
    // What is once a possession stays through a dead ball.
    *parts.progress = Progress { forced: parts.progress.forced, ..Progress::default() };
    parts.ball.state = BallState::Held { by: holder };
    parts.hold.caught_s = now;
    parts.hold.ready_s = now + parts.traits.catch_to_release[holder];
    if opening.start != Start::Set {
        // He is in the middle of it: no first look around.
        parts.hold.caught_s = now - given.player(holder).head.first_decision_s;
        parts.hold.off_catch = false;
    }
    parts.hold.looks_s = parts.hold.caught_s;
    parts.progress.last_catch = ball_at;
    parts.progress.side = reversal_side(ball_at.x);
    let grip_left = parts.streams.exponential(holder, Purpose::Handling);
    *parts.allowance = Allowance { grip_left, ..Allowance::default() };
}

/// Everybody knows where everybody is and who has the ball.
fn tell_all(parts: &mut PartsItem<'_, '_>, sample: &Sample, holder: Slot) {
    let ball_at = parts.bodies.ball();
    for slot in ALL {
        let gaze = (ball_at - parts.bodies.at(slot)).unit_or(parts.bodies.facing(slot));
        let mind = &mut parts.minds.0[slot];
        mind.x = sample.x;
        mind.y = sample.y;
        mind.vx = sample.vx;
        mind.vy = sample.vy;
        mind.fx = sample.fx;
        mind.fy = sample.fy;
        mind.age = [0.0; ROW];
        mind.gaze = gaze;
        mind.known = parts.events.count;
        mind.ball = ball_at;
        mind.whose = Whose::Held(holder);
        mind.shot_from = ball_at;
        mind.fooled_until = f32::NEG_INFINITY;
        mind.doubts = false;
        mind.jumps_until = f32::NEG_INFINITY;
        mind.mates = [Leg::NONE; TEAM];
    }
}

fn start_plans(given: &Given, parts: &mut PartsItem<'_, '_>, place: u8, ball_side: f32) {
    let setup = &*given.setup;
    for slot in ATTACK {
        let home = setup.attack.formation[slot].sided(parts.side.0);
        let plan = &mut parts.plans.attack[slot];
        *plan = Plan {
            home,
            set_place: home,
            step_s: parts.clocks.now,
            start_sign: parts.side.0,
            step_sign: parts.side.0,
            next_open_s: parts.clocks.now,
            ..Plan::default()
        };
    }
    for duty in &mut parts.plans.defence {
        // What he has seen in this possession he still knows after a dead ball.
        let burns = duty.burns;
        *duty = Duty { place, ball_side, place_s: parts.clocks.now, burns, ..Duty::default() };
    }
}

fn draw_players(given: &Given, parts: &mut PartsItem<'_, '_>) {
    let dt = given.setup.step_s;
    for slot in ALL {
        let player = given.player(slot);
        let event = parts.streams.next_event(slot, Purpose::Individual);
        let mut draw = |option: u8| parts.streams.option_bits(slot, Purpose::Individual, event, option);
        let mut normal = |option: u8| normal_quantile(inner_unit(draw(option)));
        let (body, head, skill) = (&player.body, &player.head, &player.skill);
        let sprint =
            body.sprint_m_s + clamp(normal(0), -MOST_DEVIATIONS, MOST_DEVIATIONS) * body.sprint_spread_m_s;
        let reach = clamp(normal(1), -MOST_DEVIATIONS, MOST_DEVIATIONS) * body.reach_spread_m;
        let reaction = head.reaction_s
            + clamp(normal(2), -MOST_DEVIATIONS_QUICK, MOST_DEVIATIONS) * head.reaction_spread_s;
        let shooting = clamp(normal(3), -MOST_DEVIATIONS, MOST_DEVIATIONS) * skill.shooting_spread;
        let quick = unit(draw(4));
        let traits = &mut *parts.traits;
        traits.gait.set(slot.index(), &gait_of(body, max(sprint, SLOWEST_SPRINT_M_S)), dt);
        traits.radius[slot] = body.radius_m;
        traits.inv_mass[slot] = 1.0 / (body.mass_kg * body.strength);
        traits.braced_inv_mass[slot] = 1.0 / (body.mass_kg * body.strength * body.brace_factor);
        // What deciding in periods adds on average is taken off.
        traits.reaction[slot] = max(reaction - HALF_DECISION_S, 0.0);
        let reaches = body.arm_reach_m > 0.0;
        traits.arm[slot] =
            if reaches { max(body.arm_reach_m + reach * ARM_SHARE_OF_REACH, 0.0) } else { 0.0 };
        traits.lunge[slot] =
            if reaches { max(body.lunge_reach_m + reach * ARM_SHARE_OF_REACH, 0.0) } else { 0.0 };
        traits.standing_reach[slot] = body.standing_reach_m + reach;
        let role = if slot.attacks() { given.setup.attack.role_shooting[slot] } else { 0.0 };
        let posts = if slot.is_post() { skill.shot.post_three } else { 0.0 };
        let known = given.setup.individuals[slot].as_ref().map_or([None; SHOT_CLASSES], |own| own.shooting);
        let drawn = [shooting + role, shooting + role, shooting + role, shooting + role + posts];
        for (class, (known, drawn)) in traits.shooting.iter_mut().zip(known.into_iter().zip(drawn)) {
            class[slot] = known.unwrap_or(drawn);
        }
        let (soon, late) = skill.catch_to_release_s;
        traits.catch_to_release[slot] = soon + (late - soon) * quick;
    }
}
