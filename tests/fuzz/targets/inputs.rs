//! Any text as a file of the user's: it is taken or refused, in words that a terminal can show, and alike each time.

#![no_main]

use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use libfuzzer_sys::fuzz_target;
use tempfile::TempDir;

static HOME: LazyLock<TempDir> = LazyLock::new(|| tempfile::tempdir().expect("a temporary folder"));
static FILES: LazyLock<[PathBuf; 1]> = LazyLock::new(|| [HOME.path().join("input.toml")]);

/// What is said of the file; `Ok` with its kind.
fn said() -> Result<&'static str, String> {
    let found = scenarios::check(&*FILES).pop().expect("one file, one answer");
    found.map(|checked| checked.kind).map_err(|faults| faults.to_string())
}

/// Whether it may ask for a design of very many cells: reading one takes longer than a text is given here.
fn is_wide(text: &[u8]) -> bool {
    let has = |word: &[u8]| text.windows(word.len()).any(|part| part == word);
    has(b"design") && text.windows(2).any(|pair| pair.iter().all(u8::is_ascii_digit))
}

fuzz_target!(|text: &[u8]| {
    if is_wide(text) {
        return;
    }
    fs::write(&FILES[0], text).expect("the temporary folder takes a file");
    let first = said();
    if let Err(words) = &first {
        let raw = words.chars().find(|&letter| scenarios::is_hidden(letter) && letter != '\n');
        assert!(raw.is_none(), "{raw:?} is told as it is: {words:?}");
        assert!(!words.trim().is_empty(), "refused without a word");
    }
    assert_eq!(said(), first, "told otherwise the second time");
    // What is taken as a question is taken by the loader that plays it.
    if first == Ok("experiment") {
        scenarios::experiment(&FILES[0]).expect("a checked question loads");
    }
});
