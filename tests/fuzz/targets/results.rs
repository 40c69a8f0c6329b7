//! A result's folder with one file of it replaced: its reader takes it or refuses it in words, and what it takes can be
//! laid out as a sheet.

#![no_main]

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use experiments::app;
use experiments::console::Console;
use experiments::error::Exit;
use experiments::output::{Fingerprint, ResultFolder};
use experiments::sheet::paper::Paper;
use experiments::sheet::{Game, Results, Sheet, cards, page, paper};
use libfuzzer_sys::{Corpus, fuzz_target};
use tempfile::TempDir;

/// The files that are replaced, each by its place in this list; the first byte of the input picks one.
const FILES: [&str; 9] = [
    "manifest.json",
    "verdict.json",
    "runs.csv",
    "choices.csv",
    "calls.csv",
    "answers.csv",
    "positions.csv",
    "duties.csv",
    "pictures/sheet-start.svg",
];

static HOME: LazyLock<TempDir> = LazyLock::new(|| tempfile::tempdir().expect("a temporary folder"));

/// A result of few possessions, made once.
static RESULT: LazyLock<PathBuf> = LazyLock::new(|| {
    let folder = HOME.path().join("result");
    let args = ["zoneprobe", "compare", "--possessions", "32", "--quiet", "--out"].map(OsString::from);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut console = Console { out: &mut out, err: &mut err, colour: false, width: 100 };
    let exit = app::run(args.into_iter().chain([folder.clone().into_os_string()]), &mut console);
    assert!(exit == Exit::Done, "a result is made");
    folder
});

/// The manifest as it was written.
static WHOLE_MANIFEST: LazyLock<Vec<u8>> =
    LazyLock::new(|| fs::read(RESULT.join(FILES[0])).expect("the result has a manifest"));

/// Reads the folder and lays the sheet out; an error is an answer as good as any other.
fn lay_out() -> Result<usize, String> {
    let told = |error: experiments::error::Error| error.to_string();
    let folder = ResultFolder::open(&RESULT).map_err(told)?;
    folder.findings().map_err(told)?;
    let sheet = Sheet::new(Results::read(&folder).map_err(told)?, None, &Game::default()).map_err(told)?;
    let cards = cards::cards(&sheet, Paper::A4);
    Ok(page::sheet(&sheet, Paper::A4, &paper::sheet(&sheet, Paper::A4)).len()
        + page::cards(&sheet, Paper::A4, &cards).len())
}

/// The manifest with the fingerprint that a file would have with this content: else the reader would go no further.
fn manifest_for(name: &str, text: &[u8]) -> Vec<u8> {
    let mut manifest: serde_json::Value = serde_json::from_slice(&WHOLE_MANIFEST).expect("a manifest is JSON");
    let print = serde_json::to_value(Fingerprint::of(name, text)).expect("a fingerprint is JSON");
    let outputs = manifest["outputs"].as_array_mut().expect("a manifest lists its files");
    let own = outputs.iter_mut().find(|output| output["name"] == name).expect("the file is listed");
    *own = print;
    manifest.to_string().into_bytes()
}

fuzz_target!(|input: &[u8]| -> Corpus {
    let Some((pick, text)) = input.split_first() else { return Corpus::Reject };
    let name = FILES[usize::from(*pick) % FILES.len()];
    let (file, manifest) = (RESULT.join(name), RESULT.join(FILES[0]));
    let whole = fs::read(&file).expect("the result has the file");
    let put = |file: &Path, bytes: &[u8]| fs::write(file, bytes).expect("the temporary folder takes a file");
    if name != FILES[0] {
        put(&manifest, &manifest_for(name, text));
    }
    put(&file, text);
    let laid_out = lay_out();
    put(&file, &whole);
    put(&manifest, &WHOLE_MANIFEST);
    if let Err(words) = laid_out {
        assert!(!words.trim().is_empty(), "refused without a word");
    }
    Corpus::Keep
});
