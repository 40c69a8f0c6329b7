//! All that was compared, best first: a table of the sheet's foot, of the rows of `comparison.csv`.

use super::costs::{Row, is};
use crate::columns::Column;
use crate::gains::counted;
use crate::looks::PAINT_TOUCH;
use crate::verdict::{NET, Verdict};
use crate::wording::{bare, capital};

/// Rows of the table, at most; a question of more has the others in its report.
const MOST: usize = 13;
/// What is told besides the question's own measure.
const TOLD: [&str; 5] = ["good_look_rate", "open_look_rate", TOUCHED, NET, "turnover_rate"];
/// One of them, and what it is.
const TOUCHED: &str = "paint_touch_rate";

/// A table: heads, rows, and what is said under it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ranked {
    /// The heads of its columns.
    pub head: Vec<String>,
    /// Its rows, as many cells as there are heads.
    pub rows: Vec<Vec<String>>,
    /// What its figures are.
    pub foot: String,
}

/// The ranking by the question's own measure; empty where there is nothing to rank.
pub(super) fn ranked(verdict: &Verdict, measured: &[Row]) -> Ranked {
    let Some(first) = verdict.headlines.first().filter(|_| verdict.variants.len() > 1) else {
        return Ranked::default();
    };
    let others = TOLD.iter().filter(|key| **key != first.column.key).filter_map(|key| Column::named(key));
    let columns: Vec<&Column> = std::iter::once(first.column).chain(others).collect();
    let short = |column: &&Column| {
        let words = counted(column);
        let words = words.trim_start_matches("expected ").trim_start_matches("possessions with a ");
        capital(words.trim_end_matches(" in 20").trim_end_matches(" taken"))
    };
    let row = |(nth, own): (usize, &crate::verdict::Ran)| {
        let cells = measured.iter().find(|row| is(row, "variant", &own.variant));
        let number = |key: &str| cells.and_then(|row| row.get(key)?.parse::<f64>().ok());
        let figure = |column: &&Column| number(column.key).map_or_else(dash, |value| bare(column, value));
        let run = own.often.map_or_else(dash, |often| often.in_twenty().join("/"));
        let named = [(nth + 1).to_string(), own.variant.clone()];
        named.into_iter().chain(columns.iter().map(figure)).chain([run]).collect()
    };
    let rows: Vec<Vec<String>> = verdict.variants.iter().take(MOST).enumerate().map(row).collect();
    let left = verdict.variants.len() - rows.len();
    let others = if left > 0 { format!(" {left} of lower rank: in the report.") } else { String::new() };
    let head = ["Rank".to_owned(), capital(&verdict.noun)].into_iter().chain(columns.iter().map(short));
    let seen = verdict.variants.iter().find_map(|ran| ran.often).map_or_else(String::new, |often| {
        format!(
            " Run: in how many it was begun / run to its end / brought its runner the ball, seen on the first {}.",
            often.possessions
        )
    });
    let touch = columns.iter().any(|column| column.key == TOUCHED);
    let touch = if touch { format!(" Paint touch: {PAINT_TOUCH}.") } else { String::new() };
    Ranked {
        head: head.chain(["Run".to_owned()]).collect(),
        rows,
        foot: format!(
            "Ranked by {}; all figures in 20 possessions.{touch}{seen}{others}",
            first.column.words,
        ),
    }
}

fn dash() -> String {
    "\u{2013}".into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::tests::judged;

    #[test]
    fn every_row_has_a_cell_for_every_head_and_what_is_not_known_a_dash() {
        let (_, verdict) = judged(&["a", "b"], 300, "good_look_rate");
        let first = verdict.headlines[0].variant.clone();
        let cells = [("variant", first.as_str()), ("good_look_rate", "0.25")];
        let measured: Vec<Row> =
            vec![cells.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect()];
        let table = ranked(&verdict, &measured);
        let none = "\u{2013}";
        assert_eq!(table.head.len(), 8, "{:?}", table.head);
        assert!(table.rows.iter().all(|row| row.len() == 8), "{:?}", table.rows);
        assert_eq!(table.rows[0], ["1", &first, "5.0", none, none, none, none, none]);
        let (_, alone) = judged(&["a"], 300, NET);
        assert_eq!(ranked(&alone, &[]), Ranked::default(), "one alone has no rank");
    }
}
