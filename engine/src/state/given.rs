//! What a world plays with: the setup and what is worked out from it once.

use crate::law::arrival::ArrivalTable;
use crate::law::gait::gait_of;
use crate::law::kernel::GaitParams;
use crate::setup::{Setup, Team};
use crate::slots::{ALL, PLAYERS, Slot};
use bevy_ecs::prelude::Resource;
use std::sync::Arc;

/// The setup in force, with the tables that go with it.
#[derive(Resource, Clone)]
pub struct Given {
    /// The setup.
    pub setup: Arc<Setup>,
    /// Times of arrival, by slot: of players of their team's average speed, or of their own.
    pub arrival: [Arc<ArrivalTable>; PLAYERS],
    /// How much more room the zone leaves each attacker for his shooting (negative: less), m.
    pub slack_m: [f32; 5],
}

impl Given {
    /// Time until a player is within a distance of a point.
    #[inline]
    pub fn arrival(&self, slot: Slot) -> &ArrivalTable {
        &self.arrival[slot]
    }

    /// What a player can do: his own parameters, else his team's.
    #[inline]
    pub fn player(&self, slot: Slot) -> &Team {
        self.setup.player(slot)
    }
}

/// Arrival tables made so far, so that variants with the same players share them.
#[derive(Default)]
pub struct TableCache(Vec<(GaitParams, Arc<ArrivalTable>)>);

impl TableCache {
    /// The setup with its tables.
    pub fn prepare(&mut self, setup: &Arc<Setup>) -> Given {
        let mut table = |team: &Team| {
            let params = gait_of(&team.body, team.body.sprint_m_s);
            if let Some((_, known)) = self.0.iter().find(|(p, _)| *p == params) {
                return known.clone();
            }
            let made = Arc::new(ArrivalTable::new(&params));
            self.0.push((params, made.clone()));
            made
        };
        let arrival = ALL.map(|slot| table(setup.player(slot)));
        Given { setup: setup.clone(), arrival, slack_m: crate::law::respect::slack_m(setup) }
    }
}
