//! Travelling: a hold's allowance for footwork is drawn at the catch and spent where feet go wrong.
//!
//! On stopping after a catch on the run, on the first dribble, on the gather of a shot off the dribble, on a step
//! round a man to pass or to fake. A man who catches standing and passes on does nothing that could be called. The
//! level's rate is one of all catches; each moment spends so much of it that over all bundled attacks and zones the
//! mean is about that rate: one who runs and drives travels more often than the mean, one who stands and passes less.

use super::Play;
use crate::law::footwork::{
    FIRST_CALL_S, FIRST_DRIBBLE_COST, GATHER_COST, ON_THE_RUN_M_S, PIVOT_COST, STEPS_ROUND_M, STOP_COST,
};
use crate::random::Purpose;
use crate::slots::Slot;
use crate::state::{Feet, Handling};

/// The allowance of a hold that begins with a catch, in mean catches.
pub fn allowance(c: &mut Play<'_>, by: Slot) -> f32 {
    let rate = c.given.player(by).skill.travel_per_catch;
    let drawn = c.streams.uniform(by, Purpose::Travel);
    if rate > 0.0 { drawn / rate } else { f32::INFINITY }
}

/// What may go wrong on it.
pub fn at_catch(c: &Play<'_>, by: Slot, time_s: f32) -> Feet {
    let runs = c.bodies.velocity(by).len2() > ON_THE_RUN_M_S * ON_THE_RUN_M_S;
    Feet { from_s: time_s + FIRST_CALL_S, stops: runs, starts: true, gathers: true, pivots: true }
}

/// Whether the holder travels in this step.
pub fn travels(c: &mut Play<'_>, by: Slot) -> bool {
    if c.clocks.now < c.allowance.feet.from_s {
        return false;
    }
    let dribbled = !c.hold.off_catch;
    let shoots = matches!(c.hold.handling, Handling::Shooting(_));
    let turns = matches!(c.hold.handling, Handling::Passing { .. } | Handling::Faking(_))
        && c.bodies.defended(c.bodies.at(by), STEPS_ROUND_M);
    let feet = &mut c.allowance.feet;
    let mut spent = 0.0;
    for (open, now, cost) in [
        (&mut feet.stops, true, STOP_COST),
        (&mut feet.starts, dribbled, FIRST_DRIBBLE_COST),
        (&mut feet.gathers, dribbled && shoots, GATHER_COST),
        (&mut feet.pivots, turns, PIVOT_COST),
    ] {
        if *open && now {
            *open = false;
            spent += cost;
        }
    }
    c.allowance.steps_left -= spent;
    c.allowance.steps_left < 0.0
}
