//! Who may shoot what, and when: the plan's shot rules.

use super::candidate::Thought;
use crate::decide::value::Prospect;
use crate::law::conduct::taught::LOST_AFTER_S;
use crate::law::counting::RIM_SHOT_WITHIN_M;
use crate::law::floor::INSIDE_M;
use crate::setup::{After, ShotRule, ShotSet, TeamPlan};
use crate::state::{Hold, Progress};

/// What may allow a shot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum By {
    /// A rule of the plan.
    Rule,
    /// A rule of the plan, or its late clock.
    RuleOrClock,
}

/// Whether the plan lets him take a shot from here now. Without a plan any shot is allowed.
pub(super) fn allowed(t: &Thought<'_>, hold: &Hold, progress: &Progress, shot: &Prospect, by: By) -> bool {
    let Some(plan) = &t.view.given.setup.attack.plan else { return true };
    let me = t.view.me.slot.index();
    let fits = |rule: &ShotRule| {
        rule.who.has(me)
            && rule.from.0 & kind(t) != 0
            && shot.space_m >= rule.least_space_m
            && shot.chance >= rule.least_chance
            && (hold.off_catch || !rule.feet_set)
            && done(rule.after, progress)
    };
    by == By::RuleOrClock && runs_down(t, plan) || plan.shots.iter().any(fits)
}

/// What kind of shot one from here is, a bit of [`ShotSet`].
fn kind(t: &Thought<'_>) -> u8 {
    let far = t.here.len();
    if t.view.given.setup.court.is_three(t.here) {
        ShotSet::THREE
    } else if far < RIM_SHOT_WITHIN_M {
        ShotSet::RIM
    } else if far < INSIDE_M {
        ShotSet::INSIDE
    } else {
        ShotSet::OUTSIDE
    }
}

/// Whether the ball has done what a rule asks for.
fn done(after: After, progress: &Progress) -> bool {
    match after {
        After::Always => true,
        After::Inside => progress.inside,
        After::Reversals(so_many) => progress.reversals >= so_many,
        After::InsideOrReversal => progress.inside || progress.reversals > 0,
    }
}

/// He has had nothing for the plan's time and has found no guard: the ball has to go.
pub(super) fn lost(t: &Thought<'_>) -> bool {
    let plan = t.view.given.setup.attack.plan.as_ref();
    plan.is_some_and(|plan| t.held_s > plan.reset_after_s + LOST_AFTER_S)
}

/// The shot clock runs down, or the attack has lost its patience.
pub(super) fn runs_down(t: &Thought<'_>, plan: &TeamPlan) -> bool {
    t.left_s <= plan.late.from_s || t.impatient()
}
