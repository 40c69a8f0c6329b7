//! `breakdowns.csv`: how late the back line is on average, by the ball's place, and against the baseline.

use serde::Serialize;

use super::floor::FloorTable;
use crate::output::{Decimal, FileLine, Hundredths};

/// Cells in which the ball is for less than this in 100 possessions are left out: their means are noise.
const LEAST_S: f64 = 1.0;

/// Mean lateness by cell.
#[derive(Clone, Debug, PartialEq)]
pub struct Breakdowns {
    /// Centre x and y (m), mean lateness (s), in the order of the table.
    pub cells: Vec<(f64, f64, f64)>,
}

impl Breakdowns {
    /// From a variant's table; `step_s` is the length of a step.
    pub fn new(table: &FloorTable, possessions: u64, step_s: f32) -> Self {
        let (Some(steps), Some(late)) = (table.grid("back_line_steps"), table.grid("back_line_lateness_us"))
        else {
            return Self { cells: Vec::new() };
        };
        let least = LEAST_S * possessions as f64 / 100.0;
        let cells = steps.cells.iter().filter(|cell| cell.2 as f64 * f64::from(step_s) >= least);
        let mean = |x: f64, y: f64, steps: i64| late.at(x, y) as f64 / 1e6 / steps as f64;
        Self { cells: cells.map(|&(x, y, steps)| (x, y, mean(x, y, steps))).collect() }
    }

    /// The largest mean.
    pub fn top(&self) -> f64 {
        self.cells.iter().fold(0.0, |most: f64, cell| most.max(cell.2))
    }

    /// These less others, where both have a mean.
    pub fn less(&self, other: &Self) -> Self {
        let of = |x: f64, y: f64| other.cells.iter().find(|cell| (cell.0, cell.1) == (x, y));
        let cells = self.cells.iter().filter_map(|&(x, y, own)| Some((x, y, own - of(x, y)?.2))).collect();
        Self { cells }
    }
}

/// One row of `breakdowns.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct BreakdownLine {
    variant: String,
    x_m: Hundredths,
    y_m: Hundredths,
    mean_lateness_s: Decimal,
    against_baseline_s: Decimal,
}

impl FileLine for BreakdownLine {
    const FILE: &'static str = "breakdowns.csv";
}

/// One row for each variant and cell that is drawn.
pub(crate) fn breakdown_lines(
    variants: &[String],
    breakdowns: &[Breakdowns],
    baseline: usize,
) -> impl Iterator<Item = BreakdownLine> {
    variants.iter().zip(breakdowns).flat_map(move |(variant, own)| {
        let less = own.less(&breakdowns[baseline]);
        own.cells.iter().map(move |&(x, y, mean)| {
            let difference = less.cells.iter().find(|other| (other.0, other.1) == (x, y));
            BreakdownLine {
                variant: variant.clone(),
                x_m: Hundredths(x),
                y_m: Hundredths(y),
                mean_lateness_s: mean.into(),
                against_baseline_s: Decimal(difference.map(|other| other.2)),
            }
        })
    })
}
