//! Checked input values: everything that a possession depends on, apart from its seed and number.

mod attack;
mod continuation;
mod court;
mod individual;
mod officials;
mod parameter;
mod plan;
mod player;
mod region;
mod sets;
mod zone;

pub use attack::*;
pub use continuation::*;
pub use court::{Court, CourtRest, Markings, MarkingsRest};
pub use individual::{Individual, Known, Licence};
pub use officials::Officials;
pub use parameter::Parameter;
pub use plan::*;
pub use player::*;
pub use region::Region;
pub use sets::*;
pub use zone::*;

use crate::slots::{PLAYERS, Slot};
use std::sync::Arc;

/// One matchup, ready to be played.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// The floor.
    pub court: Court,
    /// Clocks and officials.
    pub officials: Officials,
    /// The attacking team.
    pub attackers: Team,
    /// The defending team.
    pub defenders: Team,
    /// Players who are known by themselves, by slot.
    pub individuals: [Option<Arc<Individual>>; PLAYERS],
    /// Strictest limits, for tests of the model's ends.
    pub limits: Limits,
    /// The zone.
    pub zone: Zone,
    /// The attack.
    pub attack: Attack,
    /// Fixed step, s.
    pub step_s: f32,
}

impl Setup {
    /// What a player can do: his own parameters where he is known by himself, else his team's.
    #[inline]
    pub fn player(&self, slot: Slot) -> &Team {
        match &self.individuals[slot] {
            Some(individual) => &individual.own,
            None if slot.attacks() => &self.attackers,
            None => &self.defenders,
        }
    }

    /// The zone as a defender plays it.
    #[inline]
    pub fn zone_of(&self, slot: Slot) -> &Zone {
        let own = self.individuals[slot].as_ref().and_then(|individual| individual.zone.as_deref());
        own.unwrap_or(&self.zone)
    }

    /// What a player may shoot.
    #[inline]
    pub fn licence(&self, slot: Slot) -> Licence {
        self.individuals[slot].as_ref().map_or(Licence::AnyGood, |individual| individual.licence)
    }
}

/// Switches that push the model to its ends; all off in any ordinary scenario.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Limits {
    /// Defenders do not move.
    pub frozen_zone: bool,
    /// Defenders know the truth at once (no field of view, no memory, no fakes).
    pub all_seeing_zone: bool,
    /// Nobody knows how anybody shoots: every decision takes each attacker for the mean of his team.
    pub shooting_unknown: bool,
}
