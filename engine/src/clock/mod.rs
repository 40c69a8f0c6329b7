//! Stage 1, `clock`: time goes on, and what only time decides is called.

use crate::random::Streams;
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::slots::{ATTACK, BALL};
use crate::start;
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// Officials let a player who is leaving the lane go this much longer, s. (common practice, no source)
const LENIENCE_S: f32 = 0.3;

/// Advances the clocks and calls violations of time; sets up again after a dead ball.
pub fn clock(
    given: Res<Given>,
    mut slots: Query<(
        (&mut Clocks, &mut Bodies, &mut Traits, &mut History, &mut Minds, &mut Board, &mut Ball),
        (&mut Plans, &mut Wishes, &mut Signals, &mut Tally, &mut Side, &mut Streams),
    )>,
) {
    let dt = given.setup.step_s;
    for (
        (mut clocks, mut bodies, mut traits, mut history, mut minds, mut board, mut ball),
        (mut plans, mut wishes, mut signals, mut tally, mut side, mut streams),
    ) in &mut slots
    {
        if clocks.status != Status::Playing {
            continue;
        }
        signals.count = 0;
        clocks.steps += 1;
        // A product rather than a sum: no drift over a possession.
        clocks.now = clocks.steps as f32 * dt;
        if clocks.reset_set {
            clocks.reset_set = false;
            let mut slot = start::Slot {
                clocks: &mut clocks,
                bodies: &mut bodies,
                traits: &mut traits,
                history: &mut history,
                minds: &mut minds,
                board: &mut board,
                ball: &mut ball,
                plans: &mut plans,
                wishes: &mut wishes,
                signals: &mut signals,
                tally: &mut tally,
                side: &mut side,
                streams: &mut streams,
            };
            start::set_up(&given, &mut slot);
        }
        violations(&given, dt, &mut clocks, &bodies, &ball, &mut signals);
    }
}

fn violations(
    given: &Given,
    dt: f32,
    clocks: &mut Clocks,
    bodies: &Bodies,
    ball: &Ball,
    signals: &mut Signals,
) {
    let officials = &given.setup.officials;
    let controlled = matches!(ball.state, BallState::Held { .. } | BallState::Pass(_));
    if controlled || matches!(ball.state, BallState::Loose { .. }) {
        clocks.shot_clock -= dt;
        if clocks.shot_clock <= 0.0 {
            return turnover(clocks, bodies, signals, TurnoverKind::ShotClock, holder_or_last(ball));
        }
    }
    if officials.shot_clock_s.is_none() && clocks.now >= officials.cap_s {
        return end(clocks, signals, bodies, Outcome::Expired);
    }
    let holder = match ball.state {
        BallState::Held { by } => Some(usize::from(by)),
        _ => None,
    };
    for lane in ATTACK {
        if controlled && given.setup.court.in_lane(bodies.at(lane)) {
            clocks.in_lane[lane] += dt;
        } else {
            clocks.in_lane[lane] = 0.0;
        }
        let trying = holder == Some(lane) && !matches!(ball.handling, Handling::Hold);
        if clocks.in_lane[lane] > officials.three_seconds_s + LENIENCE_S && !trying {
            return turnover(clocks, bodies, signals, TurnoverKind::ThreeSeconds, lane as u8);
        }
    }
    let Some(limit) = officials.closely_guarded_s else { return };
    if let Some(lane) = holder {
        let close = bodies.defended(bodies.at(lane), officials.closely_guarded_m);
        // Before the first dribble whoever shifts his feet still holds it.
        let dribbles = !ball.off_catch && bodies.velocity(lane).len2() > 0.25;
        clocks.guarded = if close && !dribbles { clocks.guarded + dt } else { 0.0 };
        if clocks.guarded > limit {
            turnover(clocks, bodies, signals, TurnoverKind::FiveSeconds, lane as u8);
        }
    } else {
        clocks.guarded = 0.0;
    }
}

fn holder_or_last(ball: &Ball) -> u8 {
    match ball.state {
        BallState::Held { by } => by,
        BallState::Pass(flight) => flight.from,
        _ => 0,
    }
}

/// Ends the possession.
pub fn end(clocks: &mut Clocks, signals: &mut Signals, bodies: &Bodies, outcome: Outcome) {
    if clocks.status == Status::Playing {
        clocks.status = Status::Done(outcome);
        signals.say(clocks.now, bodies.at(BALL), Signal::End { outcome });
    }
}

/// Ends the possession by a turnover.
pub fn turnover(clocks: &mut Clocks, bodies: &Bodies, signals: &mut Signals, kind: TurnoverKind, by: u8) {
    if clocks.status == Status::Playing {
        signals.say(clocks.now, bodies.at(usize::from(by)), Signal::Turnover { kind, by });
        end(clocks, signals, bodies, Outcome::Turnover);
    }
}
