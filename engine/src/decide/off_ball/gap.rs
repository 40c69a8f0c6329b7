//! The gap between the lines: a plan has only so many of its players there at a time, and says who goes first.

use super::locus::{self, target};
use crate::decide::View;
use crate::law::conduct::programs::{GAP_FROM_Y_M, GAP_TO_Y_M, GAP_X_M};
use crate::math::{Vec2, max};
use crate::setup::{Gap, Program};
use crate::slots::{ATTACK, Slot};
use crate::state::Plan;

/// Whether he leaves a movement that leads into the gap to those who are there, or who go first.
pub fn closed(view: &View<'_>, plan: &Plan, program: &Program) -> bool {
    let Some(gap) = view.given.setup.attack.plan.as_ref().and_then(|taught| taught.gap) else { return false };
    leads_in(view, plan, program) && others(view, &gap, &view.me.slot) >= usize::from(gap.most)
}

/// Whether he gives up a movement that leads into the gap at `to`: somebody who goes first is there, or on his way.
pub fn gives_way(view: &View<'_>, to: Vec2) -> bool {
    let Some(gap) = view.given.setup.attack.plan.as_ref().and_then(|taught| taught.gap) else { return false };
    let me = view.me.slot;
    !gap.first.has(me.index()) && between(to) && others(view, &gap, &me) >= usize::from(gap.most)
}

/// How many others are in the gap or on their way there, as he believes. Of those on their way only they count who go
/// first, for one who goes first himself.
fn others(view: &View<'_>, gap: &Gap, me: &Slot) -> usize {
    let i_go_first = gap.first.has(me.index());
    let counts = |mate: Slot| {
        let there = between(view.whereabouts(mate));
        let goes = target(view, &view.mind.mates[mate]).is_some_and(between);
        there || goes && (!i_go_first || gap.first.has(mate.index()))
    };
    ATTACK.into_iter().filter(|mate| mate != me && counts(*mate)).count()
}

/// Whether one of the legs of a movement ends in the gap.
fn leads_in(view: &View<'_>, plan: &Plan, program: &Program) -> bool {
    program.steps.iter().any(|step| between(locus::resolve(view, &plan.leg(), step.to)))
}

/// Whether a place lies between the lines, in front of the rim.
fn between(at: Vec2) -> bool {
    max(at.x, -at.x) < GAP_X_M && (GAP_FROM_Y_M..GAP_TO_Y_M).contains(&at.y)
}
