//! Where the zone breaks down: mean back-line lateness by the ball's place, and the difference between two variants.

use engine::setup::Court;
use maud::{Markup, html};

use super::drawing::{Picture, joined, label, n};
use super::floor::{Floor, TURNED, Words};
use super::heat::cell_place;
use super::scale::{Classes, sign};
use crate::places::Breakdowns;

fn drawn(breakdowns: &Breakdowns, floor: &Floor<'_>, classes: &Classes) -> Markup {
    let cell = |(x, y, value): &(f64, f64, f64)| {
        let (left, up) = floor.at(x - 0.25, y - 0.25);
        let name = classes.name(*value);
        html! {
            rect class=(name) x=(n(left)) y=(n(up)) width="50" height="50"
                data-x=(x) data-y=(y) data-mean=(super::scale::raw(*value)) {}
            @if let Some(sign) = sign(name) { (label("sign", left + 25.0, up + 39.0, sign)) }
        }
    };
    joined(breakdowns.cells.iter().filter(|(x, y, _)| floor.shows(*x, *y)).map(cell))
}

/// Mean lateness of one variant; `top` is the largest mean of all variants shown.
pub fn breakdown((id, variant): (&str, &str), court: &Court, breakdowns: &Breakdowns, top: f64) -> Picture {
    let floor = Floor::new(court);
    let classes = Classes::even(top);
    let latest = breakdowns.cells.iter().max_by(|a, b| a.2.total_cmp(&b.2));
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
    let words = Words { id, head: variant, sub: "how late help arrives, on average", desc: TURNED, caption };
    floor.picture(words, drawn(breakdowns, &floor, &classes), html! {}, legend)
}

/// A variant less the baseline; `widest` is the largest difference of all variants shown.
pub fn breakdown_difference(
    (id, variant, baseline): (&str, &str, &str),
    court: &Court,
    difference: &Breakdowns,
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
    let sub = format!(
        "how late help is, against {}",
        if baseline.len() > 20 { "the one compared with" } else { baseline }
    );
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: TURNED, caption },
        drawn(difference, &floor, &classes),
        html! {},
        legend,
    )
}
