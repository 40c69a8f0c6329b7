//! Finds out what keys a kind of file has by letting the loader read made-up files of it.
//!
//! It begins with an empty file and notes every key that the loader asks for. Each key found is then put into
//! the file in which it was asked for, with a value of the type asked for, and the file is read again: what a
//! table holds, or what a key brings with it, shows in turn. No list of keys is kept anywhere, so a key that
//! the loader learns is found without a change here.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use crate::asked::{Default, Note, What};
use crate::bundled;
use crate::key::Key;
use crate::kind::FILE_KINDS;
use crate::schema::alone;
use crate::source::{Desk, Named};
use crate::tree::{Data, Entry, Node, Origin};

/// A key as found.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    /// Its path: `*` for a member of a list, and for a name that the user makes up.
    pub path: Vec<String>,
    /// Name, unit, range and meaning.
    pub key: Key,
    /// The types of value that are read there; a list's members' after the list.
    pub what: Vec<What>,
    /// What holds without it.
    pub default: Default,
    /// Without it the file is refused.
    pub required: bool,
    /// Siblings one of which brings it on; empty where it may always stand.
    pub with: Vec<String>,
    /// A table with exactly one of some keys, and what these bring on.
    pub one_of: Vec<String>,
    /// Keys at the top of the file beside which it may not stand and is not needed.
    pub not_with: Vec<String>,
    /// A path that it repeats: a table within a table of the same name, and so on without an end.
    pub again: Option<String>,
}

/// Stands for names that users make up.
const ANY: &str = "any";

/// A made-up file: its tree, and the paths of the tables in it that were put in empty.
type Draft = Node;

/// What one reading showed.
struct Reading {
    draft: Draft,
    notes: Vec<Note>,
}

/// The keys that a kind of file may have at its top.
pub(crate) fn root_keys(kind: &str) -> Vec<String> {
    let reading = read(kind, table(Vec::new()));
    let mut keys: Vec<String> = Vec::new();
    for note in &reading.notes {
        if let Note::Asked { path, .. } = note
            && !path.contains('.')
            && !["units", "line", ""].contains(&path.as_str())
            && !keys.contains(path)
        {
            keys.push(path.clone());
        }
    }
    keys
}

/// Every key of a kind of file, in the order in which they are asked for; none for a word that is no kind.
pub(crate) fn keys(kind: &str) -> &'static [Found] {
    static KEYS: [OnceLock<Vec<Found>>; FILE_KINDS.len()] = [const { OnceLock::new() }; FILE_KINDS.len()];
    let at = FILE_KINDS.iter().position(|known| *known == kind);
    at.map_or(&[], |at| KEYS[at].get_or_init(|| explored(kind)).as_slice())
}

fn explored(kind: &str) -> Vec<Found> {
    let mut found: Vec<Found> = Vec::new();
    let mut presence = Presence::default();
    let mut waiting = vec![table(Vec::new())];
    let mut first_seen: Vec<(Draft, Vec<String>)> = Vec::new();
    let mut at = 0;
    while at < waiting.len() {
        let reading = read(kind, waiting[at].clone());
        at += 1;
        presence.take(&reading);
        let mut news = Vec::new();
        for note in &reading.notes {
            let Note::Asked { path, key, what, default } = note else { continue };
            let pattern = pattern(path);
            let inside = |outer: &Found| {
                outer.what.contains(&What::Sourced)
                    && pattern.len() > outer.path.len()
                    && pattern.starts_with(&outer.path)
            };
            // What repeats itself is followed no further.
            let deep = |outer: &Found| outer.again.is_some() && pattern.len() > outer.path.len();
            if found.iter().any(|outer| inside(outer) || (deep(outer) && pattern.starts_with(&outer.path))) {
                continue;
            }
            let place = found.iter().position(|known| known.path == pattern).unwrap_or_else(|| {
                news.push(path.clone());
                found.push(Found {
                    path: pattern.clone(),
                    key: *key,
                    what: Vec::new(),
                    default: default.clone(),
                    required: false,
                    with: Vec::new(),
                    one_of: Vec::new(),
                    not_with: Vec::new(),
                    again: repeated(&pattern),
                });
                found.len() - 1
            });
            let known = &mut found[place];
            if known.key.doc.is_empty() && !key.doc.is_empty() {
                known.key = *key;
            }
            if *default != Default::Nothing {
                known.default = default.clone();
            }
            if !known.what.contains(what) {
                known.what.push(what.clone());
                if known.again.is_some() {
                    continue;
                }
                waiting
                    .extend(examples(what, key).into_iter().map(|value| with(&reading.draft, path, value)));
            }
        }
        first_seen.push((reading.draft, news));
    }
    presence.tell(&mut found);
    exclude(kind, &mut found, &first_seen);
    found
}

/// Finds the tables at the top of the file beside which a key deeper down is no longer asked for: each reading that
/// showed new keys is repeated with each such table.
fn exclude(kind: &str, found: &mut [Found], first_seen: &[(Draft, Vec<String>)]) {
    let optional = |known: &&Found| !known.required && known.what.contains(&What::Table);
    let top = found.iter().filter(optional).filter_map(|known| match known.path.as_slice() {
        [only] => Some(only.clone()),
        _ => None,
    });
    let top: Vec<String> = top.collect();
    for (draft, news) in first_seen {
        let deeper: Vec<&String> = news.iter().filter(|path| path.contains('.')).collect();
        for name in top.iter().filter(|name| !deeper.is_empty() && draft.get(name).is_none()) {
            let beside = read(kind, with(draft, name, table(Vec::new()).data));
            let asks = |wanted: &str| {
                beside.notes.iter().any(|note| matches!(note, Note::Asked { path, .. } if path == wanted))
            };
            for path in deeper.iter().filter(|path| !asks(path)) {
                let known = found.iter_mut().find(|known| known.path == pattern(path));
                known.into_iter().for_each(|known| known.not_with.push(name.clone()));
            }
        }
    }
}

/// What the readings show about which keys stand together.
#[derive(Default)]
struct Presence {
    /// For each key: readings in which it was asked for but absent, and those in which it was missed.
    absent: BTreeMap<Vec<String>, (usize, usize)>,
    /// For each table: the keys asked for while it was empty.
    empty: BTreeMap<Vec<String>, BTreeSet<String>>,
    /// For each table and each single key in it: the keys asked for in all and in some of the readings.
    single: BTreeMap<(Vec<String>, String), (BTreeSet<String>, BTreeSet<String>)>,
}

impl Presence {
    fn take(&mut self, reading: &Reading) {
        let mut asked: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        let mut missed: BTreeSet<&str> = BTreeSet::new();
        for note in &reading.notes {
            match note {
                Note::Missing { path } => drop(missed.insert(path)),
                Note::Asked { path, what: What::Map, .. } if path.is_empty() => {}
                Note::Asked { path, .. } => {
                    let (table, name) = path.rsplit_once('.').unwrap_or(("", path));
                    asked.entry(table.to_owned()).or_default().insert(name.to_owned());
                }
            }
        }
        for (table, names) in &asked {
            let Some(node) = reading.draft.at(table) else { continue };
            let Data::Table(entries) = &node.data else { continue };
            for name in names.iter().filter(|name| node.get(name).is_none()) {
                let path = if table.is_empty() { name.clone() } else { format!("{table}.{name}") };
                let count = self.absent.entry(pattern(&path)).or_default();
                count.0 += 1;
                count.1 += usize::from(missed.contains(path.as_str()));
            }
            match entries.as_slice() {
                [] => self.empty.entry(pattern(table)).or_default().extend(names.iter().cloned()),
                [only] => {
                    let whole = self.single.entry((pattern(table), only.key.clone()));
                    let (all, some) = whole.or_insert_with(|| (names.clone(), BTreeSet::new()));
                    all.retain(|name| names.contains(name));
                    some.extend(names.iter().cloned());
                }
                _ => {}
            }
        }
    }

    fn tell(&self, found: &mut [Found]) {
        for known in found.iter_mut() {
            known.required =
                self.absent.get(&known.path).is_some_and(|(absent, missed)| missed > &0 && absent == missed);
        }
        for (table, empty) in &self.empty {
            let singles = || self.single.iter().filter(|((path, _), _)| path == table);
            let is_choice = singles().any(|(_, (all, _))| !empty.is_subset(all));
            for ((_, only), (_, some)) in singles() {
                for name in some.difference(empty) {
                    let path = [table.as_slice(), std::slice::from_ref(name)].concat();
                    let brought = found.iter_mut().find(|known| known.path == path);
                    brought.into_iter().for_each(|known| known.with.push(only.clone()));
                }
            }
            if is_choice && let Some(known) = found.iter_mut().find(|known| known.path == *table) {
                known.one_of = empty.iter().cloned().collect();
            }
        }
    }
}

/// Reads a draft as a file of a kind.
fn read(kind: &str, draft: Draft) -> Reading {
    let desk = Desk::taking_notes();
    desk.place("draft");
    let root = std::rc::Rc::new(draft.clone());
    alone::read(&desk, kind, &Named { name: "draft".into(), root });
    Reading { draft, notes: desk.into_notes() }
}

/// Values by which the reading of a key goes on.
fn examples(what: &What, key: &Key) -> Vec<Data> {
    let number = || Data::Number(key.low.max(0.0).min(key.high));
    let place = || node(Data::List(vec![node(Data::Number(0.0)), node(Data::Number(1.0))]));
    // A value of no use shows the type that is wanted.
    let open = || vec![Data::Flag(true), Data::List(vec![node(Data::Flag(true))]), table(Vec::new()).data];
    match what {
        What::Open => open(),
        What::Text | What::Column => vec![Data::Text("x".into())],
        What::Flag => vec![Data::Flag(true)],
        What::Whole => vec![Data::Whole(key.low as i64)],
        What::Number | What::NumberOrNone => vec![number()],
        What::Word(words) | What::Name(words) => {
            vec![Data::Text(words.first().cloned().unwrap_or_default())]
        }
        What::Place => vec![place().data],
        What::Places(count) => vec![Data::List(vec![place(); count.unwrap_or(2)])],
        What::File(folder) => {
            vec![Data::Text(bundled::names(folder).first().copied().unwrap_or_default().to_owned())]
        }
        What::Table => vec![table(Vec::new()).data],
        What::Map => open().into_iter().map(|value| table(vec![entry(ANY, value)]).data).collect(),
        What::List => (1..=2).map(|count| Data::List(vec![node(Data::Flag(true)); count])).collect(),
        What::Sourced => Vec::new(),
    }
}

fn node(data: Data) -> Node {
    Node { origin: Origin { source: 0, start: 0, end: 0 }, data }
}

fn table(entries: Vec<Entry>) -> Node {
    node(Data::Table(entries))
}

fn entry(key: &str, data: Data) -> Entry {
    let node = node(data);
    Entry { key: key.to_owned(), key_origin: node.origin, dotted: false, node }
}

/// A draft with one value more, or another, at a path as the loader wrote it.
fn with(draft: &Draft, path: &str, value: Data) -> Draft {
    let mut draft = draft.clone();
    let mut at = &mut draft;
    for step in path.split('.').filter(|step| !step.is_empty()) {
        at = match &mut at.data {
            Data::List(members) => {
                let nth = step.parse::<usize>().unwrap_or(1).saturating_sub(1).min(members.len() - 1);
                &mut members[nth]
            }
            Data::Table(entries) => {
                let here = entries.iter().position(|entry| entry.key == step).unwrap_or_else(|| {
                    entries.push(entry(step, Data::Flag(true)));
                    entries.len() - 1
                });
                &mut entries[here].node
            }
            // What stood there was no table, so nothing can be put into it.
            _ => return draft,
        };
    }
    at.data = value;
    draft
}

/// A path as the loader wrote it with `*` for numbers of members and for made-up names.
fn pattern(path: &str) -> Vec<String> {
    let steps = path.split('.').filter(|step| !step.is_empty());
    steps
        .map(|step| {
            let made_up = step == ANY || step.chars().all(|c| c.is_ascii_digit());
            if made_up { "*".to_owned() } else { step.to_owned() }
        })
        .collect()
}

/// The path of the table that a path comes back to, by the name of its last step.
fn repeated(path: &[String]) -> Option<String> {
    let (last, before) = path.split_last()?;
    let at = before.iter().position(|step| step == last && step != "*")?;
    Some(before[..=at].join("."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_within_a_table_of_the_same_name_is_followed_no_further() {
        let path = |text: &str| pattern(text);
        assert_eq!(path("program.1.step.12.to"), ["program", "*", "step", "*", "to"]);
        assert_eq!(repeated(&path("program.1.when.2.not.not")), Some("program.*.when.*.not".into()));
        assert_eq!(repeated(&path("program.1.when.2.any_of.1.open")), None);
        assert_eq!(repeated(&path("program.1.step.1")), None, "members of lists repeat nothing");
    }
}
