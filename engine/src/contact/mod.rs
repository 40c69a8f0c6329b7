//! Stage 5, `contact`: bodies are kept apart and take up their new positions; the history is written.

use crate::law::solver::{Bench, ContactParams, ContactRows, resolve};
use crate::slots::{PLAYERS, ZERO};
use crate::state::Given;
use crate::state::{Bodies, Clocks, History, Intents, Sample, Side, Status, Touches, Traits};
use bevy_ecs::prelude::{Local, Query, Res};

/// Keeps bodies apart and moves them.
pub fn contact(
    given: Res<Given>,
    mut bench: Local<Bench>,
    mut possessions: Query<(&Clocks, &Traits, &Side, &Intents, &mut Bodies, &mut Touches, &mut History)>,
) {
    let params = ContactParams { friction: given.setup.defenders.body.friction, ..Default::default() };
    for (clocks, traits, side, intents, mut bodies, mut touches, mut history) in &mut possessions {
        if clocks.status != Status::Playing {
            continue;
        }
        let mut inv_mass = ZERO;
        for (slot, inverse) in inv_mass.iter_mut().enumerate().take(PLAYERS) {
            let braced = intents.brace[slot] > 0.0;
            *inverse = if braced { traits.braced_inv_mass[slot] } else { traits.inv_mass[slot] };
        }
        let mut rows = ContactRows::of(&mut bodies.0, &traits.radius, &inv_mass);
        resolve(&mut rows, given.setup.step_s, side.0, &params, &mut bench, &mut touches.0);
        history.newest = (history.newest + 1) % History::LENGTH;
        let newest = history.newest;
        history.ring[newest] = Sample::of(&bodies);
    }
}
