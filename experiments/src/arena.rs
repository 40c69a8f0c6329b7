//! The engine in the runner's chair.

use std::ops::Range;
use std::sync::Arc;

use engine::events::Event;
use engine::setup::Setup;
use engine::{Arena, Places, PossessionRecord};

use crate::run::Player;

/// Plays the variants' setups with one master seed.
pub struct EnginePlayer {
    setups: Vec<Arc<Setup>>,
    seed: u64,
}

impl EnginePlayer {
    /// For setups in plan order.
    pub fn new(setups: Vec<Arc<Setup>>, seed: u64) -> Self {
        Self { setups, seed }
    }
}

impl Player for EnginePlayer {
    type Seat = Arena;

    fn seat(&self, width: usize) -> Arena {
        Arena::new(width)
    }

    fn play(
        &self,
        seat: &mut Arena,
        variant: usize,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord),
    ) {
        seat.play(&self.setups[variant], self.seed, possessions, each);
    }

    fn play_with_events(
        &self,
        seat: &mut Arena,
        variant: usize,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord, &[Event]),
    ) {
        seat.play_with_events(&self.setups[variant], self.seed, possessions, each);
    }

    fn add_places(&self, seat: &Arena, places: &mut Places) {
        places.merge(seat.places());
    }
}
