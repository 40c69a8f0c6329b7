//! How the ball has come to where it is.

use crate::math::Vec2;
use crate::setup::Moved;
use crate::slots::Slot;
use bevy_ecs::prelude::Component;

/// The last movement of the ball and who is to be credited for it.
#[derive(Component, Clone, Debug)]
pub struct Progress {
    /// Who passed it to its holder.
    pub passer: Option<Slot>,
    /// Where whoever passed it to the holder had got it, m.
    pub came_from: Vec2,
    /// Where it was when the last holder got it, m.
    pub last_catch: Vec2,
    /// What its last move did to the zone.
    pub moved: Moved,
    /// The ball has been inside.
    pub inside: bool,
    /// The side that it was caught on last: +1 right, -1 left, 0 neither yet.
    pub side: f32,
    /// How often it has changed sides.
    pub reversals: u8,
    /// The read (program index) that made the last catch.
    pub credit: Option<u8>,
    /// The attack has lost its patience (no shot clock).
    pub impatient: bool,
    /// The look that is to be forced has been.
    pub forced: bool,
}

impl Default for Progress {
    fn default() -> Self {
        Self {
            passer: None,
            came_from: Vec2::RIM,
            last_catch: Vec2::RIM,
            moved: Moved::Little,
            inside: false,
            side: 0.0,
            reversals: 0,
            credit: None,
            impatient: false,
            forced: false,
        }
    }
}
