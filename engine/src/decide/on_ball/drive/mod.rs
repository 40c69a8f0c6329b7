//! Driving at the rim, and post moves: when a drive is refused, what it is worth, keeping it going and its end.
//!
//! [`ways`]: where a drive can lead, and who stands in its way. [`race`]: who gets there first.

mod race;
pub(super) mod ways;

use super::candidate::{Action, Thought, Weighed};
use super::hold::stand;
use super::{Hands, fakes, put_on_floor};
use crate::decide::{View, value};
use crate::law::conduct::driving::{
    ARRIVED_WITHIN_M, FIRST_STEP_S, LEAST_DRIVE_M, LONGEST_DRIVE_M, OFF_BALANCE_S, POST_MOVE_GAINS_M,
    POST_MOVE_LEAST_S, POST_MOVE_LONGEST_S, POST_MOVE_M, SPACE_AT_RIM_M, STOPPED_AFTER_S, STOPPED_AT_SHARE,
    STOPPED_COST_POINTS, WAY_OPEN_CHANCE,
};
use crate::setup::{Lane, Moved};
use crate::state::{Dribble, Handling, Hold, Signal, Way};
use ways::{Route, blocked, goal, squarely};

/// The drive by the best way that he has, where a plan's lane or else the attack's habits let him; notes that way.
pub(super) fn candidate(t: &Thought<'_>, hold: &mut Hold, lane: Option<Lane>) -> Option<Weighed> {
    let (route, through) = best_route(t, &hold.dribble);
    if refused(t, hold, route, lets_him(t, hold, lane, through)) {
        return None;
    }
    hold.dribble.way = route.way;
    hold.dribble.corner = route.corner;
    Some(Weighed { action: Action::Drive, value_points: worth(t, route.way, through), chance: through })
}

/// The best way to the rim and its chance: a straight one, or off a screen. A driver keeps to his way round a
/// screener until he has turned the corner.
fn best_route(t: &Thought<'_>, dribble: &Dribble) -> (Route, f32) {
    let off_screen = |corner| Route { way: Way::OffScreen, corner };
    if t.handling == Handling::Drive(Way::OffScreen) {
        return (off_screen(dribble.corner), race::chance_round(t.view, dribble.corner));
    }
    let (way, through) = race::best_straight(t.view);
    if t.handling == Handling::Hold
        && let Some(corner) = ways::corner(t.view)
    {
        let round = race::chance_round(t.view, corner);
        if round > through {
            return (off_screen(corner), round);
        }
    }
    (Route { way, corner: dribble.corner }, through)
}

/// Whether a plan's lane, or where there is none a habit, lets him start a drive from outside.
fn lets_him(t: &Thought<'_>, hold: &Hold, lane: Option<Lane>, through: f32) -> bool {
    let leave = &hold.leave;
    let off_balance = t.view.clock.now - hold.rushed_s < OFF_BALANCE_S;
    let open = through > WAY_OPEN_CHANCE;
    match lane {
        None => leave.drive || leave.blow_by && off_balance || leave.open_drive && open,
        Some(Lane::Open) => leave.drive || open,
        Some(Lane::FastCloseout) => off_balance,
        Some(Lane::Any) => true,
    }
}

/// Whether he does not think of a drive at all: he is too near or too far, nothing lets him, a post move has been
/// stopped already, or a man stands in the way.
fn refused(t: &Thought<'_>, hold: &Hold, route: Route, let_go: bool) -> bool {
    let (view, here) = (t.view, t.here);
    let far = here.len();
    let in_post = far < POST_MOVE_M;
    let too_near = far <= LEAST_DRIVE_M && !view.given.setup.court.behind_board(here);
    let lets_him = let_go || t.driving() || in_post;
    // Nobody starts a drive from outside into a man who already stands in the way.
    let walled = !t.driving() && !in_post && {
        let to = route.leads_to(view);
        (route.way != Way::OffScreen && squarely(view.mind, here, to)) || blocked(view, to)
    };
    too_near || far >= LONGEST_DRIVE_M || !lets_him || walled || hold.dribble.committed
}

/// What a drive is worth that gets through with this chance, points.
fn worth(t: &Thought<'_>, way: Way, through: f32) -> f32 {
    let (view, here) = (t.view, t.here);
    let end = goal(view.side, here, way);
    let at_rim = value::shot_with_space(view, end, SPACE_AT_RIM_M);
    // Stopped on the way: from the post he still gets a shot off with the defender on him; from outside
    // he has drawn help and must find someone.
    let stopped_at = here.toward(end, STOPPED_AT_SHARE);
    let stopped = if here.len() < POST_MOVE_M {
        let gather_s = view.given.player(view.me.slot).skill.gather_s;
        value::shot(view, view.me.slot, stopped_at, gather_s, false).points
    } else {
        t.continuation(stopped_at, STOPPED_AFTER_S, Moved::In, 0.0) - STOPPED_COST_POINTS
    };
    through * at_rim + (1.0 - through) * stopped
}

/// Sets off, after a shown shot where a defender comes too fast, or keeps going.
pub(super) fn carry_out(view: &View<'_>, h: &mut Hands<'_>, driving: bool) {
    let here = view.me.at;
    if !driving && here.len() > POST_MOVE_M && fakes::show_shot(view, h) {
        stand(view, h);
        return;
    }
    if !driving {
        h.notes.add(view.clock.now, here, Signal::DriveStart { by: view.me.slot });
        h.hold.dribble.since_s = view.clock.now;
        h.hold.dribble.from = here;
    }
    h.hold.handling = Handling::Drive(h.hold.dribble.way);
    put_on_floor(view, h.hold);
    steer(view, h);
}

/// Goes on with it; false where he thinks anew: where it is over, and from outside once the first step is done. A
/// post move is carried through.
pub(super) fn goes_on(view: &View<'_>, h: &mut Hands<'_>, way: Way) -> bool {
    let here = view.me.at;
    let in_post = here.len2() < POST_MOVE_M * POST_MOVE_M;
    let spent_s = view.clock.now - h.hold.dribble.since_s;
    if way == Way::OffScreen && ways::turned(here, h.hold.dribble.corner) {
        // Round the screener: now for the rim.
        h.hold.dribble.way = Way::Straight;
        h.hold.handling = Handling::Drive(Way::Straight);
    }
    let to = Route::of(&h.hold.dribble).leads_to(view);
    // Under the board there is nothing to go up for.
    let arrived = here.distance(to) < ARRIVED_WITHIN_M && !view.given.setup.court.behind_board(here);
    let stopped = blocked(view, to) && (!in_post || spent_s > POST_MOVE_LEAST_S);
    if arrived || stopped || (in_post && spent_s > POST_MOVE_LONGEST_S) {
        end(view, h, in_post, stopped);
        return false;
    }
    if !in_post && spent_s >= FIRST_STEP_S {
        return false;
    }
    steer(view, h);
    true
}

/// Ends it.
fn end(view: &View<'_>, h: &mut Hands<'_>, in_post: bool, stopped: bool) {
    let here = view.me.at;
    h.hold.handling = Handling::Hold;
    put_on_floor(view, h.hold);
    if stopped && !in_post {
        // Once stopped he does not try it again on the same hold.
        h.hold.leave.drive = false;
        h.hold.leave.blow_by = false;
    }
    // Near the rim he has got as far as he gets: up with it, or out to whoever is open.
    h.hold.dribble.committed = in_post;
    h.hold.dribble.up_with_it = in_post && here.distance(h.hold.dribble.from) > POST_MOVE_GAINS_M;
    h.notes.add(view.clock.now, here, Signal::DriveStop { by: view.me.slot });
}

/// Keeps a drive going toward where it leads.
fn steer(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    let to = Route::of(&h.hold.dribble).leads_to(view);
    let body = &view.given.player(view.me.slot).body;
    let top = body.sprint_m_s * body.dribble_share;
    h.intent.go(to, top, (to - here).unit_or(view.mind.gaze));
    h.intent.run_through();
}
