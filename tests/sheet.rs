//! The coach's sheet says what the result's tables say, on two pages, whole or not at all, the same bytes every time.
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
fn a_sheet_has_the_numbers_of_the_tables_on_two_pages_and_the_same_bytes_again() {
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
    let table = page.split_once("With the ball: what to do first at each place").expect("a table").1;
    let table = table.split_once("</table>").expect("its end").0;
    let words = table.to_lowercase();
    assert!(words.contains("shoot"), "{table}");
    let choices = rows(&result.join("choices.csv"));
    for (nth, position) in
        ["lead-guard", "off-guard", "rover", "rover-side-post", "other-post"].iter().enumerate()
    {
        let line = table.split("<tr>").nth(nth + 1).expect("a line a position");
        let own = choices.iter().filter(|row| row[0] == leader && row[1] == *position);
        let told = own.clone().filter(|row| row[8] == "true").count();
        assert_eq!(told == 0, line.contains("too seldom"), "{position}: {line}");
        let drives = |told: &str| own.clone().any(|row| row[3] == "drive" && row[8] == told);
        let ball = line.split("data-label=\"With the ball\"").nth(1).expect("what he does with it");
        assert!(drives("true") || !ball.contains("drive"), "{position}: {line}");
    }
    check_calls(&result, &page);
    for row in rows(&result.join("duties.csv")).iter().filter(|row| row[0] == leader) {
        // Files have metres, pages the feet of the rule set.
        assert!(cards.contains(&row[4].replace("within 8 m", "within 26 ft")), "{}", row[4]);
        // Where his run ends he has an order, or is told that there is none.
        let place = &row[6];
        assert!(place.is_empty() || cards.to_lowercase().contains(&format!("{place}: ")), "{place}");
    }
    check_guarded_shots(&choices, (leader, &page));
    let note = "Follow your association's rules";
    assert!(page.contains(note) && cards.contains(note));

    for (paper, size) in [("letter", "[0 0 612 792]"), ("a4", "[0 0 595.28 841.89]")] {
        let again = home.path().join(paper);
        let told = zoneprobe(&["sheet", argument(&result), "--paper", paper, "--out", argument(&again)]);
        assert_eq!(told.exit, Exit::Done, "{}", told.err);
        for name in ["sheet.pdf", "cards.pdf"] {
            let pdf = String::from_utf8_lossy(&fs::read(again.join(name)).expect("a PDF")).into_owned();
            assert_eq!(pdf.matches(&format!("/MediaBox{size}")).count(), 2, "{name}");
            assert!(pdf.contains("/Count 2"), "{name}");
        }
    }
    for name in ["sheet.html", "cards.html", "sheet.pdf", "cards.pdf"] {
        let bytes = |folder: &Path| fs::read(folder.join(name)).expect("a file");
        assert!(bytes(&result.join("sheet")) == bytes(&home.path().join("letter")), "{name}");
    }
}

/// A guarded shot is told with what it came to, and one that came to less than the average possession only where neither a pass
/// nor a drive is told.
fn check_guarded_shots(choices: &[Vec<String>], (leader, page): (&str, &str)) {
    let own: Vec<&Vec<String>> = choices.iter().filter(|row| row[0] == leader && row[8] == "true").collect();
    let points = |row: &&&Vec<String>| row[5].parse::<f64>().expect("points");
    let guarded: Vec<&&Vec<String>> = own.iter().filter(|row| row[3] == "shoot-guarded").collect();
    let (_, record) =
        page.split_once("Guarded shots, points of a whole possession with one").expect("what they came to");
    let (average, told) = record.split_once("): ").expect("what all possessions came to");
    let told = told.split_once(". ").expect("an end").0;
    let told: Vec<f64> = told
        .split([' ', ',', ';'])
        .filter_map(|word| word.parse().ok())
        .filter(|worth: &f64| worth.fract() != 0.0)
        .collect();
    assert!(!told.is_empty(), "{record}");
    for worth in told {
        assert!(guarded.iter().any(|row| (points(row) - worth).abs() < 0.006), "{worth}");
    }
    let average = average.rsplit(' ').next();
    let average: f64 = average.and_then(|text| text.parse().ok()).expect("a number");
    for row in guarded.iter().filter(|row| points(row) < average - 0.006) {
        let goes_on = own.iter().any(|other| {
            other[1..3] == row[1..3] && (other[3] == "drive" || other[3].starts_with("pass-to-"))
        });
        assert!(!goes_on, "{row:?} is told beside a pass or a drive");
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
    let calls: Vec<&str> = page.split("<dt>").skip(1).filter_map(|call| call.split("</dd>").next()).collect();
    let mut rules: Vec<&str> = answers.iter().map(|row| row["post_help_rule"].as_str()).collect();
    rules.sort_unstable();
    rules.dedup();
    assert_eq!(calls.len(), rules.len());
    // Of their usual rule the ranking above says it all by its own measures, of more possessions.
    let usual = calls[0];
    assert!(usual.starts_with("Their usual rule (the "), "{usual}");
    assert!(usual.contains("All above was played against this."), "{usual}");
    assert!(!usual.contains("class=\"gains"), "{usual}");
    for rule in rules {
        let words = format!("If their {}", rule.replace('-', " "));
        let Some(call) = calls.iter().find(|call| call.starts_with(&words)) else {
            assert!(usual.contains(&rule.replace('-', " ")), "{rule}: {usual}");
            continue;
        };
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
        assert_eq!(gains.matches("none clearly differs from").count(), silent, "{gains}");
        // Whom the first page calls behind, the statistics do, and the other way round.
        let first = call.split("<p class=\"gains").next().expect("what to run");
        for row in of_rule.iter().filter(|row| row["stands"] == "behind") {
            let measure = if row["measure"] == "good_look_rate" { "good looks" } else { "net points" };
            let told = first.find(&format!("{} ", row["variant"])).map(|at| &first[at..]);
            assert!(
                told.is_some_and(|told| told.contains("behind ") && told.contains(measure)),
                "{} is behind in {measure}: {first}",
                row["variant"]
            );
        }
        let is_behind = of_rule.iter().any(|row| !row["stands"].is_empty());
        assert!(is_behind || !first.contains("(behind "), "{first}");
    }
}

/// Sizes of the letters of a page of paper, pt, the smallest first.
fn sizes(page: &str) -> Vec<f64> {
    let of = |part: &str| part.split('"').next().and_then(|size| size.parse::<f64>().ok());
    let mut sizes: Vec<f64> = page.split(" font-size=\"").skip(1).filter_map(of).collect();
    sizes.sort_by(f64::total_cmp);
    sizes
}

/// The pages of paper in a file for a screen, their pictures left out.
fn papers(page: &str) -> Vec<String> {
    let whole = page.split("<svg class=\"paper\"").skip(1);
    let words = |paper: &str| {
        let mut parts = paper.split("<svg class=\"pic\"");
        let first = parts.next().unwrap_or_default().to_owned();
        parts.fold(first, |text, part| text + part.split_once("</svg>").map_or("", |(_, rest)| rest))
    };
    whole.map(words).collect()
}

#[test]
fn what_is_read_on_a_bench_is_large_enough_and_goes_across_the_page() {
    let home = folder(&[]);
    let result = result(home.path());
    assert_eq!(zoneprobe(&["sheet", argument(&result)]).exit, Exit::Done);
    let sheet = papers(&read(&result.join("sheet/sheet.html")));
    let cards = papers(&read(&result.join("sheet/cards.html")));
    assert_eq!((sheet.len(), cards.len()), (2, 2));
    for (page, least) in [(&sheet[0], 8.0), (&sheet[1], 7.0), (&cards[0], 8.0), (&cards[1], 7.0)] {
        assert!(!page.contains("<g transform=\"scale("), "nothing was drawn smaller to fit");
        assert!(sizes(page)[0] >= least, "{:?}", sizes(page));
    }
    for own in ["Without the ball", "What they do, and what to call"] {
        assert!(sheet[0].contains(own) && !sheet[1].contains(own), "{own}");
    }
    assert!(sheet[1].contains("For the record") && !sheet[0].contains("95 % interval"));
    assert!(sheet[0].contains("How sure: "), "certainty stands on the first page");
}

/// A scenario with two players of one's own and a plan that has places to fill.
const OWN: &str = "name = \"Ours\"\nrules = \"us-high-school\"\nzone = { use = \"1-2-2\" }\n\
    level = { attack = \"high-school\", defence = \"high-school\" }\n\
    attack = { use = \"rover\", plan = \"inside-first\", rover = { route = \"corner-drop\" } }\n\
    [[player]]\nrole = \"lead-guard\"\nnumber = 12\n\
    [[player]]\nrole = \"rover\"\nname = \"Ada\"\n";
const WHICH: &str = "question = \"Which?\"\nscenario = \"own.toml\"\nrank_by = \"good_look_rate\"\n\
    variant = [{ name = \"stay\", set = { \"attack.rover.route\" = \"hold-wing\" } },\n\
    { name = \"corner-drop\", set = { \"attack.rover.route\" = \"corner-drop\" } }]\n";

#[test]
fn sheet_and_cards_have_one_s_own_players_the_opponent_the_day_and_the_jobs_of_the_plan() {
    let home = folder(&[("own.toml", OWN), ("which.toml", WHICH)]);
    let (file, out) = (home.path().join("which.toml"), home.path().join("out"));
    let played =
        zoneprobe(&["compare", argument(&file), "--possessions", "32", "--quiet", "--out", argument(&out)]);
    assert_eq!(played.exit, Exit::Done, "{}", played.err);
    let game = ["--opponent", "North <End>", "--date", "2026-12-04"];
    let told = zoneprobe(&[&["sheet", argument(&out)][..], &game[..]].concat());
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    for name in ["sheet.html", "cards.html"] {
        let page = read(&out.join("sheet").join(name));
        for own in ["lead guard (no. 12)", "rover (Ada)", "Against North &lt;End&gt;, 2026-12-04"] {
            assert!(page.to_lowercase().contains(&own.to_lowercase()), "{name}: {own}");
        }
        // Who has no movement of his own is told what the plan wants of him: when, on his card alone.
        let on_card = "Fill the first of these that is empty and within 26 ft of you: the corner on the ball's side when the ball is on the wing;";
        let on_sheet = "Fill what is empty, by where the ball is (card): the corner on the ball's side,";
        let page = page.replace("&#39;", "'");
        let is_card = name == "cards.html";
        assert_eq!((page.contains(on_card), page.contains(on_sheet)), (is_card, !is_card), "{name}");
        // Nobody's own run leads between the lines here, whatever the plan says: nobody is told who goes first.
        assert!(!page.contains("Between their front and back lines"), "{name}");
        assert!(!page.contains("Keep your place, show for the pass"), "{name}");
    }
    // Once for each card that is cut apart.
    let cards = papers(&read(&out.join("sheet/cards.html")));
    assert!(cards.concat().matches("2026-12-04").count() >= 5, "{cards:?}");
    let again = home.path().join("plain");
    assert_eq!(zoneprobe(&["sheet", argument(&out), "--out", argument(&again)]).exit, Exit::Done);
    assert!(!read(&again.join("sheet.html")).contains("Against "), "nothing is told that nobody said");
    let wrong = zoneprobe(&[
        "sheet",
        argument(&out),
        "--date",
        "4.12.2026",
        "--out",
        argument(&home.path().join("no")),
    ]);
    assert_eq!(wrong.exit, Exit::Unusable);
    assert!(wrong.err.contains("2026-12-04"), "{}", wrong.err);
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
    let changed = own.replace(question, odd);
    fs::write(&manifest, &changed).expect("a written file");
    let refused = zoneprobe(&["sheet", argument(&result)]);
    assert!(refused.err.contains("manifest.json is not as `zoneprobe compare` wrote it"), "{}", refused.err);
    // An older one has no fingerprint of its own.
    fs::write(&manifest, changed.replace("\"manifest_sha256\"", "\"of_another_version\""))
        .expect("a written file");
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
