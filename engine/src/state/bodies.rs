//! Bodies of the ten players (and the ball's place on the floor), what they can do, and where they have been.

use crate::law::kernel::{Gait, Rows};
use crate::math::Vec2;
use crate::setup::{SHOT_CLASSES, Shooter};
use crate::slots::{BALL, DEFENCE, Row, Slot, ZERO};
use bevy_ecs::prelude::Component;

/// Positions, velocities, facings and the step's displacement, metres and m/s. The ball's slot holds its
/// place on the floor.
#[derive(Component, Clone, Debug, Default)]
pub struct Bodies(pub Rows);

impl Bodies {
    /// Position of a player.
    #[inline]
    pub fn at(&self, slot: Slot) -> Vec2 {
        Vec2 { x: self.0.px[slot], y: self.0.py[slot] }
    }
    /// The ball's place on the floor.
    #[inline]
    pub fn ball(&self) -> Vec2 {
        Vec2 { x: self.0.px[BALL], y: self.0.py[BALL] }
    }
    /// Puts the ball over a place of the floor.
    #[inline]
    pub fn put_ball(&mut self, at: Vec2) {
        (self.0.px[BALL], self.0.py[BALL]) = (at.x, at.y);
    }
    /// Velocity of a player.
    #[inline]
    pub fn velocity(&self, slot: Slot) -> Vec2 {
        Vec2 { x: self.0.vx[slot], y: self.0.vy[slot] }
    }
    /// Facing of a player.
    #[inline]
    pub fn facing(&self, slot: Slot) -> Vec2 {
        Vec2 { x: self.0.fx[slot], y: self.0.fy[slot] }
    }
    /// The nearest defender to a place and how far he is, centre to centre, m: the one operator for the space of a shooter.
    pub fn nearest_defender(&self, at: Vec2) -> (Slot, f32) {
        let mut nearest = (DEFENCE[0], f32::INFINITY);
        for slot in DEFENCE {
            let d2 = (self.at(slot) - at).len2();
            if d2 < nearest.1 {
                nearest = (slot, d2);
            }
        }
        (nearest.0, nearest.1.sqrt())
    }
    /// Whether a defender stands within so many metres of a place.
    #[inline]
    pub fn defended(&self, at: Vec2, metres: f32) -> bool {
        DEFENCE.into_iter().any(|slot| (self.at(slot) - at).len2() < metres * metres)
    }
    /// Moves a player somewhere, at rest.
    pub fn put(&mut self, slot: Slot, at: Vec2) {
        self.0.px[slot] = at.x;
        self.0.py[slot] = at.y;
        self.0.vx[slot] = 0.0;
        self.0.vy[slot] = 0.0;
    }
}

/// What each player can do, individual differences drawn.
#[derive(Component, Clone, Debug, Default)]
pub struct Traits {
    /// Movement.
    pub gait: Gait,
    /// Torso radius, m.
    pub radius: Row,
    /// Inverse mass (strength in it), unbraced, 1/kg.
    pub inv_mass: Row,
    /// Inverse mass of a braced body, 1/kg.
    pub braced_inv_mass: Row,
    /// Simple reaction less half a decision period, s.
    pub reaction: Row,
    /// Standing and lunging reach of a hand, m.
    pub arm: Row,
    /// Lunging reach, m.
    pub lunge: Row,
    /// Height that a hand reaches standing, m.
    pub standing_reach: Row,
    /// Shooting, logit added, by class of shot.
    pub shooting: [Row; SHOT_CLASSES],
    /// Catch to release with the feet set, s.
    pub catch_to_release: Row,
}

impl Traits {
    /// How a player shoots.
    pub fn shooter(&self, slot: Slot) -> Shooter {
        Shooter(self.shooting.map(|class| class[slot]))
    }
}

/// Where everyone was and how turned, for reactions: a ring of the last samples.
#[derive(Component, Clone, Debug)]
pub struct History {
    /// Samples, by age.
    pub ring: [Sample; History::LENGTH],
    /// Index of the newest.
    pub newest: usize,
}

impl History {
    /// Samples kept.
    pub const LENGTH: usize = 16;

    /// The sample of so many steps ago; 0 is the newest.
    #[inline]
    pub fn ago(&self, steps: usize) -> &Sample {
        &self.ring[(self.newest + Self::LENGTH - steps) % Self::LENGTH]
    }
}

/// One sample of the history.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Position, m.
    pub x: Row,
    /// Position, m.
    pub y: Row,
    /// Velocity, m/s.
    pub vx: Row,
    /// Velocity, m/s.
    pub vy: Row,
    /// Facing, unit vector.
    pub fx: Row,
    /// Facing, unit vector.
    pub fy: Row,
}

impl Sample {
    /// All zero.
    pub const EMPTY: Sample = Sample { x: ZERO, y: ZERO, vx: ZERO, vy: ZERO, fx: ZERO, fy: ZERO };

    /// The bodies as they are now.
    pub fn of(bodies: &Bodies) -> Sample {
        let rows = &bodies.0;
        Sample { x: rows.px, y: rows.py, vx: rows.vx, vy: rows.vy, fx: rows.fx, fy: rows.fy }
    }
}

impl Default for History {
    fn default() -> Self {
        Self { ring: [Sample::EMPTY; History::LENGTH], newest: 0 }
    }
}
