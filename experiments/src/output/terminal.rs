//! The table that a coach reads, and the sentences under it.

use comfy_table::{Cell, CellAlignment, LineStyle, Table, TableStyle};

use crate::columns::{COLUMNS, Column, Kind, Told};
use crate::compare::Comparison;
use crate::note::NOTE;
use crate::sentences::sentences;
use crate::wording::{bare, grouped};
use crate::wrapping::wrapped;

/// Width of running text.
const WIDTH: usize = 100;

/// Columns shown, with their headings. Counts of possessions are in per cent here.
const SHOWN: [(&str, &str); 6] = [
    ("good_look_rate", "good\nlooks %"),
    ("open_look_rate", "open\nlooks %"),
    ("paint_touch_rate", "paint\ntouches %"),
    ("expected_net_points", "net points\nin 20"),
    ("turnover_rate", "turn-\novers %"),
    ("break_exposure", "fast-break\nrisk %"),
];

/// The column that has its interval in the table beside the ranking one: the tool's first question.
const WITH_ENDS: &str = "good_look_rate";

/// Ranked table, sentences and note.
pub fn comparison_text(comparison: &Comparison, seed: u64) -> String {
    let question = &comparison.question;
    let rank_by = question.rank_by;
    let mut shown: Vec<(&Column, String)> =
        SHOWN.iter().filter_map(|&(key, heading)| Some((Column::named(key)?, heading.into()))).collect();
    match shown.iter_mut().find(|(column, _)| column.key == rank_by.key) {
        Some((_, heading)) => heading.push_str(" *"),
        None => shown.insert(0, (rank_by, format!("{} *", wrapped(&headed(rank_by), 16)))),
    }
    let mut table = empty();
    let mut header = vec![right("rank".into()), Cell::new(question.noun)];
    header.extend(shown.iter().map(|(_, heading)| right(heading.clone())));
    header.push(right("chance of\nbeing best".into()));
    table.set_header(header);
    for &v in &comparison.order {
        let mut row = vec![right(comparison.rank(v).to_string()), Cell::new(&question.variants[v])];
        row.extend(shown.iter().map(|(column, _)| {
            let ends = [WITH_ENDS, rank_by.key].contains(&column.key);
            right(comparison.figure(v, column).map_or("-".into(), |figure| {
                let estimate = in_cell(column, figure.estimate);
                let (low, high) = (in_cell(column, figure.low), in_cell(column, figure.high));
                if ends { format!("{estimate} ({low} to {high})") } else { estimate }
            }))
        }));
        let chance = comparison.claims.as_ref().map(|claims| claims.chance_of_being_best[v]);
        row.push(right(chance.map_or("-".into(), |chance| format!("{:.0} %", 100.0 * chance))));
        table.add_row(row);
    }
    let legend = format!("* ranked by this: {}. In brackets: 95 % intervals.", rank_by.words);
    let text = format!("{}{}\n{}\n\n", head(comparison, seed), table.trim_fmt(), wrapped(&legend, WIDTH));
    close(text, comparison)
}

/// All figures of one matchup, one a line.
pub fn rates_text(comparison: &Comparison, seed: u64) -> String {
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
    let mut text = head(comparison, seed);
    text.push_str(&format!("{}\n\n", table.trim_fmt()));
    close(text, comparison)
}

/// A column's words with the unit of its cells.
fn headed(column: &Column) -> String {
    let unit = match (column.told(), column.kind) {
        (Told::Percent, _) | (Told::InTwenty, Kind::Rate(_)) => " %",
        (Told::InTwenty, _) => " in 20",
        (Told::Seconds, _) => " in s",
        (Told::Metres, _) => " in m",
        (Told::Number, _) => "",
    };
    format!("{}{unit}", column.words)
}

/// Plain lines, no styling, no dependence on the terminal: the same text in a file and on a screen.
fn empty() -> Table {
    let line = |c| LineStyle::none().fill(c).junction(c);
    let style = TableStyle::new().header_separator(line('─')).bottom_border(line('─'));
    let mut table = Table::new();
    table.load_style(style).force_no_tty();
    table
}

fn right(text: String) -> Cell {
    Cell::new(text).set_alignment(CellAlignment::Right)
}

fn head(comparison: &Comparison, seed: u64) -> String {
    let played = grouped(comparison.possessions);
    let noun = comparison.question.noun;
    let each =
        if comparison.question.variants.len() > 1 { format!(" for each {noun}") } else { String::new() };
    let question = wrapped(&comparison.question.text, WIDTH);
    format!("{question}\n{played} possessions{each}, seed {seed}\n\n")
}

fn close(mut text: String, comparison: &Comparison) -> String {
    for sentence in sentences(comparison) {
        text.push_str(&wrapped(&sentence, WIDTH));
        text.push('\n');
    }
    text.push('\n');
    text.push_str(&wrapped(NOTE, WIDTH));
    text.push('\n');
    text
}

/// Shares in per cent without the sign, which stands in the heading; the rest as it is told.
fn in_cell(column: &Column, value: f64) -> String {
    match (column.kind, column.told()) {
        (Kind::Rate(_), _) | (_, Told::Percent) => format!("{:.1}", 100.0 * value + 0.0),
        _ => bare(column, value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::compare::tests::sample;

    #[test]
    fn the_table_reads_so() {
        let comparison = sample(&["hold-wing", "seam-cross", "seam-sit"], 4000, "good_look_rate");
        let text = comparison_text(&comparison, 1);
        let table: Vec<&str> =
            text.lines().map(str::trim_end).take_while(|line| !line.starts_with("Best")).collect();
        assert_eq!(table.join("\n"), TABLE, "\n{text}");
        assert!(text.ends_with(&format!("\n\n{}\n", wrapped(NOTE, WIDTH))));
        assert!(text.lines().all(|line| line.chars().count() <= 112), "it fits a screen");
    }

    #[test]
    fn a_ranking_column_that_is_not_shown_is_put_first() {
        let text = comparison_text(&sample(&["a", "b"], 400, "passes"), 1);
        let headings: Vec<&str> = text.lines().nth(3).unwrap_or_default().split_whitespace().collect();
        assert_eq!(headings[..6], ["rank", "route", "passes", "in", "20", "*"], "{text}");
    }

    #[test]
    fn one_matchup_has_a_line_for_each_figure() {
        let text = rates_text(&sample(&["as-given"], 400, "expected_net_points"), 7);
        let line = |key: &str| text.lines().find(|line| line.trim_start().starts_with(key)).map(str::trim);
        assert_eq!(
            line("open_look_rate "),
            Some("open_look_rate                       27.8 %    23.6 to 32.3")
        );
        assert!(line("passes ").is_some() && line("lob_completion").is_none());
        assert!(text.contains("400 possessions, seed 7"));
    }

    const TABLE: &str = "\
Which is best?
4,000 possessions for each route, seed 1

 rank   route                       good      open       paint   net points     turn-   fast-break    chance of
                               looks % *   looks %   touches %        in 20   overs %       risk %   being best
────────────────────────────────────────────────────────────────────────────────────────────────────────────────
    1   seam-sit     28.4 (27.0 to 29.8)      28.4        39.2         19.4      10.1         14.8        100 %
    2   seam-cross   26.0 (24.7 to 27.4)      26.0        39.2         19.2       9.9         15.1          0 %
    3   hold-wing    23.8 (22.5 to 25.1)      23.8        39.2         19.0      10.4         14.8          0 %
────────────────────────────────────────────────────────────────────────────────────────────────────────────────
* ranked by this: good looks. In brackets: 95 % intervals.
";
}
