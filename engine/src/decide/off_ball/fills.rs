//! Filling: who has nothing to do takes a place that the plan does not leave empty.
//!
//! A rule names a place, where the ball is or goes then, and who may take it. Each player judges for himself whether the
//! place is empty and whether he is the nearest of those who may; two who both think so come to one place, and the one who
//! finds the other there goes home. Who does not know the plan well misses some of it.

use crate::decide::View;
use crate::decide::draws::Draws;
use crate::law::conduct::programs::OCCUPIED_M;
use crate::law::conduct::spacing::{FILLED_M, FILLS_WITHIN_M};
use crate::law::conduct::taught::{NEITHER_SIDE_M, SKIPPED_UNDRILLED};
use crate::law::floor::side_of;
use crate::math::Vec2;
use crate::setup::{FillRule, Relative, State, TeamPlan};
use crate::slots::{ATTACK, Slot};
use crate::state::{Fill, Plan};

/// The place from which a player without a program plays: his home, or one that he fills.
pub fn base(view: &View<'_>, plan: &mut Plan, taught: &TeamPlan, draws: &mut Draws<'_>) -> Vec2 {
    if let Fill::By(nth, at) = plan.fill
        && (!on(view, &taught.fills[usize::from(nth)], at) || taken(view, at))
    {
        plan.fill = Fill::No;
    }
    if matches!(plan.fill, Fill::No | Fill::Missed(_)) {
        plan.fill = look_for_one(view, plan, taught, draws);
    }
    if let Fill::By(_, at) = plan.fill { at } else { plan.home }
}

/// The first rule that wants him.
fn look_for_one(view: &View<'_>, plan: &Plan, taught: &TeamPlan, draws: &mut Draws<'_>) -> Fill {
    for (nth, rule) in taught.fills.iter().enumerate() {
        let Some(at) = wanted(view, rule) else { continue };
        let nth = nth as u8;
        if plan.fill == Fill::Missed(nth) {
            return plan.fill;
        }
        let missed = (1.0 - taught.drilled) * SKIPPED_UNDRILLED;
        return if missed > 0.0 && draws.fills(missed) { Fill::Missed(nth) } else { Fill::By(nth, at) };
    }
    Fill::No
}

/// Where a rule wants him to go now, if it does.
fn wanted(view: &View<'_>, rule: &FillRule) -> Option<Vec2> {
    let (me, ball) = (view.me.slot, view.mind.ball);
    if !rule.by.has(me.index()) {
        return None;
    }
    let there = view.given.setup.zone.ball_places[rule.place as usize];
    let same = side_of(ball, side_of(view.me.at, view.side));
    let sign = match rule.side {
        Relative::Same => same,
        Relative::Other => -same,
        Relative::Any => side_of(view.me.at, view.side),
    };
    let at = there.sided(sign);
    let mine = (view.me.at - at).len2();
    let fits = mine < FILLS_WITHIN_M * FILLS_WITHIN_M && on(view, rule, at) && empty(view, at);
    (fits && !anybody_nearer(view, rule, at, mine)).then_some(at)
}

/// Whether the ball is, or goes, where a rule has it, seen from the place at `at`.
fn on(view: &View<'_>, rule: &FillRule, at: Vec2) -> bool {
    let ball = view.mind.ball;
    if view.mind.owner().is_none() || view.mind.owner() == Some(view.me.slot) {
        return false;
    }
    let place = State::place_of(&view.given.setup.zone.ball_places, ball) as usize;
    let side = match rule.side {
        Relative::Any => true,
        _ if ball.x.abs() < NEITHER_SIDE_M => rule.side == Relative::Other,
        Relative::Same => at.x * ball.x > 0.0,
        Relative::Other => at.x * ball.x < 0.0,
    };
    side && rule.ball.has(place)
}

/// Whether no team-mate is believed near a place.
fn empty(view: &View<'_>, at: Vec2) -> bool {
    !mates(view).any(|mate| (view.whereabouts(mate) - at).len2() < FILLED_M * FILLED_M)
}

/// Whether somebody else has come to a place.
fn taken(view: &View<'_>, at: Vec2) -> bool {
    let mine = (view.me.at - at).len2();
    mates(view).any(|mate| {
        let his = (view.whereabouts(mate) - at).len2();
        his < OCCUPIED_M * OCCUPIED_M && his < mine
    })
}

/// Whether another of those who may take a place, and has nothing else to do, is nearer to it.
fn anybody_nearer(view: &View<'_>, rule: &FillRule, at: Vec2, mine: f32) -> bool {
    mates(view).any(|mate| {
        rule.by.has(mate.index())
            && Some(mate) != view.mind.owner()
            && view.mind.mates[mate].program.is_none()
            && (view.whereabouts(mate) - at).len2() < mine
    })
}

fn mates(view: &View<'_>) -> impl Iterator<Item = Slot> {
    let me = view.me.slot;
    ATTACK.into_iter().filter(move |mate| *mate != me)
}
