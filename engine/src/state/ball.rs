//! The ball: in hands, in the air or loose.

use crate::law::ball_height::AT_THE_START_M;
use crate::math::Vec2;
use crate::setup::PassKind;
use crate::slots::Slot;
use bevy_ecs::prelude::Component;

/// Where the ball is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BallState {
    /// In a player's hands.
    Held { by: Slot },
    /// Passed.
    Pass(Flight),
    /// Shot from a place; it is at the rim at `rim_s`.
    Shot { by: Slot, from: Vec2, rim_s: f32, made: bool, three: bool },
    /// Off the rim; it comes down at `down` at `down_s`.
    Rebound { down: Vec2, down_s: f32 },
    /// Loose after a tip or a fumble; it can be had at `at` from `from_s` on.
    Loose { at: Vec2, from_s: f32, last: Slot, loser: Slot, was_pass: bool },
    /// Nobody's: the possession is over.
    Dead,
}

/// A pass in the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flight {
    /// Passer.
    pub from: Slot,
    /// Receiver meant.
    pub to: Slot,
    /// Kind.
    pub kind: PassKind,
    /// Where it left the hands, m.
    pub start: Vec2,
    /// Where it comes down to the catch height, error included, m.
    pub end: Vec2,
    /// When it left, s.
    pub start_s: f32,
    /// How long it flies, s.
    pub span_s: f32,
    /// What kind of pass it is for the measures.
    pub class: PassClass,
    /// Each defender's luck with his hand, even between 0 and 1: he touches what he had the better chance of touching.
    pub luck: [f32; 5],
}

/// Kinds of pass as the measures tell them apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassClass {
    /// Round the perimeter, under 7.5 m.
    Swing,
    /// Perimeter to perimeter, 7.5 m and more.
    Skip,
    /// To the high post.
    HighPost,
    /// To the low post.
    LowPost,
    /// Anything else (out of the post, to the short corner).
    Other,
}

/// The ball itself.
#[derive(Component, Clone, Debug)]
pub struct Ball {
    /// State.
    pub state: BallState,
    /// Height, m.
    pub height: f32,
}

impl Default for Ball {
    fn default() -> Self {
        Self { state: BallState::Dead, height: AT_THE_START_M }
    }
}

impl Ball {
    /// The attack has it: held, or on its way from hand to hand.
    #[inline]
    pub fn controlled(&self) -> bool {
        matches!(self.state, BallState::Held { .. } | BallState::Pass(_))
    }
    /// Who has it in his hands.
    #[inline]
    pub fn holder(&self) -> Option<Slot> {
        match self.state {
            BallState::Held { by } => Some(by),
            _ => None,
        }
    }
}
