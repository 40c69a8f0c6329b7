//! The choice: every option that he has, the noise in his judgement, the best of them, and what follows from it.
//!
//! A shot is preferred to a pass, or a pass to waiting, here and nowhere else: by believed points, penalties taken off,
//! plus noise. The noise is a capped Gumbel draw for each option but waiting, so that options are taken nearly with
//! the softmax probabilities; the draws hold for one stretch of thought, or a patient man would sooner or later do
//! anything.

use super::candidate::{Action, Thought};
use super::weigh::{best, weigh};
use super::{Hands, dribble_at, drive, hold, pass, shoot, taught};
use crate::decide::View;
use crate::law::conduct::choice::{GUMBEL_MEAN, LARGEST_NOISE, STRETCH_OF_THOUGHT_S};
use crate::math::min;
use crate::state::{Handling, Menu, Signal};

/// Weighs everything, and does what seems best.
pub(super) fn think(view: &View<'_>, h: &mut Hands<'_>) {
    let thought = Thought::of(view, h);
    ponder(view, h);
    let chosen = match &view.given.setup.attack.plan {
        Some(plan) => taught::choose(&thought, h, plan),
        None => {
            weigh(&thought, h, None);
            best(&thought, h.menu)
        }
    };
    carry_out(view, h, chosen);
}

/// Draws the noise of a new stretch of thought.
fn ponder(view: &View<'_>, h: &mut Hands<'_>) {
    let stretch = (h.hold.caught_s, ((view.clock.now - h.hold.caught_s) / STRETCH_OF_THOUGHT_S) as u8);
    if h.menu.stretch == stretch {
        return;
    }
    let new_hold = h.menu.stretch.0 != stretch.0;
    h.menu.stretch = stretch;
    let thought = h.draws.thought();
    for option in 1..Menu::IDENTITIES {
        // What he fancies of shot and drive stays with him through the hold; receivers come and go.
        if new_hold || option >= Menu::FIRST_RECEIVER {
            let noise = h.draws.noise(thought, option as u8);
            h.menu.noise[option] = min(noise, LARGEST_NOISE);
        }
    }
    // Waiting is what the others are weighed against: it has the mean of a Gumbel draw, no chance of its own.
    h.menu.noise[Menu::identity(Action::Hold)] = GUMBEL_MEAN;
}

/// Does what he has chosen; what is not merely more of the same is signalled as a decision.
fn carry_out(view: &View<'_>, h: &mut Hands<'_>, index: usize) {
    let chosen = h.menu.options[index];
    let before = h.hold.handling;
    let repeats = matches!(
        (chosen.action, before),
        (Action::Hold, Handling::Hold)
            | (Action::Drive, Handling::Drive(_))
            | (Action::DribbleAt(_), Handling::DribbleAt(_))
    );
    if !repeats {
        let what = Signal::Decision { by: view.me.slot, chosen: index as u8 };
        h.notes.add(view.clock.now, view.me.at, what);
    }
    if matches!(before, Handling::DribbleAt(_)) && !matches!(chosen.action, Action::DribbleAt(_)) {
        dribble_at::end(view, h);
    }
    let driving = matches!(before, Handling::Drive(_));
    match chosen.action {
        Action::Hold => hold::carry_out(view, h),
        Action::Shoot => shoot::carry_out(view, h, driving),
        Action::Drive => drive::carry_out(view, h, driving),
        Action::Pass(to, kind) => pass::carry_out(view, h, (to, kind), chosen.chance, driving),
        Action::DribbleAt(to) => dribble_at::carry_out(view, h, to),
    }
}
