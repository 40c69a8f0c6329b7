//! What an attacker believes his team-mates to be about: the leg of the movement that he has seen each of them run.
//!
//! They have practised together: he knows a movement when he sees a reaction's worth of it, and so where it leads. Of whom
//! he does not see he goes on believing what he saw last, for as long as memory lasts.

use super::Scene;
use crate::slots::{ATTACK, Slot};
use crate::state::{Belief, Leg, Plan};

/// At each decision of an attacker: renews what he believes of his team-mates.
pub fn watch(scene: &Scene<'_>, slot: Slot, plans: &[Plan; 5], mind: &mut Belief) {
    let watcher = Watcher {
        now: scene.clocks.now,
        reaction_s: scene.traits.reaction[slot],
        memory_s: scene.given.player(slot).head.memory_s,
    };
    for mate in ATTACK {
        // Nearly always nobody runs anything: then there is nothing to be known.
        let runs = plans[mate].program.is_some() || mind.mates[mate].program.is_some();
        if mate != slot && runs {
            mind.mates[mate] = watcher.believes(mind.mates[mate], mind.age[mate], &plans[mate]);
        }
    }
}

/// Who watches, and when.
struct Watcher {
    /// The present, s.
    now: f32,
    /// How old what he sees is, s.
    reaction_s: f32,
    /// For how long he remembers what he does not see, s.
    memory_s: f32,
}

impl Watcher {
    /// What he believes of a team-mate whom he saw last `age_s` ago and of whom he believed `before`.
    fn believes(&self, before: Leg, age_s: f32, plan: &Plan) -> Leg {
        // Since when the team-mate has been about what he is about now.
        let since_s = if plan.program.is_some() { plan.step_s } else { plan.last_s };
        if age_s > self.memory_s {
            Leg::NONE
        } else if age_s <= self.reaction_s && self.now >= since_s + self.reaction_s {
            plan.leg()
        } else {
            before
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_leg_is_known_after_a_reaction_in_sight_and_forgotten_with_memory() {
        let plan = Plan { program: Some(3), step: 1, step_s: 10.0, ..Plan::default() };
        let at = |now| Watcher { now, reaction_s: 0.25, memory_s: 1.5 };
        let program = |now: f32, age_s: f32| at(now).believes(Leg::NONE, age_s, &plan).program;
        assert_eq!(program(10.2, 0.25), None, "it has only begun");
        assert_eq!(program(10.25, 0.25), Some(3), "seen for a reaction");
        assert_eq!(program(12.0, 0.3), None, "out of sight since before it was known");
        let known = at(10.25).believes(Leg::NONE, 0.25, &plan);
        let ended = Plan { program: None, last_s: 11.0, ..plan };
        assert_eq!(at(11.1).believes(known, 0.25, &ended).program, Some(3), "its end is not known yet");
        assert_eq!(at(11.25).believes(known, 0.25, &ended).program, None, "its end was seen");
        assert_eq!(at(12.4).believes(known, 1.4, &ended).program, Some(3), "out of sight, remembered");
        assert_eq!(at(12.6).believes(known, 1.6, &ended).program, None, "forgotten");
    }
}
