//! `zoneprobe keys columns`: every column of every file, with its unit and what it means.

use super::{COLUMNS, Column, Kind, Told};
use crate::records;
use crate::wording::capital;

/// The files but `comparison.csv`.
const FILES: &str = include_str!("files.md");

/// All of it, as Markdown.
pub fn reference() -> String {
    let records = scenarios::bundled_question().map(|question| records::reference(&question));
    let mut text = format!(
        "{}\n{}\n## comparison.csv: a variant\n\n\
         Each measure has three columns: itself, and the ends of its 95 % interval with `_low` and `_high`.\n\n\
         | column | unit | better | meaning |\n| --- | --- | --- | --- |\n\
         | `variant` | - | - | What was played. |\n\
         | with factors: `cell`, and a column for each | - | - | The number of the cell, and the factors' \
         values in it; `base`: as the scenario has it. |\n\
         | `possessions` | possessions | - | Played of it. |\n\
         | `rank` | - | - | Place by the ranking measure. |\n\
         | `chance_of_being_best` | share | - | How likely it is the true first by that measure. |\n",
        FILES.trim_end().to_owned() + "\n",
        records.unwrap_or_default()
    );
    for column in COLUMNS {
        let better = format!("{:?}", column.better).to_lowercase();
        text += &format!("| `{}` | {} | {better} | {} |\n", column.key, unit(column), meaning(column));
    }
    text
}

fn unit(column: &Column) -> &'static str {
    match (column.kind, column.told()) {
        (Kind::Rate(_), _) => "share of possessions",
        (_, Told::Percent) => "share",
        (_, Told::Seconds) => "s",
        (_, Told::Metres) => "m",
        (Kind::Mean(_), _) if column.key.contains("points") => "points a possession",
        (Kind::Mean(_), _) => "a possession",
        (_, Told::InTwenty | Told::Number) => "ratio",
    }
}

fn meaning(column: &Column) -> String {
    // The unit of a rate says of what.
    let words = column.words.trim_start_matches("possessions with ").trim_start_matches("possessions ");
    capital(words) + "."
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_measure_has_a_line_with_its_unit() {
        let text = reference().split_once("## comparison.csv").unwrap().1.to_owned();
        for column in COLUMNS {
            let line = text.lines().find(|line| line.starts_with(&format!("| `{}` |", column.key)));
            assert!(line.is_some_and(|line| line.matches(" | ").count() == 3), "{}: {line:?}", column.key);
        }
        for (key, unit) in [
            ("open_look_rate", "share of possessions"),
            ("line_gap_m", "m"),
            ("expected_net_points", "points a possession"),
        ] {
            assert!(text.contains(&format!("| `{key}` | {unit} | ")), "{key}");
        }
    }
}
