//! What a step leaves for the measures and the film: the last menu, and what happened.

use super::ball::PassClass;
use crate::math::Vec2;
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::setup::PassKind;
use crate::slots::{ATTACK, Slot};
use bevy_ecs::prelude::Component;

/// What a ball-handler may choose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Action {
    /// Keep the ball and wait.
    Hold,
    /// Shoot.
    Shoot,
    /// Pass to a player.
    Pass(Slot, PassKind),
    /// Drive at the rim.
    Drive,
    /// Dribble at a team-mate, who makes way.
    DribbleAt(Slot),
}

/// One option of a decision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// The option.
    pub action: Action,
    /// Its believed value, points, decision noise not included.
    pub value_points: f32,
    /// For a pass the believed chance that it is completed; for a shot that it goes in; for a drive that he gets to the
    /// rim; for a dribble that he keeps the ball; for waiting 1.
    pub chance: f32,
}

/// Options that the ball-handler weighed last, in the order in which they were weighed.
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
    /// Identities of options, for their noise: hold, shoot, drive, the receivers, dribble-at.
    pub const IDENTITIES: usize = Self::FIRST_RECEIVER + 5 + 1;
    /// Identity of the pass to the first receiver.
    pub const FIRST_RECEIVER: usize = 3;
    /// Most options weighed at once.
    pub const LENGTH: usize = 24;
    /// An option that is nobody's.
    pub const EMPTY: Weighed = Weighed { action: Action::Hold, value_points: 0.0, chance: 1.0 };
    /// Forgets what was weighed in another possession.
    pub fn forget(&mut self) {
        self.count = 0;
        self.stretch = (f32::NEG_INFINITY, 0);
    }
    /// Identity of an option, for its noise.
    pub fn identity(action: Action) -> usize {
        match action {
            Action::Hold => 0,
            Action::Shoot => 1,
            Action::Drive => 2,
            Action::Pass(to, _) => Self::FIRST_RECEIVER + to.in_team(),
            Action::DribbleAt(_) => Self::IDENTITIES - 1,
        }
    }
    /// Adds an option where there is room.
    #[inline]
    pub fn add(&mut self, option: Weighed) {
        if self.count < Self::LENGTH {
            self.options[self.count] = option;
            self.count += 1;
        }
    }
}

impl Default for Menu {
    fn default() -> Self {
        Self {
            options: [Menu::EMPTY; Menu::LENGTH],
            count: 0,
            noise: [0.0; Menu::IDENTITIES],
            stretch: (f32::NEG_INFINITY, 0),
        }
    }
}

/// One thing that happened in this step, for the measures and the film.
#[derive(Clone, Copy, Debug)]
pub enum Signal {
    Start { holder: Slot },
    Decision { by: Slot, chosen: u8 },
    Pass { from: Slot, to: Slot, kind: PassKind, metres: f32, class: PassClass, look_off: bool },
    Catch { by: Slot, late_s: f32, class: Option<PassClass> },
    Tip { by: Slot },
    Pickup { by: Slot },
    OutOfBounds { retained: bool },
    Fake { by: Slot, toward: Slot, bitten: u16 },
    DriveStart { by: Slot },
    DriveStop { by: Slot },
    Shot { by: Slot, metres: f32, space_m: f32, chance: f32, three: bool },
    Made { by: Slot, points: u8 },
    Missed { by: Slot },
    Rebound { by: Slot, offensive: bool },
    ProgramStart { by: Slot, program: u8 },
    ProgramStep { by: Slot, program: u8, step: u8 },
    ProgramEnd { by: Slot, program: u8 },
    TakesBall { by: Slot, of: Slot },
    Helps { by: Slot, on: Slot },
    Loses { by: Slot, whom: Slot },
    Foul { by: Slot, on: Slot, offensive: bool, shooting: bool },
    FreeThrows { by: Slot, made: u8, of: u8, expected: f32, shot_points: f32 },
    Turnover { kind: TurnoverKind, by: Slot },
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

impl Default for Signals {
    fn default() -> Self {
        Self { list: [(0.0, Vec2::RIM, Signal::Start { holder: ATTACK[0] }); Signals::LENGTH], count: 0 }
    }
}

/// The look of the man with the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Distance of the nearest defender, centre to centre, m.
    pub space_m: f32,
    /// Who that is.
    pub nearest: Slot,
    /// Expected points of a shot from here with nobody near.
    pub free_points: f32,
    /// From there a shot is in range.
    pub in_range: bool,
    /// He could release at any moment.
    pub ready: bool,
    /// All of it together: an open look.
    pub open: bool,
}

/// The zone's stress in one step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stress {
    /// Back-line lateness, s.
    pub late_s: f32,
    /// The attacker whom the back line would be late for.
    pub late_for: Option<Slot>,
    /// Distance between front line and back line, m.
    pub line_gap_m: f32,
    /// Widest gap between neighbours of one line, m.
    pub widest_seam_m: f32,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_options_share_their_noise() {
        let own = [Action::Hold, Action::Shoot, Action::Drive, Action::DribbleAt(ATTACK[0])];
        let passes = ATTACK.map(|to| Action::Pass(to, PassKind::Chest));
        let mut seen: Vec<usize> = own.into_iter().chain(passes).map(Menu::identity).collect();
        seen.sort_unstable();
        assert_eq!(seen, (0..Menu::IDENTITIES).collect::<Vec<_>>());
    }
}
