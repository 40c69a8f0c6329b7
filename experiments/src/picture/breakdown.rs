//! Where the zone breaks down: mean back-line lateness by the ball's place.

use engine::math::vec2;
use engine::names;
use engine::setup::Setup;
use maud::{Markup, html};

use super::drawing::{Picture, joined, n};
use super::floor::{Floor, TURNED, Words};
use super::scale::Classes;
use crate::places::Breakdowns;

fn drawn(breakdowns: &Breakdowns, floor: &Floor<'_>, classes: &Classes) -> Markup {
    let cell = |(x, y, value): &(f64, f64, f64)| {
        let (left, up) = floor.at(x - 0.25, y - 0.25);
        let name = format!("{} cell", classes.name(*value));
        html! {
            rect class=(name) x=(n(left)) y=(n(up)) width="50" height="50"
                data-x=(x) data-y=(y) data-mean=(super::scale::raw(*value)) {}
        }
    };
    joined(breakdowns.cells.iter().filter(|(x, y, _)| floor.shows(*x, *y)).map(cell))
}

/// Mean lateness of one variant; `top` is the largest mean of all variants shown.
pub fn breakdown((id, variant): (&str, &str), setup: &Setup, breakdowns: &Breakdowns, top: f64) -> Picture {
    let floor = Floor::new(&setup.court);
    let classes = Classes::even(top);
    let latest = breakdowns.cells.iter().max_by(|a, b| a.2.total_cmp(&b.2));
    let caption = match latest {
        Some((x, y, mean)) => {
            let at = names::place(setup, vec2(*x as f32, *y as f32));
            format!("Latest, by {mean:.2} s on average, with the ball at {at}.")
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
