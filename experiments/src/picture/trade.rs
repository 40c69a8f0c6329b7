//! What it brings against what it costs: expected net points against the risk of a fast break, with intervals.

use maud::{Markup, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, line, n, rect};
use super::lettering::{broken, heading, letters};
use super::ranking::shown;
use super::scale::{Axis, raw, tick_text, ticks};
use crate::columns::Column;
use crate::compare::Comparison;
use crate::stats::{Better, Interval};
use crate::wording::capital;

const WIDTH: f64 = 1604.0;
const LEFT: f64 = 190.0;
const PLOT: f64 = 1000.0;

/// Ways from a point to its number, the nearest first.
const WAYS: [(f64, f64); 12] = [
    (42.0, -40.0),
    (-42.0, -40.0),
    (42.0, 42.0),
    (-42.0, 42.0),
    (64.0, 0.0),
    (-64.0, 0.0),
    (0.0, -62.0),
    (0.0, 62.0),
    (84.0, -80.0),
    (-84.0, -80.0),
    (84.0, 80.0),
    (-84.0, 80.0),
];

/// For each point a place beside it, as clear of the other points and places as these ways allow.
fn beside(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for own in points {
        let ways = WAYS.map(|(dx, dy)| (own.0 + dx, own.1 + dy));
        let gap = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).abs().max((a.1 - b.1).abs());
        // Clear enough is enough: then the nearest way wins.
        let room = |way: &(f64, f64)| {
            let numbers = taken.iter().map(|other| gap(way, other) - 66.0);
            let others = points.iter().filter(|other| *other != own).map(|other| gap(way, other) - 46.0);
            numbers.chain(others).fold(0.0, f64::min)
        };
        taken.push(ways.iter().fold(ways[0], |best, way| if room(way) > room(&best) { *way } else { best }));
    }
    taken
}

/// A variant with its figures across and up.
type Point = (usize, Interval, Interval);

/// The field between two axes.
struct Plot {
    across: Axis,
    up: Axis,
}

impl Plot {
    /// Part of the field left free at either end of an axis.
    const SPARE: f64 = 0.08;
    const BOTTOM: f64 = HEAD + PLOT;

    fn new(across: &Column, up: &Column, points: &[Point]) -> Self {
        let axis = |column, figures: Vec<Interval>| Axis::new(shown(column).0, &figures, Self::SPARE);
        Self {
            across: axis(across, points.iter().map(|point| point.1).collect()),
            up: axis(up, points.iter().map(|point| point.2).collect()),
        }
    }

    fn x(&self, value: f64) -> f64 {
        LEFT + self.across.share(value) * (WIDTH - LEFT - MARGIN)
    }

    fn y(&self, value: f64) -> f64 {
        Self::BOTTOM - self.up.share(value) * PLOT
    }

    fn grid(&self) -> Markup {
        let (across, across_decimals) = ticks(self.across.low, self.across.high);
        let (up, up_decimals) = ticks(self.up.low, self.up.high);
        html! {
            (rect("sheet", LEFT, HEAD, WIDTH - LEFT - MARGIN, PLOT))
            @for mark in &across {
                @let at = self.x(mark / self.across.factor);
                (line("grid", (at, HEAD), (at, Self::BOTTOM)))
                (label("key mid", at, Self::BOTTOM + 62.0, &tick_text(*mark, across_decimals)))
            }
            @for mark in &up {
                @let at = self.y(mark / self.up.factor);
                (line("grid", (LEFT, at), (WIDTH - MARGIN, at)))
                (label("key end", LEFT - 18.0, at + 18.0, &tick_text(*mark, up_decimals)))
            }
        }
    }

    /// A variant's point with its two intervals.
    fn mark(&self, name: &str, across: &Interval, up: &Interval) -> Markup {
        let (x, y) = (self.x(across.estimate), self.y(up.estimate));
        html! {
            g data-variant=(name) data-x=(raw(across.estimate)) data-x-low=(raw(across.low))
                data-x-high=(raw(across.high)) data-y=(raw(up.estimate)) data-y-low=(raw(up.low))
                data-y-high=(raw(up.high)) {
                (line("whisk", (self.x(across.low), y), (self.x(across.high), y)))
                (line("whisk", (x, self.y(up.low)), (x, self.y(up.high))))
                circle class="dot" cx=(n(x)) cy=(n(y)) r="16" {}
            }
        }
    }
}

/// All variants by two columns: `across` and `up`; None without data for both.
pub fn trade(id: &str, comparison: &Comparison, across: &str, up: &str) -> Option<Picture> {
    let (across, up) = (Column::named(across)?, Column::named(up)?);
    let names = &comparison.question.variants;
    let points: Vec<Point> = comparison
        .order
        .iter()
        .filter_map(|&v| Some((v, comparison.figure(v, across)?, comparison.figure(v, up)?)))
        .collect();
    if points.is_empty() {
        return None;
    }
    let plot = Plot::new(across, up, &points);
    let places: Vec<(f64, f64)> =
        points.iter().map(|(_, a, u)| (plot.x(a.estimate), plot.y(u.estimate))).collect();
    let numbers = beside(&places)
        .into_iter()
        .zip(&points)
        .map(|((x, y), (v, _, _))| label("on mid", x, y + 18.0, &comparison.rank(*v).to_string()));
    let ranked: Vec<usize> = points.iter().map(|point| point.0).collect();
    let (key, key_height) = key(comparison, &ranked, Plot::BOTTOM + 220.0);
    let title = format!("{} against {}", capital(up.words), across.words);
    let body = html! {
        (heading(&title, &format!("up: {}; lines: 95 % intervals", shown(up).1), WIDTH))
        (plot.grid())
        (label("key mid", (LEFT + WIDTH - MARGIN) / 2.0, Plot::BOTTOM + 130.0, &axis_words(across)))
        (joined(points.iter().rev().map(|(v, a, u)| plot.mark(&names[*v], a, u))))
        (joined(numbers))
        (key)
    };
    let told = points.iter().map(|(v, a, u)| {
        let (a, u) = (plot.across.factor * a.estimate, plot.up.factor * u.estimate);
        format!("{} {a:.1} and {u:.1}", names[*v])
    });
    Some(Picture {
        id: id.to_owned(),
        title,
        caption: "Better is up and to the left. Where intervals overlap, little can be said.".to_owned(),
        desc: format!(
            "Of each {}, {} ({}) and {} ({}): {}.",
            comparison.question.noun,
            across.words,
            shown(across).1,
            up.words,
            shown(up).1,
            told.collect::<Vec<_>>().join("; ")
        ),
        width: WIDTH,
        height: Plot::BOTTOM + 240.0 + key_height,
        body,
    })
}

fn axis_words(across: &Column) -> String {
    let way = if across.better == Better::Lower { "left" } else { "right" };
    format!("{}, {}: {way} is better", across.words, shown(across).1)
}

/// The names by rank: in two columns where all are short, else one under the other; and their height.
fn key(comparison: &Comparison, ranked: &[usize], top: f64) -> (Markup, f64) {
    let question = &comparison.question;
    let named = |v: &usize| {
        let tag = if *v == question.baseline { " (compared with)" } else { "" };
        format!("{}  {}{tag}", comparison.rank(*v), question.variants[*v])
    };
    let names: Vec<String> = ranked.iter().map(named).collect();
    let wide = (WIDTH - 2.0 * MARGIN) / 2.0;
    let longest = names.iter().map(|name| name.chars().count()).max().unwrap_or_default();
    let columns = if longest <= letters(wide, 54.0) { 2 } else { 1 };
    let room = letters(wide * 2.0, 54.0);
    let (mut at, mut lines) = (0, Vec::new());
    for (nth, name) in names.iter().enumerate() {
        if columns == 2 {
            lines.push((wide * (nth % 2) as f64, nth / 2, name.clone()));
            at = nth / 2 + 1;
        } else {
            for line in broken(name, room, room) {
                lines.push((0.0, at, line));
                at += 1;
            }
        }
    }
    let drawn = lines.iter().map(|(x, row, text)| label("", MARGIN + x, top + 68.0 * *row as f64, text));
    (joined(drawn), 68.0 * at as f64)
}
