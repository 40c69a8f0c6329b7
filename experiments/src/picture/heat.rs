//! Where something happens: counts by cell, darker for more.

use engine::math::vec2;
use engine::names;
use engine::setup::Setup;
use maud::html;

use super::drawing::{Picture, joined, n};
use super::floor::{Floor, TURNED, Words};
use super::regions::often;
use super::scale::Classes;
use crate::places::Grid;
use crate::wording::per_twenty;

/// The most that any cell of these grids has, in 20 possessions: one scale makes their pictures comparable.
pub fn top_of<'a>(grids: impl IntoIterator<Item = &'a Grid>, possessions: u64) -> f64 {
    let most = grids.into_iter().flat_map(|grid| &grid.cells).map(|cell| cell.2).max().unwrap_or(0);
    per_twenty(most, possessions)
}

/// Counts over the floor: `what` they are, of one variant. `top` is as [`top_of`] says.
pub fn heat(
    (id, variant, what): (&str, &str, &str),
    setup: &Setup,
    grid: &Grid,
    possessions: u64,
    top: f64,
) -> Picture {
    let floor = Floor::new(&setup.court);
    let classes = Classes::ladder(top);
    let in_twenty = |count: i64| per_twenty(count, possessions);
    let cell = |(x, y, count): &(f64, f64, i64)| {
        let (left, up) = floor.at(x - 0.25, y - 0.25);
        html! {
            rect class=(format!("{} cell", classes.name(in_twenty(*count)))) x=(n(left)) y=(n(up)) width="50" height="50"
                data-x=(x) data-y=(y) data-count=(count) {}
        }
    };
    let shown = grid.cells.iter().filter(|(x, y, _)| floor.shows(*x, *y));
    let (whole, most) = (in_twenty(grid.total()), grid.cells.iter().max_by_key(|cell| cell.2));
    let caption = match most {
        Some((x, y, count)) => {
            let at = names::place(setup, vec2(*x as f32, *y as f32));
            format!("Most in one cell: {} in 20 possessions, at {at}.", often(in_twenty(*count)))
        }
        None => "There were none.".into(),
    };
    let legend = classes.legend(
        floor.width(),
        floor.bottom(),
        &["in 20 possessions, by small cells;", "right: the side where the rover starts"],
    );
    let sub = format!("{what}, {whole:.1} in 20 possessions");
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: TURNED, caption },
        joined(shown.map(cell)),
        html! {},
        legend,
    )
}
