//! Open looks that occur: a holder in range who could release now with nobody near (4 ft).

use super::Seen;
use crate::law::shot::{FREE_M, IN_RANGE_POINTS, OPEN_M, make_chance};
use crate::measures::Measure as M;
use crate::state::{BallState, Look, Tally};

/// Counts an open look that occurs in this step, taken or not.
pub fn count(seen: &Seen<'_>, tally: &mut Tally) {
    if !ready(seen) || tally.values[M::OpenLookAvailable as usize] != 0 {
        return;
    }
    if of(seen).is_some_and(|look| look.open) {
        tally.flag(M::OpenLookAvailable);
        tally.real(M::TimeToOpenLook, f64::from(seen.clocks.now));
    }
}

/// Feet set after the catch, or a gather after the first dribble: then he could release at any moment.
fn ready(seen: &Seen<'_>) -> bool {
    seen.clocks.now >= seen.hold.ready_s
}

/// The look of the man with the ball.
pub fn of(seen: &Seen<'_>) -> Option<Look> {
    let BallState::Held { by } = seen.ball.state else { return None };
    let at = seen.bodies.at(by);
    let (nearest, space_m) = seen.bodies.nearest_defender(at);
    let setup = &seen.given.setup;
    let skill = &setup.player(by).skill.shot;
    let (chance, points) =
        make_chance(&setup.court, skill, seen.traits.shooter(by), at, FREE_M, seen.hold.off_catch);
    let (ready, in_range) = (ready(seen), chance * points >= IN_RANGE_POINTS);
    Some(Look {
        space_m,
        nearest,
        free_points: chance * points,
        in_range,
        ready,
        open: ready && in_range && space_m >= OPEN_M,
    })
}
