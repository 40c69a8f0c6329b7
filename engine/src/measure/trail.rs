//! Notes the states that a possession goes through, where its returns are asked for.

use super::Seen;
use crate::math::max;
use crate::measures::Measure as M;
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::setup::{State, miss_of};
use crate::state::returns::Returns;
use crate::state::{BallState, Handling, Signal, Tally};

/// Takes in one signal, after the measures have counted it.
pub fn signal(signal: Signal, tally: &mut Tally) {
    let expected = tally.expected;
    let trail = &mut tally.trail;
    match signal {
        Signal::Shot { metres, three, .. } => trail.shot = Some(miss_of(three, metres)),
        // A foul on the shot: what follows are free throws.
        Signal::Made { .. } | Signal::FreeThrows { .. } => trail.shot = None,
        Signal::Rebound { .. } => trail.miss(expected),
        Signal::Turnover { kind: TurnoverKind::Intercepted, .. } => trail.lose(expected),
        _ => {}
    }
}

/// Takes in one step.
pub fn step(seen: &Seen<'_>, tally: &mut Tally) {
    let BallState::Held { by } = seen.ball.state else { return };
    if !by.attacks() || seen.hold.handling != Handling::Hold {
        return;
    }
    let at = seen.bodies.at(by);
    let state = State {
        place: State::place_of(&seen.given.setup.zone.ball_places, at),
        moved: seen.progress.moved,
        held_s: max(seen.clocks.now - seen.hold.caught_s, 0.0),
        left_s: seen.clocks.shot_clock,
    };
    let expected = tally.expected;
    tally.trail.meet(state.entry(), expected);
}

/// Takes in the end.
pub fn close(tally: &mut Tally, outcome: Outcome, returns: &mut Returns) {
    if outcome == Outcome::Fault {
        return;
    }
    let expected = tally.expected;
    tally.trail.miss(expected);
    tally.trail.close(tally.values[M::ExpectedNetPoints as usize], returns);
}
