//! The key reference as rows, in words.

use crate::asked::{Default, What, plain};
use crate::bundled;
use crate::fault::one_of;
use crate::key::Key;
use crate::kind::FILE_KINDS;
use crate::reference::bundled_values::{self, Stated};
use crate::reference::tree::{self, Branch};

/// A key of a kind of file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyEntry {
    /// The kind of file, one of [`FILE_KINDS`].
    pub kind: &'static str,
    /// Its path: `[]` after a list, `NAME` for a name that the user makes up.
    pub key: String,
    /// The type of value.
    pub value: String,
    /// Its unit; empty where it has none.
    pub unit: &'static str,
    /// The numbers or words that are allowed; empty where the type says all.
    pub range: String,
    /// What holds without it, `needed` where it has to be there, empty where its absence means nothing.
    pub default: String,
    /// Where default or bundled values come from: a source, `assumed`, or empty.
    pub source: String,
    /// What it means.
    pub meaning: String,
}

/// Every key of every kind of file, in the order in which they are read.
#[must_use]
pub fn key_reference() -> Vec<KeyEntry> {
    FILE_KINDS.iter().flat_map(|kind| of_kind(kind)).collect()
}

/// Every key of one kind of file.
pub(crate) fn of_kind(kind: &'static str) -> Vec<KeyEntry> {
    let mut entries = Vec::new();
    for branch in tree::of_kind(kind) {
        rows(kind, &branch, "", &mut entries);
    }
    entries
}

/// The rows of a branch, its own first; a member of a list has no row apart from the list's.
fn rows(kind: &'static str, branch: &Branch, before: &str, entries: &mut Vec<KeyEntry>) {
    let name = if branch.name == "*" { "NAME" } else { &branch.name };
    let list = branch.reads(&What::List) && branch.each().is_some();
    let key = format!("{before}{name}{}", if list { "[]" } else { "" });
    entries.push(row(kind, branch, key.clone()));
    let inner = branch.each().filter(|_| list).map_or(&branch.inner, |each| &each.inner);
    for branch in inner {
        rows(kind, branch, &format!("{key}."), entries);
    }
}

fn row(kind: &'static str, branch: &Branch, key: String) -> KeyEntry {
    let found = &branch.found;
    let stated = match branch.value() {
        Some(What::Sourced | What::Number | What::NumberOrNone) => bundled_values::at(kind, &found.path),
        _ => Vec::new(),
    };
    let bare =
        matches!(branch.value(), Some(What::Sourced | What::Number | What::NumberOrNone | What::Whole));
    let place = matches!(branch.value(), Some(What::Place | What::Places(_)));
    let in_code = matches!(found.default, Default::Value(_)) && bare && branch.value() != Some(&What::Whole);
    KeyEntry {
        kind,
        key,
        value: value_in_words(branch),
        unit: if place { "m or ft" } else { found.key.unit },
        range: range_in_words(branch),
        default: default_in_words(branch, &stated),
        source: if in_code { "assumed".into() } else { sources(&stated) },
        meaning: meaning(branch),
    }
}

fn value_in_words(branch: &Branch) -> String {
    let one = match branch.value() {
        Some(What::Text) => "text",
        Some(What::Flag) => "true or false",
        Some(What::Whole) => "whole number",
        Some(What::Number) => "number",
        Some(What::NumberOrNone) => "number or \"none\"",
        Some(What::Sourced) => "{ value, range, source }",
        Some(What::Word(_)) => "word",
        Some(What::Name(_)) => "name",
        Some(What::Column) => "column",
        Some(What::Place) => "place [x, y]",
        Some(What::Places(Some(count))) => return format!("list of {count} places"),
        Some(What::Places(None)) => return "list of places".into(),
        Some(What::File(_)) => "file",
        _ if branch.reads(&What::List) => return "list of tables".into(),
        _ if branch.reads(&What::Map) => return "table of names".into(),
        _ => return "table".into(),
    };
    if branch.reads(&What::List) { format!("list of {one}s") } else { one.into() }
}

fn range_in_words(branch: &Branch) -> String {
    let Key { low, high, .. } = branch.found.key;
    let range = || format!("{} to {}", plain(low), plain(high));
    match branch.value() {
        Some(What::Number | What::NumberOrNone | What::Sourced | What::Whole) => range(),
        Some(What::Word(words)) => one_of(words.iter().map(String::as_str)),
        Some(What::Name(names)) => {
            format!("{}, or what the zone's file has", one_of(names.iter().map(String::as_str)))
        }
        Some(What::Column) => "a column of the zone, such as near wing or far back".into(),
        Some(What::File(folder)) => {
            format!("{}, or a path ending in .toml", one_of(bundled::names(folder)))
        }
        Some(What::Place | What::Places(_)) => format!("each {} m, on the floor", range()),
        _ => String::new(),
    }
}

fn default_in_words(branch: &Branch, stated: &[Stated]) -> String {
    let of_files = || stated.iter().map(|s| format!("{} {}", s.file, s.value)).collect::<Vec<_>>().join(", ");
    let own = match &branch.found.default {
        _ if branch.found.required => "needed".into(),
        Default::Value(value) => value.clone(),
        Default::FileBelow => "from the named file or level".into(),
        Default::Nothing => String::new(),
    };
    match (own.is_empty(), stated.is_empty()) {
        (_, true) => own,
        (true, false) => of_files(),
        (false, false) => format!("{own}; {}", of_files()),
    }
}

/// The sources of bundled values; the files are named where they differ.
fn sources(stated: &[Stated]) -> String {
    let told: Vec<&Stated> = stated.iter().filter(|stated| !stated.source.is_empty()).collect();
    match told.as_slice() {
        [] => String::new(),
        [first, rest @ ..] if rest.iter().all(|other| other.source == first.source) => first.source.clone(),
        _ => told.iter().map(|s| format!("{}: {}", s.file, s.source)).collect::<Vec<_>>().join("; "),
    }
}

fn meaning(branch: &Branch) -> String {
    let found = &branch.found;
    let mut text = found.key.doc.to_owned();
    let named = |names: &[String]| {
        let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
        one_of(names.iter().map(String::as_str))
    };
    if !found.with.is_empty() {
        text.push_str(&format!(" Only with {}.", named(&found.with)));
    }
    if !found.not_with.is_empty() {
        text.push_str(&format!(" Not with {}.", named(&found.not_with)));
    }
    let choice = branch.each().filter(|_| branch.reads(&What::List)).map_or(found, |each| &each.found);
    if !choice.one_of.is_empty() {
        text.push_str(&format!(" Just one of {}, and what goes with it.", named(&choice.one_of)));
    }
    if let Some(outer) = &found.again {
        text.push_str(&format!(" Keys as in `{outer}`."));
    }
    text
}
