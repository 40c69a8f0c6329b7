//! What a step leaves for the measures and the film: the last menu, and what happened.

use super::ball::PassClass;
use crate::film::{Action, TurnoverKind, Weighed};
use crate::math::Vec2;
use crate::record::Outcome;
use crate::setup::PassKind;
use bevy_ecs::prelude::Component;

/// Options that the ball-handler weighed last, best first once chosen.
#[derive(Component, Clone, Debug)]
pub struct Menu {
    /// The options.
    pub options: [Weighed; Menu::LENGTH],
    /// How many.
    pub count: usize,
    /// Decision noise of each option (by identity) for the present stretch of thought.
    pub noise: [f32; Menu::IDENTITIES],
    /// Which stretch that is: when the hold began, s, and the number of the stretch in it.
    pub stretch: (f32, u8),
}

impl Menu {
    /// Identities of options: hold, shoot, drive, the receivers, dribble-at.
    pub const IDENTITIES: usize = 3 + 5 + 1;
    /// Most options weighed at once.
    pub const LENGTH: usize = 24;
    /// An option that is nobody's.
    pub const EMPTY: Weighed = Weighed { action: Action::Hold, value_points: 0.0, chance: 1.0 };
    /// Adds an option where there is room.
    #[inline]
    pub fn add(&mut self, action: Action, value_points: f32, chance: f32) {
        if self.count < Self::LENGTH {
            self.options[self.count] = Weighed { action, value_points, chance };
            self.count += 1;
        }
    }
}

/// One thing that happened in this step, for the measures and the film.
#[derive(Clone, Copy, Debug)]
pub enum Signal {
    Start { holder: u8 },
    Decision { by: u8, chosen: u8 },
    Pass { from: u8, to: u8, kind: PassKind, metres: f32, class: PassClass, look_off: bool },
    Catch { by: u8, late_s: f32, class: Option<PassClass> },
    Tip { by: u8 },
    Pickup { by: u8 },
    OutOfBounds { retained: bool },
    Fake { by: u8, toward: u8, bitten: u16 },
    DriveStart { by: u8 },
    DriveStop { by: u8 },
    Shot { by: u8, metres: f32, space_m: f32, chance: f32, three: bool },
    Made { by: u8, points: u8 },
    Missed { by: u8 },
    Rebound { by: u8, offensive: bool },
    ProgramStart { by: u8, program: u8 },
    ProgramStep { by: u8, program: u8, step: u8 },
    ProgramEnd { by: u8, program: u8 },
    TakesBall { by: u8, of: u8 },
    Helps { by: u8, on: u8 },
    Loses { by: u8, whom: u8 },
    Foul { by: u8, on: u8, offensive: bool, shooting: bool },
    FreeThrows { by: u8, made: u8, of: u8, expected: f32 },
    Turnover { kind: TurnoverKind, by: u8 },
    End { outcome: Outcome },
}

/// The signals of one step. A step with more than it holds drops the last ones and says so in debug builds.
#[derive(Component, Clone, Debug)]
pub struct Signals {
    /// The signals with their times and places.
    pub list: [(f32, Vec2, Signal); Signals::LENGTH],
    /// How many.
    pub count: usize,
}

impl Signals {
    /// Most signals in a step.
    pub const LENGTH: usize = 32;
    /// Adds one.
    #[inline]
    pub fn say(&mut self, time_s: f32, at: Vec2, what: Signal) {
        debug_assert!(self.count < Self::LENGTH, "more than {} signals in a step", Self::LENGTH);
        if self.count < Self::LENGTH {
            self.list[self.count] = (time_s, at, what);
            self.count += 1;
        }
    }
    /// The signals so far.
    pub fn all(&self) -> &[(f32, Vec2, Signal)] {
        &self.list[..self.count]
    }
}
