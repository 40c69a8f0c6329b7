//! Slots: ten players and the ball, each at a fixed index of fixed-size rows.
//!
//! A row is one number for each of them (all x, all speeds), so that one loop does the same for everybody, four at a time.
//! A [`Slot`] is a player by his index: it reads a row (`row[slot]`), but cannot be mistaken for a number, and where there
//! may be nobody there is an `Option<Slot>`.
//!
//! Slots are told apart by the side on which a player starts *as seen from the rover* (rover's side first),
//! never by left and right. So a mirrored possession does the same operations in the same order with the
//! sign of x flipped: sums and ties mirror bit for bit without sorting.

use serde::{Deserialize, Serialize};
use std::ops::{Index, IndexMut};

/// A player: attackers 0-4 in the order of [`crate::setup::Role`], defenders 5-9 in the order of the zone's positions with
/// the rover's starting side as the near side. He keeps his slot through the possession.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Slot(u8);

impl Slot {
    /// The player of this index, 0-9.
    pub const fn of(index: usize) -> Slot {
        assert!(index < PLAYERS);
        Slot(index as u8)
    }
    /// The attacker of a role, 0-4.
    pub const fn attacker(role: usize) -> Slot {
        assert!(role < TEAM);
        Slot(role as u8)
    }
    /// The defender of an index in his team, 0-4.
    pub const fn defender(in_team: usize) -> Slot {
        assert!(in_team < TEAM);
        Slot((TEAM + in_team) as u8)
    }
    /// Index among the ten, 0-9.
    #[inline]
    pub const fn index(self) -> usize {
        self.0 as usize
    }
    /// Index in his own team, 0-4: the role of an attacker, the position of a defender.
    #[inline]
    pub const fn in_team(self) -> usize {
        if self.attacks() { self.0 as usize } else { self.0 as usize - TEAM }
    }
    /// True for an attacker.
    #[inline]
    pub const fn attacks(self) -> bool {
        (self.0 as usize) < TEAM
    }
    /// True for a defender.
    #[inline]
    pub const fn defends(self) -> bool {
        !self.attacks()
    }
    /// True for one of the two guards.
    #[inline]
    pub const fn is_guard(self) -> bool {
        self.0 < 2
    }
    /// True for one of the two posts.
    #[inline]
    pub fn is_post(self) -> bool {
        POSTS.contains(&self)
    }
    /// His bit in a mask of the ten players.
    #[inline]
    pub const fn bit(self) -> u16 {
        1 << self.0
    }
}

impl From<Slot> for usize {
    #[inline]
    fn from(slot: Slot) -> usize {
        slot.index()
    }
}

impl<T, const N: usize> Index<Slot> for [T; N] {
    type Output = T;
    #[inline]
    fn index(&self, slot: Slot) -> &T {
        &self[slot.index()]
    }
}

impl<T, const N: usize> IndexMut<Slot> for [T; N] {
    #[inline]
    fn index_mut(&mut self, slot: Slot) -> &mut T {
        &mut self[slot.index()]
    }
}

/// Players of a team.
pub const TEAM: usize = 5;
/// How many players there are.
pub const PLAYERS: usize = 2 * TEAM;
/// Slots of every row: ten players, the ball and one of padding, which fill whole vector registers of four.
pub const ROW: usize = 12;

/// One number for each slot.
pub type Row = [f32; ROW];

/// The attackers, in the order of [`crate::setup::Role`].
pub const ATTACK: [Slot; TEAM] = [Slot(0), Slot(1), Slot(2), Slot(3), Slot(4)];
/// The defenders, in the order of the zone's positions.
pub const DEFENCE: [Slot; TEAM] = [Slot(5), Slot(6), Slot(7), Slot(8), Slot(9)];
/// All ten, attackers first.
pub const ALL: [Slot; PLAYERS] =
    [Slot(0), Slot(1), Slot(2), Slot(3), Slot(4), Slot(5), Slot(6), Slot(7), Slot(8), Slot(9)];
/// The lead guard.
pub const LEAD_GUARD: Slot = Slot(0);
/// The two guards.
pub const GUARDS: [Slot; 2] = [Slot(0), Slot(1)];
/// The rover.
pub const ROVER: Slot = Slot(2);
/// The two posts.
pub const POSTS: [Slot; 2] = [Slot(3), Slot(4)];
/// The ball's index in a row: players see it as they see one another.
pub const BALL: usize = 10;

/// An empty row.
pub const ZERO: Row = [0.0; ROW];
