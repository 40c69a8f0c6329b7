//! What a pilot says of the possessions a question needs: a table to be read, and rows for other programs.

use comfy_table::Cell;
use serde_json::{Value, json};

use super::lines::{cell, written};
use super::paired::saved;
use super::ranked::{empty, headed, in_cell, right, widest};
use crate::compare::Question;
use crate::needed::{Need, Wanted};
use crate::stats::LARGEST_POSSESSIONS;
use crate::wording::{grouped, in_percent};
use crate::wrapping::{Overlong, letters, lines, wrapped};

/// A name takes so many letters of a line at most, fewer where there is no room.
const NAMES: [f64; 5] = [36.0, 24.0, 18.0, 12.0, 8.0];

/// What is told of a pilot besides the needs themselves.
#[derive(Clone, Copy, Debug)]
pub struct Pilot<'a> {
    /// What was asked.
    pub question: &'a Question,
    /// Possessions that were played of each variant.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// What was to be shown.
    pub wanted: Wanted,
}

/// The table, and the lines under it that say how to read it.
pub fn needed_text(pilot: Pilot<'_>, needs: &[Need], width: usize) -> String {
    let question = pilot.question;
    let tables = NAMES.map(|name| drawn(question, needs, name));
    let table = tables.iter().find(|table| widest(table) <= width).unwrap_or(&tables[NAMES.len() - 1]);
    let told: Vec<String> = told(pilot).iter().map(|line| wrapped(line, width)).collect();
    let (heading, played) = (wrapped(&question.text, width), grouped(pilot.possessions));
    format!(
        "{heading}\npilot of {played} possessions for each {}, seed {}\n\n{table}\n{}\n",
        question.noun,
        pilot.seed,
        told.join("\n")
    )
}

/// The table with names in lines of so many letters.
fn drawn(question: &Question, needs: &[Need], name: f64) -> String {
    let mut table = empty();
    let heads = ["difference *", "needed", "with draws\nof its own", "pairing\nsaves"];
    let head = std::iter::once(Cell::new(question.noun));
    table.set_header(head.chain(heads.map(|head| right(head.into()))));
    for need in needs {
        let name = lines(&question.variants[need.variant], &[name], Overlong::Broken, letters).join("\n");
        let value = |value| in_cell(question.rank_by, value);
        let found = need.found.interval;
        let saves = need.variance_ratio.map_or("-".into(), saved);
        table.add_row([
            Cell::new(name),
            right(format!("{} ({} to {})", value(found.estimate), value(found.low), value(found.high))),
            right(count(need.paired)),
            right(count(need.apart)),
            right(saves),
        ]);
    }
    let table: Vec<String> = table.trim_fmt().lines().map(|line| line.trim_end().to_owned()).collect();
    table.join("\n")
}

fn told(pilot: Pilot<'_>) -> Vec<String> {
    let Pilot { question, wanted, .. } = pilot;
    let (noun, baseline) = (question.noun, &question.variants[question.baseline]);
    let of = match wanted.difference {
        Some(difference) => format!("a difference of {difference} (in the unit of {})", question.rank_by.key),
        None => "the difference that the pilot found, if it is the true one".to_owned(),
    };
    let mut told = vec![
        format!(
            "* {}, each {noun} less {baseline}, the one we compare with. In brackets: intervals that are safe for \
             all comparisons at once.",
            headed(question.rank_by)
        ),
        format!(
            "Needed: possessions of each {noun} that show {of}, with a chance of {} %. With draws of its own: the \
             same if each {noun} had other possessions; that is what pairing saves.",
            in_percent(wanted.power)
        ),
    ];
    if wanted.difference.is_none() {
        told.push(
            "A pilot knows badly how far they are apart: where an interval reaches 0, so does what is needed reach \
             any number. Name a difference that matters with --difference."
                .into(),
        );
    }
    told
}

/// A number of possessions, or that no run is so long.
fn count(needed: Option<u64>) -> String {
    match needed {
        None => "-".into(),
        Some(needed) if needed > LARGEST_POSSESSIONS => "too many".into(),
        Some(needed) => grouped(needed),
    }
}

/// A row for each variant.
pub fn needed_csv(pilot: Pilot<'_>, needs: &[Need]) -> Vec<u8> {
    let header = [
        "variant",
        "reference",
        "measure",
        "difference",
        "together_low",
        "together_high",
        "deviation",
        "variance_ratio",
        "possessions_needed",
        "possessions_needed_apart",
    ];
    let whole = |needed: Option<u64>| needed.map_or_else(String::new, |needed| needed.to_string());
    let row = |need: &Need| {
        let Need { variant, found, variance_ratio, paired, apart } = need;
        let mut row = vec![
            pilot.question.variants[*variant].clone(),
            pilot.question.variants[pilot.question.baseline].clone(),
            pilot.question.rank_by.key.into(),
        ];
        let interval = found.interval;
        let numbers = [interval.estimate, interval.low, interval.high, found.deviation].map(Some);
        row.extend(numbers.into_iter().chain([*variance_ratio]).map(cell));
        row.extend([whole(*paired), whole(*apart)]);
        row
    };
    written(header.map(String::from).to_vec(), needs.iter().map(row))
}

/// All of it for other programs, with the command that makes it again.
pub fn needed_json(pilot: Pilot<'_>, needs: &[Need], command: &str) -> Value {
    let names = &pilot.question.variants;
    let need = |need: &Need| {
        json!({
            "variant": names[need.variant],
            "difference": need.found.interval.estimate,
            "together_low": need.found.interval.low,
            "together_high": need.found.interval.high,
            "deviation": need.found.deviation,
            "variance_ratio": need.variance_ratio,
            "possessions_needed": need.paired,
            "possessions_needed_apart": need.apart,
        })
    };
    json!({
        "command": command,
        "question": pilot.question.text,
        "measure": pilot.question.rank_by.key,
        "reference": names[pilot.question.baseline],
        "seed": pilot.seed,
        "possessions": pilot.possessions,
        "power": pilot.wanted.power,
        "difference_wanted": pilot.wanted.difference,
        "variants": needs.iter().map(need).collect::<Vec<_>>(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::needed::needs;
    use crate::needed::tests::pilot;

    #[test]
    fn the_table_fits_eighty_columns_and_reads_so() {
        let names = ["hold-wing", "seam-cross", "seam-sit / post_help_rule=far-back-crosses"];
        for difference in [None, Some(0.02)] {
            let (question, totals) = pilot(&names, 400, "good_look_rate");
            let wanted = Wanted { power: 0.8, difference };
            let needs = needs(&question, &totals, wanted).unwrap();
            let text =
                needed_text(Pilot { question: &question, possessions: 400, seed: 1, wanted }, &needs, 80);
            assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
            let row = text.lines().find(|line| line.trim_start().starts_with("seam-sit")).unwrap();
            let shown = needs[1].paired.map(grouped).unwrap();
            assert!(row.contains(&format!(" {shown} ")) && row.ends_with('%'), "{shown}: {text}");
            assert_eq!(text.contains("--difference"), difference.is_none(), "{text}");
        }
    }

    #[test]
    fn what_no_run_can_play_is_said_so_and_the_rows_have_all_columns() {
        assert_eq!([None, Some(1_565), Some(u64::MAX)].map(count), ["-", "1,565", "too many"]);
        assert_eq!([0.8, 0.57, 0.999].map(in_percent), ["80", "57", "99.9"]);
        let (question, totals) = pilot(&["a", "b", "c"], 400, "drives");
        let wanted = Wanted { power: 0.8, difference: Some(0.1) };
        let needs = needs(&question, &totals, wanted).unwrap();
        let pilot = Pilot { question: &question, possessions: 400, seed: 1, wanted };
        let text = String::from_utf8(needed_csv(pilot, &needs)).unwrap();
        let rows: Vec<&str> = text.lines().collect();
        assert_eq!(
            rows[1..],
            [
                "b,a,drives,0.000000,0.000000,0.000000,0.000000,,,",
                "c,a,drives,0.000000,0.000000,0.000000,0.000000,,,"
            ]
        );
        assert_eq!(rows[0].matches(',').count(), 9);
        let page = needed_json(pilot, &needs, "zoneprobe power");
        assert_eq!(page["variants"][1]["variant"], "c");
        assert!(page["variants"][1]["possessions_needed"].is_null());
    }
}
