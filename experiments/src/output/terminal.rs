//! What is printed to be read: the ranked table or the rates of one matchup, the sentences, the usual note.

use comfy_table::Cell;

use super::paired::{pairing_told, screened};
use super::ranked::{empty, in_cell, ranked, right};
use crate::columns::{COLUMNS, Kind, Told};
use crate::compare::Comparison;
use crate::note::NOTE;
use crate::sentences::sentences;
use crate::stats::Correction;
use crate::units::Units;
use crate::verdict::Verdict;
use crate::wording::grouped;
use crate::wrapping::wrapped;

/// Running text is no wider than this, however wide the terminal: long lines are hard to read.
const WIDTH: usize = 100;

/// Ranked table, sentences and note.
pub fn comparison_text(comparison: &Comparison, verdict: &Verdict, run: Run) -> String {
    let (table, legend) = ranked(comparison, verdict, (run.width, run.units));
    let legend: Vec<String> = legend.iter().map(|line| wrapped(line, run.text_width())).collect();
    let text = format!("{}{table}\n{}\n\n", head(comparison, run), legend.join("\n"));
    close(text, comparison, verdict, run)
}

/// What a text says of its run, and how wide it may be.
#[derive(Clone, Copy, Debug)]
pub struct Run {
    /// Master seed.
    pub seed: u64,
    /// Columns of the terminal.
    pub width: usize,
    /// What lengths of the question and of what is met are told in; those of columns are metres.
    pub units: Units,
    /// Which correction a list besides the verdict goes by; None where a run is not whole, of which no more is told.
    pub correction: Option<Correction>,
}

impl Run {
    fn text_width(self) -> usize {
        self.width.min(WIDTH)
    }
}

/// All figures of one matchup, one a line.
pub fn rates_text(comparison: &Comparison, verdict: &Verdict, run: Run) -> String {
    let mut table = empty();
    table.set_header(["measure", "", "95 % interval"]);
    for (column, figure) in COLUMNS.iter().zip(&comparison.figures[0]) {
        let Some(figure) = figure else { continue };
        let show = |value: f64| match column.kind {
            Kind::Mean(_) if column.told() == Told::InTwenty => format!("{value:.2}"),
            _ => in_cell(column, value),
        };
        let unit = match column.told() {
            Told::Percent => " %",
            Told::InTwenty if matches!(column.kind, Kind::Rate(_)) => " %",
            Told::Seconds => " s",
            Told::Metres => " m",
            Told::InTwenty | Told::Number => "",
        };
        table.add_row([
            Cell::new(column.key),
            right(format!("{}{unit}", show(figure.estimate))),
            right(format!("{} to {}", show(figure.low), show(figure.high))),
        ]);
    }
    let mut text = head(comparison, run);
    text.push_str(&format!("{}\n\n", table.trim_fmt()));
    close(text, comparison, verdict, run)
}

fn head(comparison: &Comparison, run: Run) -> String {
    let played = grouped(comparison.possessions);
    let noun = comparison.question.noun;
    let each =
        if comparison.question.variants.len() > 1 { format!(" for each {noun}") } else { String::new() };
    let question = wrapped(&run.units.retold(&comparison.question.text), run.text_width());
    format!("{question}\n{played} possessions{each}, seed {}\n\n", run.seed)
}

fn close(mut text: String, comparison: &Comparison, verdict: &Verdict, run: Run) -> String {
    let more = run.correction.map(|correction| [pairing_told(comparison), screened(comparison, correction)]);
    let more = more.into_iter().flatten().flatten();
    for sentence in sentences(comparison, verdict).into_iter().chain(more) {
        text.push_str(&wrapped(&sentence, run.text_width()));
        text.push('\n');
    }
    text.push('\n');
    text.push_str(&wrapped(NOTE, run.text_width()));
    text.push('\n');
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::tests::judged;

    #[test]
    fn text_ends_with_the_note_and_no_line_is_wider_than_asked() {
        let (comparison, verdict) = judged(&["hold-wing", "seam-cross", "seam-sit"], 400, "turnover_rate");
        for width in [60, 80, 100, 160] {
            let text = comparison_text(
                &comparison,
                &verdict,
                Run { seed: 1, width, units: Units::M, correction: Some(Correction::Holm) },
            );
            let wide = text.lines().find(|line| line.trim_end().chars().count() > width);
            assert!(wide.is_none(), "{width}: {wide:?}");
            assert!(text.ends_with(&format!("\n\n{}\n", wrapped(NOTE, width.min(WIDTH)))));
        }
    }

    #[test]
    fn one_matchup_has_a_line_for_each_figure() {
        let (comparison, verdict) = judged(&["as-given"], 400, "expected_net_points");
        let text = rates_text(
            &comparison,
            &verdict,
            Run { seed: 7, width: 100, units: Units::M, correction: Some(Correction::Holm) },
        );
        let line = |key: &str| text.lines().find(|line| line.trim_start().starts_with(key)).map(str::trim);
        assert_eq!(
            line("open_look_rate "),
            Some("open_look_rate                       27.8 %    23.6 to 32.3")
        );
        assert!(line("passes ").is_some() && line("lob_completion").is_none());
        assert!(text.contains("400 possessions, seed 7"));
    }
}
