//! Dribbling at a team-mate, who vacates: moves the ball and the zone without a pass.
//!
//! Weighed like everything else: worth what a pass to that place would be as far as the zone's shift goes, less
//! the clock it costs and the chance that a hand near the ball takes it on the way.

use super::{Hands, dribbles};
use crate::decide::{View, nearest_defender};
use crate::film::Action;
use crate::math::{Vec2, min, to_segment};
use crate::setup::Moved;
use crate::slots::{DEFENCE, GUARDS, Slot};
use crate::state::{Belief, Handling};

/// Speed of a dribble that keeps the eyes up, m/s. (assumed)
const SPEED_M_S: f32 = 3.2;
/// A defender within this distance of the way is in it, m. (assumed)
const IN_THE_WAY_M: f32 = 0.9;
/// Shorter and longer ways are no dribble-at, m. (common practice, no source)
const SHORTEST_M: f32 = 2.5;
const LONGEST_M: f32 = 8.0;
/// He is there within this distance, m.
const THERE_M: f32 = 0.7;

/// Adds the option, or that of going on with it.
pub(super) fn weigh(view: &View<'_>, h: &mut Hands<'_>, on: &dyn Fn(Vec2, f32, Moved, f32) -> f32) {
    let here = view.me.at;
    let going = match h.hold.handling {
        Handling::DribbleAt(to) => Some(to),
        _ => None,
    };
    if going.is_none() {
        let to = other_guard(view.me.slot);
        let there = view.mind.at(to);
        let length = here.distance(there);
        let plain =
            h.hold.leave.dribble_at && view.me.slot.is_guard() && matches!(h.hold.handling, Handling::Hold);
        if !plain || view.mind.age[to] > 1.0 || !(SHORTEST_M..LONGEST_M).contains(&length) {
            return;
        }
        h.hold.dribble.to = there;
    }
    let to = h.hold.dribble.to;
    let span = here.distance(to) / SPEED_M_S;
    let skill = &view.given.setup.attackers.skill;
    // He reckons a dribble near a hand to be lost twice as easily as a held ball, and seldom elsewhere. (assumed)
    let near = if nearest_defender(view.mind, here).1 < 1.2 { 2.0 } else { 0.5 };
    let lost = min(near * skill.handling_loss_per_s * span, 0.5);
    let from = if going.is_some() { h.hold.dribble.from } else { here };
    let worth = (1.0 - lost) * on(to, span, Moved::of(from, to), 0.0) + lost * skill.going_on.after_loss;
    if going.is_some() || !blocked(view.mind, here, to) {
        h.menu.add(Action::DribbleAt(going.unwrap_or(other_guard(view.me.slot))), worth, 1.0 - lost);
    }
}

/// The guard whom a guard may dribble at.
fn other_guard(me: Slot) -> Slot {
    if me == GUARDS[0] { GUARDS[1] } else { GUARDS[0] }
}

/// Takes the next dribble.
pub(super) fn go(view: &View<'_>, h: &mut Hands<'_>, to: Slot) {
    let here = view.me.at;
    if !matches!(h.hold.handling, Handling::DribbleAt(_)) {
        h.hold.dribble.from = here;
        h.hold.dribble.since_s = view.clock.now;
        h.hold.leave.dribble_at = false;
    }
    h.hold.handling = Handling::DribbleAt(to);
    dribbles(view, h.hold);
    let look = (Vec2::RIM - here).unit_or(view.mind.gaze);
    h.wishes.go(view.me.slot, h.hold.dribble.to, SPEED_M_S, look);
}

/// Ends it where he has arrived or is shut off.
pub(super) fn end_if_done(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    if here.distance(h.hold.dribble.to) <= THERE_M || blocked(view.mind, here, h.hold.dribble.to) {
        end(view, h);
    }
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
        share > 0.0 && off < IN_THE_WAY_M && at.distance(here) < 2.0 * IN_THE_WAY_M
    })
}
