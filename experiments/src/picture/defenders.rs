//! Where each defender spends his time: the smallest set of cells with half of it, and the gap between the lines.

use engine::math::vec2;
use engine::names;
use engine::setup::{Line as ZoneLine, Setup};
use maud::{Markup, PreEscaped, html};

use super::drawing::{MARGIN, Picture, joined, label, line, n};
use super::floor::{Floor, TURNED, Words};
use crate::marks;
use crate::places::{FloorTable, Grid, defender_letters, defender_name};
use crate::units::Units;

/// The cells in which a defender spends half of his time, the fewest that will do.
fn core(grid: &Grid) -> Vec<(f64, f64)> {
    let mut cells = grid.cells.clone();
    // Most first; equals stay in the table's order.
    cells.sort_by_key(|cell| -cell.2);
    let half = grid.total() / 2;
    let mut spent = 0;
    let few = cells.iter().take_while(|cell| {
        let more = spent < half;
        spent += cell.2;
        more
    });
    few.map(|cell| (cell.0, cell.1)).collect()
}

/// The outline of a set of cells, and the cells themselves, as paths.
fn outline(floor: &Floor<'_>, cells: &[(f64, f64)]) -> (String, String) {
    let (mut edge, mut fill) = (String::new(), String::new());
    let has = |x: f64, y: f64| cells.contains(&(x, y));
    for &(x, y) in cells {
        let (left, up) = floor.at(x - 0.25, y - 0.25);
        fill.push_str(&format!("M{} {}h50v50h-50z", n(left), n(up)));
        let sides = [
            (has(x, y - 0.5), (left, up), "h50"),
            (has(x, y + 0.5), (left, up + 50.0), "h50"),
            (has(x - 0.5, y), (left, up), "v50"),
            (has(x + 0.5, y), (left + 50.0, up), "v50"),
        ];
        for (_, (x, y), way) in sides.iter().filter(|side| !side.0) {
            edge.push_str(&format!("M{} {}{way}", n(*x), n(*y)));
        }
    }
    (edge, fill)
}

/// The defenders of one variant.
pub fn defenders((id, variant): (&str, &str), setup: &Setup, table: &FloorTable, units: Units) -> Picture {
    let floor = Floor::new(&setup.court);
    let areas = (0..5).map(|position| {
        let (edge, fill) = outline(&floor, &core(table.defender(position)));
        let class = format!("d{}", position + 1);
        html! {
            path class=(format!("{class} fill")) d=(fill) {}
            path class=(format!("{class} rimless")) d=(edge) {}
        }
    });
    let means: Vec<(f64, f64)> = (0..5).map(|position| table.defender(position).mean()).collect();
    let marks = (0..5).map(|position| {
        let (x, y) = means[position];
        let name = defender_name(&setup.zone, position);
        html! {
            g data-defender=(name) data-x=(super::scale::raw(x)) data-y=(super::scale::raw(y)) {
                // No larger than in a film: an area may be as small as that.
                (PreEscaped(marks::defender(floor.at(x, y), &defender_letters(&setup.zone, position, 1.0))))
            }
        }
    });
    let gap = table.line_gap_m();
    let told = (0..5).map(|position| {
        let (x, y) = means[position];
        let at = names::place(setup, vec2(x as f32, y as f32));
        format!("{} at {at}", defender_name(&setup.zone, position))
    });
    let desc = format!("{TURNED} On average: {}.", told.collect::<Vec<_>>().join("; "));
    let caption = gap.map_or_else(String::new, |gap| {
        format!(
            "The outlines hold half of each defender's time. From the front line to the back line: {}.",
            units.exact(gap)
        )
    });
    let over = html! { (lines(&floor, setup, &means)) (joined(marks)) };
    let under = html! { (joined(areas)) };
    floor.picture(
        Words { id, head: variant, sub: "half of each defender's time", desc: &desc, caption },
        under,
        over,
        legend(&floor, setup),
    )
}

/// The mean heights of the front line and of the back line, across the floor.
fn lines(floor: &Floor<'_>, setup: &Setup, means: &[(f64, f64)]) -> Markup {
    let of = |wanted: ZoneLine, name: &str| {
        let own: Vec<f64> =
            (0..5).filter(|c| setup.zone.positions[*c].line == wanted).map(|c| means[c].1).collect();
        let y = own.iter().sum::<f64>() / own.len().max(1) as f64;
        let half = f64::from(setup.court.half_width_m);
        let (from, to) = (floor.at(-half, y), floor.at(half, y));
        html! {
            (line("gap", from, to))
            (label("key on", from.0 + 14.0, from.1 - 16.0, name))
        }
    };
    html! { (of(ZoneLine::Front, "front line")) (of(ZoneLine::Back, "back line")) }
}

fn legend(floor: &Floor<'_>, setup: &Setup) -> (f64, Markup) {
    let wide = floor.width() / 2.0 - MARGIN;
    let top = floor.bottom() + 40.0;
    let entry = |position: usize| {
        let (x, y) = (MARGIN + wide * (position % 2) as f64, top + 76.0 * (position / 2) as f64);
        let name = format!(
            "{}: {}",
            defender_letters(&setup.zone, position, 1.0),
            defender_name(&setup.zone, position).replace('-', " ")
        );
        html! {
            rect class=(format!("d{}", position + 1)) x=(n(x + 6.0)) y=(n(y)) width="110" height="46" {}
            (label("key", x + 140.0, y + 42.0, &name))
        }
    };
    (
        346.0,
        html! {
            (joined((0..5).map(entry)))
            (label("key", MARGIN, top + 282.0, "square: his mean place; broken line: mean of a line"))
        },
    )
}
