//! Designs of very many cells: played cell by cell, totalled cell by cell, and effects from sums over all cells.
//!
//! An ordinary run totals products of all its variants with one another; for tens of thousands of them there is no room. Of
//! a design each cell has totals of its own, with the products of the variants in it, so that differences within a cell are
//! exact. An effect is a weighted sum over all cells. Where each cell has possessions of its own, variances add up. Where
//! cells share them, the weighted sum itself is kept possession by possession until the last cell of that possession has
//! been played, and its square goes into the variance. Weights are whole parts of one and sums are integers: the order of
//! playing cannot be seen.

mod kept;
mod plan;
mod play;
mod sums;

pub use kept::{id, keeper, kept, name};
pub use plan::{BLOCK, Part, Sketch};
pub use play::{Keep, check_outcomes, play};
pub use sums::{PartSums, Sums, in_parts};

use crate::columns::{Column, Kind};

/// The measures of which effects are told, besides the ranking one.
const TOLD: [&str; 8] = [
    "good_look_rate",
    "open_look_rate",
    "paint_touch_rate",
    "expected_points_per_possession",
    "expected_net_points",
    "turnover_rate",
    "break_exposure",
    "seconds_used",
];

/// The columns of effects and of differences: the ranking one first. A ratio has no effects, as it is no mean of possessions.
#[must_use]
pub fn told_columns(rank_by: &'static Column) -> Vec<&'static Column> {
    let others = TOLD.iter().filter_map(|key| Column::named(key)).filter(|column| column.key != rank_by.key);
    std::iter::once(rank_by).chain(others).collect()
}

/// Of these those that are means of possessions, each with its place in a row.
#[must_use]
pub fn means(columns: &[&'static Column]) -> Vec<(&'static Column, usize)> {
    let mean = |column: &&'static Column| match column.kind {
        Kind::Rate(measure) | Kind::Mean(measure) => Some((*column, measure as usize)),
        Kind::Share(..) | Kind::Ratio(..) => None,
    };
    columns.iter().filter_map(mean).collect()
}
