//! Who gains and who loses against an answer of the zone is what its possessions say: every number of `answers.csv`
//! comes out again from the records of possessions, and what does not differ is not claimed.
//!
//! What it has caught: nothing yet.

use std::collections::BTreeMap;
use std::fs;

use engine::Measure;
use experiments::error::Exit;
use experiments::stats::normal::{two_sided_p, two_sided_z};
use scenarios::Answer;

use crate::support::{argument, folder, loaded, records, zoneprobe};

/// Another route and a twin of the baseline, ranked by what the answers move most.
const OPTIONS: &str = r#"
question = "Who gains?"
scenario = "plain-122"
rank_by = "widest_seam_m"
baseline = "none"
[[variant]]
name = "none"
set = { "attack.rover.route" = "corner-drop", "attack.plan" = "free", "attack.posts.options" = {} }
[[variant]]
name = "twin"
set = { "attack.rover.route" = "corner-drop", "attack.plan" = "free", "attack.posts.options" = {} }
[[variant]]
name = "wing"
set = { "attack.rover.route" = "hold-wing", "attack.plan" = "free", "attack.posts.options" = {} }
"#;

const POSSESSIONS: u64 = 300;
const MEASURES: [(&str, Measure, f64); 3] = [
    ("widest_seam_m", Measure::WidestSeam, 1e-6),
    ("expected_net_points", Measure::ExpectedNetPoints, 1e-6),
    ("good_look_rate", Measure::GoodLook, 1.0),
];
/// Two variants beside the baseline, three rules, three measures; leads and changes of leads.
const FAMILY: usize = 36;

type Row = BTreeMap<String, String>;

/// Estimate, ends and p of a contrast from its values possession by possession.
struct Told {
    key: (usize, usize, &'static str),
    numbers: [f64; 4],
}

fn told(key: (usize, usize, &'static str), values: &[f64]) -> Told {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let variance = values.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / (n - 1.0);
    let error = (variance / n).sqrt();
    let half = error * two_sided_z(1.0 - 0.05 / FAMILY as f64);
    let p = if mean == 0.0 { 1.0 } else { two_sided_p(mean / error) };
    Told { key, numbers: [mean, mean - half, mean + half, p] }
}

/// Holm's p, written out: the next smallest p times how many are still open, never below the one before.
fn by_holm(all: &[Told]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|&a, &b| all[a].numbers[3].total_cmp(&all[b].numbers[3]));
    let mut corrected = vec![0.0; all.len()];
    let mut before = 0.0_f64;
    for (rank, nth) in order.into_iter().enumerate() {
        before = before.max((all[nth].numbers[3] * (FAMILY - rank) as f64).min(1.0));
        corrected[nth] = before;
    }
    corrected
}

#[test]
fn every_claim_comes_out_again_from_the_records_of_possessions() {
    let home = folder(&[("options.toml", OPTIONS)]);
    let (file, out) = (home.path().join("options.toml"), home.path().join("out"));
    let count = POSSESSIONS.to_string();
    let done = zoneprobe(&[
        "compare",
        argument(&file),
        "--possessions",
        &count,
        "--seed",
        "5",
        "--quiet",
        "--out",
        argument(&out),
    ]);
    assert_eq!(done.exit, Exit::Done, "{}", done.err);
    let text = fs::read_to_string(out.join("answers.csv")).expect("answers are written");
    let rows: Vec<Row> =
        csv::Reader::from_reader(text.as_bytes()).deserialize().map(|row| row.expect("a row")).collect();

    let names = ["none", "twin", "wing"];
    let answers: Vec<Answer> = loaded(loaded(scenarios::experiment(&file)).answers(&names, 9));
    assert_eq!(answers.len(), 9);
    let played: Vec<_> = answers.iter().map(|answer| records(&answer.setup, 5, POSSESSIONS)).collect();
    let mut all: Vec<Told> = Vec::new();
    for (_, measure, unit) in MEASURES {
        let value = |answer: usize, nth: usize| played[answer][nth].value(measure) as f64 * unit;
        // Answers stand by variant, three rules each; the first variant is the baseline.
        for (variant, rule) in (1..3).flat_map(|variant| (0..3).map(move |rule| (variant, rule))) {
            let lead = |rule: usize, nth: usize| value(3 * variant + rule, nth) - value(rule, nth);
            let each = 0..POSSESSIONS as usize;
            let leads: Vec<f64> = each.clone().map(|nth| lead(rule, nth)).collect();
            let others =
                |nth: usize| (0..3).filter(|other| *other != rule).map(|other| lead(other, nth)).sum::<f64>();
            let changes: Vec<f64> = each.map(|nth| lead(rule, nth) - others(nth) / 2.0).collect();
            let answer = 3 * variant + rule;
            all.push(told((answer, measure as usize, "advantage"), &leads));
            all.push(told((answer, measure as usize, "interaction"), &changes));
        }
    }
    let mut claims = [0; 2];
    for (told, p_holm) in all.iter().zip(by_holm(&all)) {
        let (answer, measure, kind) = told.key;
        let key = MEASURES.iter().find(|(_, own, _)| *own as usize == measure).expect("a measure").0;
        let own = |row: &&Row| {
            row["variant"] == answers[answer].variant
                && row["post_help_rule"] == answers[answer].rule
                && row["measure"] == key
        };
        let row = rows.iter().find(own).expect("a row for each variant, rule and measure");
        let names =
            ["", "_together_low", "_together_high", "_p", "_p_holm"].map(|end| format!("{kind}{end}"));
        let wanted = told.numbers.into_iter().chain([p_holm]);
        for (name, wanted) in names.iter().zip(wanted) {
            let cell: f64 = row[name].parse().expect("a number");
            assert!((cell - wanted).abs() < 2e-6, "{name} is {cell}, not {wanted}: {row:?}");
        }
        let [mean, low, high, _] = told.numbers;
        let claimed = (low > 0.0 || high < 0.0) && p_holm < 0.05;
        let (column, words) = match kind {
            "advantage" => ("stands", ["behind", "ahead"]),
            _ => ("verdict", ["loses", "gains"]),
        };
        let word = if claimed { words[usize::from(mean > 0.0)] } else { "" };
        assert_eq!(row[column], word, "{row:?}");
        claims[usize::from(kind == "interaction")] += usize::from(claimed);
        if row["variant"] == "twin" {
            assert!(
                row[&names[0]] == "0.000000" && row[&names[2]] == "0.000000" && word.is_empty(),
                "{row:?}"
            );
        }
    }
    assert!(
        claims[0] > 0 && claims[1] > 0,
        "without claims of both kinds this would prove little: {claims:?}"
    );
    assert_eq!(rows.len(), 27);
    let of_baseline = rows.iter().filter(|row| row["variant"] == "none");
    assert!(of_baseline.into_iter().all(|row| row["advantage"].is_empty() && row["verdict"].is_empty()));
}
