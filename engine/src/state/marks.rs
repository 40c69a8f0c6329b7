//! What counting by place has to remember of a possession until it ends.

use super::places::Cell;
use super::shots::ShotKind;
use crate::setup::PassKind;
use crate::slots::Slot;

/// What counts by place only once the possession is over: a later shot replaces an earlier one.
#[derive(Clone, Copy, Debug)]
pub struct Marks {
    /// Where the first open look occurred.
    pub open: Cell,
    /// Where the paint was first touched.
    pub paint: Cell,
    /// Where the last shot was taken.
    pub shot: Cell,
    /// What it was worth, expected points.
    pub shot_points: f32,
    /// Where the ball was lost.
    pub lost: Cell,
    /// Where the attacker stood whom the back line would have reached latest.
    pub late: Cell,
    /// Lateness there, s.
    pub late_s: f32,
    /// Read that made the last shot.
    pub read: Option<u8>,
    /// Who took it.
    pub shooter: Option<Slot>,
    /// What kind it was.
    pub kind: Option<ShotKind>,
    /// Who went to the line last.
    pub line: Option<Slot>,
    /// Where he was fouled.
    pub foul: Cell,
    /// The last pass: from, to, kind.
    pub pass: Option<(Slot, Slot, PassKind)>,
    /// Route that the rover runs.
    pub route: Option<u8>,
    /// When it began, s.
    pub route_s: f32,
    /// Its next time bin.
    pub route_bin: usize,
}

impl Marks {
    /// Before the first step.
    pub const NONE: Marks = Marks {
        open: Cell::NOWHERE,
        paint: Cell::NOWHERE,
        shot: Cell::NOWHERE,
        shot_points: 0.0,
        lost: Cell::NOWHERE,
        late: Cell::NOWHERE,
        late_s: 0.0,
        read: None,
        shooter: None,
        kind: None,
        line: None,
        foul: Cell::NOWHERE,
        pass: None,
        route: None,
        route_s: 0.0,
        route_bin: 0,
    };
}
