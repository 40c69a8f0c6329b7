//! `places.csv`: counts by cell of the floor, folded so that the rover's starting side is +x.

use std::sync::Arc;

use engine::Places;
use engine::places::{Cell, Mark};
use engine::setup::Setup;
use serde::Serialize;

use super::names::defender_name;
use crate::output::{Decimal, FileLine, Hundredths};

/// One measure of one variant over the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// Cells that are not empty: centre x and y (m), count.
    pub cells: Vec<(f64, f64, i64)>,
}

impl Grid {
    fn new(places: &Places, mark: Mark) -> Self {
        let count = |cell: Cell| {
            let (at, n) = (cell.centre(), places.count(mark, cell));
            (n != 0).then_some((f64::from(at.x), f64::from(at.y), n))
        };
        Self { cells: Cell::all().filter_map(count).collect() }
    }

    /// The whole count.
    pub fn total(&self) -> i64 {
        self.cells.iter().map(|cell| cell.2).sum()
    }

    /// Mean place (m), by the cells' centres.
    pub fn mean(&self) -> (f64, f64) {
        let whole = self.total().max(1) as f64;
        let sum = |pick: fn(&(f64, f64, i64)) -> f64| {
            self.cells.iter().map(|cell| pick(cell) * cell.2 as f64).sum::<f64>() / whole
        };
        (sum(|cell| cell.0), sum(|cell| cell.1))
    }

    /// The count of the cell with this centre.
    pub fn at(&self, x: f64, y: f64) -> i64 {
        self.cells.iter().find(|cell| (cell.0, cell.1) == (x, y)).map_or(0, |cell| cell.2)
    }
}

/// All measures of one variant over the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorTable {
    /// Names of the measures and their grids, in file order.
    grids: Vec<(String, Grid)>,
}

impl FloorTable {
    /// Of a variant's counts.
    pub fn new(places: &Places, setup: &Setup) -> Self {
        Self { grids: Mark::ALL.map(|mark| (name(mark, setup), Grid::new(places, mark))).to_vec() }
    }

    /// One measure by its name in the file.
    pub fn grid(&self, name: &str) -> Option<&Grid> {
        self.grids.iter().find(|(own, _)| own == name).map(|(_, grid)| grid)
    }

    /// Mean distance from the front line to the back line, m; None without a step that was measured.
    pub fn line_gap_m(&self) -> Option<f64> {
        let steps = self.grid("back_line_steps")?.total();
        let sum = self.grid("line_gap_um")?.total();
        (steps > 0).then(|| sum as f64 / 1e6 / steps as f64)
    }

    /// The defenders' steps, by position.
    pub fn defender(&self, position: usize) -> &Grid {
        &self.grids[Mark::Defender0 as usize + position].1
    }
}

#[cfg(test)]
impl FloorTable {
    /// A made-up table: every measure a slope over a few cells, larger with `factor`.
    pub(crate) fn sample(setup: &Setup, factor: i64) -> Self {
        let grid = |mark: Mark| {
            let cells = (0..12).flat_map(|x: i64| (0..8).map(move |y: i64| (x, y)));
            let own = mark as i64;
            let cell = |(x, y): (i64, i64)| {
                let count = (1 + (x * 7 + y * 5 + own * 3) % 11) * factor;
                let scale =
                    if [Mark::LatenessUs, Mark::LineGapUm].contains(&mark) { 90_000 + 700 * x } else { 1 };
                let (left, low) = (-3.0 + 0.3 * own as f64, -1.0 + 0.2 * own as f64);
                let centre = |from: f64, nth: i64| (from * 2.0).floor() / 2.0 + 0.25 + 0.5 * nth as f64;
                (centre(left, x), centre(low, y), count * scale)
            };
            Grid { cells: cells.map(cell).collect() }
        };
        Self { grids: Mark::ALL.map(|mark| (name(mark, setup), grid(mark))).to_vec() }
    }
}

/// Name of a measure in the file.
fn name(mark: Mark, setup: &Setup) -> String {
    match mark {
        Mark::OpenLook => "open_look".into(),
        Mark::OpenLookAvailable => "open_look_available".into(),
        Mark::GoodShot => "good_shot".into(),
        Mark::Shot => "shots".into(),
        Mark::PaintTouch => "paint_touch".into(),
        Mark::Turnover => "turnover".into(),
        Mark::PeakLate => "back_line_peak_late".into(),
        Mark::StressSteps => "back_line_steps".into(),
        Mark::LatenessUs => "back_line_lateness_us".into(),
        Mark::LineGapUm => "line_gap_um".into(),
        Mark::FreeSteps => "free_steps".into(),
        Mark::ShotPoints => "shot_points_millionths".into(),
        Mark::OpenLookPoints => "open_look_points_millionths".into(),
        Mark::GoodShotPoints => "good_shot_points_millionths".into(),
        Mark::GoodLook => "good_look".into(),
        Mark::GoodLookPoints => "good_look_points_millionths".into(),
        Mark::PaintPoints => "paint_touch_points_millionths".into(),
        defender => {
            let position = Mark::DEFENDERS.iter().position(|mark| *mark == defender).unwrap_or_default();
            format!("steps_{}", defender_name(&setup.zone, position).replace('-', "_"))
        }
    }
}

/// One row of `defenders.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct DefenderLine {
    variant: String,
    defender: String,
    mean_x_m: Decimal,
    mean_y_m: Decimal,
    line_gap_m: Decimal,
}

impl FileLine for DefenderLine {
    const FILE: &'static str = "defenders.csv";
}

/// One row for each variant and defender: his mean place, and the variant's line gap.
pub(crate) fn defender_lines(
    variants: &[String],
    tables: &[FloorTable],
    setups: &[Arc<Setup>],
) -> impl Iterator<Item = DefenderLine> {
    variants.iter().zip(tables).zip(setups).flat_map(|((variant, table), setup)| {
        (0..5).map(move |position| {
            let (x, y) = table.defender(position).mean();
            DefenderLine {
                variant: variant.clone(),
                defender: defender_name(&setup.zone, position),
                mean_x_m: x.into(),
                mean_y_m: y.into(),
                line_gap_m: Decimal(table.line_gap_m()),
            }
        })
    })
}

/// One row of `places.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct PlaceLine {
    variant: String,
    measure: String,
    x_m: Hundredths,
    y_m: Hundredths,
    count: i64,
    per_100_possessions: Decimal,
}

impl FileLine for PlaceLine {
    const FILE: &'static str = "places.csv";
}

/// One row for each variant, measure and cell that is not empty.
pub(crate) fn place_lines(
    variants: &[String],
    tables: &[FloorTable],
    possessions: u64,
) -> impl Iterator<Item = PlaceLine> {
    variants.iter().zip(tables).flat_map(move |(variant, table)| {
        table.grids.iter().flat_map(move |(measure, grid)| {
            grid.cells.iter().map(move |&(x, y, count)| PlaceLine {
                variant: variant.clone(),
                measure: measure.clone(),
                x_m: Hundredths(x),
                y_m: Hundredths(y),
                count,
                per_100_possessions: (100.0 * count as f64 / possessions as f64).into(),
            })
        })
    })
}
