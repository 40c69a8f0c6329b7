//! Dribbling at a team-mate, who vacates: moves the ball and the zone without a pass.
//!
//! Weighed like everything else: worth what a pass to that place would be as far as the zone's shift goes, less
//! the clock it costs and the chance that a hand near the ball takes it on the way.

use super::candidate::{Action, Thought, Weighed};
use super::hold::to_rim;
use super::{Hands, put_on_floor};
use crate::decide::{View, nearest_defender};
use crate::law::conduct::choice::STRETCH_OF_THOUGHT_S;
use crate::law::conduct::dribbling::{
    DEFENDER_IN_WAY_M, DRIBBLE_AT_M_S, HAND_NEAR_M, LAST_SEEN_WITHIN_S, LONGEST_DRIBBLE_AT_M, LOST_IN_OPEN,
    LOST_MOST, LOST_NEAR_HAND, SHORTEST_DRIBBLE_AT_M, THERE_WITHIN_M,
};
use crate::math::{Vec2, min, to_segment};
use crate::setup::Moved;
use crate::slots::{DEFENCE, GUARDS, Slot};
use crate::state::{Belief, Handling, Hold};

/// A dribble at the other guard, or going on with it; notes where it leads.
pub(super) fn candidate(t: &Thought<'_>, hold: &mut Hold) -> Option<Weighed> {
    let (view, here) = (t.view, t.here);
    let (mate, from) = match t.handling {
        Handling::DribbleAt(mate) => (mate, hold.dribble.from),
        _ => {
            hold.dribble.to = begins(t, hold)?;
            if blocked(view.mind, here, hold.dribble.to) {
                return None;
            }
            (other_guard(view.me.slot), here)
        }
    };
    let to = hold.dribble.to;
    let span_s = here.distance(to) / DRIBBLE_AT_M_S;
    let skill = &view.given.player(view.me.slot).skill;
    let hand_near = nearest_defender(view.mind, here).1 < HAND_NEAR_M;
    let easily = if hand_near { LOST_NEAR_HAND } else { LOST_IN_OPEN };
    let lost = min(easily * skill.handling_loss_per_s * span_s, LOST_MOST);
    let kept = t.continuation(to, span_s, Moved::of(from, to), 0.0);
    let after_loss = view.given.setup.attackers.skill.continuation.after_loss;
    let value_points = (1.0 - lost) * kept + lost * after_loss;
    Some(Weighed { action: Action::DribbleAt(mate), value_points, chance: 1.0 - lost })
}

/// Where a new dribble at the other guard would lead, if he may and would begin one, m.
fn begins(t: &Thought<'_>, hold: &Hold) -> Option<Vec2> {
    let mate = other_guard(t.view.me.slot);
    let there = t.view.mind.at(mate);
    let may = hold.leave.dribble_at && t.view.me.slot.is_guard() && t.handling == Handling::Hold;
    let seen = t.view.mind.age[mate] <= LAST_SEEN_WITHIN_S;
    let fits = (SHORTEST_DRIBBLE_AT_M..LONGEST_DRIBBLE_AT_M).contains(&t.here.distance(there));
    (may && seen && fits).then_some(there)
}

/// The guard whom a guard may dribble at.
fn other_guard(me: Slot) -> Slot {
    if me == GUARDS[0] { GUARDS[1] } else { GUARDS[0] }
}

/// Takes the next dribble.
pub(super) fn carry_out(view: &View<'_>, h: &mut Hands<'_>, to: Slot) {
    if !matches!(h.hold.handling, Handling::DribbleAt(_)) {
        h.hold.dribble.from = view.me.at;
        h.hold.dribble.since_s = view.clock.now;
        h.hold.leave.dribble_at = false;
    }
    h.hold.handling = Handling::DribbleAt(to);
    put_on_floor(view, h.hold);
    h.intent.go(h.hold.dribble.to, DRIBBLE_AT_M_S, to_rim(view));
}

/// Goes on with it for one stretch of thought; false once he has arrived, is shut off or thinks anew.
pub(super) fn goes_on(view: &View<'_>, h: &mut Hands<'_>, to: Slot) -> bool {
    let here = view.me.at;
    let there = h.hold.dribble.to;
    if here.distance(there) <= THERE_WITHIN_M || blocked(view.mind, here, there) {
        end(view, h);
        return false;
    }
    let carries_through = view.clock.now < h.hold.dribble.since_s + STRETCH_OF_THOUGHT_S;
    if carries_through {
        carry_out(view, h, to);
    }
    carries_through
}

/// Ends it: the place is his home now, and the zone has moved with him.
pub(super) fn end(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    h.hold.handling = Handling::Hold;
    h.progress.moved = Moved::of(h.hold.dribble.from, here);
    h.plan.home = here;
}

/// A defender stands in the way.
fn blocked(mind: &Belief, here: Vec2, to: Vec2) -> bool {
    DEFENCE.into_iter().any(|slot| {
        let at = mind.at(slot);
        let (off, share) = to_segment(at, here, to);
        share > 0.0 && off < DEFENDER_IN_WAY_M && at.distance(here) < 2.0 * DEFENDER_IN_WAY_M
    })
}
