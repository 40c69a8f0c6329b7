//! The house is in order: crates depend one way, modules of the engine name only what is below them and its files never
//! one another in a circle, no number stands bare where decisions are made, every constant of the laws says what speaks for
//! it, the engine knows no file, clock, thread or terminal, files stay readable, the documents name what is there, and
//! every data file loads and plays.
//!
//! What it has caught: nothing yet.

use engine::Arena;
use scenarios::Entry;

use crate::source::{bare_floats, circles, constants, imports, imports_of_files, wrong_with_imports};
use crate::support::{code_of, files_under, folder, loaded, play, text_of, workspace};

/// Crates from left to right: each may use only those to its left.
const LINE: [&str; 3] = ["engine", "scenarios", "experiments"];
const LONGEST_FILE: usize = 600;
/// Folders and files of sources in which no number stands bare: what needs one takes it from the laws, by its name.
const NO_BARE_FLOATS: [&str; 14] = [
    "engine/src/decide",
    "engine/src/clock",
    "engine/src/perceive",
    "engine/src/motion",
    "engine/src/contact",
    "engine/src/ball",
    "engine/src/officiate",
    "engine/src/measure",
    "engine/src/start",
    "engine/src/step.rs",
    "engine/src/arena.rs",
    "engine/src/film.rs",
    "engine/src/record.rs",
    "engine/src/slots.rs",
];
/// Top-level modules of the engine, the lowest first; several of one layer stand together with spaces between and do not
/// name one another. `lib` is what is named in the crate's root.
const LAYERS: [&str; 15] = [
    "math slots",
    "random measures",
    "record",
    "setup",
    "law",
    "state",
    "start",
    "clock perceive decide motion contact ball officiate measure",
    "step",
    "events film names",
    "camera",
    "scribe",
    "arena",
    "arrange",
    "lib",
];
/// What a comment says of a constant's standing, in brackets: one of these, or a year of publication.
const STANDINGS: [&str; 9] = [
    "assumed",
    "common practice",
    "from memory",
    "source",
    "rule",
    "derived",
    "computed",
    "definition",
    "published",
];

#[test]
fn crates_depend_one_way() {
    for (place, own) in LINE.iter().enumerate() {
        let text = text_of(&format!("{own}/Cargo.toml"));
        let document = toml_edit::Document::parse(text.as_str()).expect("a manifest is TOML");
        for kind in ["dependencies", "dev-dependencies", "build-dependencies"] {
            let table = document.get(kind).and_then(toml_edit::Item::as_table_like);
            for (name, _) in table.iter().flat_map(|table| table.iter()) {
                let of_ours = LINE.iter().position(|other| *other == name);
                assert!(of_ours.is_none_or(|other| other < place), "{own} uses {name}");
                assert!(!name.starts_with("zoneprobe"), "{own} uses {name}: use the workspace's short names");
            }
        }
    }
}

#[test]
fn the_engine_knows_no_file_clock_thread_or_terminal() {
    let banned = [
        "std::fs",
        "std::io",
        "std::time",
        "std::thread",
        "std::env",
        "std::process",
        "std::net",
        "println!",
        "eprintln!",
        "print!",
        "eprint!",
        "dbg!",
        "thread_local!",
        "static mut",
    ];
    for file in files_under("engine/src", "rs") {
        let code = code_of(&text_of(&file)).replace("'static", "'_");
        for word in banned {
            assert!(!code.contains(word), "{file} has {word}");
        }
    }
}

#[test]
fn every_import_of_the_engine_points_down() {
    let graph = imports("engine/src");
    graph.iter().for_each(|(from, to)| println!("{from} -> {to:?}"));
    let wrong = wrong_with_imports(&graph, &LAYERS);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_imports_of_the_engines_files_go_round() {
    let round = circles(&imports_of_files("engine/src"));
    assert!(round.is_empty(), "in a circle, or between two:\n{}", round.join("\n"));
}

/// Whether a comment says what speaks for a number: in brackets, by one of the words or by a year of publication.
fn says_its_standing(comment: &str) -> bool {
    let year = |inside: &str| {
        inside
            .split(|c: char| !c.is_ascii_digit())
            .any(|word| word.len() == 4 && ["19", "20"].contains(&&word[..2]))
    };
    let brackets = comment.split('(').skip(1).filter_map(|rest| rest.split(')').next());
    brackets.into_iter().any(|inside| STANDINGS.iter().any(|word| inside.contains(word)) || year(inside))
}

#[test]
fn every_constant_of_the_laws_says_what_speaks_for_it() {
    let constants = constants("engine/src/law");
    assert!(constants.len() > 400, "{}", constants.len());
    let silent = constants.iter().filter(|(_, constant)| !says_its_standing(&constant.comment));
    let silent: Vec<String> =
        silent.map(|(file, one)| format!("{file}:{}: {}: {}", one.line, one.name, one.comment)).collect();
    assert!(silent.is_empty(), "{} say nothing of their standing:\n{}", silent.len(), silent.join("\n"));
}

#[test]
fn a_standing_is_said_in_brackets() {
    for comment in
        ["Reach, m. (assumed)", "A step, m. (a stride; common practice, no source)", "x (Haugen 2019)"]
    {
        assert!(says_its_standing(comment), "{comment}");
    }
    for comment in ["", "Reach, m.", "It is assumed that he stands, m.", "Reach, m. (3,025 of them)"] {
        assert!(!says_its_standing(comment), "{comment}");
    }
}

#[test]
fn no_number_of_the_model_stands_bare() {
    let bare = NO_BARE_FLOATS.iter().flat_map(|folder| bare_floats(folder));
    let bare: Vec<String> = bare.map(|(file, line, literal)| format!("{file}:{line}: {literal}")).collect();
    assert!(bare.is_empty(), "{} numbers without a name:\n{}", bare.len(), bare.join("\n"));
}

#[test]
fn no_source_file_is_too_long_to_read() {
    let folders = ["engine", "scenarios", "experiments", "tests"];
    let long: Vec<String> = folders
        .iter()
        .flat_map(|folder| files_under(folder, "rs"))
        .map(|file| (text_of(&file).lines().count(), file))
        .filter(|(lines, _)| *lines > LONGEST_FILE)
        .map(|(lines, file)| format!("{file} has {lines} lines"))
        .collect();
    assert!(long.is_empty(), "more than {LONGEST_FILE} lines: {}", long.join(", "));
}

/// Paths that a document names: code spans and link targets that look like one.
fn paths_in(document: &str) -> Vec<String> {
    let mut prose = String::new();
    let mut fenced = false;
    for line in document.lines() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
        } else if !fenced {
            prose.push_str(line);
            prose.push('\n');
        }
    }
    let spans = prose.split('`').skip(1).step_by(2);
    let links = prose.split("](").skip(1).filter_map(|rest| rest.split([')', '#']).next());
    let plain = |c: char| c.is_ascii_alphanumeric() || "-_./".contains(c);
    let rooted = |path: &str| path.split('/').next().is_some_and(|first| workspace().join(first).is_dir());
    let ending = |path: &str| {
        let own = path.rsplit('/').next().unwrap_or_default();
        own.rsplit_once('.').is_some_and(|(_, ending)| ["rs", "toml", "md", "txt", "csv"].contains(&ending))
    };
    spans
        .chain(links)
        .filter(|path| !path.is_empty() && path.chars().all(plain) && path.contains('/'))
        .filter(|path| !path.starts_with('/') && !path.starts_with("results/"))
        .filter(|path| rooted(path) || path.ends_with('/') || ending(path))
        .map(str::to_owned)
        .collect()
}

#[test]
fn a_path_in_a_document_is_told_from_other_words() {
    let text = "See `engine/src/step.rs`, `gone/` and [that](tests/main.rs#top); `m/s`, `results/x-1/a.csv`, \
                `a b/c.rs`, <https://x.org/y>.\n```\nin/a/fence.rs\n```\n";
    assert_eq!(paths_in(text), ["engine/src/step.rs", "gone/", "tests/main.rs"]);
}

#[test]
fn every_path_in_the_documents_exists() {
    for document in
        ["README.md", "DEVELOPERS.md", "scenarios/GUIDE.md", "experiments/GUIDE.md", "engine/MODEL.md"]
    {
        if workspace().join(document).exists() {
            for path in paths_in(&text_of(document)) {
                assert!(workspace().join(&path).exists(), "{document} names {path}");
            }
        }
    }
}

/// A scenario file that uses a bundled file.
fn scenario_with(entry: &Entry) -> String {
    let name = &entry.name;
    let pick = |kind: &str, usual: &str| if entry.kind == kind { name.clone() } else { usual.to_owned() };
    let options = |kind: &str| if entry.kind == kind { format!("{name} = 1.0") } else { String::new() };
    let (level, zone) = (pick("level", "high-school"), pick("zone", "1-2-2"));
    format!(
        "name = \"with {name}\"\nrules = \"{}\"\n[level]\nattack = \"{level}\"\ndefence = \"{level}\"\n\
         [zone]\nuse = \"{zone}\"\n[attack]\nuse = \"{}\"\n[attack.rover]\nroute = \"{}\"\n\
         [attack.posts]\noptions = {{ {} }}\n[attack.guards]\noptions = {{ {} }}\n",
        pick("rules", "us-high-school"),
        pick("attack", "rover"),
        pick("route", "seam-cross"),
        options("post option"),
        options("guard option"),
    )
}

#[test]
fn every_data_file_loads_and_plays() {
    let catalog = scenarios::catalog();
    for file in files_under("scenarios/data", "toml") {
        let name = file.rsplit('/').next().unwrap_or_default().trim_end_matches(".toml");
        assert!(catalog.iter().any(|entry| entry.name == name), "{file} is not bundled");
    }
    let mut arena = Arena::new(3);
    for entry in &catalog {
        let text = match entry.kind {
            "scenario" | "experiment" => {
                text_of(&format!("scenarios/data/{}s/{}.toml", entry.kind, entry.name))
            }
            _ => scenario_with(entry),
        };
        let home = folder(&[("play.toml", &text)]);
        let variants = loaded(scenarios::experiment(&home.path().join("play.toml"))).variants;
        // Of a design some from all over it.
        for variant in variants.iter().step_by(variants.len().div_ceil(100)) {
            let played = play(&mut arena, &variant.setup, 1, 0..3);
            assert_eq!(played.len(), 3, "{} {}", entry.kind, entry.name);
        }
    }
}

#[test]
fn the_examples_play_and_no_code_knows_them() {
    let examples = files_under("scenarios/examples", "toml");
    let stem =
        |file: &String| file.rsplit('/').next().unwrap_or_default().trim_end_matches(".toml").to_owned();
    let code =
        ["engine/src", "scenarios/src", "experiments/src"].map(|folder| files_under(folder, "rs")).concat();
    for file in &examples {
        let known = code.iter().find(|source| text_of(source).contains(&format!("\"{}", stem(file))));
        assert!(known.is_none(), "{file} is known to {known:?}");
    }
    let question = workspace().join("scenarios/examples/our-question.toml");
    let question = loaded(scenarios::experiment(&question));
    // Everything in the folder is used by the question, and every variant plays a game of its own.
    for file in &examples {
        let used =
            question.inputs.iter().any(|source| source.name.ends_with(&format!("{}.toml", stem(file))));
        assert!(used, "{file} is not used by the question");
    }
    let mut digests: Vec<u64> = question
        .variants
        .iter()
        .map(|variant| play(&mut Arena::new(8), &variant.setup, 1, 0..40).iter().fold(0, |d, r| d ^ r.digest))
        .collect();
    digests.sort_unstable();
    digests.dedup();
    assert_eq!(digests.len(), question.variants.len(), "two variants play alike");
}
