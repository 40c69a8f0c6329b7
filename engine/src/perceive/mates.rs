//! What an attacker believes his team-mates to be about: the leg of the movement that he has seen each of them run.
//!
//! They have practised together: he knows a movement when he sees a reaction's worth of it, and so where it leads. Of whom
//! he does not see he goes on believing what he saw last, for as long as memory lasts.

use super::Scene;
use crate::slots::{ATTACK, Slot};
use crate::state::{Belief, Leg, Plan};

/// At each decision of an attacker: renews what he believes of those whom he sees.
pub fn watch(scene: &Scene<'_>, slot: Slot, plans: &[Plan], mind: &mut Belief) {
    let reaction_s = scene.traits.reaction[slot];
    let memory_s = scene.given.team(slot).head.memory_s;
    for mate in ATTACK {
        if mate == slot {
            continue;
        }
        if mind.age[mate] > memory_s {
            mind.mates[mate] = Leg::NONE;
        } else if mind.age[mate] <= reaction_s
            && scene.clocks.now >= changed_s(&plans[mate.index()]) + reaction_s
        {
            mind.mates[mate] = plans[mate.index()].leg();
        }
    }
}

/// Since when an attacker has been about what he is about now, s.
fn changed_s(plan: &Plan) -> f32 {
    if plan.program.is_some() { plan.step_s } else { plan.last_s }
}
