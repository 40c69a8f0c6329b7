//! Travelling: a hold's luck with the feet is drawn at the catch and spent where feet go wrong.
//!
//! On stopping after a catch on the run, on the first dribble, on the gather of a shot off the dribble, on a step
//! round a man to pass or to fake. A man who catches standing and passes on does nothing that could be called. The
//! level's rate is one of all catches; each moment spends so much of it that over all bundled attacks and zones the
//! mean is about that rate: one who runs and drives travels more often than the mean, one who stands and passes less.

use super::Court;
use crate::random::Purpose;
use crate::slots::Slot;
use crate::state::{Feet, Handling};

/// Nothing is called sooner after a catch than this, s: a foot has to come down first. (assumed)
const FIRST_S: f32 = 0.25;
/// Who catches faster than this catches on the run, m/s. (assumed)
const ON_THE_RUN_M_S: f32 = 2.0;
/// Within this distance a man is stepped round, centre to centre, m. (assumed)
const CLOSE_M: f32 = 1.5;
/// What each moment costs, in mean catches. (assumed: in these proportions)
const STOP: f32 = 1.5;
const START: f32 = 1.5;
const GATHER: f32 = 1.1;
const PIVOT: f32 = 0.75;

/// A catch: a new luck, and what may come of this hold.
pub fn caught(c: &mut Court<'_>, by: Slot, time_s: f32) {
    let rate = c.given.setup.attackers.skill.travel_per_catch;
    let luck = c.streams.uniform(by, Purpose::Travel);
    c.hold.steps_left = if rate > 0.0 { luck / rate } else { f32::INFINITY };
    let runs = c.bodies.velocity(by).len2() > ON_THE_RUN_M_S * ON_THE_RUN_M_S;
    c.hold.feet = Feet { from_s: time_s + FIRST_S, stops: runs, starts: true, gathers: true, pivots: true };
}

/// Whether the holder travels in this step.
pub fn travels(c: &mut Court<'_>, by: Slot) -> bool {
    if c.clocks.now < c.hold.feet.from_s {
        return false;
    }
    let dribbled = !c.hold.off_catch;
    let shoots = matches!(c.hold.handling, Handling::Shooting(_));
    let turns = matches!(c.hold.handling, Handling::Passing { .. } | Handling::Faking(_))
        && c.bodies.defended(c.bodies.at(by), CLOSE_M);
    let feet = &mut c.hold.feet;
    let mut spent = 0.0;
    for (open, now, cost) in [
        (&mut feet.stops, true, STOP),
        (&mut feet.starts, dribbled, START),
        (&mut feet.gathers, dribbled && shoots, GATHER),
        (&mut feet.pivots, turns, PIVOT),
    ] {
        if *open && now {
            *open = false;
            spent += cost;
        }
    }
    c.hold.steps_left -= spent;
    c.hold.steps_left < 0.0
}
