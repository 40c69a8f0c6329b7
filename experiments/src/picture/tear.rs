//! Where the zone tears: mean back-line lateness by the ball's place, and the difference between two variants.

use engine::setup::Court;
use maud::{Markup, html};

use super::drawing::{Picture, joined, label, n};
use super::floor::{Floor, TURNED, Words};
use super::heat::cell_place;
use super::scale::{Classes, sign};
use crate::places::FloorTable;

/// Cells in which the ball is for less than this in 100 possessions are left out: their means are noise.
const LEAST_S: f64 = 1.0;

/// Mean lateness by cell.
pub struct Tears {
    /// Centre x and y (m), mean lateness (s), in the order of the table.
    cells: Vec<(f64, f64, f64)>,
}

impl Tears {
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

    /// The largest difference, whatever its sign.
    pub fn widest(&self) -> f64 {
        self.cells.iter().fold(0.0, |most: f64, cell| most.max(cell.2.abs()))
    }

    fn drawn(&self, floor: &Floor<'_>, classes: &Classes) -> Markup {
        let cell = |(x, y, value): &(f64, f64, f64)| {
            let (left, up) = floor.at(x - 0.25, y - 0.25);
            let name = classes.name(*value);
            html! {
                rect class=(name) x=(n(left)) y=(n(up)) width="50" height="50"
                    data-x=(x) data-y=(y) data-mean=(super::scale::raw(*value)) {}
                @if let Some(sign) = sign(name) { (label("sign", left + 25.0, up + 39.0, sign)) }
            }
        };
        joined(self.cells.iter().filter(|(x, y, _)| floor.shows(*x, *y)).map(cell))
    }
}

/// Mean lateness of one variant; `top` is the largest mean of all variants shown.
pub fn tear((id, variant): (&str, &str), court: &Court, tears: &Tears, top: f64) -> Picture {
    let floor = Floor::new(court);
    let classes = Classes::even(top);
    let latest = tears.cells.iter().max_by(|a, b| a.2.total_cmp(&b.2));
    let caption = match latest {
        Some((x, y, mean)) => {
            format!("Latest, by {mean:.2} s on average, with the ball {}.", cell_place(*x, *y))
        }
        None => "No cell had the ball for long enough.".into(),
    };
    let legend = classes.legend(
        floor.width(),
        floor.bottom(),
        &["seconds late, with the ball in this cell;", "empty: the ball is seldom there"],
    );
    let words = Words { id, head: variant, sub: "mean lateness of the back line", desc: TURNED, caption };
    floor.picture(words, tears.drawn(&floor, &classes), html! {}, legend)
}

/// A variant less the baseline; `widest` is the largest difference of all variants shown.
pub fn tear_difference(
    (id, variant, baseline): (&str, &str, &str),
    court: &Court,
    difference: &Tears,
    widest: f64,
) -> Picture {
    let floor = Floor::new(court);
    let classes = Classes::both_ways(widest);
    let most = difference.cells.iter().max_by(|a, b| a.2.total_cmp(&b.2));
    let caption = match most {
        Some((x, y, more)) => format!("Later by up to {more:.2} s, with the ball {}.", cell_place(*x, *y)),
        None => "No cell had the ball for long enough in both.".into(),
    };
    let legend = classes.legend(
        floor.width(),
        floor.bottom(),
        &["seconds later (+, orange) or sooner (\u{2212}, purple),", "by the ball's place"],
    );
    let sub = format!("lateness, against {baseline}");
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: TURNED, caption },
        difference.drawn(&floor, &classes),
        html! {},
        legend,
    )
}
