//! The ranked table, as wide as the terminal: where it is narrow, fewer columns, never broken ones.

use comfy_table::{Cell, CellAlignment, LineStyle, Table, TableStyle};

use crate::columns::{Column, Kind, Told};
use crate::compare::Comparison;
use crate::gains::counted;
use crate::looks::{GOOD_LOOK, PAINT_TOUCH, open_look};
use crate::units::Units;
use crate::verdict::{Ran, Verdict};
use crate::wording::{alike, bare, listed};
use crate::wrapping::{Overlong, letters, lines, wrapped};

/// Measures shown beside the ranking one, in the order of the table, with their headings: counts in 20 possessions, as
/// everywhere else.
const SHOWN: [(&str, &str); 6] = [
    ("good_look_rate", "good\nlooks"),
    ("open_look_rate", "open\nlooks"),
    ("paint_touch_rate", "paint\ntouch"),
    ("expected_net_points", "net\npoints"),
    ("turnover_rate", "turn-\novers"),
    ("break_exposure", "fast-break\nrisk %"),
];

/// Which columns go first where there is no room, by key.
const LEAVE: [&str; 6] = [
    "break_exposure",
    "paint_touch_rate",
    "turnover_rate",
    "open_look_rate",
    "good_look_rate",
    "expected_net_points",
];

/// So many of them go before names are broken.
const LEAVE_BEFORE_NAMES: usize = 4;

/// A name takes no more letters of a line than this where there is little room.
const NAME: usize = 24;

/// A column of the table.
enum Shown {
    /// A measure with its heading; with its interval or without.
    Measure(&'static Column, String, bool),
    /// Started, carried through, fed.
    Runs,
}

impl Shown {
    fn key(&self) -> &'static str {
        match self {
            Self::Measure(column, ..) => column.key,
            Self::Runs => "run",
        }
    }

    fn words(&self) -> &'static str {
        match self {
            Self::Measure(column, ..) => column.words,
            Self::Runs => "how often it was run",
        }
    }
}

/// The table, and the lines under it that say how to read it.
pub fn ranked(
    comparison: &Comparison,
    verdict: &Verdict,
    (width, units): (usize, Units),
) -> (String, Vec<String>) {
    let mut columns = columns(comparison, verdict);
    let (mut left, mut name) = (Vec::new(), usize::MAX);
    let leave: Vec<&str> = LEAVE.into_iter().filter(|key| *key != comparison.question.rank_by.key).collect();
    let mut text = drawn(comparison, verdict, &columns, name);
    for (nth, key) in leave.into_iter().enumerate() {
        if widest(&text) > width && nth >= LEAVE_BEFORE_NAMES {
            name = NAME;
            text = drawn(comparison, verdict, &columns, name);
        }
        if widest(&text) <= width {
            break;
        }
        if let Some(place) = columns.iter().position(|shown| shown.key() == key) {
            left.push(columns.remove(place).words());
            text = drawn(comparison, verdict, &columns, name);
        }
    }
    let told = legend(comparison, verdict, (units, &columns), &left);
    (text, told)
}

fn columns(comparison: &Comparison, verdict: &Verdict) -> Vec<Shown> {
    let rank_by = comparison.question.rank_by;
    let first = SHOWN.iter().find(|(key, _)| *key == rank_by.key);
    let heading = first.map_or_else(|| wrapped(&counted(rank_by), 16), |(_, heading)| (*heading).to_owned());
    let mut columns = vec![Shown::Measure(rank_by, format!("{heading} *"), true)];
    let others = SHOWN.iter().filter(|(key, _)| *key != rank_by.key);
    columns.extend(
        others.filter_map(|&(key, heading)| Some(Shown::Measure(Column::named(key)?, heading.into(), false))),
    );
    if verdict.variants.iter().any(|ran| ran.often.is_some()) {
        columns.push(Shown::Runs);
    }
    columns
}

/// What those columns are whose heads do not say it.
fn explained(columns: &[Shown]) -> String {
    let told = [
        ("paint_touch_rate", format!(" Paint touch: a possession in which {PAINT_TOUCH}.")),
        ("break_exposure", " Fast-break risk: the chance that they run past all of us afterwards.".into()),
    ];
    let is_shown = |key: &str| columns.iter().any(|own| own.key() == key);
    told.into_iter().filter(|(key, _)| is_shown(key)).map(|(_, words)| words).collect()
}

fn legend(
    comparison: &Comparison,
    verdict: &Verdict,
    (units, columns): (Units, &[Shown]),
    left: &[&str],
) -> Vec<String> {
    let words = comparison.question.rank_by.words;
    let mut lines = vec![
        format!("* ranked by this: {words}. Counts are in 20 possessions. In brackets: 95 % intervals."),
        format!("{GOOD_LOOK} {}{}", open_look(units), explained(columns)),
    ];
    if let Some(often) = verdict.variants.iter().find_map(|ran| ran.often) {
        lines.push(format!(
            "Run: in how many of 20 possessions it was begun / run to its end / brought its runner the ball, which can be \
             before the end (seen on the first {}).",
            often.possessions
        ));
    }
    if !left.is_empty() {
        lines.push(format!("No room here for {}: see comparison.csv, or widen the window.", listed(left)));
    }
    lines
}

/// The table with names in lines of so many letters.
fn drawn(comparison: &Comparison, verdict: &Verdict, columns: &[Shown], name: usize) -> String {
    let question = &comparison.question;
    let mut table = empty();
    let mut header = vec![right("rank".into()), Cell::new(question.noun)];
    header.extend(columns.iter().map(|shown| {
        right(match shown {
            Shown::Measure(_, heading, _) => heading.clone(),
            Shown::Runs => "run".into(),
        })
    }));
    table.set_header(header);
    for &v in &comparison.order {
        let named = lines(
            &question.variants[v],
            &[name.min(question.variants[v].len()) as f64],
            Overlong::Broken,
            letters,
        );
        let mut row = vec![right(comparison.rank(v).to_string()), Cell::new(named.join("\n"))];
        row.extend(columns.iter().map(|shown| right(cell(comparison, verdict, v, shown))));
        table.add_row(row);
    }
    let text = table.trim_fmt();
    text.lines().map(str::trim_end).collect::<Vec<_>>().join("\n")
}

fn cell(comparison: &Comparison, verdict: &Verdict, v: usize, shown: &Shown) -> String {
    match shown {
        Shown::Measure(column, _, ends) => comparison.figure(v, column).map_or("-".into(), |figure| {
            let told = |value: f64| alike(column, value, &figure);
            let (estimate, low, high) = (told(figure.estimate), told(figure.low), told(figure.high));
            if *ends { format!("{estimate} ({low} to {high})") } else { bare(column, figure.estimate) }
        }),
        Shown::Runs => verdict.ran(&comparison.question.variants[v]).map_or_else(String::new, Ran::cell),
    }
}

pub(super) fn widest(text: &str) -> usize {
    text.lines().map(|line| line.chars().count()).max().unwrap_or(0)
}

/// A column's words with the unit of its cells.
pub(crate) fn headed(column: &Column) -> String {
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
pub(crate) fn empty() -> Table {
    let line = |c| LineStyle::none().fill(c).junction(c);
    let style = TableStyle::new().header_separator(line('─')).bottom_border(line('─'));
    let mut table = Table::new();
    table.load_style(style).force_no_tty();
    table
}

pub(crate) fn right(text: String) -> Cell {
    Cell::new(text).set_alignment(CellAlignment::Right)
}

/// Shares in per cent without the sign, which stands in the heading; the rest as it is told.
pub(crate) fn in_cell(column: &Column, value: f64) -> String {
    match (column.kind, column.told()) {
        (Kind::Rate(_), _) | (_, Told::Percent) => format!("{:.1}", 100.0 * value + 0.0),
        _ => bare(column, value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::places::Often;
    use crate::verdict::tests::judged;

    const ROUTES: [&str; 3] = ["hold-wing", "seam-cross", "seam-sit"];

    #[test]
    fn the_table_reads_so_where_there_is_room() {
        let (comparison, verdict) = judged(&ROUTES, 4000, "good_look_rate");
        let (table, legend) = ranked(&comparison, &verdict, (112, Units::Ft));
        let text = format!("\n{table}\n{}\n", legend.join("\n"));
        assert_eq!(text, WIDE, "{text}");
    }

    #[test]
    fn on_a_narrow_terminal_columns_are_left_out_and_none_is_broken() {
        let (comparison, mut verdict) = judged(&ROUTES, 4000, "good_look_rate");
        verdict.variants[0].often = Some(Often { possessions: 10, started: 9, carried_through: 5, fed: 4 });
        let headings = |width| {
            let (table, legend) = ranked(&comparison, &verdict, (width, Units::M));
            assert!(widest(&table) <= width, "{table}");
            assert_eq!(legend.len(), 3 + usize::from(width < 100), "{legend:?}");
            let lines: Vec<&str> = table.lines().collect();
            assert_eq!(lines.len(), 7, "a row a line: {table}");
            assert!(lines[3].contains("  18/10/8"), "{table}");
            lines[0].split_whitespace().collect::<Vec<_>>().join(" ")
        };
        assert_eq!(headings(80), "rank route good open net turn- run");
        assert_eq!(headings(60), "rank route good net run");
        assert_eq!(headings(130), "rank route good open paint net turn- fast-break run");
    }

    #[test]
    fn a_ranking_column_that_is_not_shown_is_put_first_and_long_names_are_broken_at_blanks() {
        let long = ["hold-wing / post_help_rule=far-back-crosses / sink_back_m=0.0", "b"];
        let (comparison, verdict) = judged(&long, 400, "passes");
        let (table, _) = ranked(&comparison, &verdict, (70, Units::M));
        assert!(widest(&table) <= 70, "{table}");
        assert!(table.contains("post_help_rule=far-back\n") || table.contains("hold-wing /"), "{table}");
        let headings: Vec<&str> = table.lines().next().unwrap_or_default().split_whitespace().collect();
        assert_eq!(headings[..5], ["rank", "route", "passes", "in", "20"], "{table}");
    }

    const WIDE: &str = "
 rank   route                    good    open   paint      net   turn-   fast-break
                              looks *   looks   touch   points   overs       risk %
────────────────────────────────────────────────────────────────────────────────────
    1   seam-sit     5.7 (5.4 to 6.0)     5.7     7.8     19.4     2.0         14.8
    2   seam-cross   5.2 (4.9 to 5.5)     5.2     7.8     19.2     2.0         15.1
    3   hold-wing    4.8 (4.5 to 5.0)     4.8     7.8     19.0     2.1         14.8
────────────────────────────────────────────────────────────────────────────────────
* ranked by this: good looks. Counts are in 20 possessions. In brackets: 95 % intervals.
Good look: a shot worth 0.95 points or more on average, guarded or not, or free throws for a foul on such a shot. Open look: a \
shot with nobody within 4 ft, whatever it is worth. Paint touch: a possession in which a player has the ball in the lane or just \
beside it. Fast-break risk: the chance that they run past all of us afterwards.
";
}
