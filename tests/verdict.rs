//! Terminal, report, sheet and cards give the same verdict: the claims of one are the claims of all, and they are what the
//! tables say. What is met is never advised, and what hardly ran is never a reason.
//!
//! What it has caught: a report that ranked by one measure beside a sheet that ranked by another, neither saying so.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use experiments::error::Exit;
use experiments::units::Units;
use experiments::verdict::{Differ, VERDICT, Verdict};

use crate::support::{argument, folder, zoneprobe};

/// Only settings differ.
const SINKS: &str = "question = \"How deep?\"\nscenario = \"plain-122\"\nrank_by = \"good_look_rate\"\n\
    [factors]\n\"zone.sink_back_m\" = [0.0, 1.2]\n";
/// Two names of one thing.
const TWINS: &str = "question = \"Which of two alike?\"\nscenario = \"sunken-122\"\nrank_by = \"good_look_rate\"\n\
    variant = [{ name = \"one\", set = { \"attack.rover.route\" = \"seam-loop\" } },\n\
    { name = \"other\", set = { \"attack.rover.route\" = \"seam-loop\" } }]\n";

/// A result with everything that is said of it.
struct Told {
    verdict: Verdict,
    /// Where, and what, in plain text.
    texts: [(&'static str, String); 4],
    /// Rows of the ranking by net points and of how often everything was run.
    best: Vec<BTreeMap<String, String>>,
    runs: Vec<BTreeMap<String, String>>,
    comparison: Vec<BTreeMap<String, String>>,
}

fn rows(file: &Path) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(file).expect("a table");
    reader.deserialize().map(|row| row.expect("a row")).collect()
}

/// Words of a page: no marks, one blank between two words.
fn plain(page: &str) -> String {
    let mut text = String::new();
    for (nth, part) in page.split('<').enumerate() {
        let shown = if nth == 0 { part } else { part.split_once('>').map_or("", |(_, rest)| rest) };
        text.push_str(shown);
        text.push(' ');
    }
    for (mark, letter) in [("&quot;", "\""), ("&#39;", "'"), ("&lt;", "<"), ("&gt;", ">"), ("&amp;", "&")] {
        text = text.replace(mark, letter);
    }
    spaced(&text)
}

/// Words with one blank between two of them.
fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn told(question: &[&str], possessions: &str) -> Told {
    let home = folder(&[("sinks.toml", SINKS), ("twins.toml", TWINS)]);
    let (out, first) = (home.path().join("out"), question.first().copied().unwrap_or_default());
    let own = home.path().join(first);
    let mut args = vec!["compare"];
    if first.ends_with(".toml") {
        args.push(argument(&own));
        args.extend(&question[1..]);
    } else {
        args.extend(question);
    }
    args.extend(["--possessions", possessions, "--quiet", "--out", argument(&out)]);
    let compared = zoneprobe(&args);
    assert_eq!(compared.exit, Exit::Done, "{question:?}: {}", compared.err);
    let sheet = zoneprobe(&["sheet", argument(&out)]);
    assert_eq!(sheet.exit, Exit::Done, "{question:?}: {}", sheet.err);
    let text = |name: &str| fs::read_to_string(out.join(name)).expect("a text");
    Told {
        verdict: serde_json::from_str(&text(VERDICT)).expect("a verdict"),
        texts: [
            ("terminal", spaced(&compared.out)),
            ("report", plain(&text("report.html"))),
            ("sheet", plain(&text("sheet/sheet.html"))),
            ("cards", plain(&text("sheet/cards.html"))),
        ],
        best: rows(&out.join("best_by_net.csv")),
        runs: rows(&out.join("runs.csv")),
        comparison: rows(&out.join("comparison.csv")),
    }
}

/// What holds of every result.
fn check(told: &Told) {
    // All of these are played by US rules.
    let claims = told.verdict.clone().told_in(Units::Ft).claims();
    assert!(!claims.is_empty());
    for (place, text) in &told.texts {
        for claim in &claims {
            let claim = claim.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(text.contains(&claim), "the {place} does not say: {claim}");
        }
        // Who else is called best is called so by a claim.
        let called = text.match_indices("Best by ").map(|(at, _)| &text[at..]);
        for words in called {
            let is_claimed = claims.iter().any(|claim| words.starts_with(claim.as_str()));
            assert!(is_claimed, "the {place} says besides: {}", words.chars().take(120).collect::<String>());
        }
    }
    sure_alike(told);
    on_one_base(told);
    good_looks_add_up(told);
    ranked_alike(told);
    no_reason_hardly_ran(told);
    nothing_beside_the_verdict(told);
    what_is_said_of_the_example_is_said_everywhere(told);
}

/// How sure the first is stands in terminal and report, and on the sheet's first page, in the same words.
fn sure_alike(told: &Told) {
    let sure = told.verdict.sure();
    assert_eq!(sure.is_empty(), told.verdict.differ != Differ::Choices, "{sure:?}");
    for line in sure {
        for (place, text) in &told.texts[..3] {
            assert!(text.contains(&line), "the {place} does not say: {line}");
        }
    }
    // What is met has no price.
    let sheet = &told.texts[2].1;
    assert_eq!(sheet.contains("Costs and gains of"), told.verdict.differ == Differ::Choices);
}

/// Counts are told in 20 possessions and in no other number of them.
fn on_one_base(told: &Told) {
    for (place, text) in &told.texts {
        for words in ["in 100 possessions", "of 100 possessions", "of 256 possessions", "times in 100"] {
            let around = text.find(words).map(|at| text[..at].chars().rev().take(80).collect::<String>());
            assert!(
                around.is_none(),
                "the {place} says {words} after {:?}",
                around.map(|own| own.chars().rev().collect::<String>())
            );
        }
    }
}

/// Whose the good looks are adds up to the good looks of the ranking.
fn good_looks_add_up(told: &Told) {
    let Some(main) = told.verdict.main() else { return };
    let row = told.comparison.iter().find(|row| row["variant"] == main).expect("the one of the cards");
    let all = 20.0 * row["good_look_rate"].parse::<f64>().expect("a rate");
    let line = format!("Good looks of {main} in 20 possessions: {all:.1}, of these ");
    let sheet = &told.texts[2].1;
    let parts = sheet.split(&line).nth(1).unwrap_or_else(|| panic!("the sheet does not say: {line}"));
    let parts = parts.split(". Open looks").next().unwrap_or_default();
    let sum: f64 = parts.split(", ").filter_map(|part| part.split(' ').next()?.parse::<f64>().ok()).sum();
    // As a reader adds them up.
    assert_eq!(format!("{sum:.1}"), format!("{all:.1}"), "{line}{parts}");
}

/// The sheet's table of all that was compared has the ranks of the comparison.
fn ranked_alike(told: &Told) {
    let sheet = &told.texts[2].1;
    for row in &told.comparison {
        let rank: usize = row["rank"].parse().expect("a rank");
        if told.verdict.headlines.is_empty() || rank > 13 {
            continue;
        }
        let start = format!(" {rank} {} ", row["variant"]);
        assert!(sheet.contains(&start), "the sheet has no row{start}");
    }
}

/// No figure beside the verdict sounds like another one: a chance of being best is in comparison.csv, for who asks for it. A
/// difference that is more than luck has its interval, everywhere.
fn nothing_beside_the_verdict(told: &Told) {
    for (place, text) in &told.texts {
        assert!(!text.to_lowercase().contains("chance of being"), "the {place}");
    }
    let sheet = &told.texts[2].1;
    let sure = sheet.split("More than luck, each taken by itself: ").nth(1);
    let sure = sure.and_then(|rest| rest.split(". ").next()).unwrap_or_default();
    for part in sure.split("; ").filter(|part| part.contains(" more ") || part.contains(" fewer ")) {
        assert!(part.contains(" (") && part.contains(" to "), "no interval: {part}");
        // The two figures, subtracted, are the difference.
        let size: f64 = part.split(' ').next().and_then(|text| text.parse().ok()).expect("a difference");
        let decimals = part.split(' ').next().and_then(|text| text.split('.').nth(1)).map_or(0, str::len);
        let figures = part.rsplit("), ").next().unwrap_or_default();
        let (own, other) = figures.split_once(" and ").expect("two figures");
        let number = |text: &str| text.trim_end_matches('.').parse::<f64>().expect("a figure");
        let by = (number(own) - number(other)).abs();
        assert_eq!(format!("{by:.decimals$}"), format!("{size:.decimals$}"), "{part}");
    }
    // One wording of a good look.
    for (place, text) in &told.texts {
        for words in text.split("Good look: ").skip(1) {
            assert!(
                words.starts_with("a shot worth 0.95 points or more on average, guarded or not, or"),
                "the {place}"
            );
        }
        assert!(
            text.contains("Good look: ") || *place == "report",
            "the {place} does not say what a good look is"
        );
    }
}

/// Where the attack of the cards is not the one to run, sheet and cards both call it an example.
fn what_is_said_of_the_example_is_said_everywhere(told: &Told) {
    let [_, _, (_, sheet), (_, cards)] = &told.texts;
    if told.verdict.differ == Differ::Choices {
        assert_eq!(
            sheet.contains("the large picture, as an example: "),
            cards.contains("Attack, as an example: "),
            "{cards}"
        );
    }
}

/// `off NAME`: the look came off a route or an option, which was therefore run to its end in half of the possessions.
fn no_reason_hardly_ran(told: &Told) {
    let seldom = told.runs.iter().filter(|row| {
        let number = |key: &str| row[key].parse::<u64>().expect("a number");
        2 * number("carried_through") < number("possessions")
    });
    let (sheet, main) = (&told.texts[2].1, told.verdict.main().unwrap_or_default());
    for row in seldom {
        // Of the attack of the cards it is said without its name.
        let plain = (row["variant"] == main).then(|| " Look for ".to_owned());
        for named in plain.into_iter().chain([format!("With {}, look for ", row["variant"])]) {
            for call in sheet.split(&named).skip(1) {
                let sentence = call.split([':', '.']).next().unwrap_or_default();
                assert!(!sentence.ends_with(&format!(" off {}", row["name"])), "{sentence}");
            }
        }
        // Where what was compared led and hardly ran, every output says so in the same words.
        let told_of = told
            .verdict
            .runs()
            .into_iter()
            .filter(|line| line.starts_with(&format!("{} came", row["variant"])));
        for line in told_of {
            assert!(line.ends_with("what is compared is mostly the attack around it."), "{line}");
            for (place, text) in &told.texts[..3] {
                assert!(text.contains(&line), "the {place} does not say: {line}");
            }
        }
    }
}

/// The leaders are those of the tables.
fn check_leaders(told: &Told, column: &str) {
    let [first, second] = [0, 1].map(|nth| told.verdict.headlines.get(nth).map(|own| own.variant.clone()));
    let value = |row: &BTreeMap<String, String>| row[column].parse::<f64>().unwrap_or(f64::NEG_INFINITY);
    let most = told.comparison.iter().map(value).fold(f64::NEG_INFINITY, f64::max);
    let leader = told.comparison.iter().find(|row| value(row) == most).expect("a leader");
    assert_eq!(first.as_ref(), Some(&leader["variant"]), "best by {column}");
    if column != "expected_net_points" {
        assert_eq!(second.as_ref(), Some(&told.best[0]["variant"]), "best by net points");
        assert_eq!(told.verdict.gap.is_empty(), first == second, "a gap where the two are not one");
    }
}

#[test]
fn four_outputs_claim_the_same_of_what_is_chosen() {
    for (question, column) in [
        (&[][..], "good_look_rate"),
        (&["--rank-by", "open_look_rate"], "open_look_rate"),
        (&["post-options"], "expected_net_points"),
        (&["guard-options", "--rank-by", "passes"], "passes"),
    ] {
        let told = told(question, "32");
        assert_eq!(told.verdict.differ, Differ::Choices, "{question:?}");
        check(&told);
        check_leaders(&told, column);
        let report = &told.texts[1].1;
        let clear = told.verdict.headlines[0].is_clear();
        assert_eq!(report.contains("Clearly best: the first, safe for all"), clear, "{question:?}");
        assert_eq!(report.contains("Too close to call: those in the band"), !clear, "{question:?}");
    }
}

#[test]
fn of_two_names_of_one_thing_none_is_called_best() {
    let told = told(&["twins.toml"], "64");
    check(&told);
    let claims = told.verdict.claims().join(" ");
    assert!(
        claims.contains("No matchup is clearly better than one: keep to what your players run best."),
        "{claims}"
    );
    assert!(!claims.contains("Clearly best"), "{claims}");
}

#[test]
fn nobody_is_advised_to_run_what_he_meets() {
    for (question, differ) in [(&["sinks.toml"][..], Differ::Settings), (&["routes-by-zone"], Differ::Both)] {
        let told = told(question, "32");
        assert_eq!(told.verdict.differ, differ, "{question:?}");
        check(&told);
        for (place, text) in &told.texts {
            assert!(text.contains("What you meet"), "{question:?}: the {place}");
            for row in &told.comparison {
                for advice in ["Run ", "As above: run ", "Best by good looks: ", "Toss-up: "] {
                    let words = format!("{advice}{}", row["variant"]);
                    assert!(!text.contains(&words), "{question:?}: the {place} says {words}");
                }
            }
        }
        let settings = told.verdict.under.len();
        assert_eq!(settings, if differ == Differ::Both { 4 } else { 0 }, "{question:?}");
    }
}
