//! Stage 4, `motion`: intents become velocities and the way that each body would go in this step.
//!
//! The positions are settled by the next stage, `contact`, which first keeps the bodies apart.

use crate::state::Given;
use crate::state::{Bodies, Clocks, Intents, Side, Status, Traits};
use bevy_ecs::prelude::{Query, Res};

/// Turns intents into velocities and displacements.
pub fn motion(given: Res<Given>, mut possessions: Query<(&Clocks, &Traits, &Side, &Intents, &mut Bodies)>) {
    for (clocks, traits, side, intents, mut bodies) in &mut possessions {
        if clocks.status == Status::Playing {
            crate::law::kernel::advance(
                given.setup.step_s,
                side.0,
                &traits.gait,
                &intents.targets,
                &mut bodies.0,
            );
        }
    }
}
