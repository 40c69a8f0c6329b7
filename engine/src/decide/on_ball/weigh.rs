//! Weighing: every option that he has, what each seems to be worth, and which seems best.

use super::candidate::{Thought, Weighed};
use super::licence::By;
use super::{Hands, dribble_at, drive, hold, pass, shoot};
use crate::setup::Lane;
use crate::slots::ATTACK;
use crate::state::Menu;

/// Fills the menu with every option that he has; what lets him drive is a plan's, or else the habits'. Of equals the first
/// is taken, so their order counts.
pub(super) fn weigh(thought: &Thought<'_>, h: &mut Hands<'_>, lane: Option<Lane>) {
    h.menu.count = 0;
    let own = [
        hold::candidate(thought, h.hold),
        shoot::candidate(thought, h.hold, h.progress, By::RuleOrClock),
        drive::candidate(thought, h.hold, lane),
        dribble_at::candidate(thought, h.hold),
    ];
    let passes = ATTACK.into_iter().filter(|mate| *mate != thought.view.me.slot);
    let passes = passes.map(|mate| pass::candidate(thought, mate));
    for option in own.into_iter().chain(passes).flatten() {
        h.menu.add(option);
    }
}

/// What an option seems to him to be worth, his misjudgement in it, points.
pub(super) fn seems(thought: &Thought<'_>, menu: &Menu, option: &Weighed) -> f32 {
    let view = thought.view;
    let temperature_points = view.given.player(view.me.slot).head.temperature_points;
    option.value_points + temperature_points * menu.noise[Menu::identity(option.action)]
}

/// Which option on the menu seems best to him.
pub(super) fn best(thought: &Thought<'_>, menu: &Menu) -> usize {
    let mut best = (f32::NEG_INFINITY, 0);
    for (index, option) in menu.options[..menu.count].iter().enumerate() {
        let seems = seems(thought, menu, option);
        if seems > best.0 {
            best = (seems, index);
        }
    }
    best.1
}
