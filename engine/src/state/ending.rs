//! The end of a possession.

use super::{Bodies, Clocks, Signal, Signals, Status};
use crate::record::{Outcome, TurnoverKind};
use crate::slots::Slot;

/// Ends the possession.
pub fn end(clocks: &mut Clocks, signals: &mut Signals, bodies: &Bodies, outcome: Outcome) {
    if clocks.status == Status::Playing {
        clocks.status = Status::Done(outcome);
        signals.say(clocks.now, bodies.ball(), Signal::End { outcome });
    }
}

/// Ends the possession by a turnover.
pub fn turnover(clocks: &mut Clocks, bodies: &Bodies, signals: &mut Signals, kind: TurnoverKind, by: Slot) {
    if clocks.status == Status::Playing {
        signals.say(clocks.now, bodies.at(by), Signal::Turnover { kind, by });
        end(clocks, signals, bodies, Outcome::Turnover);
    }
}
