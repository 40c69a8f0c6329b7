//! A typed reader over a table of a file.
//!
//! Each read names its [`Key`]; a fault is noted and a harmless stand-in returned, so that all faults of a
//! file are found in one go. When a reader is dropped, every key that was not asked for is refused. A desk
//! that takes notes learns of every key from the same calls.

mod number;
mod place;
mod word;

use std::cell::RefCell;

use crate::asked::{Default, Note, What};
use crate::fault::{Problem, nearest, one_of};
use crate::key::Key;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node};

/// A table being read.
pub(crate) struct Reader<'d> {
    pub desk: &'d Desk,
    node: &'d Node,
    path: String,
    /// What the table means, for unknown keys in it.
    doc: Option<&'static str>,
    asked: RefCell<Vec<String>>,
}

impl<'d> Reader<'d> {
    /// A reader of a file's root. Takes the keys `units` and `line` that every file may have.
    pub fn root(desk: &'d Desk, node: &'d Node) -> Reader<'d> {
        let reader = Reader { desk, node, path: String::new(), doc: None, asked: RefCell::new(Vec::new()) };
        let units = Key::other("units", "Unit of the file's places, and of lengths whose key names no unit.");
        reader.word_or(units, &[("m", ()), ("ft", ())], ());
        reader.maybe_text(Key::other("line", "What it is, in one line, for the catalog."));
        reader
    }

    /// A reader of a nested table.
    pub fn nested(&self, node: &'d Node, path: String, doc: Option<&'static str>) -> Reader<'d> {
        Reader { desk: self.desk, node, path, doc, asked: RefCell::new(Vec::new()) }
    }

    /// The dotted path of a key of this table.
    pub fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// The node itself.
    pub fn node(&self) -> &'d Node {
        self.node
    }

    /// The value of a key, which counts as known from now on.
    pub fn find(&self, name: &'static str) -> Option<&'d Node> {
        self.note(Key::other(name, ""), What::Open, Default::Nothing);
        self.look(name)
    }

    /// Like [`Reader::find`], for a key whose type is known.
    fn seek(&self, key: Key, what: What, default: Default) -> Option<&'d Node> {
        self.note(key, what, default);
        self.look(key.name)
    }

    fn look(&self, name: &str) -> Option<&'d Node> {
        self.ask(name);
        self.node.get(name).map(|entry| &entry.node)
    }

    fn ask(&self, name: &str) {
        let mut asked = self.asked.borrow_mut();
        if !asked.iter().any(|known| known == name) {
            asked.push(name.to_owned());
        }
    }

    fn note(&self, key: Key, what: What, default: Default) {
        self.note_at(key, self.path_of(key.name), what, default);
    }

    fn note_at(&self, key: Key, path: String, what: What, default: Default) {
        self.desk.note_asked(self.node.origin.source, || Note::Asked { path, key, what, default });
    }

    /// Every entry; all names count as known.
    pub fn entries(&self) -> &'d [Entry] {
        let entries = self.node.entries();
        entries.iter().for_each(|entry| self.ask(&entry.key));
        let key = Key::other("", self.doc.unwrap_or_default());
        self.note_at(key, self.path.clone(), What::Map, Default::Nothing);
        entries
    }

    /// Notes that a needed key is not there, or holds nothing of use.
    pub fn missing(&self, key: Key, allowed: String) {
        let path = self.path_of(key.name);
        if let Some(entry) = self.node.get(key.name) {
            self.refuse(key, &entry.node, allowed, None);
            return;
        }
        self.desk.note_asked(self.node.origin.source, || Note::Missing { path: path.clone() });
        self.desk.fault(self.node.origin, &path, Problem::Missing { allowed }, Some(key.doc.to_owned()));
    }

    /// Notes that a value is not allowed.
    pub fn refuse(&self, key: Key, node: &Node, allowed: String, nearest: Option<String>) {
        self.refuse_at(key, node, self.path_of(key.name), allowed, nearest.map(Mend::Nearest));
    }

    /// Notes that a place is not allowed; a file in feet gets no hint about feet.
    pub fn refuse_place(&self, key: Key, node: &Node, allowed: String, hint: Option<&str>) {
        let hint = hint.filter(|_| !self.desk.in_feet(node.origin));
        self.refuse_at(key, node, self.path_of(key.name), allowed, hint.map(|hint| Mend::Hint(hint.into())));
    }

    fn refuse_at(&self, key: Key, node: &Node, path: String, allowed: String, mend: Option<Mend>) {
        let (nearest, hint) = match mend {
            Some(Mend::Nearest(word)) => (Some(word), None),
            Some(Mend::Hint(hint)) => (None, Some(hint)),
            None => (None, None),
        };
        let problem = Problem::NotAllowed { found: self.desk.written(node), allowed, nearest };
        let help = hint.map_or_else(|| key.doc.to_owned(), |hint| format!("{} {hint}", key.doc));
        self.desk.fault(node.origin, &path, problem, Some(help));
    }

    /// Says that what stands in this table as a whole is not allowed, under one of its keys.
    pub fn refuse_all(&self, key: Key, allowed: String) {
        self.refuse(key, self.node, allowed, None);
    }

    /// A nested table, if the key is there.
    pub fn maybe_table(&self, key: Key) -> Option<Reader<'d>> {
        let node = self.seek(key, What::Table, Default::Nothing)?;
        self.table_of(key, node, self.path_of(key.name))
    }

    /// The table in a node.
    pub fn table_in(&self, key: Key, node: &'d Node, path: String) -> Option<Reader<'d>> {
        self.note_at(key, path.clone(), What::Table, Default::Nothing);
        self.table_of(key, node, path)
    }

    fn table_of(&self, key: Key, node: &'d Node, path: String) -> Option<Reader<'d>> {
        if matches!(node.data, Data::Table(_)) {
            return Some(self.nested(node, path, Some(key.doc)));
        }
        self.refuse_at(key, node, path, "a table, { key = value, ... }".into(), None);
        None
    }

    /// A nested table that has to be there.
    pub fn table(&self, key: Key) -> Option<Reader<'d>> {
        if self.node.get(key.name).is_none() {
            self.missing(key, "a table".into());
        }
        self.maybe_table(key)
    }

    /// The members of a list; none if the key is not there.
    pub fn list(&self, key: Key) -> &'d [Node] {
        let node = self.seek(key, What::List, Default::Nothing);
        node.map_or(&[], |node| self.list_of(key, node))
    }

    /// The members of the list in a node.
    pub fn list_in(&self, key: Key, node: &'d Node) -> &'d [Node] {
        self.note(key, What::List, Default::Nothing);
        self.list_of(key, node)
    }

    fn list_of(&self, key: Key, node: &'d Node) -> &'d [Node] {
        if let Data::List(list) = &node.data {
            return list;
        }
        self.refuse(key, node, "a list, [...]".into(), None);
        &[]
    }
}

/// What a refusal offers.
enum Mend {
    Nearest(String),
    Hint(String),
}

impl Drop for Reader<'_> {
    /// Refuses every key that was not asked for.
    fn drop(&mut self) {
        let asked = self.asked.borrow();
        // A table that nobody looked into was given up for another fault.
        if asked.is_empty() {
            return;
        }
        for entry in self.node.entries() {
            if asked.contains(&entry.key) {
                continue;
            }
            // Lengths are listed in metres only; who writes feet is led to feet.
            let feet = entry.key.ends_with("_ft");
            let known = asked.iter().map(|name| match name.strip_suffix("_m") {
                Some(stem) if feet => format!("{stem}_ft"),
                _ => name.clone(),
            });
            let known: Vec<String> = known.collect();
            let problem = Problem::UnknownKey {
                allowed: one_of(asked.iter().map(String::as_str)),
                nearest: nearest(&entry.key, known.iter().map(String::as_str)),
            };
            let help = self.doc.map(str::to_owned);
            self.desk.fault(entry.key_origin, &self.path_of(&entry.key), problem, help);
        }
    }
}
