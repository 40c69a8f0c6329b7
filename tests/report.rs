//! The report shows what the files hold; what the files count by place adds up to the totals; threads and batches
//! cannot be seen in any of it; the page is whole in itself; and the README prints what the program prints.
//!
//! What it has caught: nothing yet.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use experiments::error::Exit;
use experiments::note::NOTE;

use crate::support::{argument, folder, text_of, zoneprobe};

const POSSESSIONS: i64 = 240;
/// A page that takes long to open helps nobody.
const LARGEST_BYTES: usize = 5_000_000;

/// All files of a folder by name, folders inside too.
fn files_of(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        if path.is_dir() {
            files
                .extend(files_of(&path).into_iter().map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else {
            files.insert(name, fs::read(&path).expect("a file"));
        }
    }
    files
}

/// The files of a run of the bundled question.
fn run(more: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let home = folder(&[]);
    let out = home.path().join("out");
    let count = POSSESSIONS.to_string();
    let mut args = vec!["compare", "--possessions", &count, "--quiet", "--out", argument(&out)];
    args.extend(more);
    let told = zoneprobe(&args);
    assert_eq!(told.exit, Exit::Done, "{more:?}: {}", told.err);
    files_of(&out)
}

/// One run that most tests look at.
static FILES: LazyLock<BTreeMap<String, Vec<u8>>> = LazyLock::new(|| run(&["--threads", "2"]));

fn text(name: &str) -> &'static str {
    let bytes = FILES.get(name).unwrap_or_else(|| panic!("no {name}"));
    std::str::from_utf8(bytes).expect("files are UTF-8")
}

/// Rows of a file as maps from column to cell.
fn rows(name: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text(name).as_bytes());
    let head = reader.headers().expect("a header").clone();
    let row =
        |row: csv::StringRecord| head.iter().zip(&row).map(|(k, v)| (k.to_owned(), v.to_owned())).collect();
    reader.records().map(|record| row(record.expect("rows of equal length"))).collect()
}

fn number(row: &BTreeMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} is {:?}", row[column]))
}

/// The pictures of the report, as XML.
fn pictures() -> Vec<roxmltree::Document<'static>> {
    let page = text("report.html");
    let pieces = page.match_indices("<svg").map(|(start, _)| {
        let end = page[start..].find("</svg>").expect("a picture ends");
        &page[start..start + end + "</svg>".len()]
    });
    pieces.map(|piece| roxmltree::Document::parse(piece).expect("a picture is XML")).collect()
}

/// The elements of the picture with this id that have an attribute.
fn marked<'a>(
    pictures: &'a [roxmltree::Document<'static>],
    id: &str,
    attribute: &str,
) -> Vec<roxmltree::Node<'a, 'static>> {
    let picture = pictures.iter().find(|picture| picture.root_element().attribute("id") == Some(id));
    let picture = picture.unwrap_or_else(|| panic!("no picture {id}"));
    picture.descendants().filter(|node| node.attribute(attribute).is_some()).collect()
}

#[test]
fn threads_and_batches_cannot_be_seen_in_any_file() {
    let again = run(&["--threads", "3", "--batch", "7"]);
    assert!(again.keys().eq(FILES.keys()));
    for (name, bytes) in &again {
        assert!(bytes == &FILES[name], "{name} differs");
    }
}

#[test]
fn counts_by_place_add_up_to_the_totals() {
    let places = rows("places.csv");
    for total in rows("comparison.csv") {
        let variant = &total["variant"];
        let sum = |measure: &str| -> i64 {
            let own = places.iter().filter(|row| row["variant"] == *variant && row["measure"] == measure);
            own.map(|row| row["count"].parse::<i64>().expect("a whole number")).sum()
        };
        for (measure, column) in [
            ("open_look", "open_look_rate"),
            ("open_look_available", "open_look_available_rate"),
            ("good_look", "good_look_rate"),
            ("good_shot", "good_shot_rate"),
            ("shots", "shots"),
            ("paint_touch", "paint_touch_rate"),
            ("turnover", "turnover_rate"),
        ] {
            let counted = (number(&total, column) * POSSESSIONS as f64).round() as i64;
            assert_eq!(sum(measure), counted, "{variant}: {measure}");
            assert!(counted > 0, "{variant}: no {measure} at all would prove nothing");
        }
        let steps = ["point", "rover_side_wing", "other_side_wing", "rover_side_back", "other_side_back"];
        let of: Vec<i64> = steps.iter().map(|name| sum(&format!("steps_{name}"))).collect();
        assert!(
            of[0] > 0 && of.iter().all(|n| *n == of[0]),
            "{variant}: all defenders play all the time: {of:?}"
        );
        let measured = sum("back_line_steps");
        assert!(measured > 0 && measured <= of[0], "{variant}");
        // Every possession weighs alike in the comparison, every step here: near, not equal.
        let gap = sum("line_gap_um") as f64 / 1e6 / measured as f64;
        assert!((gap - number(&total, "line_gap_m")).abs() < 0.25, "{variant}: line gap {gap}");
    }
}

#[test]
fn passes_add_up_to_the_totals() {
    let passes = rows("passes.csv");
    for total in rows("comparison.csv") {
        let own: Vec<_> = passes.iter().filter(|row| row["variant"] == total["variant"]).collect();
        let sum = |column: &str| own.iter().map(|row| number(row, column)).sum::<f64>();
        let thrown = (number(&total, "passes") * POSSESSIONS as f64).round();
        assert_eq!(sum("thrown"), thrown, "{}", total["variant"]);
        let taken = (number(&total, "passes_intercepted_share") * thrown).round();
        assert_eq!(sum("taken_by_defender"), taken, "{}", total["variant"]);
        assert!(sum("completed") > 0.7 * thrown && sum("completed") + taken <= thrown);
        assert!(own.iter().all(|row| row["from"] != row["to"]), "nobody passes to himself");
    }
}

#[test]
fn routes_begin_together_and_thin_out() {
    let paths = rows("paths.csv");
    let mut routes: BTreeMap<(String, String, String), Vec<&BTreeMap<String, String>>> = BTreeMap::new();
    for row in &paths {
        let key = (row["variant"].clone(), row["route"].clone(), row["program"].clone());
        routes.entry(key).or_default().push(row);
    }
    assert!(routes.len() >= 6, "every moving variant runs its route");
    for (route, bins) in routes {
        assert_eq!(bins[0]["time_s"], "0.00", "{route:?}");
        let runs: Vec<f64> = bins.iter().map(|row| number(row, "runs")).collect();
        assert!(runs.is_sorted_by(|a, b| a >= b), "{route:?}: {runs:?}");
        assert!(number(bins[0], "x_m") > 0.0, "{route:?} begins on the side that it is turned to");
        for row in bins {
            for axis in ["x_m", "y_m"] {
                let of = |end: &str| number(row, &format!("{axis}{end}"));
                assert!(of("_low") <= of("") && of("") <= of("_high"), "{route:?}");
            }
        }
    }
}

#[test]
fn answers_compare_each_rule_with_the_one_in_force_and_each_variant_with_the_baseline() {
    let rows = rows("answers.csv");
    let totals = self::rows("comparison.csv");
    for total in &totals {
        for measure in ["good_look_rate", "expected_net_points"] {
            let variant = &total["variant"];
            let of = |name: &str| -> Vec<&BTreeMap<String, String>> {
                rows.iter().filter(|row| row["variant"] == name && row["measure"] == measure).collect()
            };
            let (own, baseline) = (of(variant), of("hold-wing"));
            let in_force: Vec<_> = own.iter().filter(|row| row["in_force"] == "true").collect();
            assert_eq!((own.len(), in_force.len()), (3, 1), "{variant}");
            assert_eq!(in_force[0]["value"], total[measure], "the rule in force is the variant itself");
            let base = number(in_force[0], "value");
            let difference = |row: &BTreeMap<String, String>, kind: &str, wanted: f64| {
                let found = number(row, kind);
                assert!((wanted - found).abs() < 3e-6, "{kind}: {row:?}");
                let end = |end: &str| number(row, &format!("{kind}_together_{end}"));
                assert!(end("low") <= found && found <= end("high"));
                assert!(number(row, &format!("{kind}_p_holm")) >= number(row, &format!("{kind}_p")));
            };
            for row in own.iter().filter(|row| row["in_force"] == "false") {
                difference(row, "difference", number(row, "value") - base);
            }
            assert!(own.iter().all(|row| number(row, "open_looks") > 0.0 && !row["read"].is_empty()));
            if variant == "hold-wing" {
                assert!(own.iter().all(|row| row["advantage"].is_empty() && row["interaction"].is_empty()));
                continue;
            }
            let leads: Vec<f64> =
                own.iter().zip(&baseline).map(|(a, b)| number(a, "value") - number(b, "value")).collect();
            for (rule, row) in own.iter().enumerate() {
                assert_eq!(row["post_help_rule"], baseline[rule]["post_help_rule"]);
                difference(row, "advantage", leads[rule]);
                let others = (leads.iter().sum::<f64>() - leads[rule]) / 2.0;
                difference(row, "interaction", leads[rule] - others);
            }
        }
    }
    assert_eq!(rows.len(), totals.len() * 6);
}

/// Something is claimed in this row of `answers.csv`.
fn claims(row: &BTreeMap<String, String>) -> bool {
    !row["verdict"].is_empty() || !row["stands"].is_empty()
}

#[test]
fn the_report_claims_for_each_rule_what_the_file_claims() {
    let rows = rows("answers.csv");
    let page = text("report.html");
    for rule in ["far-back-crosses", "near-wing-drops", "point-drops"] {
        let item = page.split(&format!("<li data-rule=\"{rule}\">")).nth(1).expect("a line for each rule");
        let item = item.split("</li>").next().expect("its end");
        let claimed: Vec<_> =
            rows.iter().filter(|row| row["post_help_rule"] == rule && claims(row)).collect();
        for row in &claimed {
            assert!(item.contains(&format!("{} ", row["variant"])), "{item}");
        }
        let silent = ["good_look_rate", "expected_net_points"]
            .iter()
            .filter(|measure| claimed.iter().all(|row| row["measure"] != **measure));
        assert_eq!(item.matches("none clearly differs from").count(), silent.count(), "{item}");
    }
}

#[test]
fn charts_show_the_numbers_of_the_files() {
    let pictures = pictures();
    let totals = rows("comparison.csv");
    let of = |variant: Option<&str>| totals.iter().find(|row| Some(row["variant"].as_str()) == variant);
    let bars = marked(&pictures, "ranking", "data-estimate");
    assert_eq!(bars.len(), totals.len());
    for (place, bar) in bars.iter().enumerate() {
        let total = of(bar.attribute("data-variant")).expect("a variant of the file");
        for (attribute, ending) in [("data-estimate", ""), ("data-low", "_low"), ("data-high", "_high")] {
            assert_eq!(bar.attribute(attribute), Some(&*total[&format!("good_look_rate{ending}")]));
        }
        assert_eq!(total["rank"], (place + 1).to_string());
    }
    let points = marked(&pictures, "trade", "data-x-low");
    assert_eq!(points.len(), totals.len());
    for point in points {
        let total = of(point.attribute("data-variant")).expect("a variant of the file");
        for (axis, column) in [("x", "break_exposure"), ("y", "expected_net_points")] {
            for ending in ["", "-low", "-high"] {
                let shown = point.attribute(format!("data-{axis}{ending}").as_str());
                assert_eq!(shown, Some(&*total[&format!("{column}{}", ending.replace('-', "_"))]));
            }
        }
    }
    let places = rows("places.csv");
    let hold_wing = 1; // the first variant of the plan
    for (id, measure) in [("open-look", "open_look"), ("good-look", "good_look"), ("turnover", "turnover")] {
        let cells = marked(&pictures, &format!("{id}-{hold_wing}"), "data-count");
        assert!(!cells.is_empty());
        for cell in cells {
            let value =
                |name: &str| -> f64 { cell.attribute(name).expect("a number").parse().expect("a number") };
            let row = places.iter().find(|row| {
                row["variant"] == "hold-wing"
                    && row["measure"] == measure
                    && (number(row, "x_m"), number(row, "y_m")) == (value("data-x"), value("data-y"))
            });
            assert_eq!(row.map(|row| number(row, "count")), Some(value("data-count")), "{id}");
        }
    }
    let passes = rows("passes.csv");
    for arrow in marked(&pictures, &format!("passes-{hold_wing}"), "data-thrown") {
        let sum: f64 = passes
            .iter()
            .filter(|row| row["variant"] == "hold-wing")
            .filter(|row| Some(&*row["from"]) == arrow.attribute("data-from"))
            .filter(|row| Some(&*row["to"]) == arrow.attribute("data-to"))
            .map(|row| number(row, "thrown"))
            .sum();
        assert_eq!(arrow.attribute("data-thrown"), Some(&*sum.to_string()));
    }
}

#[test]
fn what_pictures_add_up_has_files_of_its_own() {
    let mut sums: BTreeMap<[String; 3], f64> = BTreeMap::new();
    for row in rows("passes.csv") {
        let key = ["variant", "from", "to"].map(|name| row[name].clone());
        *sums.entry(key).or_default() += number(&row, "thrown");
    }
    let pairs = rows("pass_pairs.csv");
    assert!(pairs.len() == sums.len() && pairs.len() > 50);
    for row in &pairs {
        let key = ["variant", "from", "to"].map(|name| row[name].clone());
        assert_eq!(number(row, "thrown"), sums[&key], "{key:?}");
        assert!(number(row, "caught_share") + number(row, "taken_by_defender_share") <= 1.0);
    }
    let breakdowns = rows("breakdowns.csv");
    let base = |row: &BTreeMap<String, String>| {
        let same = |other: &&BTreeMap<String, String>| {
            other["variant"] == "hold-wing" && (&other["x_m"], &other["y_m"]) == (&row["x_m"], &row["y_m"])
        };
        breakdowns.iter().find(same).map(|other| number(other, "mean_lateness_s"))
    };
    for row in &breakdowns {
        match base(row) {
            None => assert_eq!(row["against_baseline_s"], "", "nothing to compare it with"),
            Some(base) => {
                let less = number(row, "mean_lateness_s") - base;
                assert!((less - number(row, "against_baseline_s")).abs() < 2e-6, "{row:?}");
            }
        }
    }
    assert!(
        breakdowns.iter().any(|row| !row["against_baseline_s"].is_empty() && row["variant"] != "hold-wing")
    );
    // The front line stands farther out than the back line, by the line gap.
    let defenders = rows("defenders.csv");
    for five in defenders.chunks(5) {
        let y = |names: [&str; 2]| {
            let own = five.iter().filter(|row| names.contains(&row["defender"].as_str()));
            own.map(|row| number(row, "mean_y_m")).sum::<f64>() / 2.0
        };
        let gap = y(["rover-side-wing", "other-side-wing"]) - y(["rover-side-back", "other-side-back"]);
        let told = number(&five[0], "line_gap_m");
        assert!(gap > 1.0 && (gap - told).abs() < 1.5, "{}: {gap} m, {told} m", five[0]["variant"]);
    }
}

#[test]
fn the_grid_of_answers_shows_what_the_table_claims() {
    let page = text("report.html");
    let grid =
        page.split_once("id=\"answers-grid\"").expect("a grid").1.split_once("</table>").expect("its end").0;
    let answers = rows("answers.csv");
    for variant in rows("comparison.csv").iter().map(|row| &row["variant"]) {
        let line = grid.split("<tr>").find(|line| line.contains(&format!(">{variant}</th>"))).expect("a row");
        let own = answers.iter().filter(|row| row["variant"] == *variant);
        let claimed = |key: &str, word: &str| own.clone().filter(|row| row[key] == word).count();
        let signs = |sign: &str| line.matches(sign).count();
        assert_eq!(
            (signs("\u{25cf}"), signs("\u{25cb}")),
            (claimed("stands", "ahead"), claimed("stands", "behind"))
        );
        assert_eq!(
            (signs("\u{25b2}"), signs("\u{25bc}")),
            (claimed("verdict", "gains"), claimed("verdict", "loses"))
        );
        let cells = if variant == "hold-wing" { 0 } else { 6 };
        assert_eq!(signs("\u{25cf}") + signs("\u{25cb}") + signs("\u{b7}"), cells, "{variant}: {line}");
    }
}

#[test]
fn every_column_of_every_file_is_explained() {
    let told = zoneprobe(&["keys", "columns"]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    for name in FILES.keys().filter(|name| name.ends_with(".csv")) {
        let part = told.out.split("\n## ").find(|part| part.starts_with(&format!("{name}: ")));
        let part = part.unwrap_or_else(|| panic!("{name} is not explained"));
        let explained = |column: &str| part.contains(&format!("`{column}`"));
        let header = text(name).lines().next().expect("a header");
        for column in header.split(',') {
            let own = column.trim_end_matches("_low").trim_end_matches("_high");
            let is_end = name == "comparison.csv" && explained(own);
            assert!(explained(column) || is_end, "{name}: {column}");
        }
        // What is explained is there.
        for line in part.lines().filter(|line| line.starts_with("| `")) {
            let cell = line.split(" | ").next().unwrap_or_default();
            for column in cell.split('`').skip(1).step_by(2) {
                assert!(header.split(',').any(|own| own == column), "{name} has no {column}");
            }
        }
    }
}

#[test]
fn the_page_is_whole_in_itself() {
    let page = text("report.html");
    assert!(page.len() < LARGEST_BYTES, "{} bytes", page.len());
    let bare = page.replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
    for word in ["http:", "https:", "src=", "url(", "@import", "<link", "<iframe", "file:", "fetch("] {
        assert!(!bare.contains(word), "the page has {word}");
    }
    assert!(page.contains("default-src 'none'") || page.contains("default-src &#39;none&#39;"));
    // One script, and the films, which are text until a button asks for one.
    let films = page.matches("<script type=\"application/json\"").count();
    let films_of = rows("films.csv").iter().map(|row| row["variant"].clone()).collect::<BTreeSet<_>>();
    assert!(
        films_of.contains(&rows("best_by_net.csv")[0]["variant"]),
        "the best by net points is filmed, too"
    );
    assert!((3..=4).contains(&films_of.len()), "{films_of:?}");
    let beside = page.matches("data-film=\"beside-").count();
    assert_eq!(
        (page.matches("<script").count(), films),
        (films + 1, 3 * films_of.len() + beside),
        "three films of each leader, and the best one's beside the baseline"
    );
    // Where nothing parts the two there is nothing to see, and the page says so.
    let same = page.matches("it is the same, move for move").count();
    assert_eq!((page.matches("data-film=\"film-").count(), beside + same), (3 * films_of.len(), 3));
    for href in page.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
        match href.strip_prefix('#') {
            Some(id) => assert!(page.contains(&format!("id=\"{id}\"")), "{href} leads nowhere"),
            None => assert!(FILES.contains_key(href), "{href} is not written"),
        }
    }
    assert!(page.contains(&NOTE.replace('\'', "&#39;")) || page.contains(NOTE), "the usual note is missing");
    let manifest: serde_json::Value =
        serde_json::from_str(text("manifest.json")).expect("a manifest is JSON");
    let listed: BTreeSet<&str> =
        manifest["files"].as_array().expect("a list").iter().filter_map(|name| name.as_str()).collect();
    assert!(
        listed.iter().copied().eq(FILES.keys().map(String::as_str)),
        "the manifest lists what is written"
    );
    assert!(page.contains(manifest["command"].as_str().expect("a command")));
}

#[test]
fn the_page_can_be_read_by_ear() {
    let page = text("report.html");
    for landmark in ["<html lang=\"en\"", "<header>", "<nav ", "<main>", "<footer>"] {
        assert_eq!(page.matches(landmark).count(), 1, "{landmark}");
    }
    let mut level = 0;
    for (at, _) in page.match_indices("<h") {
        let Some(next) = page[at + 2..].chars().next().and_then(|c| c.to_digit(10)) else { continue };
        assert!(next <= level + 1, "a heading of level {next} follows one of level {level}");
        level = next;
    }
    assert_eq!(page.matches("<h1").count(), 1);
    let tables = page.matches("<table").count();
    assert!(tables >= 3 && tables == page.matches("<caption").count(), "every table has its caption");
    assert_eq!(
        page.matches("<th ").count(),
        page.matches("<th scope=").count(),
        "every heading has its scope"
    );
    assert_eq!(page.matches("<figure").count(), page.matches("<figcaption").count());
    let mut ids: Vec<&str> = page.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "an id is used twice");
    for picture in pictures() {
        let root = picture.root_element();
        let named = root.attribute("aria-labelledby").expect("a picture has its words");
        for id in named.split(' ') {
            let words = picture.descendants().find(|node| node.attribute("id") == Some(id));
            assert!(words.and_then(|node| node.text()).is_some_and(|text| text.len() > 5), "{id}");
        }
        assert_eq!(root.attribute("role"), Some("img"));
    }
}

#[test]
fn pictures_are_files_of_their_own() {
    let drawn: Vec<&String> = FILES.keys().filter(|name| name.starts_with("pictures/")).collect();
    assert!(drawn.len() > 20, "{drawn:?}");
    for name in drawn {
        let picture =
            roxmltree::Document::parse(text(name)).unwrap_or_else(|error| panic!("{name}: {error}"));
        let has = |tag: &str| picture.descendants().any(|node| node.tag_name().name() == tag);
        assert!(has("style") && has("title") && has("desc"), "{name}");
    }
}

#[test]
fn a_scenario_by_itself_has_a_report_too() {
    let home = folder(&[]);
    let out = home.path().join("out");
    let told = zoneprobe(&["simulate", "sunken-122", "--possessions", "40", "--out", argument(&out)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let page = fs::read_to_string(out.join("report.html")).expect("a report");
    assert!(page.contains("as-given") && page.contains(NOTE.split('.').next().expect("a sentence")));
    assert!(!page.contains(argument(home.path())), "the report tells of this machine");
}

/// What stands in the README between its two marks.
fn printed_in_the_readme() -> String {
    let readme = text_of("README.md");
    let (_, rest) = readme.split_once("<!-- output of the first command -->").expect("where it begins");
    let (block, _) = rest.split_once("<!-- end of output -->").expect("where it ends");
    let inside = block.trim().strip_prefix("```text\n").and_then(|block| block.strip_suffix("```"));
    inside.expect("a fenced block and nothing else").to_owned()
}

#[test]
#[ignore = "plays the whole bundled question: some three minutes"]
fn the_readme_prints_what_the_program_prints() {
    let home = folder(&[]);
    let told = zoneprobe(&["compare", "--quiet", "--out", argument(&home.path().join("out"))]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let lines = |text: &str| text.trim().lines().map(|line| line.trim_end().to_owned()).collect::<Vec<_>>();
    let (readme, program) = (lines(&printed_in_the_readme()), lines(&told.out));
    let differs = readme.iter().zip(&program).find(|(readme, program)| readme != program);
    assert!(differs.is_none() && readme.len() == program.len(), "{differs:?} of\n{}", told.out);
}
