//! Bodies of the ten players (and the ball's place on the floor), what they can do, and where they have been.

use crate::law::kernel::{Gait, Rows};
use crate::math::Vec2;
use crate::setup::Shooter;
use crate::slots::{DEFENCE, Row, ZERO};
use bevy_ecs::prelude::Component;

/// Positions, velocities, facings and the step's displacement, metres and m/s. The ball's lane holds its
/// place on the floor.
#[derive(Component, Clone, Debug, Default)]
pub struct Bodies(pub Rows);

impl Bodies {
    /// Position of a lane.
    #[inline]
    pub fn at(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.0.px[lane], y: self.0.py[lane] }
    }
    /// Velocity of a lane.
    #[inline]
    pub fn velocity(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.0.vx[lane], y: self.0.vy[lane] }
    }
    /// Facing of a lane.
    #[inline]
    pub fn facing(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.0.fx[lane], y: self.0.fy[lane] }
    }
    /// Whether a defender stands within so many metres of a place.
    #[inline]
    pub fn defended(&self, at: Vec2, metres: f32) -> bool {
        DEFENCE.into_iter().any(|lane| (self.at(lane) - at).len2() < metres * metres)
    }
    /// Moves a lane somewhere, at rest.
    pub fn put(&mut self, lane: usize, at: Vec2) {
        self.0.px[lane] = at.x;
        self.0.py[lane] = at.y;
        self.0.vx[lane] = 0.0;
        self.0.vy[lane] = 0.0;
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
    /// Shooting of twos, logit added.
    pub twos: Row,
    /// Of threes.
    pub threes: Row,
    /// Catch to release with the feet set, s.
    pub catch_to_release: Row,
}

impl Traits {
    /// How a player shoots.
    pub fn shooter(&self, lane: usize) -> Shooter {
        Shooter { twos: self.twos[lane], threes: self.threes[lane] }
    }
}

/// Where everyone was, for reactions: a ring of the last positions and velocities.
#[derive(Component, Clone, Debug)]
pub struct History {
    /// Positions and velocities, by age.
    pub ring: [Sample; History::LENGTH],
    /// Index of the newest.
    pub newest: usize,
}

impl History {
    /// Samples kept.
    pub const LENGTH: usize = 16;
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
}

impl Sample {
    /// All zero.
    pub const EMPTY: Sample = Sample { x: ZERO, y: ZERO, vx: ZERO, vy: ZERO };
}
