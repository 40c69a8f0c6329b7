//! The key reference as rows, in words.

use crate::bundled;
use crate::declared::{Count, Field, Kind};
use crate::fault::one_of;
use crate::key::{Key, plain};
use crate::kind::FILE_KINDS;
use crate::reference::bundled_values::{self, Bundled, Stated};
use crate::reference::tree::{self, Branch, Default, Inner};
use crate::text::Text;

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
    let mut rows = Rows { kind, bundled: Bundled::of(kind), path: Vec::new(), entries: Vec::new() };
    for branch in tree::of_kind(kind) {
        rows.add(&branch, "");
    }
    rows.entries
}

/// Rows on their way.
struct Rows {
    kind: &'static str,
    bundled: Bundled,
    /// The names of the tables that are open.
    path: Vec<&'static str>,
    entries: Vec<KeyEntry>,
}

impl Rows {
    /// The rows of a branch, its own first; a member of a list has no row apart from the list's.
    fn add(&mut self, branch: &Branch, before: &str) {
        let name = if branch.key.name.is_empty() { "NAME" } else { branch.key.name };
        let list = if is_list_of_tables(&branch.kind) { "[]" } else { "" };
        let key = format!("{before}{name}{list}");
        self.path.push(branch.key.name);
        let stated = if number(&branch.kind).is_some() { self.bundled.at(&self.path) } else { Vec::new() };
        self.entries.push(row(self.kind, branch, key.clone(), &stated));
        let before = format!("{key}.");
        match &branch.inner {
            Inner::Nothing => {}
            Inner::Keys(keys) => keys.iter().for_each(|inner| self.add(inner, &before)),
            Inner::Each(each) => self.add(each, &before),
            Inner::JustOne(choices) => {
                choices.iter().for_each(|(chosen, _)| self.add(chosen, &before));
                beside(choices).iter().for_each(|(inner, with)| {
                    let meaning = self.entries.len();
                    self.add(inner, &before);
                    self.entries[meaning].meaning.push_str(&format!(" Only with {}.", named(with)));
                });
            }
        }
        self.path.pop();
    }
}

/// The keys beside those of which just one may stand, each once, with all beside which it may stand.
fn beside(choices: &[(Branch, Vec<Branch>)]) -> Vec<(&Branch, Vec<&'static str>)> {
    let mut found: Vec<(&Branch, Vec<&'static str>)> = Vec::new();
    for (chosen, with) in choices {
        for branch in with {
            match found
                .iter_mut()
                .find(|(known, _)| known.key == branch.key && known.default == branch.default)
            {
                Some((_, with)) => with.push(chosen.key.name),
                None => found.push((branch, vec![chosen.key.name])),
            }
        }
    }
    found
}

fn is_list_of_tables(kind: &Kind) -> bool {
    matches!(kind, Kind::Tables(..))
}

/// The type of a number that a file states, if it is one.
fn number(kind: &Kind) -> Option<&Kind> {
    Some(kind).filter(|kind| matches!(kind, Kind::Number | Kind::NumberOrNone | Kind::Parameter))
}

/// The type of a list's members, or the type itself.
pub(crate) fn innermost(kind: &Kind) -> &Kind {
    if let Kind::List(each, _) = kind { innermost(each) } else { kind }
}

fn row(kind: &'static str, branch: &Branch, key: String, stated: &[Stated]) -> KeyEntry {
    let in_code = matches!(branch.default, Default::Value(_) | Default::Words(_));
    let in_code = in_code && number(&branch.kind).is_some();
    KeyEntry {
        kind,
        key,
        value: one(&branch.kind),
        unit: if matches!(innermost(&branch.kind), Kind::Place) { "m or ft" } else { branch.key.unit },
        range: range_in_words(branch),
        default: default_in_words(branch, stated),
        source: if in_code { "assumed".into() } else { sources(stated) },
        meaning: meaning(branch),
    }
}

/// A type of value in words.
fn one(kind: &Kind) -> String {
    let word = match kind {
        Kind::Text(_) => "text",
        Kind::Flag => "true or false",
        Kind::True => "true",
        Kind::Whole => "whole number",
        Kind::Number => "number",
        Kind::NumberOrNone => "number or \"none\"",
        Kind::Parameter => "{ value, range, source }",
        Kind::Word(_) => "word",
        Kind::Rule(_) => "name",
        Kind::Position => "position",
        Kind::Place => "place [x, y]",
        Kind::File(_) => "file",
        Kind::Rows(_) => "table file",
        Kind::Any => "value",
        Kind::Table(_) | Kind::Layer(..) => "table",
        Kind::Tables(..) => "list of tables",
        Kind::List(each, count) => return format!("list of {}", several(*count, each)),
        Kind::Map(_) => "table of names",
    };
    word.into()
}

/// Several values of a type in words.
fn several(count: Count, kind: &Kind) -> String {
    let number = match count {
        Count::Within(least, most) if least == most => format!("{most} "),
        Count::Within(least, most) if least + 1 == most => format!("{least} or {most} "),
        _ => String::new(),
    };
    match kind {
        Kind::Place => format!("{number}places"),
        Kind::List(each, count) => format!("{number}lists of {}", several(*count, each)),
        kind => format!("{number}{}s", one(kind)),
    }
}

fn range_in_words(branch: &Branch) -> String {
    let Key { low, high, .. } = branch.key;
    let range = || format!("{} to {}", plain(low), plain(high));
    match innermost(&branch.kind) {
        Kind::Number | Kind::NumberOrNone | Kind::Parameter | Kind::Whole => range(),
        Kind::Word(words) => one_of(words.words()),
        Kind::Rule(table) => {
            let names = bundled_values::names_in_zones(table);
            format!("{}, or what the zone's file has", one_of(names.iter().map(String::as_str)))
        }
        Kind::Position => "a position of the zone, such as near wing or far back".into(),
        Kind::File(folder) => format!("{}, or a path ending in .toml", one_of(bundled::names(folder))),
        Kind::Rows(_) => "a path ending in .csv".into(),
        Kind::Place => format!("each {} m, on the floor", range()),
        Kind::Text(Text::Name) => format!("1 to {} characters", Text::Name.most()),
        Kind::Text(text) => format!("at most {} characters", text.most()),
        Kind::Map(Field { kind: Kind::Table(_), .. }) => {
            format!("each name 1 to {} characters", Text::Name.most())
        }
        _ => String::new(),
    }
}

fn default_in_words(branch: &Branch, stated: &[Stated]) -> String {
    let of_files = || stated.iter().map(|s| format!("{} {}", s.file, s.value)).collect::<Vec<_>>().join(", ");
    let own = match &branch.default {
        _ if branch.required => "needed".into(),
        Default::Value(value) => value.clone(),
        Default::Words(words) => (*words).into(),
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

/// Keys in words.
fn named(names: &[&str]) -> String {
    let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    one_of(names.iter().map(String::as_str))
}

fn meaning(branch: &Branch) -> String {
    let mut text = branch.key.doc.to_owned();
    let choices = if let Inner::JustOne(choices) = &branch.inner { choices.as_slice() } else { &[] };
    if let Some(with) = branch.with {
        text.push_str(&format!(" Only with {}.", named(&[with])));
    }
    if let Some(other) = branch.not_with {
        text.push_str(&format!(" Not with {}.", named(&[other])));
    }
    if !choices.is_empty() {
        let names: Vec<&str> = choices.iter().map(|(chosen, _)| chosen.key.name).collect();
        text.push_str(&format!(" Just one of {}, and what goes with it.", named(&names)));
    }
    text
}
