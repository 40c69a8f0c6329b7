//! Open looks that occur: a holder in range who could release now with nobody within 1.22 m.

use super::{IN_RANGE_POINTS, OPEN_M, Seen};
use crate::components::{BallState, Tally};
use crate::lanes::DEFENCE;
use crate::math::min;
use crate::measures::Measure as M;
use crate::read::make_chance;
use crate::read::value::FREE_M;

/// Counts an open look that occurs in this step, taken or not.
pub fn count(seen: &Seen<'_>, tally: &mut Tally) {
    let BallState::Held { by } = seen.ball.state else { return };
    let by = usize::from(by);
    // Feet set after the catch, or a gather after the first dribble: then he could release at any moment.
    let ready = seen.clocks.now >= seen.ball.ready_s;
    if !ready || tally.values[M::OpenLookAvailable as usize] != 0 {
        return;
    }
    let at = seen.bodies.at(by);
    let mut least = f32::INFINITY;
    for lane in DEFENCE {
        least = min(least, (seen.bodies.at(lane) - at).len2());
    }
    let setup = &seen.given.setup;
    let skill = &setup.attackers.skill.shot;
    let (chance, points) =
        make_chance(&setup.court, skill, seen.traits.shooting[by], at, FREE_M, seen.ball.off_catch);
    if least >= OPEN_M * OPEN_M && chance * points >= IN_RANGE_POINTS {
        tally.flag(M::OpenLookAvailable);
        tally.real(M::TimeToOpenLook, f64::from(seen.clocks.now));
    }
}
