//! The report's charts and stills as pictures, for files of their own.

use super::{costs, films};
use crate::compare::Comparison;
use crate::picture::{self, Picture};
use crate::places::Tables;

/// The ranking, what it costs, and the decisive moments of the possessions to watch.
pub fn charts(comparison: &Comparison, tables: &Tables) -> Vec<Picture> {
    let stills =
        tables.leaders.iter().zip(&tables.stills).flat_map(|(&v, stills)| {
            stills.iter().map(move |still| films::still(comparison, tables, v, still))
        });
    let charts = [Some(picture::ranking(RANKING, comparison)), costs::trade(comparison)];
    charts.into_iter().flatten().chain(stills).collect()
}

/// Id of the ranking.
pub(super) const RANKING: &str = "ranking";
