//! `--bootstrap` on the command line says what the library says of the possessions that are played, each drawn with all its
//! variants, beside the usual intervals of the same possessions. (Against scipy: `tests/outside/test_effects.py`.)
//!
//! What it has caught: nothing yet.

use std::collections::BTreeMap;
use std::fs;

use engine::{Arena, Measure, PossessionRecord};
use experiments::columns::CONFIDENCE;
use experiments::error::Exit;
use experiments::stats::{BOOTSTRAP_SEED, RESAMPLES, bootstrap};

use crate::support::{argument, folder, loaded, play, zoneprobe};

const QUESTION: &str = r#"
scenario = "sunken-122"
baseline = "stays"
[[variant]]
name = "crosses"
set = { "attack.rover.route" = "seam-cross" }
[[variant]]
name = "stays"
set = { "attack.rover.route" = "hold-wing" }
"#;

/// Possessions of each variant.
const POSSESSIONS: u64 = 120;

/// The figure of some possessions, a mean of one measure or a share of another; None without anything to be a share of.
fn figure(
    records: &[PossessionRecord],
    drawn: &[u32],
    (part, whole): (Measure, Option<Measure>),
) -> Option<f64> {
    let sum = |measure: Measure| -> f64 {
        drawn.iter().map(|&possession| records[possession as usize].real(measure)).sum()
    };
    let below = whole.map_or(drawn.len() as f64, sum);
    (below > 0.0).then(|| sum(part) / below)
}

#[test]
fn bootstrapped_intervals_are_the_librarys_of_the_same_possessions() {
    let home = folder(&[("question.toml", QUESTION)]);
    let file = home.path().join("question.toml");
    let experiment = loaded(scenarios::experiment(&file));
    let mut arena = Arena::new(Arena::WIDTH);
    let played = [0, 1].map(|v: usize| play(&mut arena, &experiment.variants[v].setup, 1, 0..POSSESSIONS));
    let mut lacking = 0;
    for (column, of) in [
        ("turnover_rate", (Measure::Turnover, None)),
        ("expected_net_points", (Measure::ExpectedNetPoints, None)),
        ("offensive_rebound_share", (Measure::OffensiveRebounds, Some(Measure::Rebounds))),
        ("three_point_make_share", (Measure::ThreesMade, Some(Measure::Threes))),
    ] {
        let out = home.path().join(column);
        let possessions = POSSESSIONS.to_string();
        let told = zoneprobe(&[
            "compare",
            argument(&file),
            "--possessions",
            &possessions,
            "--bootstrap",
            column,
            "--quiet",
            "--out",
            argument(&out),
        ]);
        assert_eq!(told.exit, Exit::Done, "{}", told.err);
        let text = fs::read(out.join("bootstrap.csv")).expect("a table");
        let mut reader = csv::Reader::from_reader(text.as_slice());
        let rows: Vec<BTreeMap<String, String>> =
            reader.deserialize().map(|row| row.expect("a row")).collect();
        let names: Vec<(&str, &str)> =
            rows.iter().map(|row| (row["variant"].as_str(), row["reference"].as_str())).collect();
        assert_eq!(names, [("crosses", ""), ("stays", ""), ("crosses", "stays")], "{column}");
        let comparison = fs::read_to_string(out.join("comparison.csv")).expect("a table");
        let differences = fs::read_to_string(out.join("differences.csv")).expect("a table");
        for (nth, row) in rows.iter().enumerate() {
            let own = |drawn: &[u32]| match nth {
                2 => Some(figure(&played[0], drawn, of)? - figure(&played[1], drawn, of)?),
                v => figure(&played[v], drawn, of),
            };
            let drawn = bootstrap(POSSESSIONS as usize, &own, CONFIDENCE, (RESAMPLES, BOOTSTRAP_SEED));
            let drawn = drawn.unwrap_or_else(|| panic!("{column} has data"));
            let (low, high) = drawn.ends.unzip();
            for (key, wanted) in
                [("estimate", Some(drawn.estimate)), ("bootstrap_low", low), ("bootstrap_high", high)]
            {
                let got: Option<f64> = row[key].parse().ok();
                let is_near = got.zip(wanted).is_some_and(|(got, wanted)| (got - wanted).abs() < 1e-6);
                assert!(is_near || got.is_none() && wanted.is_none(), "{column}, {key}: {got:?}, {wanted:?}");
            }
            assert_eq!(row["resamples"], drawn.figures.len().to_string());
            assert_eq!(
                (row["measure"].as_str(), row["possessions"].as_str()),
                (column, possessions.as_str())
            );
            // All possessions are drawn from, so the usual interval is the table's.
            let usual = format!("{},{}", row["usual_low"], row["usual_high"]);
            let table = if nth == 2 { &differences } else { &comparison };
            assert!(table.contains(&usual), "{column}: {usual} stands in no row");
            lacking += RESAMPLES - drawn.figures.len();
        }
    }
    assert!(lacking < RESAMPLES / 20, "{lacking} draws lack data: no such row has ends");
}
