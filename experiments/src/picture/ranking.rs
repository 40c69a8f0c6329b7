//! The ranking with its intervals, and who cannot be told from the leader.

use maud::{Markup, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, line, n, rect};
use super::lettering::{broken, heading, letters};
use super::scale::{raw, tick_text, ticks};
use crate::columns::{Column, Told};
use crate::compare::Comparison;
use crate::stats::Interval;
use crate::wording::capital;

const WIDTH: f64 = 1604.0;
/// Height of a row whose name takes one line, and of each further line.
const ROW: f64 = 150.0;
const LINE: f64 = 58.0;
/// Room for a figure with its interval beside the first line of a name.
const FIGURE: f64 = 640.0;

/// Factor and unit in which a column's values are shown.
pub(super) fn shown(column: &Column) -> (f64, &'static str) {
    match column.told() {
        Told::InTwenty => (20.0, "in 20 possessions"),
        Told::Percent => (100.0, "%"),
        Told::Seconds => (1.0, "s"),
        Told::Metres => (1.0, "m"),
        Told::Number => (1.0, ""),
    }
}

/// The ranking by the ranking column.
pub fn ranking(id: &str, comparison: &Comparison) -> Picture {
    let question = &comparison.question;
    let column = question.rank_by;
    let (factor, unit) = shown(column);
    let figures: Vec<(usize, Interval)> = comparison
        .order
        .iter()
        .filter_map(|&v| comparison.figure(v, column).map(|figure| (v, figure)))
        .collect();
    let low = figures.iter().fold(f64::INFINITY, |least, (_, f)| least.min(f.low * factor));
    let high = figures.iter().fold(f64::NEG_INFINITY, |most, (_, f)| most.max(f.high * factor));
    let spare = 0.04 * (high - low).max(1e-6);
    let (low, high) = (low - spare, high + spare);
    let x =
        |value: f64| MARGIN + 60.0 + (value * factor - low) / (high - low) * (WIDTH - 2.0 * MARGIN - 100.0);
    let tied = |v: usize| comparison.claims.as_ref().is_some_and(|claims| claims.leaders.contains(&v));
    let names: Vec<Vec<String>> = figures.iter().map(|(v, _)| name_lines(comparison, *v)).collect();
    let tall = |nth: usize| ROW + LINE * (names[nth].len() as f64 - 1.0);
    let top = |nth: usize| HEAD + (0..nth).map(tall).sum::<f64>();
    let row = |(nth, (v, figure)): (usize, &(usize, Interval))| {
        let (y, name) = (top(nth), &question.variants[*v]);
        let at = y + tall(nth) - 54.0;
        let state = if tied(*v) { "" } else { " open" };
        let lines = names[nth].iter().enumerate();
        html! {
            g data-variant=(name) data-estimate=(raw(figure.estimate)) data-low=(raw(figure.low))
                data-high=(raw(figure.high)) data-tied=(tied(*v)) {
                (joined(lines.map(|(line, text)| label("", MARGIN + 24.0, y + 64.0 + LINE * line as f64, text))))
                (label("end key", WIDTH - MARGIN - 20.0, y + 64.0, &told(column, figure, factor)))
                (line(&format!("bar{state}"), (x(figure.low), at), (x(figure.high), at)))
                circle class=(format!("dot{state}")) cx=(n(x(figure.estimate))) cy=(n(at)) r="20" {}
            }
        }
    };
    let bottom = top(figures.len());
    let (marks, decimals) = ticks(low, high);
    let axis = marks.iter().map(|mark| {
        html! {
            (line("grid", (x(mark / factor), HEAD), (x(mark / factor), bottom)))
            (label("key mid", x(mark / factor), bottom + 62.0, &tick_text(*mark, decimals)))
        }
    });
    let ties = figures.iter().take_while(|(v, _)| tied(*v)).count();
    let body = html! {
        (heading(&capital(column.words), &subtitle(unit), WIDTH))
        @if ties > 0 { (rect("band", MARGIN, HEAD + 6.0, WIDTH - 2.0 * MARGIN, top(ties) - HEAD - 12.0)) }
        (joined(axis))
        (joined(figures.iter().enumerate().map(row)))
        (legend(bottom, ties, comparison.claims.is_some()))
    };
    let best =
        figures.first().map(|(v, f)| format!("{} with {}", question.variants[*v], told(column, f, factor)));
    Picture {
        id: id.to_owned(),
        title: format!("Ranking by {}", column.words),
        caption: verdict(ties, comparison.claims.is_some()).to_owned(),
        desc: format!("{} variants, best first. First: {}.", figures.len(), best.unwrap_or_default()),
        width: WIDTH,
        height: bottom + 280.0,
        body,
    }
}

/// A variant's rank and name in lines, the first short enough to leave room for the figure.
fn name_lines(comparison: &Comparison, v: usize) -> Vec<String> {
    let question = &comparison.question;
    let tag = if v == question.baseline { " (baseline)" } else { "" };
    let name = format!("{}  {}{tag}", comparison.rank(v), question.variants[v]);
    let whole = WIDTH - 2.0 * MARGIN - 48.0;
    broken(&name, letters(whole - FIGURE, 54.0), letters(whole, 54.0))
}

fn subtitle(unit: &str) -> String {
    if unit.is_empty() { "bars: 95 % intervals".into() } else { format!("{unit}; bars: 95 % intervals") }
}

fn told(column: &Column, figure: &Interval, factor: f64) -> String {
    let decimals = if factor * figure.high.abs() < 0.95 || column.told() == Told::Number { 2 } else { 1 };
    format!(
        "{:.decimals$} ({:.decimals$} to {:.decimals$})",
        factor * figure.estimate,
        factor * figure.low,
        factor * figure.high
    )
}

fn verdict(ties: usize, claims: bool) -> &'static str {
    match ties {
        _ if !claims => "No claim is made.",
        0 | 1 => "Settled: the first stands apart.",
        _ => "Not settled: those in the band cannot be told from the first.",
    }
}

fn legend(bottom: f64, ties: usize, claims: bool) -> Markup {
    let y = bottom + 100.0;
    html! {
        (rect("band", MARGIN, y, 110.0, 50.0))
        (label("key", MARGIN + 140.0, y + 44.0, if ties > 1 { "not settled: cannot be told" } else { "the leader" }))
        (label("key", MARGIN, y + 116.0, match (claims, ties > 1) {
            (false, _) => "nothing to compare it with",
            (true, true) => "from the first in this run",
            (true, false) => "settled: stands apart from every other variant",
        }))
    }
}
