//! A typed reader over a table of a file.
//!
//! Each read names a key, which the table's declaration ([`Table`]) has to hold: from there come type, unit, range,
//! default and meaning. A fault is noted and a harmless stand-in returned, so that all faults of a file are found in
//! one go. When a reader is dropped, every key that was not asked for is refused.

mod number;
mod place;
mod word;

use std::cell::{Cell, RefCell};

use crate::declared::{Choice, Field, Kind, Table};
use crate::fault::{Problem, nearest, one_of};
use crate::key::Key;
use crate::schema::HEAD;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node};
use crate::value::same_key;

/// A table being read.
pub(crate) struct Reader<'d> {
    pub desk: &'d Desk,
    node: &'d Node,
    path: String,
    inside: Inside,
    /// What the table means, for unknown keys in it.
    doc: Option<&'static str>,
    asked: RefCell<Vec<String>>,
    /// Every entry is known, as in a table of made-up names.
    asked_all: Cell<bool>,
}

/// What a table may hold.
enum Inside {
    /// These keys; of those of which just one may stand, the one that does.
    Keys(&'static Table, Cell<Option<&'static Choice>>),
    /// Names that the user makes up, each with such a value.
    Names(&'static Field),
    /// The value, range and source of a number.
    Source,
}

impl<'d> Reader<'d> {
    /// A reader of a file's root. Takes the keys that every file may have.
    pub fn root(desk: &'d Desk, node: &'d Node, table: &'static Table) -> Reader<'d> {
        let reader = Reader::over(desk, node, table, String::new());
        for field in HEAD {
            if let Some(node) = reader.look(field.key.name) {
                reader.judge_head(field, node);
            }
        }
        reader
    }

    fn judge_head(&self, field: Field, node: &Node) {
        match field.kind {
            Kind::Word(words) => drop(self.word_of(field.key, node, &words.words())),
            Kind::Text(text) => drop(self.text_of(field.key, text, node, "a text in quotes")),
            _ => unreachable!("`{}` may not stand in every file", field.key.name),
        }
    }

    /// A reader of a table that stands by itself.
    pub fn over(desk: &'d Desk, node: &'d Node, table: &'static Table, path: String) -> Reader<'d> {
        Reader::new(desk, node, path, Inside::Keys(table, Cell::new(None)), None)
    }

    fn new(
        desk: &'d Desk,
        node: &'d Node,
        path: String,
        inside: Inside,
        doc: Option<&'static str>,
    ) -> Reader<'d> {
        Reader { desk, node, path, inside, doc, asked: RefCell::new(Vec::new()), asked_all: Cell::new(false) }
    }

    /// The declaration of a key of this table. To read one that is not declared is a fault of the loader.
    fn field(&self, name: &str) -> Field {
        let found = match &self.inside {
            Inside::Keys(table, chosen) => {
                #[cfg(test)]
                crate::tests::declared::asked(table, chosen.get(), name);
                let beside = chosen.get().into_iter().flat_map(|choice| choice.with.iter().copied());
                let choices = table.choices.iter().map(|choice| choice.field);
                beside.chain(choices).chain(table.fields()).find(|field| field.key.name == name)
            }
            Inside::Names(each) => Some(**each),
            Inside::Source => None,
        };
        found.unwrap_or_else(|| unreachable!("`{}` is read, but not declared", self.path_of(name)))
    }

    /// Whether a key of this name may stand here.
    pub fn declares(&self, name: &str) -> bool {
        self.declared().contains(&name)
    }

    /// The names of all keys that may stand here, in the order in which they are declared.
    fn declared(&self) -> Vec<&'static str> {
        let Inside::Keys(table, chosen) = &self.inside else { return Vec::new() };
        let choices = table.choices.iter().map(|choice| choice.field);
        let beside = chosen.get().into_iter().flat_map(|choice| choice.with.iter().copied());
        table.fields().chain(choices).chain(beside).map(|field| field.key.name).collect()
    }

    /// The dotted path of a key of this table.
    pub fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// The node itself.
    pub fn node(&self) -> &'d Node {
        self.node
    }

    /// True where a key of this name stands here, a length under either of its names; it is not known by that.
    pub fn has(&self, name: &str) -> bool {
        self.entry(name).is_some()
    }

    /// The entry of a key, a length under either of its names.
    fn entry(&self, name: &str) -> Option<&'d Entry> {
        self.node.entries().iter().find(|entry| same_key(&entry.key, name))
    }

    /// The value of a key, which counts as known from now on.
    pub fn find(&self, name: &str) -> Option<&'d Node> {
        self.field(name);
        self.look(name)
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

    /// Of the keys of which just one may stand, the first that does; from now on those that go with it are known.
    pub fn choose(&self) -> Option<&'static str> {
        let Inside::Keys(table, chosen) = &self.inside else { return None };
        let choice = table.choices.iter().find(|choice| self.has(choice.field.key.name));
        chosen.set(choice);
        match choice {
            Some(choice) => self.ask(choice.field.key.name),
            None => table.choices.iter().for_each(|choice| self.ask(choice.field.key.name)),
        }
        choice.map(|choice| choice.field.key.name)
    }

    /// The keys of which just one may stand, in words.
    pub fn choices(&self) -> String {
        let Inside::Keys(table, _) = &self.inside else { return String::new() };
        one_of(table.choices.iter().map(|choice| choice.field.key.name))
    }

    /// The same, what it does not ask for being read elsewhere.
    pub fn all_known(self) -> Reader<'d> {
        self.asked_all.set(true);
        self
    }

    /// Every entry of a table of made-up names.
    pub fn entries(&self) -> &'d [Entry] {
        self.asked_all.set(true);
        self.node.entries()
    }

    /// Notes that a needed key is not there, or holds nothing of use.
    pub fn missing(&self, name: &str, allowed: String) {
        self.missing_of(self.field(name).key, allowed);
    }

    fn missing_of(&self, key: Key, allowed: String) {
        if let Some(entry) = self.node.get(key.name) {
            self.refuse_at(key, &entry.node, self.path_of(key.name), allowed, None);
            return;
        }
        let path = self.path_of(key.name);
        self.desk.fault(self.node.origin, &path, Problem::Missing { allowed }, Some(key.doc.to_owned()));
    }

    /// Notes that a value is not allowed.
    pub fn refuse(&self, name: &str, node: &Node, allowed: String, nearest: Option<String>) {
        let mend = nearest.map(Mend::Nearest);
        self.refuse_at(self.field(name).key, node, self.path_of(name), allowed, mend);
    }

    /// Notes that the value of a key is not allowed, if the key is there, under the name that it has there.
    pub fn refuse_standing(&self, name: &str, allowed: &str) -> bool {
        let Some(entry) = self.entry(name) else { return false };
        self.refuse_at(self.field(name).key, &entry.node, self.path_of(&entry.key), allowed.to_owned(), None);
        true
    }

    /// The same with what to write instead.
    pub fn refuse_hinting(&self, name: &str, allowed: &str, hint: &str) {
        let Some(entry) = self.entry(name) else { return };
        let mend = Some(Mend::Hint(hint.into()));
        self.refuse_at(self.field(name).key, &entry.node, self.path_of(&entry.key), allowed.to_owned(), mend);
    }

    /// A value as it stands in its file.
    pub fn slice(&self, node: &Node) -> String {
        self.desk.slice(node)
    }

    /// Notes that a place is not allowed; a file in feet gets no hint about feet.
    pub fn refuse_place(&self, name: &str, node: &Node, allowed: String, hint: Option<&str>) {
        let hint = hint.filter(|_| !self.desk.in_feet(node.origin));
        let mend = hint.map(|hint| Mend::Hint(hint.into()));
        self.refuse_at(self.field(name).key, node, self.path_of(name), allowed, mend);
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

    /// A nested table, if the key is there; a fault where it has to be.
    pub fn table(&self, name: &str) -> Option<Reader<'d>> {
        if self.field(name).is_needed() && !self.has(name) {
            self.missing(name, "a table".into());
        }
        self.maybe_table(name)
    }

    /// A nested table, if the key is there.
    pub fn maybe_table(&self, name: &str) -> Option<Reader<'d>> {
        let node = self.find(name)?;
        self.table_of(name, node, self.path_of(name))
    }

    /// The tables of a list, numbered from 1 in their paths.
    pub fn tables(&self, name: &str) -> Vec<Reader<'d>> {
        let list = self.list(name).iter().enumerate();
        list.filter_map(|(nth, node)| {
            self.table_of(name, node, format!("{}.{}", self.path_of(name), nth + 1))
        })
        .collect()
    }

    /// The table under a made-up name.
    pub fn table_under(&self, entry: &'d Entry) -> Option<Reader<'d>> {
        self.table_of(&entry.key, &entry.node, self.path_of(&entry.key))
    }

    fn table_of(&self, name: &str, node: &'d Node, path: String) -> Option<Reader<'d>> {
        let field = self.field(name);
        let inside = match field.kind {
            Kind::Table(table) | Kind::Layer(_, table) | Kind::Tables(table, _) => {
                Inside::Keys(table, Cell::new(None))
            }
            Kind::Map(each) => Inside::Names(each),
            _ => unreachable!("`{path}` is read as a table, but not declared as one"),
        };
        if matches!(node.data, Data::Table(_)) {
            return Some(Reader::new(self.desk, node, path, inside, Some(field.key.doc)));
        }
        self.refuse_at(field.key, node, path, "a table, { key = value, ... }".into(), None);
        None
    }

    /// The members of a list; none if the key is not there.
    pub fn list(&self, name: &str) -> &'d [Node] {
        self.find(name).map_or(&[], |node| self.list_in(name, node))
    }

    /// The members of the list in a node.
    pub fn list_in<'n>(&self, name: &str, node: &'n Node) -> &'n [Node] {
        debug_assert!(
            matches!(self.field(name).kind, Kind::List(..) | Kind::Tables(..)),
            "`{name}` is no list"
        );
        if let Data::List(list) = &node.data {
            return list;
        }
        self.refuse(name, node, "a list, [...]".into(), None);
        &[]
    }
}

impl Reader<'_> {
    /// Refuses a key that is none of those that were asked for.
    fn unknown(&self, entry: &Entry, asked: &[String]) {
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

/// What a refusal offers.
enum Mend {
    Nearest(String),
    Hint(String),
}

impl Drop for Reader<'_> {
    /// Refuses every key that was not asked for.
    fn drop(&mut self) {
        if self.asked_all.get() {
            return;
        }
        let mut asked = self.asked.take();
        // A table that nobody looked into was given up for another fault.
        if asked.is_empty() || self.node.entries().iter().all(|entry| asked.contains(&entry.key)) {
            return;
        }
        let declared = self.declared();
        // Those that every file may have stand first; a length in feet stands with its metres.
        asked.sort_by_key(|name| {
            let metres = name.strip_suffix("_ft").map(|stem| format!("{stem}_m"));
            declared.iter().position(|known| known == name || Some(*known) == metres.as_deref())
        });
        for entry in self.node.entries().iter().filter(|entry| !asked.contains(&entry.key)) {
            // What would not be shown need not be guessed at.
            if self.desk.is_full() {
                self.desk.count(entry.key_origin);
            } else {
                self.unknown(entry, &asked);
            }
        }
    }
}
