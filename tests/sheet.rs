//! The coach's sheet says what the result's tables say, on one page, whole or not at all, the same bytes every time.
//!
//! What it has caught: nothing yet.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use experiments::error::Exit;

use crate::support::{argument, folder, zoneprobe};

/// A small result of the bundled question.
fn result(home: &Path) -> std::path::PathBuf {
    let out = home.join("result");
    let told = zoneprobe(&["compare", "--possessions", "96", "--quiet", "--out", argument(&out)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    out
}

fn read(file: &Path) -> String {
    fs::read_to_string(file).expect("a text")
}

/// Rows of a table, header left out.
fn rows(file: &Path) -> Vec<Vec<String>> {
    let mut reader = csv::Reader::from_path(file).expect("a table");
    let cells = |record: csv::StringRecord| record.iter().map(str::to_owned).collect();
    reader.records().map(|record| cells(record.expect("a row"))).collect()
}

#[test]
fn a_sheet_has_the_numbers_of_the_tables_on_one_page_and_the_same_bytes_again() {
    let home = folder(&[]);
    let result = result(home.path());
    let told = zoneprobe(&["sheet", argument(&result)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let page = read(&result.join("sheet/sheet.html"));
    let best = rows(&result.join("best_by_net.csv"));
    let twenty = |cell: &str| format!("{:.1}", 20.0 * cell.parse::<f64>().expect("a number"));
    let [name, net, low, high] = [1, 2, 3, 4].map(|nth| best[0][nth].as_str());
    let figure =
        format!("{} in 20 possessions (95 % interval {} to {})", twenty(net), twenty(low), twenty(high));
    assert!(page.contains(&format!("{name}, {figure}")), "{figure}");
    let cards = read(&result.join("sheet/cards.html"));
    let leader = cards.split_once("Cards: ").and_then(|(_, rest)| rest.split_once('<')).expect("a leader").0;
    // What is clearly worth less than the rest of its place is not told, and somebody is told to shoot.
    let table = page.split_once("With the ball, best first").expect("a table").1;
    let table = table.split_once("</table>").expect("its end").0;
    assert!(table.contains("shoot"), "{table}");
    let choices = rows(&result.join("choices.csv"));
    for (nth, position) in
        ["lead-guard", "off-guard", "rover", "rover-side-post", "other-post"].iter().enumerate()
    {
        let line = table.split("<tr>").nth(nth + 1).expect("a line a position");
        let own = choices.iter().filter(|row| row[0] == leader && row[1] == *position);
        let told = own.clone().filter(|row| row[8] == "true").count();
        assert_eq!(told == 0, line.contains("too seldom"), "{position}: {line}");
        let drives = |told: &str| own.clone().any(|row| row[3] == "drive" && row[8] == told);
        assert!(drives("true") || !line.contains("drive"), "{position}: {line}");
    }
    check_calls(&result, &page);
    for row in rows(&result.join("duties.csv")).iter().filter(|row| row[0] == leader) {
        assert!(cards.contains(&row[4]), "{}", row[4]);
    }
    let note = "Follow your association's rules";
    assert!(page.contains(note) && cards.contains(note));

    for (paper, size) in [("letter", "[0 0 612 792]"), ("a4", "[0 0 595.28 841.89]")] {
        let again = home.path().join(paper);
        let told = zoneprobe(&["sheet", argument(&result), "--paper", paper, "--out", argument(&again)]);
        assert_eq!(told.exit, Exit::Done, "{}", told.err);
        for name in ["sheet.pdf", "cards.pdf"] {
            let pdf = String::from_utf8_lossy(&fs::read(again.join(name)).expect("a PDF")).into_owned();
            assert_eq!(pdf.matches("/MediaBox").count(), 1, "{name}");
            assert!(pdf.contains(&format!("/MediaBox{size}")) && pdf.contains("/Count 1"), "{name}");
        }
    }
    for name in ["sheet.html", "cards.html", "sheet.pdf", "cards.pdf"] {
        let bytes = |folder: &Path| fs::read(folder.join(name)).expect("a file");
        assert!(bytes(&result.join("sheet")) == bytes(&home.path().join("letter")), "{name}");
    }
}

/// Something is claimed in this row of `answers.csv`.
fn claims(row: &BTreeMap<String, String>) -> bool {
    !row["verdict"].is_empty() || !row["stands"].is_empty()
}

/// Each rule has a call with the best of the comparison or of its own table, and claims what the table claims.
fn check_calls(result: &Path, page: &str) {
    let mut reader = csv::Reader::from_path(result.join("answers.csv")).expect("a table");
    let answers: Vec<BTreeMap<String, String>> =
        reader.deserialize().map(|row| row.expect("a row")).collect();
    let best = rows(&result.join("best_by_net.csv"));
    let calls: Vec<&str> = page.split("<dt>").skip(1).filter_map(|call| call.split("</dd>").next()).collect();
    let mut rules: Vec<&str> = answers.iter().map(|row| row["post_help_rule"].as_str()).collect();
    rules.sort_unstable();
    rules.dedup();
    assert_eq!(calls.len(), rules.len());
    assert!(calls[0].contains("(their usual rule):</dt>") && calls[0].contains("As above"), "{}", calls[0]);
    assert!(calls[0].contains(&best[0][1]), "{}", calls[0]);
    for rule in rules {
        let words = format!("If the {}", rule.replace('-', " "));
        let call = calls.iter().find(|call| call.starts_with(&words)).expect("a call for each rule");
        let of_rule: Vec<_> = answers.iter().filter(|row| row["post_help_rule"] == rule).collect();
        for row in of_rule.iter().filter(|row| claims(row)) {
            assert!(call.contains(&format!("{} ", row["variant"])), "{call}");
        }
        for measure in ["good_look_rate", "expected_net_points"] {
            let own = of_rule.iter().filter(|row| row["measure"] == measure);
            assert!(own.count() > 1, "{measure}");
        }
        let claimed = |measure: &str| of_rule.iter().any(|row| row["measure"] == measure && claims(row));
        let silent =
            ["good_look_rate", "expected_net_points"].iter().filter(|measure| !claimed(measure)).count();
        let gains = call.split_once("class=\"gains").expect("a line of who gains").1;
        assert_eq!(gains.matches("no difference seen").count(), silent, "{gains}");
    }
}

#[test]
fn what_is_no_result_is_refused_and_nothing_is_written() {
    let home = folder(&[("note.txt", "nothing")]);
    let told = zoneprobe(&["sheet", argument(home.path())]);
    assert_eq!(told.exit, Exit::Unusable);
    assert!(
        told.err.contains("has no manifest.json") && told.err.contains("zoneprobe compare"),
        "{}",
        told.err
    );
    let told = zoneprobe(&["sheet", argument(&home.path().join("nowhere"))]);
    assert!(told.err.contains("does not exist"), "{}", told.err);
    let result = result(home.path());
    fs::remove_file(result.join("positions.csv")).expect("removed");
    let told = zoneprobe(&["sheet", argument(&result)]);
    assert_eq!(told.exit, Exit::Unusable);
    assert!(
        told.err.contains("positions.csv") && told.err.contains("make the result again with"),
        "{}",
        told.err
    );
    assert!(!result.join("sheet").exists());
}

/// A manifest has no fingerprint of its own, so its words may be anybody's.
#[test]
fn words_of_a_manifest_are_shown_and_not_obeyed() {
    let home = folder(&[]);
    let result = result(home.path());
    let manifest = result.join("manifest.json");
    let own = read(&manifest);
    let question =
        own.lines().find(|line| line.trim_start().starts_with("\"question\"")).expect("a question");
    let odd = "  \"question\": \"Which \\u0000\\u001b[31mis\\u0007 \\u202ebest?\",";
    fs::write(&manifest, own.replace(question, odd)).expect("a written file");
    let told = zoneprobe(&["sheet", argument(&result)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    for name in ["sheet.html", "cards.html"] {
        let page = read(&result.join("sheet").join(name));
        assert!(page.contains("Which \\u{0}\\u{1b}[31mis\\u{7} \\u{202e}best?"), "{name}");
        assert!(!page.contains(|letter| letter != '\n' && scenarios::is_hidden(letter)), "{name}");
    }
    let pdf = fs::read(result.join("sheet/sheet.pdf")).expect("a PDF");
    assert!(pdf.starts_with(b"%PDF"));
}
