//! A result's folder with one file of it replaced: its reader takes it or refuses it in words, and what it takes can be
//! laid out as a sheet.

#![no_main]

use std::ffi::OsString;
use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use experiments::app;
use experiments::console::Console;
use experiments::error::Exit;
use experiments::output::ResultFolder;
use experiments::sheet::paper::Paper;
use experiments::sheet::{Results, Sheet, page, paper};
use libfuzzer_sys::{Corpus, fuzz_target};
use tempfile::TempDir;

/// The files that are replaced, each by its place in this list; the first byte of the input picks one.
const FILES: [&str; 8] = [
    "manifest.json",
    "best_by_net.csv",
    "calls.csv",
    "answers.csv",
    "positions.csv",
    "duties.csv",
    "paths.csv",
    "pictures/sheet-start.svg",
];

static HOME: LazyLock<TempDir> = LazyLock::new(|| tempfile::tempdir().expect("a temporary folder"));

/// A result of few possessions, made once.
static RESULT: LazyLock<PathBuf> = LazyLock::new(|| {
    let folder = HOME.path().join("result");
    let args = ["zoneprobe", "compare", "--possessions", "32", "--quiet", "--out"].map(OsString::from);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut console = Console { out: &mut out, err: &mut err, colour: false };
    let exit = app::run(args.into_iter().chain([folder.clone().into_os_string()]), &mut console);
    assert!(exit == Exit::Done, "a result is made");
    folder
});

/// Reads the folder and lays the sheet out; an error is an answer as good as any other.
fn lay_out() -> Result<usize, String> {
    let told = |error: experiments::error::Error| error.to_string();
    let folder = ResultFolder::open(&RESULT).map_err(told)?;
    folder.findings().map_err(told)?;
    let sheet = Sheet::new(&Results::read(&folder).map_err(told)?).map_err(told)?;
    let cards = paper::cards(&sheet, Paper::A4);
    Ok(page::sheet(&sheet, Paper::A4, &paper::sheet(&sheet, Paper::A4)).len()
        + page::cards(&sheet, Paper::A4, &cards).len())
}

fuzz_target!(|input: &[u8]| -> Corpus {
    let Some((pick, text)) = input.split_first() else { return Corpus::Reject };
    let file = RESULT.join(FILES[usize::from(*pick) % FILES.len()]);
    let whole = fs::read(&file).expect("the result has the file");
    fs::write(&file, text).expect("the temporary folder takes a file");
    let laid_out = lay_out();
    fs::write(&file, whole).expect("the temporary folder takes a file");
    if let Err(words) = laid_out {
        assert!(!words.trim().is_empty(), "refused without a word");
    }
    Corpus::Keep
});
