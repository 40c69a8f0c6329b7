//! Classes of values for colouring, with limits that read well.

use maud::Markup;

use super::drawing::{MARGIN, joined, label, n, rect};
use crate::stats::Interval;
use maud::html;

/// Limits between classes, ascending: class 0 lies below the first.
#[derive(Clone, Debug, PartialEq)]
pub struct Classes {
    limits: Vec<f64>,
    names: &'static [&'static str],
}

/// The numbers 1, 2, 5, 10, 20, ... and their decimal parts; the step is its place in that ladder.
fn rung(step: i32) -> f64 {
    let (tens, digit) = (step.div_euclid(3), [1.0, 2.0, 5.0][step.rem_euclid(3) as usize]);
    // Powers of ten by division and multiplication: exact where they can be.
    let mut power = 1.0;
    for _ in 0..tens.unsigned_abs() {
        power *= 10.0;
    }
    if tens < 0 { digit / power } else { digit * power }
}

/// The largest rung not above a value.
fn below(value: f64) -> i32 {
    (-30..=30).rev().find(|step| rung(*step) <= value).unwrap_or(-30)
}

impl Classes {
    /// Five classes up to about `most`, each limit about half the next: for counts, which vary by orders.
    pub fn ladder(most: f64) -> Self {
        let top = below(0.85 * most);
        Self {
            limits: (0..4).map(|down| rung(top - 3 + down)).collect(),
            names: &["h1", "h2", "h3", "h4", "h5"],
        }
    }

    /// Five classes of equal width up to about `most`.
    pub fn even(most: f64) -> Self {
        let step = rung(below(most / 3.0));
        Self {
            limits: (1..5).map(|nth| f64::from(nth) * step).collect(),
            names: &["h1", "h2", "h3", "h4", "h5"],
        }
    }

    /// The style of a value's class.
    pub fn name(&self, value: f64) -> &'static str {
        self.names[self.limits.iter().filter(|limit| value >= **limit).count()]
    }

    /// The legend: a strip of the classes with their limits, and a line of words.
    pub(super) fn legend(&self, width: f64, top: f64, words: &[&str]) -> (f64, Markup) {
        let wide = (width - 2.0 * MARGIN) / self.names.len() as f64;
        let swatch = |(nth, name): (usize, &&str)| {
            let x = MARGIN + wide * nth as f64;
            rect(&format!("{name} edge"), x, top + 34.0, wide, 56.0)
        };
        let limit = |(nth, limit): (usize, &f64)| {
            label("key mid", MARGIN + wide * (nth + 1) as f64, top + 146.0, &short(*limit))
        };
        let lines = words
            .iter()
            .enumerate()
            .map(|(nth, words)| label("key", MARGIN, top + 218.0 + 66.0 * nth as f64, words));
        let height = 240.0 + 66.0 * (words.len() as f64 - 1.0);
        let body = html! {
            (joined(self.names.iter().enumerate().map(swatch)))
            (joined(self.limits.iter().enumerate().map(limit)))
            (joined(lines))
        };
        (height, body)
    }
}

/// A limit without needless zeros.
fn short(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.replace('-', "\u{2212}")
}

/// An axis that holds all figures of a chart.
pub(super) struct Axis {
    /// What values are multiplied by to be shown.
    pub factor: f64,
    pub low: f64,
    pub high: f64,
}

impl Axis {
    /// With a part of its length to spare at either end.
    pub fn new(factor: f64, figures: &[Interval], spare: f64) -> Self {
        let low = figures.iter().fold(f64::INFINITY, |least, f| least.min(f.low * factor));
        let high = figures.iter().fold(f64::NEG_INFINITY, |most, f| most.max(f.high * factor));
        let spare = spare * (high - low).max(1e-6);
        Self { factor, low: low - spare, high: high + spare }
    }

    /// How far along a value lies, 0 to 1.
    pub fn share(&self, value: f64) -> f64 {
        (value * self.factor - self.low) / (self.high - self.low)
    }
}

/// Ticks of an axis: about five with rungs between `low` and `high`, and how many decimals they need.
pub(super) fn ticks(low: f64, high: f64) -> (Vec<f64>, usize) {
    let step = rung(below((high - low).max(1e-9) / 4.0));
    let first = (low / step).ceil() as i64;
    let last = (high / step).floor() as i64;
    let decimals =
        (0..4).find(|places| (step * [1.0, 10.0, 100.0, 1000.0][*places]).fract() < 1e-6).unwrap_or(4);
    ((first..=last).map(|nth| nth as f64 * step).collect(), decimals)
}

/// A value in units as text; only for keeping numbers of a chart together.
pub(super) fn raw(value: f64) -> String {
    crate::output::cell(Some(value))
}

/// A tick's place as text.
pub(super) fn tick_text(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.trim_start_matches(['-', '0', '.']).is_empty() { n(0.0) } else { text.replace('-', "\u{2212}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_read_well_and_classes_hold_their_limits() {
        let ladder = Classes::ladder(3.7);
        assert_eq!(ladder.limits, [0.2, 0.5, 1.0, 2.0]);
        assert_eq!([0.1, 0.2, 0.9, 1.0, 3.7].map(|v| ladder.name(v)), ["h1", "h2", "h3", "h4", "h5"]);
        assert_eq!(Classes::even(0.52).limits, [0.1, 0.2, 0.1 * 3.0, 0.4]);
        assert_eq!(ticks(13.0, 18.2), (vec![13.0, 14.0, 15.0, 16.0, 17.0, 18.0], 0));
        assert_eq!(ticks(4.9, 7.6).1, 1);
        assert_eq!(short(-0.05), "\u{2212}0.05");
    }
}
