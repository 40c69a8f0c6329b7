//! The whole comparison for other programs.

use scenarios::is_hidden;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

use super::Manifest;
use crate::columns::COLUMNS;
use crate::compare::Comparison;
use crate::note::NOTE;
use crate::sentences::sentences;
use crate::stats::Interval;
use crate::verdict::Verdict;

#[derive(Serialize)]
struct Page<'a> {
    #[serde(flatten)]
    manifest: &'a Manifest,
    results: Vec<Row<'a>>,
    differences: Vec<Difference<'a>>,
    verdict: &'a Verdict,
    sentences: Vec<String>,
    note: &'static str,
}

#[derive(Serialize)]
struct Row<'a> {
    variant: &'a str,
    rank: usize,
    chance_of_being_best: Option<f64>,
    figures: Figures<'a>,
}

/// Column names to figures, in column order.
struct Figures<'a>(&'a [Option<Interval>]);

#[derive(Serialize)]
struct Ends {
    estimate: f64,
    low: f64,
    high: f64,
}

#[derive(Serialize)]
struct Difference<'a> {
    variant: &'a str,
    reference: &'a str,
    measure: &'static str,
    #[serde(flatten)]
    interval: Ends,
    standard_error: f64,
    p_value: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    p_holm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    p_bh: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    together: Option<Ends>,
    variance_ratio: Option<f64>,
}

impl From<Interval> for Ends {
    fn from(interval: Interval) -> Self {
        Self { estimate: interval.estimate, low: interval.low, high: interval.high }
    }
}

impl Serialize for Figures<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(COLUMNS.len()))?;
        for (column, figure) in COLUMNS.iter().zip(self.0) {
            map.serialize_entry(column.key, &figure.map(Ends::from))?;
        }
        map.end()
    }
}

/// Everything, as JSON text.
pub fn comparison_json(comparison: &Comparison, verdict: &Verdict, manifest: &Manifest) -> String {
    let names = &comparison.question.variants;
    let results = names.iter().enumerate().map(|(v, variant)| Row {
        variant,
        rank: comparison.rank(v),
        chance_of_being_best: comparison.claims.as_ref().map(|claims| claims.chance_of_being_best[v]),
        figures: Figures(&comparison.figures[v]),
    });
    let differences = comparison.differences.iter().map(|d| Difference {
        variant: &names[d.variant],
        reference: &names[d.reference],
        measure: d.column.key,
        interval: d.difference.interval.into(),
        standard_error: d.difference.standard_error,
        p_value: d.difference.p,
        p_holm: d.p_holm,
        p_bh: d.p_bh,
        together: d.together.map(Ends::from),
        variance_ratio: d.variance_ratio,
    });
    let page = Page {
        manifest,
        results: results.collect(),
        differences: differences.collect(),
        verdict,
        sentences: sentences(comparison, verdict),
        note: NOTE,
    };
    document(&page)
}

/// A document for other programs. Hidden characters in its texts are written as JSON writes them, so that a terminal
/// does not obey them and a program reads them as they are.
pub(crate) fn document(page: &impl Serialize) -> String {
    let plain = serde_json::to_string_pretty(page).expect("plain data");
    let mut text = String::with_capacity(plain.len() + 1);
    for letter in plain.chars() {
        if letter != '\n' && is_hidden(letter) {
            let units = letter
                .encode_utf16(&mut [0; 2])
                .iter()
                .map(|unit| format!("\\u{unit:04x}"))
                .collect::<String>();
            text.push_str(&units);
        } else {
            text.push(letter);
        }
    }
    text + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hidden_characters_are_written_out_and_read_as_they_are() {
        let text = "a\u{1b}\u{7f}\u{9b}\u{202e}\u{e0041}\n\"b\" é";
        let page = document(&[text]);
        assert!(!page.replace('\n', "").contains(is_hidden), "{page}");
        assert_eq!(serde_json::from_str::<Vec<String>>(&page).unwrap(), [text]);
    }
}
