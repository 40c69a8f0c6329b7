//! Shots by shooter, by where they are taken from and by how much space there is: attempted, made, and how many were to be
//! made at the chances at which they were released. Fouled misses are no attempts.

use crate::law::counting::CORNER_BELOW_Y_M;
use crate::law::shot::{OPEN_M, WIDE_OPEN_M, class_of};
use crate::math::Vec2;
use crate::setup::ShotClass;
use crate::slots::{Slot, TEAM};
use serde::{Deserialize, Serialize};

/// From where a shot is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum ShotPlace {
    /// A two from inside 1.22 m (4 ft).
    Rim,
    /// A two from 1.22 to 3.05 m (10 ft).
    Short,
    /// A two from farther out.
    MidRange,
    /// A three from the corner.
    CornerThree,
    /// Any other three.
    Three,
}

impl ShotPlace {
    /// All, in order.
    pub const ALL: [ShotPlace; 5] = [Self::Rim, Self::Short, Self::MidRange, Self::CornerThree, Self::Three];
}

/// How far the nearest defender is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum ShotSpace {
    /// Nearer than 1.22 m (4 ft).
    Guarded,
    /// From 1.22 to 1.83 m (6 ft).
    Open,
    /// Farther.
    WideOpen,
}

impl ShotSpace {
    /// All, in order.
    pub const ALL: [ShotSpace; 3] = [Self::Guarded, Self::Open, Self::WideOpen];
}

/// What kind of shot one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShotKind {
    /// From where.
    pub place: ShotPlace,
    /// With how much space.
    pub space: ShotSpace,
}

impl ShotKind {
    /// The kind of a shot.
    pub fn of(at: Vec2, metres: f32, space_m: f32, three: bool) -> Self {
        let place = match class_of(three, metres) {
            ShotClass::Rim => ShotPlace::Rim,
            ShotClass::Short => ShotPlace::Short,
            ShotClass::Mid => ShotPlace::MidRange,
            ShotClass::Three if at.y < CORNER_BELOW_Y_M => ShotPlace::CornerThree,
            ShotClass::Three => ShotPlace::Three,
        };
        let space = match space_m {
            far if far >= WIDE_OPEN_M => ShotSpace::WideOpen,
            near if near >= OPEN_M => ShotSpace::Open,
            _ => ShotSpace::Guarded,
        };
        Self { place, space }
    }
}

/// Shots of one kind by one shooter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShotCount {
    /// Attempted.
    pub attempted: i64,
    /// Made.
    pub made: i64,
    /// How many were to be made at their chances, in millionths.
    pub expected_millionths: i64,
}

impl ShotCount {
    /// Adds another count.
    pub fn add(&mut self, other: &Self) {
        self.attempted += other.attempted;
        self.made += other.made;
        self.expected_millionths += other.expected_millionths;
    }
}

/// All shots of one setup, with free throws.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shots {
    /// `[shooter][place][space]`
    counts: [[[ShotCount; ShotSpace::ALL.len()]; ShotPlace::ALL.len()]; TEAM],
    /// `[shooter]`
    free_throws: [ShotCount; TEAM],
}

impl Shots {
    /// Shots of one kind by one role.
    pub fn of(&self, role: usize, kind: ShotKind) -> ShotCount {
        self.counts[role][kind.place as usize][kind.space as usize]
    }

    /// Free throws of one role.
    pub fn free_throws(&self, role: usize) -> ShotCount {
        self.free_throws[role]
    }

    pub(crate) fn of_mut(&mut self, by: Slot, kind: ShotKind) -> &mut ShotCount {
        &mut self.counts[by.in_team()][kind.place as usize][kind.space as usize]
    }

    pub(crate) fn free_throws_mut(&mut self, by: Slot) -> &mut ShotCount {
        &mut self.free_throws[by.in_team()]
    }

    pub(crate) fn merge(&mut self, other: &Self) {
        let own = self.counts.iter_mut().flatten().flatten().chain(&mut self.free_throws);
        let more = other.counts.iter().flatten().flatten().chain(&other.free_throws);
        own.zip(more).for_each(|(own, more)| own.add(more));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;

    #[test]
    fn a_shot_is_of_one_kind() {
        let of = |x, y, space_m, three| {
            let at = vec2(x, y);
            let kind = ShotKind::of(at, at.len(), space_m, three);
            (kind.place, kind.space)
        };
        assert_eq!(of(0.0, 1.0, 0.5, false), (ShotPlace::Rim, ShotSpace::Guarded));
        assert_eq!(of(0.0, 2.0, 1.22, false), (ShotPlace::Short, ShotSpace::Open));
        assert_eq!(of(0.0, 4.0, 1.83, false), (ShotPlace::MidRange, ShotSpace::WideOpen));
        assert_eq!(of(6.3, 0.0, 1.0, true), (ShotPlace::CornerThree, ShotSpace::Guarded));
        assert_eq!(of(0.0, 6.4, 9.0, true), (ShotPlace::Three, ShotSpace::WideOpen));
    }
}
