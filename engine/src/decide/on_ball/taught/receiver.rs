//! Whom a look at team-mates finds.

use super::super::candidate::{Action, Thought, Weighed};
use super::super::pass;
use super::super::weigh::seems;
use crate::decide::nearest_defender;
use crate::decide::off_ball::target;
use crate::law::conduct::taught::{
    HIS_MAN_WITHIN_M, LEAST_CHANCE_INSIDE, LEAST_CHANCE_LOB, LEAST_CHANCE_OUTSIDE, NEITHER_SIDE_M,
    ON_HIS_HIP_COS,
};
use crate::law::floor::INSIDE_M;
use crate::math::Vec2;
use crate::setup::{Guarded, PassKind, PlaceSet, Relative, RoleSet, State};
use crate::slots::{ATTACK, Slot};
use crate::state::Menu;

/// What a look at team-mates asks: the roles, the places, the side and how his man stands.
pub(super) type Sought = (RoleSet, PlaceSet, Relative, Guarded);

/// The best pass to whom a look asks for that is not hopeless, and not one straight back.
pub(super) fn best(t: &Thought<'_>, menu: &Menu, sought: Sought) -> Option<Weighed> {
    best_of(t, menu, sought, |mate| !straight_back(t, mate, t.view.mind.at(mate)))
}

/// The same, straight back as well.
pub(super) fn best_of_all(t: &Thought<'_>, menu: &Menu, sought: Sought) -> Option<Weighed> {
    best_of(t, menu, sought, |_| true)
}

fn best_of(
    t: &Thought<'_>,
    menu: &Menu,
    (to, at, side, when): Sought,
    may: impl Fn(Slot) -> bool,
) -> Option<Weighed> {
    let mut best: Option<(f32, Weighed)> = None;
    for mate in ATTACK {
        let meant = mate != t.view.me.slot && to.has(mate.index()) && stands(t, mate, at, side, when);
        if !meant || !may(mate) {
            continue;
        }
        let Some(option) = pass::candidate(t, mate) else { continue };
        let worth = seems(t, menu, &option);
        if has_a_chance(t, &option, mate) && best.is_none_or(|found| worth > found.0) {
            best = Some((worth, option));
        }
    }
    best.map(|(_, option)| option)
}

/// Whether a pass to him, who is or will be `there`, would only give the ball back to who has just thrown it, from outside to
/// outside and with nothing changed: he has not moved as far from where he had caught it as the plan asks.
fn straight_back(t: &Thought<'_>, mate: Slot, there: Vec2) -> bool {
    let outside = |at: Vec2| at.len2() > INSIDE_M * INSIDE_M;
    let plan = t.view.given.setup.attack.plan.as_ref();
    t.passer == Some(mate)
        && outside(t.here)
        && outside(there)
        && plan.is_some_and(|plan| there.distance(t.came_from) < plan.return_moved_m)
}

/// Whether a team-mate stands where the look goes, and his man as it asks.
fn stands(t: &Thought<'_>, mate: Slot, at: PlaceSet, side: Relative, when: Guarded) -> bool {
    let there = t.view.mind.at(mate);
    lies(t, there, at, side) && guarded(t, there, when)
}

/// Whether a spot is one of these places, on this side of the ball.
fn lies(t: &Thought<'_>, there: Vec2, at: PlaceSet, side: Relative) -> bool {
    let place = State::place_of(&t.view.given.setup.zone.ball_places, there) as usize;
    at.has(place) && on_side(t.here, there, side)
}

/// Whether one of these roles is on his way to one of these places, on this side, as the holder has seen him start.
pub(super) fn comes(t: &Thought<'_>, to: RoleSet, at: PlaceSet, side: Relative) -> bool {
    ATTACK.into_iter().any(|mate| {
        let his = mate != t.view.me.slot && to.has(mate.index());
        let goes_to = target(t.view, &t.view.mind.mates[mate]);
        his && goes_to.is_some_and(|there| lies(t, there, at, side) && !straight_back(t, mate, there))
    })
}

/// Whether a place is on this side as compared with the ball's; a ball in the middle is on neither.
fn on_side(ball: Vec2, there: Vec2, side: Relative) -> bool {
    let middle = ball.x.abs() < NEITHER_SIDE_M;
    match side {
        Relative::Any => true,
        _ if middle => true,
        Relative::Same => there.x * ball.x >= 0.0,
        Relative::Other => there.x * ball.x < 0.0,
    }
}

/// Whether the man of a receiver at `there` stands as a look asks.
fn guarded(t: &Thought<'_>, there: Vec2, when: Guarded) -> bool {
    if when == Guarded::Any {
        return true;
    }
    let (man, off) = nearest_defender(t.view.mind, there);
    if off > HIS_MAN_WITHIN_M {
        return true;
    }
    let (to_ball, to_man) = (t.here - there, t.view.mind.at(man) - there);
    when == Guarded::OnHisBack && to_man.dot(to_ball) < ON_HIS_HIP_COS * to_ball.len() * off
}

/// Whether a pass is not hopeless.
fn has_a_chance(t: &Thought<'_>, option: &Weighed, mate: Slot) -> bool {
    let Action::Pass(_, kind) = option.action else { return false };
    let least = if kind == PassKind::Lob {
        LEAST_CHANCE_LOB
    } else if t.view.mind.at(mate).len() < INSIDE_M {
        LEAST_CHANCE_INSIDE
    } else {
        LEAST_CHANCE_OUTSIDE
    };
    option.chance >= least
}
