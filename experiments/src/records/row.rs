//! What is written aside of one possession while a run plays.

use engine::events::{Event, EventKind};
use engine::film::Slot;
use engine::{Measure, PossessionRecord};
use serde::{Deserialize, Serialize};

use super::Records;

/// One possession of one variant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Recorded {
    /// Its number.
    pub possession: u64,
    /// Values by [`Measure`], in integers of its unit's scale.
    pub values: Vec<i64>,
    /// Its fingerprint; 0 where it broke down.
    pub digest: u64,
    /// Who of the attack had the ball, one after the other.
    pub path: Vec<Slot>,
    /// What happened, where events are recorded.
    pub events: Vec<Event>,
}

impl Recorded {
    /// Of a record and its events.
    #[must_use]
    pub fn of(record: &PossessionRecord, events: &[Event], wanted: Records) -> Self {
        let kept = if wanted == Records::Events { events.to_vec() } else { Vec::new() };
        Self {
            possession: record.possession,
            values: record.values.to_vec(),
            digest: record.digest,
            path: path(events),
            events: kept,
        }
    }

    /// Of a possession that broke down: a fault, and nothing else.
    #[must_use]
    pub fn broken(possession: u64) -> Self {
        let mut values = vec![0; Measure::COUNT];
        values[Measure::Fault as usize] = 1;
        Self { possession, values, digest: 0, path: Vec::new(), events: Vec::new() }
    }

    /// Its value of a measure.
    #[must_use]
    pub fn value(&self, measure: Measure) -> i64 {
        self.values[measure as usize]
    }
}

/// Who of the attack had the ball, one after the other, nobody twice in a row.
fn path(events: &[Event]) -> Vec<Slot> {
    let has = |event: &&Event| matches!(event.kind, EventKind::Start | EventKind::Restart | EventKind::Catch);
    let mut path: Vec<Slot> =
        events.iter().filter(has).filter_map(|event| event.by).filter(|by| by.attacks()).collect();
    path.dedup();
    path
}
