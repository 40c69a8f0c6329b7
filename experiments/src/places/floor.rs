//! `places.csv`: counts by cell of the floor, folded so that the rover's starting side is +x.

use std::sync::Arc;

use engine::Places;
use engine::places::{Cell, Mark};
use engine::setup::Setup;

use super::names::column_name;
use crate::output::{cell, written};

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

    /// The defenders' steps, by column.
    pub fn defender(&self, column: usize) -> &Grid {
        &self.grids[Mark::Defender0 as usize + column].1
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
        defender => {
            let column = Mark::DEFENDERS.iter().position(|mark| *mark == defender).unwrap_or_default();
            format!("steps_{}", column_name(&setup.zone, column).replace('-', "_"))
        }
    }
}

/// `defenders.csv`: one row for each variant and defender: his mean place, and the variant's line gap.
pub fn defenders_csv(variants: &[String], tables: &[FloorTable], setups: &[Arc<Setup>]) -> Vec<u8> {
    let header = ["variant", "defender", "mean_x_m", "mean_y_m", "line_gap_m"];
    let rows = variants.iter().zip(tables).zip(setups).flat_map(|((variant, table), setup)| {
        (0..5).map(move |column| {
            let (x, y) = table.defender(column).mean();
            vec![
                variant.clone(),
                column_name(&setup.zone, column),
                cell(Some(x)),
                cell(Some(y)),
                cell(table.line_gap_m()),
            ]
        })
    });
    written(header.map(String::from).to_vec(), rows)
}

/// One row for each variant, measure and cell that is not empty.
pub fn places_csv(variants: &[String], tables: &[FloorTable], possessions: u64) -> Vec<u8> {
    let header = ["variant", "measure", "x_m", "y_m", "count", "per_100_possessions"];
    let rows = variants.iter().zip(tables).flat_map(|(variant, table)| {
        table.grids.iter().flat_map(move |(measure, grid)| {
            grid.cells.iter().map(move |(x, y, n)| {
                let per_100 = 100.0 * *n as f64 / possessions as f64;
                vec![
                    variant.clone(),
                    measure.clone(),
                    format!("{x:.2}"),
                    format!("{y:.2}"),
                    n.to_string(),
                    cell(Some(per_100)),
                ]
            })
        })
    });
    written(header.map(String::from).to_vec(), rows)
}
