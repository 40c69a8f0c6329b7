//! Starts a possession in a slot: draws its players, puts everyone in his place, and lets everyone know it.

use crate::components::*;
use crate::given::{Given, gait_of};
use crate::lanes::{BALL, LANES, PLAYERS, attacks};
use crate::math::{Vec2, clamp, ln, max, vec2};
use crate::measures::Measure;
use crate::random::{Purpose, Streams, TABLE, normal_quantile, unit};
use crate::read::shape;
use crate::setup::{Setup, SideChoice};

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

/// Sign of the side that a place is on; the middle counts as the given side.
pub fn side_of(at: Vec2, side: f32) -> f32 {
    if at.x * side < 0.0 { -side } else { side }
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
    set_up(given, slot);
    for lane in 0..5 {
        // Nobody starts his cuts on the same count in every possession.
        let wait = slot.streams.uniform(lane, Purpose::Weight) * 0.6;
        slot.plans.rest[lane] = [wait; PROGRAMS];
    }
    slot.signals.count = 0;
    let at = slot.bodies.at(BALL);
    slot.signals.say(0.0, at, Signal::Start { holder: setup.attack.ball_starts_with });
}

/// Where the ten players stand when the attack is set, attackers first, defenders by column, the rover's side being
/// +x, m. In a possession each is up to 0.3 m off it.
pub fn starting_places(setup: &Setup) -> [Vec2; 10] {
    let home = &setup.attack.formation;
    let ball = home[usize::from(setup.attack.ball_starts_with)];
    let side = side_of(ball, 1.0);
    let anchors = shape::anchors(&setup.zone, ball, side, false);
    core::array::from_fn(|lane| match lane {
        0..5 => home[lane],
        _ => anchors[shape::column_of(&setup.zone, lane - 5, side > 0.0)],
    })
}

/// Puts everyone in his place with the ball in the hands of the guard who starts; used at the start and
/// after a dead ball that the attack keeps.
pub fn set_up(given: &Given, slot: &mut Slot<'_>) {
    let setup = &*given.setup;
    let side = slot.side.0;
    let holder = usize::from(setup.attack.ball_starts_with);
    let ball_at = setup.attack.formation[holder].sided(side);
    // A ball in the middle counts as on the rover's side: the rule must mirror.
    let ball_side = side_of(ball_at, side);
    let place = shape::place_of(&setup.zone, ball_at, ball_side, 0, 0.0);
    slot.bodies.0 = Default::default();
    for (lane, stands) in starting_places(setup).into_iter().enumerate() {
        let event = slot.streams.next_event(lane, Purpose::Individual);
        let mut jitter =
            |option| (unit(slot.streams.option_bits(lane, Purpose::Individual, event, option)) - 0.5) * 0.6;
        let off = vec2(jitter(0) * side, jitter(1));
        let at = setup.court.inside(stands.sided(side) + off, 0.3);
        slot.bodies.put(lane, at);
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
        slot.plans.defence[lane] = Duty { place, ball_side, ..empty_duty() };
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
        traits.shooting[lane] = shooting;
        let (soon, late) = skill.catch_to_release_s;
        traits.catch_to_release[lane] = soon + (late - soon) * quick;
    }
}
