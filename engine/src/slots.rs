//! Fixed slots: ten players and the ball as lanes of fixed-size arrays.
//!
//! Lanes are told apart by the side on which a player starts *as seen from the rover* (rover's side first),
//! never by left and right. So a mirrored possession does the same operations in the same order with the
//! sign of x flipped: sums and ties mirror bit for bit without sorting.

use std::ops::Range;

/// Lanes of every row: ten players, the ball and one of padding, which fill whole vector registers of four.
pub const LANES: usize = 12;

/// One number for each lane.
pub type Row = [f32; LANES];

/// Lanes of the attackers, in the order of [`crate::setup::Role`].
pub const ATTACK: Range<usize> = 0..5;
/// Lanes of the defenders, in the order of the zone's columns.
pub const DEFENCE: Range<usize> = 5..10;
/// How many players there are.
pub const PLAYERS: usize = 10;
/// The ball's lane: players see it as they see one another.
pub const BALL: usize = 10;
/// Role of random draws that belong to no player.
pub const TABLE_LANE: usize = 10;
/// Index of a player: attackers 0-4 in the order of [`crate::setup::Role`], defenders 5-9 in the order of the
/// zone's columns with the rover's starting side as the near side.
pub type Player = u8;

/// Nobody.
pub const NOBODY: u8 = u8::MAX;

/// An empty row.
pub const ZERO: Row = [0.0; LANES];

/// True for an attacker's lane.
#[inline]
pub fn attacks(lane: usize) -> bool {
    lane < 5
}

/// The two posts.
pub const POSTS: [usize; 2] = [3, 4];
