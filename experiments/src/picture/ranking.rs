//! The ranking with its intervals, and who is too close to the leader to call.

use maud::{Markup, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, line, n, rect};
use super::lettering::{broken, heading, letters};
use super::scale::{Axis, raw, tick_text, ticks};
use crate::columns::{Column, Told};
use crate::compare::{Claims, Comparison};
use crate::stats::Interval;
use crate::verdict::Differ;
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

/// Height of a row whose name has so many lines.
fn tall(lines: &[String]) -> f64 {
    ROW + LINE * (lines.len() as f64 - 1.0)
}

/// The rows of the chart, one under the other.
struct Rows<'a> {
    comparison: &'a Comparison,
    axis: Axis,
    /// Variants with their figures and the lines of their names, best first.
    rows: Vec<(usize, Interval, Vec<String>)>,
}

impl<'a> Rows<'a> {
    fn new(comparison: &'a Comparison) -> Self {
        let column = comparison.question.rank_by;
        let row = |&v: &usize| Some((v, comparison.figure(v, column)?, name_lines(comparison, v)));
        let rows: Vec<(usize, Interval, Vec<String>)> = comparison.order.iter().filter_map(row).collect();
        let figures: Vec<Interval> = rows.iter().map(|row| row.1).collect();
        Self { comparison, axis: Axis::new(shown(column).0, &figures, 0.04), rows }
    }

    fn x(&self, value: f64) -> f64 {
        MARGIN + 60.0 + self.axis.share(value) * (WIDTH - 2.0 * MARGIN - 100.0)
    }

    /// Where a row begins, or where all of them end.
    fn top(&self, nth: usize) -> f64 {
        HEAD + self.rows[..nth].iter().map(|(_, _, lines)| tall(lines)).sum::<f64>()
    }

    /// Among those too close to the best to call.
    fn tied(&self, v: usize) -> bool {
        claims(self.comparison).is_some_and(|claims| claims.leaders.contains(&v))
    }

    fn words(&self, figure: &Interval) -> String {
        told(self.comparison.question.rank_by, figure, self.axis.factor)
    }

    /// The band behind a row.
    fn band(&self, nth: usize) -> Markup {
        let (top, end) = (self.top(nth), self.top(nth + 1));
        rect("band", MARGIN, top + 4.0, WIDTH - 2.0 * MARGIN, end - top - 8.0)
    }

    fn row(&self, nth: usize) -> Markup {
        let (v, figure, lines) = &self.rows[nth];
        let y = self.top(nth);
        let at = y + tall(lines) - 54.0;
        let state = if self.tied(*v) { "" } else { " open" };
        let lines = lines.iter().enumerate();
        html! {
            g data-variant=(self.comparison.question.variants[*v]) data-estimate=(raw(figure.estimate))
                data-low=(raw(figure.low)) data-high=(raw(figure.high)) data-tied=(self.tied(*v)) {
                (joined(lines.map(|(line, text)| label("", MARGIN + 24.0, y + 64.0 + LINE * line as f64, text))))
                (label("end key", WIDTH - MARGIN - 20.0, y + 64.0, &self.words(figure)))
                (line(&format!("bar{state}"), (self.x(figure.low), at), (self.x(figure.high), at)))
                circle class=(format!("dot{state}")) cx=(n(self.x(figure.estimate))) cy=(n(at)) r="20" {}
            }
        }
    }

    fn ticks(&self) -> Markup {
        let bottom = self.top(self.rows.len());
        let (marks, decimals) = ticks(self.axis.low, self.axis.high);
        joined(marks.iter().map(|mark| {
            let x = self.x(mark / self.axis.factor);
            html! {
                (line("grid", (x, HEAD), (x, bottom)))
                (label("key mid", x, bottom + 62.0, &tick_text(*mark, decimals)))
            }
        }))
    }
}

/// What is claimed of who is best: nothing where that is met, not chosen.
fn claims(comparison: &Comparison) -> Option<&Claims> {
    comparison.claims.as_ref().filter(|_| comparison.question.differ == Differ::Choices)
}

/// The ranking by the ranking column.
pub fn ranking(id: &str, comparison: &Comparison) -> Picture {
    let question = &comparison.question;
    let column = question.rank_by;
    let rows = Rows::new(comparison);
    let bottom = rows.top(rows.rows.len());
    let ties = rows.rows.iter().filter(|row| rows.tied(row.0)).count();
    let body = html! {
        (heading(&capital(column.words), &subtitle(shown(column).1), WIDTH))
        (joined((0..rows.rows.len()).filter(|nth| rows.tied(rows.rows[*nth].0)).map(|nth| rows.band(nth))))
        (rows.ticks())
        (joined((0..rows.rows.len()).map(|nth| rows.row(nth))))
        (legend(bottom, ties, claims(comparison).is_some()))
    };
    let best = rows
        .rows
        .first()
        .map(|(v, figure, _)| format!("{} with {}", question.variants[*v], rows.words(figure)));
    Picture {
        id: id.to_owned(),
        title: format!("Ranking by {}", column.words),
        caption: verdict(ties, claims(comparison).is_some()).to_owned(),
        desc: format!(
            "{} {}s, best first. First: {}.",
            rows.rows.len(),
            question.noun,
            best.unwrap_or_default()
        ),
        width: WIDTH,
        height: bottom + 280.0,
        body,
        key: None,
    }
}

/// A variant's rank and name in lines, the first short enough to leave room for the figure.
fn name_lines(comparison: &Comparison, v: usize) -> Vec<String> {
    let question = &comparison.question;
    let tag = if v == question.baseline { " (compared with)" } else { "" };
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
        _ if !claims => "No one is advised: what differs is met, or there is nothing to compare.",
        0 | 1 => "Clearly best: the first, safe for all comparisons at once.",
        _ => {
            "Too close to call: those in the band are not clearly behind the first, judged by the differences themselves and not by \
              whether the bars overlap: one that stands lower may be in it, as its difference varies more."
        }
    }
}

fn legend(bottom: f64, ties: usize, claims: bool) -> Markup {
    let y = bottom + 100.0;
    html! {
        (rect("band", MARGIN, y, 110.0, 50.0))
        (label("key", MARGIN + 140.0, y + 44.0, if ties > 1 { "too close to call" } else { "the leader" }))
        (label("key", MARGIN, y + 116.0, match (claims, ties > 1) {
            (false, _) => "nothing to compare it with",
            (true, true) => "filled: not clearly behind the first; open: clearly behind",
            (true, false) => "clearly best: ahead of all the others, which have open dots",
        }))
    }
}
