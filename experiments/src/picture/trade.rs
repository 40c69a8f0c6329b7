//! What it brings against what it costs: expected net points against break exposure, with intervals.

use maud::{Markup, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, line, n, rect};
use super::lettering::{broken, heading, letters};
use super::ranking::shown;
use super::scale::{raw, tick_text, ticks};
use crate::columns::Column;
use crate::compare::Comparison;
use crate::stats::{Better, Interval};
use crate::wording::capital;

const WIDTH: f64 = 1604.0;
const LEFT: f64 = 190.0;
const PLOT: f64 = 1000.0;

/// One axis.
struct Axis {
    factor: f64,
    low: f64,
    high: f64,
}

impl Axis {
    fn new(factor: f64, figures: &[Interval]) -> Self {
        let low = figures.iter().fold(f64::INFINITY, |least, f| least.min(f.low * factor));
        let high = figures.iter().fold(f64::NEG_INFINITY, |most, f| most.max(f.high * factor));
        let spare = 0.08 * (high - low).max(1e-6);
        Self { factor, low: low - spare, high: high + spare }
    }

    fn share(&self, value: f64) -> f64 {
        (value * self.factor - self.low) / (self.high - self.low)
    }
}

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

/// All variants by two columns: `across` and `up`; None without data for both.
pub fn trade(id: &str, comparison: &Comparison, across: &str, up: &str) -> Option<Picture> {
    let (across, up) = (Column::named(across)?, Column::named(up)?);
    let names = &comparison.question.variants;
    let points: Vec<(usize, Interval, Interval)> = comparison
        .order
        .iter()
        .filter_map(|&v| Some((v, comparison.figure(v, across)?, comparison.figure(v, up)?)))
        .collect();
    if points.is_empty() {
        return None;
    }
    let x_axis = Axis::new(shown(across).0, &points.iter().map(|p| p.1).collect::<Vec<_>>());
    let y_axis = Axis::new(shown(up).0, &points.iter().map(|p| p.2).collect::<Vec<_>>());
    let bottom = HEAD + PLOT;
    let x = |value: f64| LEFT + x_axis.share(value) * (WIDTH - LEFT - MARGIN);
    let y = |value: f64| bottom - y_axis.share(value) * PLOT;
    let (across_marks, across_decimals) = ticks(x_axis.low, x_axis.high);
    let (up_marks, up_decimals) = ticks(y_axis.low, y_axis.high);
    let grid = html! {
        (rect("sheet", LEFT, HEAD, WIDTH - LEFT - MARGIN, PLOT))
        @for mark in &across_marks {
            @let at = x(mark / x_axis.factor);
            (line("grid", (at, HEAD), (at, bottom)))
            (label("key mid", at, bottom + 62.0, &tick_text(*mark, across_decimals)))
        }
        @for mark in &up_marks {
            @let at = y(mark / y_axis.factor);
            (line("grid", (LEFT, at), (WIDTH - MARGIN, at)))
            (label("key end", LEFT - 18.0, at + 18.0, &tick_text(*mark, up_decimals)))
        }
    };
    let mark = |(v, a, u): &(usize, Interval, Interval)| {
        let (cx, cy) = (x(a.estimate), y(u.estimate));
        html! {
            g data-variant=(names[*v]) data-x=(raw(a.estimate)) data-x-low=(raw(a.low)) data-x-high=(raw(a.high))
                data-y=(raw(u.estimate)) data-y-low=(raw(u.low)) data-y-high=(raw(u.high)) {
                (line("whisk", (x(a.low), cy), (x(a.high), cy)))
                (line("whisk", (cx, y(u.low)), (cx, y(u.high))))
                circle class="dot" cx=(n(cx)) cy=(n(cy)) r="16" {}
            }
        }
    };
    let places: Vec<(f64, f64)> = points.iter().map(|(_, a, u)| (x(a.estimate), y(u.estimate))).collect();
    let numbers = beside(&places)
        .into_iter()
        .zip(&points)
        .map(|((x, y), (v, _, _))| label("on mid", x, y + 18.0, &comparison.rank(*v).to_string()));
    let ranked: Vec<usize> = points.iter().map(|point| point.0).collect();
    let (key, key_height) = key(comparison, &ranked, bottom + 220.0);
    let body = html! {
        (heading(
            &format!("{} against {}", capital(up.words), across.words),
            &format!("up: {}; lines: 95 % intervals", shown(up).1),
            WIDTH
        ))
        (grid)
        (label("key mid", (LEFT + WIDTH - MARGIN) / 2.0, bottom + 130.0, &axis_words(across)))
        (joined(points.iter().rev().map(mark)))
        (joined(numbers))
        (key)
    };
    let told = points.iter().map(|(v, a, u)| {
        format!("{} {:.1} and {:.1}", names[*v], x_axis.factor * a.estimate, y_axis.factor * u.estimate)
    });
    Some(Picture {
        id: id.to_owned(),
        title: format!("{} against {}", capital(up.words), across.words),
        caption: "Better is up and to the left. Where intervals overlap, little can be said.".to_owned(),
        desc: format!(
            "Each variant's {} ({}) and {} ({}): {}.",
            across.words,
            shown(across).1,
            up.words,
            shown(up).1,
            told.collect::<Vec<_>>().join("; ")
        ),
        width: WIDTH,
        height: bottom + 240.0 + key_height,
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
        let tag = if *v == question.baseline { " (baseline)" } else { "" };
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
