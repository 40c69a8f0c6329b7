//! Counts by place: where looks, shots, touches and turnovers come from, where the zone is late, where its
//! defenders spend their time; and, beside the floor, who passes to whom, which read made the looks, and how each
//! route was really run.
//!
//! Everything is an integer, so that parts of a run add up to the same totals in any order. Places are folded so
//! that the rover's starting side is +x. Nothing here changes a possession or its record.

use crate::math::Vec2;
use crate::setup::{PROGRAMS, PassKind, ProgramKind, Region, Setup};
use crate::slots::Slot;
use crate::state::ends::{Ended, Ends, Spot};
use crate::state::shots::{ShotKind, Shots};
use bevy_ecs::prelude::Resource;
use serde::{Deserialize, Serialize};

/// Side of a cell, m.
pub const CELL_M: f32 = 0.5;
/// Cells from left to right, the first beginning at x = -9 m.
pub const COLUMNS: usize = 36;
/// Cells from the baseline up, the first beginning at y = -2 m.
pub const ROWS: usize = 34;
/// Left edge of the first column, m.
pub const LEFT_M: f32 = -9.0;
/// Lower edge of the first row, m.
pub const LOW_M: f32 = -2.0;
/// Time between two bins of a route, s.
pub const BIN_S: f32 = 0.25;
/// Bins of a route: 8 s and its start.
pub const BINS: usize = 33;
/// Width of a bin of a route's places, m.
pub const FINE_M: f32 = 0.25;
/// Bins of x, from [`LEFT_M`].
pub const FINE_X: usize = 72;
/// Bins of y, from [`LOW_M`].
pub const FINE_Y: usize = 68;

/// What is counted by cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Mark {
    /// An open look was taken: where the shooter stood.
    OpenLook,
    /// The first open look of a possession, taken or not.
    OpenLookAvailable,
    /// The last shot, worth at least a point.
    GoodShot,
    /// Every shot.
    Shot,
    /// The first paint touch of a possession.
    PaintTouch,
    /// Where the ball was when it was lost.
    Turnover,
    /// The attacker whom the back line would have reached latest in the possession, if too late at all.
    PeakLate,
    /// Steps in which lateness and line gap were measured, by the ball's place.
    StressSteps,
    /// Back-line lateness summed over those steps, microseconds.
    LatenessUs,
    /// Line gap summed over those steps, micrometres.
    LineGapUm,
    /// Those of the steps in which somebody was free, that is, the back line would have come too late to him.
    FreeSteps,
    /// Expected points of every shot, summed, millionths.
    ShotPoints,
    /// Expected points of the open looks taken, summed, millionths.
    OpenLookPoints,
    /// Expected points of the good shots, summed, millionths.
    GoodShotPoints,
    /// Expected points of the possessions with a paint touch, at the first one, summed, millionths.
    PaintPoints,
    /// Steps of the defender in the zone's first position; the other four follow.
    Defender0,
    /// Steps of the defender in the zone's second position.
    Defender1,
    /// Steps of the defender in the zone's third position.
    Defender2,
    /// Steps of the defender in the zone's fourth position.
    Defender3,
    /// Steps of the defender in the zone's fifth position.
    Defender4,
    /// The good look of a possession: where the shot was taken, or where the foul was on one.
    GoodLook,
    /// Expected points of the good looks, as shots, summed, millionths.
    GoodLookPoints,
}

impl Mark {
    /// All, in order.
    pub const ALL: [Mark; 22] = [
        Mark::OpenLook,
        Mark::OpenLookAvailable,
        Mark::GoodShot,
        Mark::Shot,
        Mark::PaintTouch,
        Mark::Turnover,
        Mark::PeakLate,
        Mark::StressSteps,
        Mark::LatenessUs,
        Mark::LineGapUm,
        Mark::FreeSteps,
        Mark::ShotPoints,
        Mark::OpenLookPoints,
        Mark::GoodShotPoints,
        Mark::PaintPoints,
        Mark::Defender0,
        Mark::Defender1,
        Mark::Defender2,
        Mark::Defender3,
        Mark::Defender4,
        Mark::GoodLook,
        Mark::GoodLookPoints,
    ];
    /// How many.
    const COUNT: usize = Self::ALL.len();
    /// The defenders, in the order of the zone's positions, the near ones on the rover's starting side.
    pub const DEFENDERS: [Mark; 5] =
        [Mark::Defender0, Mark::Defender1, Mark::Defender2, Mark::Defender3, Mark::Defender4];
}

/// A cell of the floor, or nowhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell(u16);

impl Cell {
    /// No place yet.
    pub const NOWHERE: Cell = Cell(u16::MAX);

    /// The cell of a folded place; places beyond the grid count in its outermost cells.
    pub fn of(at: Vec2) -> Self {
        let column = bin(at.x, LEFT_M, CELL_M, COLUMNS);
        let row = bin(at.y, LOW_M, CELL_M, ROWS);
        Self((row * COLUMNS + column) as u16)
    }

    /// All cells, row by row from the baseline.
    pub fn all() -> impl Iterator<Item = Cell> {
        (0..(COLUMNS * ROWS) as u16).map(Cell)
    }

    /// Its centre, m.
    pub fn centre(self) -> Vec2 {
        let (row, column) = (usize::from(self.0) / COLUMNS, usize::from(self.0) % COLUMNS);
        Vec2 { x: LEFT_M + (column as f32 + 0.5) * CELL_M, y: LOW_M + (row as f32 + 0.5) * CELL_M }
    }
}

/// The bin of a value; a value that is no number falls into the first.
fn bin(value: f32, from: f32, width: f32, bins: usize) -> usize {
    // The cast cuts off below: negative values and no numbers become 0.
    (((value - from) / width) as usize).min(bins - 1)
}

/// How often passes of one kind went from one role to another.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Passes {
    /// Thrown.
    pub thrown: i64,
    /// Caught by a team-mate.
    pub completed: i64,
    /// Taken by a defender.
    pub taken: i64,
}

/// Where the defenders stood while the ball was in one region.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stand {
    /// Steps.
    pub steps: i64,
    /// Their x and y summed, micrometres, in the order of the zone's positions, the near ones on the rover's starting side.
    pub sums_um: [[i64; 2]; 5],
}

/// A route as it was run: where the rover was so long after its start.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RouteRuns {
    /// The program, by index into the attack's programs.
    pub program: u8,
    /// Counts by time bin, in each by x (from [`LEFT_M`]), then by y (from [`LOW_M`]), [`FINE_M`] wide.
    bins: Vec<u32>,
}

/// Counts of a time bin.
const FINE: usize = FINE_X + FINE_Y;

impl RouteRuns {
    fn new(program: u8) -> Self {
        Self { program, bins: vec![0; BINS * FINE] }
    }

    /// Counts of x and of y in one time bin.
    pub fn bin(&self, bin: usize) -> (&[u32], &[u32]) {
        self.bins[bin * FINE..][..FINE].split_at(FINE_X)
    }

    fn add(&mut self, time: usize, at: Vec2) {
        let (xs, ys) = self.bins[time * FINE..][..FINE].split_at_mut(FINE_X);
        xs[bin(at.x, LEFT_M, FINE_M, FINE_X)] += 1;
        ys[bin(at.y, LOW_M, FINE_M, FINE_Y)] += 1;
    }

    fn merge(&mut self, other: &Self) {
        self.bins.iter_mut().zip(&other.bins).for_each(|(n, m)| *n += m);
    }
}

/// All counts by place of one setup.
#[derive(Resource, Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Places {
    /// `[cell][mark]`; empty before the first possession.
    floor: Vec<i64>,
    /// The region of each cell, and where the defenders stood with the ball in each.
    regions: Vec<u8>,
    stands: [Stand; Region::COUNT],
    /// `[from][to][kind]`
    passes: [[[Passes; PassKind::COUNT]; 5]; 5],
    /// `[read][shooter]`: open looks taken; the last read is none.
    looks: Vec<[i64; 5]>,
    /// Good looks by who took them or was fouled.
    good: [i64; 5],
    /// The rover's routes.
    routes: Vec<RouteRuns>,
    /// Shots by shooter and kind.
    shots: Shots,
    /// How possessions ended.
    ends: Ends,
}

impl Places {
    /// Forgets everything and makes room for a setup's counts, so that a step need not.
    pub(crate) fn begin(&mut self, setup: &Setup) {
        self.floor.clear();
        self.floor.resize(COLUMNS * ROWS * Mark::COUNT, 0);
        self.regions.clear();
        self.regions.extend(Cell::all().map(|cell| Region::of(&setup.zone, cell.centre()) as u8));
        self.stands = Default::default();
        self.passes = Default::default();
        self.shots = Shots::default();
        self.ends.begin();
        self.good = [0; 5];
        self.looks.clear();
        self.looks.resize(PROGRAMS + 1, [0; 5]);
        self.routes.clear();
        for (index, program) in setup.attack.programs.iter().enumerate() {
            if program.kind == ProgramKind::Route {
                self.routes.push(RouteRuns::new(index as u8));
            }
        }
    }

    /// Adds the counts of other possessions of the same setup.
    pub fn merge(&mut self, other: &Self) {
        if self.floor.is_empty() {
            self.clone_from(other);
            return;
        }
        self.floor.iter_mut().zip(&other.floor).for_each(|(n, m)| *n += m);
        for (own, more) in self.stands.iter_mut().zip(&other.stands) {
            own.steps += more.steps;
            own.sums_um.iter_mut().flatten().zip(more.sums_um.iter().flatten()).for_each(|(n, m)| *n += m);
        }
        let own = self.passes.iter_mut().flatten().flatten();
        for (own, more) in own.zip(other.passes.iter().flatten().flatten()) {
            own.thrown += more.thrown;
            own.completed += more.completed;
            own.taken += more.taken;
        }
        for (own, more) in self.looks.iter_mut().zip(&other.looks) {
            own.iter_mut().zip(more).for_each(|(n, m)| *n += m);
        }
        self.good.iter_mut().zip(&other.good).for_each(|(n, m)| *n += m);
        self.routes.iter_mut().zip(&other.routes).for_each(|(own, more)| own.merge(more));
        self.shots.merge(&other.shots);
        self.ends.merge(&other.ends);
    }

    /// Whether there are as many counts as there have to be: to be asked of counts read from a file before they are
    /// used.
    pub fn is_well_formed(&self) -> bool {
        let is_empty = *self == Self::default();
        let is_region = |region: &u8| usize::from(*region) < Region::COUNT;
        is_empty
            || self.floor.len() == COLUMNS * ROWS * Mark::COUNT
                && self.regions.len() == COLUMNS * ROWS
                && self.regions.iter().all(is_region)
                && self.looks.len() == PROGRAMS + 1
                && self.routes.iter().all(|route| route.bins.len() == BINS * FINE)
                && self.ends.is_well_formed()
    }

    /// Count of one mark in one cell; 0 before the first possession.
    pub fn count(&self, mark: Mark, cell: Cell) -> i64 {
        self.floor.get(usize::from(cell.0) * Mark::COUNT + mark as usize).copied().unwrap_or(0)
    }

    /// Count of one mark over the whole floor.
    pub fn total(&self, mark: Mark) -> i64 {
        Cell::all().map(|cell| self.count(mark, cell)).sum()
    }

    /// Passes from one role to another.
    pub fn passes(&self, from: usize, to: usize, kind: PassKind) -> Passes {
        self.passes[from][to][kind as usize]
    }

    /// Open looks taken that a read (by index into the attack's programs; `None`: no read) made, by shooter.
    pub fn looks(&self, read: Option<usize>) -> [i64; 5] {
        self.looks.get(read.unwrap_or(PROGRAMS)).copied().unwrap_or_default()
    }

    /// Good looks, by who took them or was fouled.
    pub fn good_looks(&self) -> [i64; 5] {
        self.good
    }

    /// Where the defenders stood with the ball in a region.
    pub fn stand(&self, region: Region) -> Stand {
        self.stands[region as usize]
    }

    /// Shots by shooter and kind.
    pub fn shots(&self) -> &Shots {
        &self.shots
    }

    /// How possessions ended.
    pub fn ends(&self) -> &Ends {
        &self.ends
    }

    pub(crate) fn add_end(&mut self, ended: Ended) {
        self.ends.add(ended);
    }

    /// The spot of a shot of a kind that was taken in a cell.
    pub(crate) fn spot(&self, kind: ShotKind, cell: Cell) -> Option<Spot> {
        let region = *self.regions.get(usize::from(cell.0))?;
        Some(Spot::of(kind, Region::ALL[usize::from(region)]))
    }

    pub(crate) fn shots_mut(&mut self) -> &mut Shots {
        &mut self.shots
    }

    /// The routes as they were run.
    pub fn routes(&self) -> &[RouteRuns] {
        &self.routes
    }

    #[inline]
    pub(crate) fn add(&mut self, mark: Mark, cell: Cell, n: i64) {
        if let Some(count) = self.floor.get_mut(usize::from(cell.0) * Mark::COUNT + mark as usize) {
            *count += n;
        }
    }

    /// Adds a step with the ball in a cell and the defenders at these places (micrometres).
    #[inline]
    pub(crate) fn add_stand(&mut self, ball: Cell, at_um: [[i64; 2]; 5]) {
        let Some(region) = self.regions.get(usize::from(ball.0)) else { return };
        let stand = &mut self.stands[usize::from(*region)];
        stand.steps += 1;
        stand.sums_um.iter_mut().flatten().zip(at_um.iter().flatten()).for_each(|(n, m)| *n += m);
    }

    pub(crate) fn passes_mut(&mut self, pass: (Slot, Slot, PassKind)) -> &mut Passes {
        &mut self.passes[pass.0][pass.1][pass.2 as usize]
    }

    pub(crate) fn add_look(&mut self, read: Option<u8>, shooter: Slot) {
        let read = read.map_or(PROGRAMS, usize::from);
        if let Some(looks) = self.looks.get_mut(read) {
            looks[shooter.in_team()] += 1;
        }
    }

    pub(crate) fn add_good_look(&mut self, by: Slot) {
        self.good[by.in_team()] += 1;
    }

    pub(crate) fn add_route(&mut self, program: u8, bin: usize, at: Vec2) {
        if let Some(route) = self.routes.iter_mut().find(|route| route.program == program) {
            route.add(bin, at);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;
    use crate::state::shots::{ShotKind, ShotPlace, ShotSpace};

    #[test]
    fn a_place_is_in_the_cell_whose_centre_is_nearest() {
        for at in [vec2(0.1, 0.1), vec2(-7.3, -1.55), vec2(6.02, 4.19), vec2(0.0, 11.2)] {
            let centre = Cell::of(at).centre();
            assert!((centre.x - at.x).abs() <= 0.25 && (centre.y - at.y).abs() <= 0.25, "{at:?}: {centre:?}");
        }
        assert!(Cell::all().all(|cell| Cell::of(cell.centre()) == cell), "centres find their own cells");
        let far = [vec2(f32::NAN, 0.0), vec2(-99.0, -99.0), vec2(99.0, 99.0)];
        assert!(
            far.iter().all(|at| Cell::all().any(|cell| cell == Cell::of(*at))),
            "nothing is off the grid"
        );
    }

    #[test]
    fn parts_add_up_in_any_order() {
        let part = |nth: i64| {
            let mut places = Places { floor: vec![0; COLUMNS * ROWS * Mark::COUNT], ..Places::default() };
            places.looks = vec![[0; 5]; PROGRAMS + 1];
            places.routes = vec![RouteRuns::new(3)];
            let at = vec2(nth as f32, 1.0);
            places.add(Mark::Shot, Cell::of(at), nth);
            places.add(Mark::Turnover, Cell::of(vec2(1.0, 1.0)), 1);
            places.passes_mut((Slot::of(0), Slot::of(2), PassKind::Lob)).thrown += nth;
            places.add_look(None, Slot::of(4));
            places.add_good_look(Slot::of(1));
            let kind = ShotKind::of(at, at.len(), 1.0, false);
            places.shots_mut().of_mut(Slot::of(2), kind).attempted += 1;
            places.shots_mut().free_throws_mut(Slot::of(2)).made += 2;
            places.add_route(3, 1, at);
            places
        };
        let sum = |order: [i64; 3]| {
            let mut all = Places::default();
            order.iter().for_each(|nth| all.merge(&part(*nth)));
            all
        };
        let whole = sum([1, 2, 3]);
        assert_eq!(whole, sum([3, 1, 2]));
        assert_eq!((whole.total(Mark::Shot), whole.total(Mark::Turnover)), (6, 3));
        assert_eq!(whole.passes(0, 2, PassKind::Lob).thrown, 6);
        assert_eq!((whole.looks(None), whole.good_looks()), ([0, 0, 0, 0, 3], [0, 3, 0, 0, 0]));
        let rim = ShotKind { place: ShotPlace::Short, space: ShotSpace::Guarded };
        assert_eq!((whole.shots().of(2, rim).attempted, whole.shots().free_throws(2).made), (2, 6));
        assert_eq!(whole.routes()[0].bin(1).0.iter().sum::<u32>(), 3);
        assert_ne!(whole, sum([1, 2, 2]));
    }
}
