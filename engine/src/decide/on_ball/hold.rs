//! Waiting: keeping the ball for something better, and where its holder goes meanwhile.

use super::candidate::{Action, Thought, Weighed};
use super::drive::ways::goal;
use super::{Hands, licence, penalties, put_on_floor};
use crate::decide::{View, nearest_defender, three_seconds};
use crate::law::conduct::holding::{
    BRINGS_UP_FROM_M, BRINGS_UP_M_S, DRIBBLES_AFTER_S, DRIBBLES_FROM_M, FASTER_PER_M, GUARDED_HURRIES_S,
    LEAST_MOVE_M_S, LEAVES_LANE_EARLY_S, LEAVES_LANE_M_S, OFF_PLACE_M, ON_THE_SPOT_M_S, OPEN_SIDE_M,
    PLACE_INSIDE_M, PRESSED_WITHIN_M, PROBES_ASIDE_M, PROBES_M_S, STANDS_WITHIN_M, STEP_INSIDE_M,
    STEPS_BACK_M, STEPS_OUT_M_S, WAITING_LEFT_SHARE, WAITS_AHEAD_S,
};
use crate::math::{Vec2, clamp, min};
use crate::slots::DEFENCE;
use crate::state::{Handling, Hold, Way};

/// Waiting costs a little of the clock, and the zone settles. To one who dribbles at a team-mate the next dribble is
/// what waiting is to one who stands.
pub(super) fn candidate(t: &Thought<'_>, hold: &Hold) -> Option<Weighed> {
    if matches!(t.handling, Handling::DribbleAt(_)) {
        return None;
    }
    let little = counted_out(t) || hold.dribble.up_with_it;
    let waiting = t.continuation(t.here, WAITS_AHEAD_S, t.moved, t.held_s + WAITS_AHEAD_S)
        * if little { WAITING_LEFT_SHARE } else { 1.0 };
    let kept = if t.untaught() || licence::lost(t) { penalties::kept_too_long(t.held_s) } else { 0.0 };
    let value_points = waiting - kept;
    Some(Weighed { action: Action::Hold, value_points, chance: 1.0 })
}

/// A count that runs against him (in the lane, closely guarded) leaves him little to wait for.
fn counted_out(t: &Thought<'_>) -> bool {
    let closely_guarded_s = t.view.given.setup.officials.closely_guarded_s;
    t.lane_count.is_some_and(|(left, needs)| left < needs)
        || closely_guarded_s.is_some_and(|limit| t.view.clock.guarded > limit - GUARDED_HURRIES_S)
}

/// Keeps the ball: a perimeter player dribbles to a better angle, never into a defender; a post stands.
pub(super) fn carry_out(view: &View<'_>, h: &mut Hands<'_>) {
    h.hold.handling = Handling::Hold;
    let here = view.me.at;
    let setup = &view.given.setup;
    if let Some((left, needs)) = three_seconds::count(view)
        && left < needs + LEAVES_LANE_EARLY_S
    {
        // He dribbles out of the lane.
        leave(view, h, three_seconds::exit(view, here), LEAVES_LANE_M_S);
    } else if setup.court.behind_board(here) {
        // He steps out from under the board, to where he could shoot.
        leave(view, h, goal(view.side, here, Way::Straight), STEPS_OUT_M_S);
    } else if here.len() < STANDS_WITHIN_M {
        stand(view, h);
    } else {
        probe(view, h);
    }
}

/// Dribbles to where he is out of trouble.
fn leave(view: &View<'_>, h: &mut Hands<'_>, to: Vec2, top_m_s: f32) {
    h.intent.go(to, top_m_s, to_rim(view));
    put_on_floor(view, h.hold);
}

/// Stands with the ball and faces the rim.
pub(super) fn stand(view: &View<'_>, h: &mut Hands<'_>) {
    h.intent.go(view.me.at, ON_THE_SPOT_M_S, to_rim(view));
    h.intent.brace();
}

/// Goes back to his place if he is off it, else a probing step toward the more open side.
fn probe(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    let court = &view.given.setup.court;
    let place = court.inside(h.plan.home, PLACE_INSIDE_M);
    let to = if here.distance(place) > OFF_PLACE_M { place } else { open_side(view, place) };
    let most = if brings_up(view, h) { BRINGS_UP_M_S } else { PROBES_M_S };
    let top = clamp(LEAST_MOVE_M_S + FASTER_PER_M * here.distance(to), LEAST_MOVE_M_S, most);
    h.intent.go(court.inside(to, STEP_INSIDE_M), top, to_rim(view));
    if here.distance(to) > DRIBBLES_FROM_M && view.clock.now - h.hold.caught_s > DRIBBLES_AFTER_S {
        put_on_floor(view, h.hold);
    }
}

/// A step to the more open side of his place, and back from a defender who presses, m.
fn open_side(view: &View<'_>, place: Vec2) -> Vec2 {
    let here = view.me.at;
    let out = (here - Vec2::RIM).unit_or(view.mind.gaze);
    let along = out.quarter() * view.side;
    let room = |at: Vec2| DEFENCE.into_iter().map(|d| (view.mind.at(d) - at).len()).fold(OPEN_SIDE_M, min);
    let (one, other) = (place + along * PROBES_ASIDE_M, place - along * PROBES_ASIDE_M);
    let pick = if room(one) >= room(other) { one } else { other };
    let (_, space) = nearest_defender(view.mind, here);
    if space < PRESSED_WITHIN_M { pick + out * STEPS_BACK_M } else { pick }
}

/// Whether he is still bringing the ball up to his place.
pub(super) fn brings_up(view: &View<'_>, h: &Hands<'_>) -> bool {
    view.me.slot.is_guard()
        && matches!(h.hold.handling, Handling::Hold)
        && view.me.at.y - h.plan.home.y > BRINGS_UP_FROM_M
}

/// Toward the rim, unit vector.
pub(super) fn to_rim(view: &View<'_>) -> Vec2 {
    (Vec2::RIM - view.me.at).unit_or(view.mind.gaze)
}
