//! Starts a possession in a slot: draws its players, puts everyone in his place, and lets everyone know it.

mod opening;

pub use opening::starting_places;

use crate::law::gait::gait_of;
use crate::law::shape;
use crate::math::{Vec2, clamp, ln, max, min, vec2};
use crate::measures::Measure;
use crate::random::{Purpose, Streams, TABLE, normal_quantile, unit};
use crate::setup::{SideChoice, Start};
use crate::slots::{BALL, LANES, PLAYERS, POSTS, attacks};
use crate::state::*;
use opening::Opening;

/// All parts of a slot that a start touches.
pub struct Slot<'a> {
    /// Clocks.
    pub clocks: &'a mut Clocks,
    /// Bodies.
    pub bodies: &'a mut Bodies,
    /// Traits.
    pub traits: &'a mut Traits,
    /// History.
    pub history: &'a mut History,
    /// Minds.
    pub minds: &'a mut Minds,
    /// Board.
    pub board: &'a mut Board,
    /// Ball.
    pub ball: &'a mut Ball,
    /// Plans.
    pub plans: &'a mut Plans,
    /// Wishes.
    pub wishes: &'a mut Wishes,
    /// Signals.
    pub signals: &'a mut Signals,
    /// Tally.
    pub tally: &'a mut Tally,
    /// Side.
    pub side: &'a mut Side,
    /// Streams.
    pub streams: &'a mut Streams,
}

/// Begins a possession.
pub fn begin(given: &Given, seed: u64, possession: u64, slot: &mut Slot<'_>) {
    let setup = &*given.setup;
    *slot.streams = Streams::new(seed, possession);
    slot.side.0 = match setup.attack.side {
        SideChoice::Right => 1.0,
        SideChoice::Left => -1.0,
        SideChoice::Either => {
            if slot.streams.coin(TABLE, Purpose::Side, 0.5) {
                1.0
            } else {
                -1.0
            }
        }
    };
    let officials = &setup.officials;
    let bonus = slot.streams.coin(TABLE, Purpose::Bonus, officials.bonus_share);
    let release = slot.streams.coin(TABLE, Purpose::ShiftMode, setup.defenders.head.shift_on_release);
    *slot.clocks = Clocks {
        status: Status::Playing,
        possession,
        now: 0.0,
        steps: 0,
        shot_clock: officials.shot_clock_s.map_or(f32::INFINITY, |full| full - officials.clock_used_s),
        in_lane: [0.0; 5],
        guarded: 0.0,
        bonus,
        shift_on_release: release || setup.limits.all_seeing_zone,
        judged_s: [f32::NEG_INFINITY; 5],
        reset_set: false,
        first_chance: true,
        counted: false,
    };
    *slot.tally = empty_tally();
    slot.board.count = 0;
    draw_players(given, slot);
    for lane in 0..PLAYERS {
        let phase = slot.streams.uniform(lane, Purpose::Phase);
        slot.plans.next_s[lane] = phase * 0.1;
        slot.minds.0[lane] = empty_belief();
        slot.minds.0[lane].next_glance = given.team(lane).head.glance_every_s * (0.3 + phase);
    }
    slot.plans.rest = [[0.0; PROGRAMS]; 5];
    slot.plans.defence = [empty_duty(); 5];
    if setup.attack.start == Start::Rebound {
        slot.clocks.shot_clock = min(slot.clocks.shot_clock, officials.shot_clock_rebound_s);
    }
    let holder = usize::from(setup.attack.ball_starts_with);
    open(given, slot, setup.attack.start, holder);
    for lane in 0..5 {
        // Nobody starts his cuts on the same count in every possession.
        let wait = slot.streams.uniform(lane, Purpose::Weight) * 0.6;
        slot.plans.rest[lane] = [wait; PROGRAMS];
    }
    slot.signals.count = 0;
    let at = slot.bodies.at(BALL);
    slot.signals.say(0.0, at, Signal::Start { holder: setup.attack.ball_starts_with });
}

/// Sets the attack up again after a dead ball that it keeps, with the ball in the hands of a guard.
pub fn set_up(given: &Given, slot: &mut Slot<'_>) {
    let starts = usize::from(given.setup.attack.ball_starts_with);
    open(given, slot, Start::Set, if starts < 2 { starts } else { 1 });
}

/// Puts everyone in his place, the ball in the hands of the one who starts.
fn open(given: &Given, slot: &mut Slot<'_>, start: Start, holder: usize) {
    let setup = &*given.setup;
    let side = slot.side.0;
    let opening = Opening::new(setup, start, holder, side);
    let (ball_at, ball_side) = (opening.ball, opening.ball_side);
    let place = shape::place_of(&setup.zone, ball_at, ball_side, 0, 0.0);
    slot.bodies.0 = Default::default();
    for lane in 0..PLAYERS {
        let event = slot.streams.next_event(lane, Purpose::Individual);
        let mut jitter =
            |option| (unit(slot.streams.option_bits(lane, Purpose::Individual, event, option)) - 0.5) * 0.6;
        let off = vec2(jitter(0) * side, jitter(1));
        let luck = if start == Start::Arriving { jitter(2) / 0.6 + 0.5 } else { 0.0 };
        let (at, velocity) = opening.place(setup, lane, luck);
        let at = setup.court.inside(at + off, 0.3);
        slot.bodies.put(lane, at);
        slot.bodies.0.vx[lane] = velocity.x;
        slot.bodies.0.vy[lane] = velocity.y;
        let facing = if attacks(lane) { Vec2::RIM - at } else { ball_at - at };
        let facing = facing.unit_or(vec2(0.0, 1.0));
        slot.bodies.0.fx[lane] = facing.x;
        slot.bodies.0.fy[lane] = facing.y;
        slot.wishes.go(lane, at, 1.0, facing);
    }
    let ball_at = slot.bodies.at(holder);
    slot.bodies.put(BALL, ball_at);
    for lane in BALL..LANES {
        slot.bodies.0.fy[lane] = 1.0;
    }
    start_plans(given, slot, place, ball_side);
    let now = slot.clocks.now;
    slot.clocks.in_lane = [0.0; 5];
    slot.clocks.guarded = 0.0;
    // The hold that begins here is a catch as any other, on its side of the floor.
    slot.tally.add(Measure::Catches, 1);
    slot.tally.reversal_from = if ball_at.x > 1.0 {
        1.0
    } else if ball_at.x < -1.0 {
        -1.0
    } else {
        0.0
    };
    *slot.ball = empty_ball();
    slot.ball.state = BallState::Held { by: holder as u8 };
    slot.ball.caught_s = now;
    slot.ball.ready_s = now + slot.traits.catch_to_release[holder];
    if start != Start::Set {
        // He is in the middle of it: no first look around.
        slot.ball.caught_s = now - given.setup.attackers.head.first_decision_s;
        slot.ball.off_catch = false;
    }
    slot.ball.last_catch = ball_at;
    slot.ball.loss_left = -ln(max(1.0 - slot.streams.uniform(holder, Purpose::Handling), 1e-7));
    let sample =
        Sample { x: slot.bodies.0.px, y: slot.bodies.0.py, vx: slot.bodies.0.vx, vy: slot.bodies.0.vy };
    slot.history.ring = [sample; History::LENGTH];
    slot.history.newest = 0;
    slot.board.post(now, News::Control { by: holder as u8 });
    for lane in 0..PLAYERS {
        let gaze = (ball_at - slot.bodies.at(lane)).unit_or(slot.bodies.facing(lane));
        let mind = &mut slot.minds.0[lane];
        mind.x = sample.x;
        mind.y = sample.y;
        mind.vx = sample.vx;
        mind.vy = sample.vy;
        mind.age = [0.0; LANES];
        mind.gaze = gaze;
        mind.known = slot.board.count;
        mind.ball = ball_at;
        mind.holder = holder as u8;
        mind.in_air = false;
        mind.fooled_until = f32::NEG_INFINITY;
        mind.jumps_until = f32::NEG_INFINITY;
    }
}

fn start_plans(given: &Given, slot: &mut Slot<'_>, place: u8, ball_side: f32) {
    let setup = &*given.setup;
    for lane in 0..5 {
        let home = setup.attack.formation[lane].sided(slot.side.0);
        let plan = &mut slot.plans.attack[lane];
        *plan = Plan {
            home,
            set_place: home,
            step_s: slot.clocks.now,
            start_sign: slot.side.0,
            step_sign: slot.side.0,
            next_open_s: slot.clocks.now,
            ..empty_plan()
        };
        // What he has seen in this possession he still knows after a dead ball.
        let burns = slot.plans.defence[lane].burns;
        slot.plans.defence[lane] = Duty { place, ball_side, place_s: slot.clocks.now, burns, ..empty_duty() };
    }
}

fn draw_players(given: &Given, slot: &mut Slot<'_>) {
    let dt = given.setup.step_s;
    for lane in 0..PLAYERS {
        let team = given.team(lane);
        let event = slot.streams.next_event(lane, Purpose::Individual);
        let mut draw = |option: u8| slot.streams.option_bits(lane, Purpose::Individual, event, option);
        let mut normal = |option: u8| normal_quantile(unit(draw(option)) + 0.5 / 16_777_216.0);
        let (body, head, skill) = (&team.body, &team.head, &team.skill);
        let sprint = body.sprint_m_s + clamp(normal(0), -2.5, 2.5) * body.sprint_spread_m_s;
        let reach = clamp(normal(1), -2.5, 2.5) * body.reach_spread_m;
        let reaction = head.reaction_s + clamp(normal(2), -2.0, 2.5) * head.reaction_spread_s;
        let shooting = clamp(normal(3), -2.5, 2.5) * skill.shooting_spread;
        let quick = unit(draw(4));
        let traits = &mut *slot.traits;
        traits.gait.set(lane, &gait_of(body, max(sprint, 0.1)), dt);
        traits.radius[lane] = body.radius_m;
        traits.inv_mass[lane] = 1.0 / (body.mass_kg * body.strength);
        traits.braced_inv_mass[lane] = 1.0 / (body.mass_kg * body.strength * body.brace_factor);
        // Half a decision period is taken off: decisions come every 0.1 s.
        traits.reaction[lane] = max(reaction - 0.05, 0.0);
        let reaches = body.arm_reach_m > 0.0;
        traits.arm[lane] = if reaches { max(body.arm_reach_m + reach * 0.5, 0.0) } else { 0.0 };
        traits.lunge[lane] = if reaches { max(body.lunge_reach_m + reach * 0.5, 0.0) } else { 0.0 };
        traits.standing_reach[lane] = body.standing_reach_m + reach;
        let role = if attacks(lane) { given.setup.attack.role_shooting[lane] } else { 0.0 };
        traits.twos[lane] = shooting + role;
        let posts = if POSTS.contains(&lane) { skill.shot.post_three } else { 0.0 };
        traits.threes[lane] = shooting + role + posts;
        let (soon, late) = skill.catch_to_release_s;
        traits.catch_to_release[lane] = soon + (late - soon) * quick;
    }
}
