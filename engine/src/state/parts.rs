//! All parts of a possession that its start fills in.

use super::*;
use crate::random::Streams;
use bevy_ecs::query::QueryData;

/// Everything that the start of a possession touches.
#[derive(QueryData)]
#[query_data(mutable)]
pub struct Parts {
    pub clocks: &'static mut Clocks,
    pub bodies: &'static mut Bodies,
    pub traits: &'static mut Traits,
    pub history: &'static mut History,
    pub minds: &'static mut Minds,
    pub events: &'static mut EventQueue,
    pub ball: &'static mut Ball,
    pub hold: &'static mut Hold,
    pub allowance: &'static mut Allowance,
    pub progress: &'static mut Progress,
    pub plans: &'static mut Plans,
    pub intents: &'static mut Intents,
    pub menu: &'static mut Menu,
    pub signals: &'static mut Signals,
    pub tally: &'static mut Tally,
    pub touches: &'static mut Touches,
    pub side: &'static mut Side,
    pub streams: &'static mut Streams,
}
