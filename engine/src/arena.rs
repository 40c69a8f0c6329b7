//! Plays possessions: one world and one schedule, reused.

use crate::film::Film;
use crate::record::PossessionRecord;
use crate::setup::Setup;
use std::ops::Range;
use std::sync::Arc;

/// A world and its schedule. Make one a thread and reuse it; it may change its setup between calls.
pub struct Arena {}

impl Arena {
    /// An arena that plays up to `width` possessions side by side.
    pub fn new(width: usize) -> Self {
        let _ = width;
        Self {}
    }

    /// Plays every possession of the range and hands its record over, in order of finishing.
    pub fn play(
        &mut self,
        setup: &Arc<Setup>,
        seed: u64,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord),
    ) {
        let _ = (setup, seed, possessions, each);
    }
}

/// One possession again, with its frames and events.
pub fn film(setup: &Arc<Setup>, seed: u64, possession: u64) -> Film {
    let _ = (setup, seed, possession);
    unimplemented!()
}
