//! What comes in: a file or a pipe, read once, no larger than it may be; and files that are wrong in very many places.

use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;
use std::time::{Duration, Instant};

use miette::Diagnostic;

use super::{Folder, check, small};
use crate::fault::Fault;
use crate::{Source, bundled_text, experiment, experiment_kept};

/// What was quadratic took minutes; what is left takes a moment, also where others have the processors.
const PATIENCE: Duration = Duration::from_secs(20);

const QUESTION: &str = r#"scenario = "base.toml"
[[variant]]
name = "plain"
[[variant]]
name = "sunken"
set = { "zone.sink_back_m" = 0.6 }
"#;

#[test]
fn later_loadings_are_made_of_the_texts_that_were_read() {
    let zone = bundled_text("1-2-2").expect("a bundled zone");
    let base = small("").replace("\"1-2-2\"", "\"own.toml\"");
    // A name without ending, which is a bundled one's as well.
    let files = [("sunken-122", QUESTION), ("base.toml", &base), ("own.toml", zone)];
    let folder = Folder::with(&files);
    let play = |file: &Path| experiment(file).unwrap_or_else(|faults| panic!("{faults}"));
    let file = folder.path("sunken-122");
    let told = |play: &crate::Experiment| {
        let answers = play.answers(&["plain", "sunken"], 64).unwrap_or_else(|faults| panic!("{faults}"));
        let levels = play.at_level("college").unwrap_or_else(|faults| panic!("{faults}"));
        (answers.into_iter().map(|answer| (answer.rule, answer.setup)).collect::<Vec<_>>(), levels)
    };
    let expected = told(&play(&file));
    assert_eq!((expected.0.len(), expected.1.len()), (6, 2));
    for change in ["", "name = \"half", "line = \"another\"\n"] {
        let play = play(&file);
        for (name, text) in files {
            match change {
                "" => fs::remove_file(folder.path(name)).expect("removed"),
                change => fs::write(folder.path(name), format!("{change}{text}")).expect("written"),
            }
        }
        assert_eq!(told(&play), expected, "{change}");
        files.iter().for_each(|(name, text)| fs::write(folder.path(name), text).expect("written"));
    }
}

#[test]
fn a_level_that_there_is_not_is_named_as_it_was_typed() {
    let folder = Folder::with(&[("e.toml", QUESTION), ("base.toml", &small(""))]);
    let play = experiment(&folder.path("e.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    let told = play.at_level("colege").expect_err("no such level").to_string();
    assert!(
        told.starts_with("--level: found \"colege\"") && told.ends_with("did you mean `college`?"),
        "{told}"
    );
}

#[cfg(unix)]
#[test]
fn a_pipe_is_read_once_however_often_it_is_named_and_whatever_comes_out() {
    let question = QUESTION.replace("\"base.toml\"", "\"./base.toml\"");
    let folder = Folder::with(&[("e.toml", &question)]);
    let pipe = folder.path("base.toml");
    assert!(Command::new("mkfifo").arg(&pipe).status().expect("mkfifo").success());
    let fed = |text: &[u8]| {
        let (pipe, text) = (pipe.clone(), text.to_vec());
        std::thread::spawn(move || fs::write(pipe, text).expect("a reader"))
    };
    let writer = fed(small("").as_bytes());
    let play = experiment(&folder.path("e.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    writer.join().expect("written");
    let streams: Vec<&str> = play.streams().map(|source| source.text.as_str()).collect();
    assert_eq!(streams, [small("")]);
    assert_eq!(play.answers(&["plain"], 64).map(|answers| answers.len()).ok(), Some(3));
    // Two files that name it, and no text in it.
    fs::write(folder.path("f.toml"), question).expect("written");
    let writer = fed(&[0xff]);
    let found = crate::check(&["e.toml", "f.toml"].map(|name| folder.path(name)));
    writer.join().expect("written");
    for found in found {
        let message = folder.shown(&found.expect_err("no text").to_string());
        assert!(
            message.ends_with("base.toml: found no text (byte 1 is not UTF-8), allowed a TOML file"),
            "{message}"
        );
    }
}

#[test]
fn only_files_and_pipes_of_a_fair_size_come_in() {
    let most = 1 << 20;
    let fits = format!("{}#{}", small(""), "x".repeat(most - small("").len() - 1));
    let folder = Folder::with(&[("fits.toml", &fits), ("large.toml", &(fits.clone() + "x"))]);
    assert_eq!(check(&folder.path("fits.toml")).ok(), Some("scenario"));
    let said = |file: &Path| folder.shown(&check(file).expect_err("refused").to_string());
    assert_eq!(
        said(&folder.path("large.toml")),
        "large.toml: found 1,048,577 bytes, allowed at most 1,048,576 bytes"
    );
    fs::create_dir(folder.path("folder.toml")).expect("a folder");
    assert_eq!(said(&folder.path("folder.toml")), "folder.toml: found a folder, allowed a TOML file");
    if cfg!(unix) {
        assert_eq!(said(Path::new("/dev/zero")), "/dev/zero: found a device, allowed a file or a pipe");
        let base = small("").replace("\"rover\"", "\"/dev/zero.toml\"");
        let file = folder.path("base.toml");
        fs::write(&file, base).expect("written");
        assert!(said(&file).contains("(no such file: /dev/zero.toml)"), "{}", said(&file));
    }
}

/// Faults of a file and how many more there are, found in no time.
fn many(text: &str) -> (Vec<Fault>, usize) {
    let folder = Folder::with(&[("base.toml", &small("")), ("e.toml", text)]);
    let begun = Instant::now();
    let faults = check(&folder.path("e.toml")).expect_err("refused");
    assert!(begun.elapsed() < PATIENCE, "{:?}", begun.elapsed());
    (faults.all, faults.more)
}

#[test]
fn thousands_of_wrong_keys_are_told_in_a_moment() {
    let keys: String = (0..8000).map(|nth| format!("key_{nth} = {nth}\n")).collect();
    let (all, more) = many(&(keys.clone() + &small("")));
    assert_eq!((all.len(), more), (50, 7950));
    assert_eq!((all[0].key.as_str(), all[49].key.as_str(), all[49].line), ("key_0", "key_49", 50));
    // The same in a scenario that variants play, and not one key that anybody knows.
    let folder = Folder::with(&[("base.toml", &(keys.clone() + &small(""))), ("e.toml", QUESTION)]);
    let faults = check(&folder.path("e.toml")).expect_err("refused");
    assert_eq!((faults.all.len(), faults.more), (50, 7950));
    assert!(faults.to_string().ends_with("\n7950 more faults are not shown"));
    assert_eq!(many(&keys).0.len(), 1);
    // Wrong values in tables of made-up names and in lists.
    let options: String = (0..8000).map(|nth| format!("option-{nth} = 1.0\n")).collect();
    let (all, more) = many(
        &small(&format!("[attack.posts.options]\n{options}")).replace("attack = { use = \"rover\" }\n", ""),
    );
    assert_eq!((all.len(), more), (50, 7950));
}

#[test]
fn numbers_of_variants_are_checked_before_anything_is_put_together() {
    let only = |text: &str| {
        let (all, more) = many(&format!("scenario = \"base.toml\"\n{text}"));
        assert_eq!((all.len(), more), (1, 0), "{all:?}");
        format!("{}: {}", all[0].key, all[0].problem)
    };
    let values = vec!["0.5"; 60_000].join(", ");
    assert_eq!(
        only(&format!("factors = {{ \"zone.sink_back_m\" = [{values}] }}\n")),
        "factors: found 60,000 variants, allowed at most 64"
    );
    let ten = "[1, 2, 3, 4, 5, 6, 7, 8, 9, 10]";
    let factors: String = (0..30).map(|nth| format!("zone.a{nth} = {ten}\n")).collect();
    assert_eq!(
        only(&format!("[factors]\n{factors}")),
        "factors: found more than 1,000,000 variants, allowed at most 64"
    );
    let factors: String = (0..8000).map(|nth| format!("zone.a{nth} = [1]\n")).collect();
    assert_eq!(only(&format!("[factors]\n{factors}")), "factors: found 8000 factors, allowed at most 64");
    let variants: String = (0..8000).map(|nth| format!("[[variant]]\nname = \"v{nth}\"\n")).collect();
    assert_eq!(only(&variants), "variant: found 8000 variants, allowed at most 64");
    // Each value by itself is short.
    let halves = "sink_back_m extension_m stunt_m reversal_denial dig fly_by match_up respect bump_delay_s \
                  closeout_stop_m stunt_s carry_m closeout_from_m";
    let factors: String = halves.split(' ').map(|key| format!("zone.{key} = [0.5]\n")).collect();
    let told = only(&format!("[factors]\n{factors}"));
    let wanted = "factors: found a variant's name of 2";
    assert!(told.starts_with(wanted) && told.ends_with(" with its factors, allowed at most 200"), "{told}");
    let set: String = (0..8000).map(|nth| format!("key_{nth} = 1\n")).collect();
    assert_eq!(
        only(&format!("[[variant]]\nname = \"a\"\n[variant.set]\n{set}")),
        "variant.1.set: found 8000 values, allowed at most 1000"
    );
}

#[test]
fn an_excerpt_is_shown_where_it_can_be_read() {
    let (all, _) = many(&small("snik = 1\n"));
    assert!(all[0].source_code().is_some() && all[0].labels().is_some());
    let (all, _) = many(&small(&format!("snik = \"{}\"\n", "x".repeat(30_000))));
    assert!(all[0].source_code().is_none() && all[0].labels().is_none());
    let (all, _) = many(&small(&format!("snik_{} = 1\n", "k".repeat(30_000))));
    assert!(all[0].key.len() < 300 && all[0].key.ends_with("..."), "{}", all[0].key.len());
}

#[test]
fn an_experiment_is_loaded_from_kept_texts_and_from_nothing_else() {
    let zone = bundled_text("1-2-2").expect("a bundled zone");
    let base = small("").replace("\"1-2-2\"", "\"own.toml\"");
    let folder = Folder::with(&[("q.toml", QUESTION), ("base.toml", &base), ("own.toml", zone)]);
    let file = folder.path("q.toml");
    let read = experiment(&file).unwrap_or_else(|faults| panic!("{faults}"));
    let kept = |changed: &dyn Fn(&str) -> Option<String>| -> Vec<Arc<Source>> {
        let source = |source: &Arc<Source>| {
            let text = changed(&source.name)
                .map_or(Some(source.text.clone()), |text| (text != "gone").then_some(text))?;
            Some(Arc::new(match source.is_bundled() {
                true => Source::kept_bundled(source.name.clone(), text),
                false => Source::kept(Path::new(&source.name), text, source.streamed),
            }))
        };
        read.inputs.iter().filter_map(source).collect()
    };
    let same = experiment_kept(&kept(&|_| None)).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!((same.inputs, same.key), (read.inputs.clone(), "q".into()));
    assert!(same.variants.iter().zip(&read.variants).all(|(one, other)| one.setup == other.setup));
    // The texts count, not what lies on the disk or is bundled.
    let sunken = |name: &str| name.ends_with("q.toml").then(|| QUESTION.replace("0.6", "0.9"));
    let other = experiment_kept(&kept(&sunken)).unwrap_or_else(|faults| panic!("{faults}"));
    assert!(
        other.variants[0].setup == read.variants[0].setup
            && other.variants[1].setup != read.variants[1].setup
    );
    let level = |name: &str| name.starts_with("bundled:rules").then(|| String::from("name = 1"));
    assert!(experiment_kept(&kept(&level)).is_err());
    let gone = |name: &str| name.ends_with("own.toml").then(|| String::from("gone"));
    let faults = experiment_kept(&kept(&gone)).expect_err("a text is missing").to_string();
    assert!(faults.contains("own.toml") && faults.contains("no text that was kept"), "{faults}");
    assert!(experiment_kept(&[]).is_err());
}
