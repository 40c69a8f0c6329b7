//! `who.csv`: the line-ups that were raced, how long, and what was measured of those left.

use scenarios::Candidate;
use serde::Serialize;

use super::Lineup;
use crate::output::{Decimal, FileLine};
use crate::selection::Selected;
use crate::stats::{Interval, Place};

/// One row of `who.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct WhoLine {
    line_up: usize,
    lead_guard: String,
    off_guard: String,
    rover: String,
    rover_side_post: String,
    other_post: String,
    measure: String,
    possessions: u64,
    estimate: Decimal,
    difference: Decimal,
    difference_together_low: Decimal,
    difference_together_high: Decimal,
    stands: &'static str,
    measured_possessions: Option<u64>,
    measured: Decimal,
    measured_low: Decimal,
    measured_high: Decimal,
}

impl FileLine for WhoLine {
    const FILE: &'static str = "who.csv";
}

/// A row for each line-up that was raced. `measured` has figures by places among them.
pub(crate) fn who_lines(
    squad: &[Candidate],
    raced: &[(usize, Lineup)],
    selected: &Selected,
    (possessions, measured): (u64, &[(usize, Interval)]),
) -> Vec<WhoLine> {
    let line = |(nth, (number, lineup)): (usize, &(usize, Lineup))| {
        let [lead_guard, off_guard, rover, rover_side_post, other_post] =
            lineup.0.map(|player| squad[player].name.clone());
        let own = measured.iter().find(|(variant, _)| *variant == nth).map(|(_, figure)| *figure);
        let [figure, measured_low, measured_high] = Decimal::of(own);
        let seen = selected.last_seen(nth);
        let [difference, difference_together_low, difference_together_high] =
            Decimal::of(seen.map(|(_, standing)| standing.behind));
        WhoLine {
            line_up: *number,
            lead_guard,
            off_guard,
            rover,
            rover_side_post,
            other_post,
            measure: selected.selection.measure.clone(),
            possessions: seen.map_or(selected.selection.possessions, |(possessions, _)| possessions),
            estimate: Decimal(seen.map(|(_, standing)| standing.estimate)),
            difference,
            difference_together_low,
            difference_together_high,
            stands: seen.map_or("left", |(_, standing)| match standing.place {
                Place::Ahead => "ahead",
                Place::Left => "left",
                Place::Dropped => "dropped",
            }),
            measured_possessions: own.map(|_| possessions),
            measured: figure,
            measured_low,
            measured_high,
        }
    };
    raced.iter().enumerate().map(line).collect()
}
