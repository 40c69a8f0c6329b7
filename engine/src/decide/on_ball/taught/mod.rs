//! The plan at work: which looks the holder has had, which of them are on, and which he takes.
//!
//! He takes in one look after another, beginning while the ball flies to him; what he has not looked at he does not know
//! to be open. A look is on where its condition holds as he believes, the pass is not hopeless, the shot is allowed, and
//! it is worth no less than going on, less what the plan is ready to concede. For one who is on his way to where a look
//! goes he waits before he looks on. On a drive he does what he believes to be worth most; late on the clock see `late`. Who may
//! shoot what: `licence`; [`receiver`]: whom a look finds.

mod receiver;

use super::candidate::{Action, Thought, Weighed};
use super::licence::{By, lost, runs_down};
use super::weigh::{best, seems, weigh};
use super::{Hands, dribble_at, drive, hold, shoot};
use crate::setup::{Guarded, Lane, Look, LookOrder, PlaceSet, PlanChoice, Relative, State, TeamPlan};
use crate::slots::GUARDS;
use crate::state::Handling;

/// Fills the menu with what he has looked at, and says which of it he takes.
pub(super) fn choose(t: &Thought<'_>, h: &mut Hands<'_>, plan: &TeamPlan) -> usize {
    h.menu.count = 0;
    if runs_down(t, plan) {
        return late(t, h, plan);
    }
    let wait = hold::candidate(t, h.hold);
    let (Handling::Hold, Some(wait), false) = (t.handling, wait, lost(t)) else {
        weigh(t, h, None);
        return best(t, h.menu);
    };
    h.menu.add(wait);
    let bar = seems(t, h.menu, &wait) - plan.concede_points;
    if let Some(taken) = order(t, plan).and_then(|order| look_round(t, h, plan, order, bar)) {
        return taken;
    }
    if t.held_s > plan.reset_after_s { reset(t, h).unwrap_or(0) } else { 0 }
}

/// The look order that fits him here, with its place among them.
fn order<'p>(t: &Thought<'_>, plan: &'p TeamPlan) -> Option<(usize, &'p LookOrder)> {
    let place = State::place_of(&t.view.given.setup.zone.ball_places, t.here) as usize;
    let fits = |looks: &LookOrder| looks.at.has(place) && looks.who.has(t.view.me.slot.index());
    plan.looks.iter().enumerate().find(|(_, looks)| fits(looks))
}

/// Goes through the looks that he has had; the one that he takes, if one is on.
fn look_round(
    t: &Thought<'_>,
    h: &mut Hands<'_>,
    plan: &TeamPlan,
    looks: (usize, &LookOrder),
    bar: f32,
) -> Option<usize> {
    let had = ((t.view.clock.now - h.hold.looks_s) / plan.look_s) as usize;
    let forced = forced(t, h, plan, looks, had);
    if forced.is_some() {
        return forced;
    }
    let looks = looks.1;
    let mut found: Option<(f32, usize)> = None;
    for (nth, look) in looks.order.iter().enumerate() {
        if !has_had(h, nth, look, had) {
            continue;
        }
        if let Some(option) = candidate(t, h, look, By::RuleOrClock) {
            let index = h.menu.count;
            h.menu.add(option);
            let worth = seems(t, h.menu, &option);
            if worth >= bar && found.is_none_or(|best| worth > best.0) {
                found = Some((worth, index));
                if plan.choose == PlanChoice::First {
                    break;
                }
            }
        }
        if found.is_none() && t.held_s < plan.waits_s && waits_for(t, look) {
            return Some(0);
        }
    }
    // Who takes the best of all has to have seen all.
    let all_seen = plan.choose == PlanChoice::First || had >= looks.order.len();
    let found = found.filter(|_| all_seen);
    found.or_else(|| on_the_dribble(t, h, bar)).map(|(_, index)| index)
}

/// Whether he has had this look, of so many.
fn has_had(h: &Hands<'_>, nth: usize, look: &Look, had: usize) -> bool {
    let skipped = h.hold.skips >> nth & 1 == 1;
    // Whether he is open himself he knows as he catches it.
    !skipped && (nth < had || *look == Look::Shoot)
}

/// The look that a study forces on this hold, if its condition holds.
fn forced(
    t: &Thought<'_>,
    h: &mut Hands<'_>,
    plan: &TeamPlan,
    (order, looks): (usize, &LookOrder),
    had: usize,
) -> Option<usize> {
    let forced = plan.forced.filter(|forced| h.hold.forces && forced.order == order)?;
    let look = looks.order.get(forced.look).filter(|look| has_had(h, forced.look, look, had))?;
    let option = candidate(t, h, look, By::RuleOrClock)?;
    h.progress.forced = true;
    let index = h.menu.count;
    h.menu.add(option);
    Some(index)
}

/// Whether the look is for one who is on his way.
fn waits_for(t: &Thought<'_>, look: &Look) -> bool {
    match *look {
        Look::Pass { to, at, side, .. } => receiver::comes(t, to, at, side),
        _ => false,
    }
}

/// What a look finds, if anything.
fn candidate(t: &Thought<'_>, h: &mut Hands<'_>, look: &Look, by: By) -> Option<Weighed> {
    match *look {
        Look::Shoot => shoot::candidate(t, h.hold, h.progress, by),
        Look::Drive(lane) => drive::candidate(t, h.hold, Some(lane)),
        Look::Pass { to, at, side, when } => receiver::best(t, h.menu, (to, at, side, when)),
    }
}

/// A dribble at the other guard, where the attack's habits offer one.
fn on_the_dribble(t: &Thought<'_>, h: &mut Hands<'_>, bar: f32) -> Option<(f32, usize)> {
    let option = dribble_at::candidate(t, h.hold)?;
    let index = h.menu.count;
    h.menu.add(option);
    let worth = seems(t, h.menu, &option);
    (worth >= bar).then_some((worth, index))
}

/// The end of the clock: to those who are to have it, and who has it does what is worth most. Another gives it to
/// them, unless a shot or drive of his own that the plan lets him take at any time seems worth more.
fn late(t: &Thought<'_>, h: &mut Hands<'_>, plan: &TeamPlan) -> usize {
    let his = plan.late.who.has(t.view.me.slot.index()) || t.left_s <= plan.late.shoot_from_s;
    if t.handling == Handling::Hold && !his {
        let anywhere = (plan.late.who, PlaceSet::ALL, Relative::Any, Guarded::Any);
        if let Some(option) = receiver::best_of_all(t, h.menu, anywhere) {
            h.menu.add(option);
            add_own_looks(t, h, plan);
            return best(t, h.menu);
        }
    }
    weigh(t, h, Some(Lane::Any));
    best(t, h.menu)
}

/// The shots and drives of his own that the plan lets him take at this place at any time, whether or not he has looked there yet.
fn add_own_looks(t: &Thought<'_>, h: &mut Hands<'_>, plan: &TeamPlan) {
    let Some((_, looks)) = order(t, plan) else { return };
    for look in &looks.order {
        if !matches!(look, Look::Pass { .. })
            && let Some(option) = candidate(t, h, look, By::Rule)
        {
            h.menu.add(option);
        }
    }
}

/// Nothing is on: to the guard to whom the pass is worth most.
fn reset(t: &Thought<'_>, h: &mut Hands<'_>) -> Option<usize> {
    let guards = crate::setup::RoleSet(GUARDS.into_iter().fold(0, |all, guard| all | 1 << guard.index()));
    let sought = (guards, PlaceSet::ALL, Relative::Any, Guarded::Any);
    // Rather straight back than nowhere.
    let option = receiver::best(t, h.menu, sought).or_else(|| receiver::best_of_all(t, h.menu, sought))?;
    debug_assert!(matches!(option.action, Action::Pass(..)), "a reset is a pass");
    let index = h.menu.count;
    h.menu.add(option);
    Some(index)
}
