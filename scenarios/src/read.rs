//! A typed reader over a table of a file.
//!
//! Each read names its [`Key`]; a fault is noted and a harmless stand-in returned, so that all faults of a
//! file are found in one go. When a reader is dropped, every key that was not asked for is refused.

use std::cell::RefCell;

use engine::math::{Vec2, vec2};

use crate::fault::{Problem, nearest, one_of};
use crate::key::Key;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node};

/// Metres in a foot.
const FOOT_M: f64 = 0.3048;

/// A table being read.
pub(crate) struct Reader<'d> {
    pub desk: &'d Desk,
    node: &'d Node,
    path: String,
    /// Metres in the file's unit of length, for places.
    scale: f64,
    asked: RefCell<Vec<String>>,
}

impl<'d> Reader<'d> {
    /// A reader of a file's root. Takes the keys `units` and `line` that every file may have.
    pub fn root(desk: &'d Desk, node: &'d Node) -> Reader<'d> {
        let mut reader =
            Reader { desk, node, path: String::new(), scale: 1.0, asked: RefCell::new(Vec::new()) };
        let units = Key::other("units", "Unit of places without a unit of their own.");
        reader.scale = reader.word_or(units, &[("m", 1.0), ("ft", FOOT_M)], 1.0);
        reader.maybe_text(Key::other("line", "One line for the catalog."));
        reader
    }

    /// A reader of a nested table.
    pub fn nested(&self, node: &'d Node, path: String) -> Reader<'d> {
        Reader { desk: self.desk, node, path, scale: self.scale, asked: RefCell::new(Vec::new()) }
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
    pub fn find(&self, name: &str) -> Option<&'d Node> {
        self.ask(name);
        self.node.get(name).map(|entry| &entry.node)
    }

    fn ask(&self, name: &str) {
        let mut asked = self.asked.borrow_mut();
        if !asked.iter().any(|known| known == name) {
            asked.push(name.to_owned());
        }
    }

    /// Every entry; all names count as known.
    pub fn entries(&self) -> &'d [Entry] {
        let entries = self.node.entries();
        entries.iter().for_each(|entry| self.ask(&entry.key));
        entries
    }

    /// Notes that a needed key is not there.
    pub fn missing(&self, key: Key, allowed: String) {
        self.desk.fault(
            self.node.origin,
            &self.path_of(key.name),
            Problem::Missing { allowed },
            Some(key.doc),
        );
    }

    /// Notes that a value is not allowed.
    pub fn refuse(&self, key: Key, node: &Node, allowed: String, nearest: Option<String>) {
        let problem = Problem::NotAllowed { found: self.desk.written(node), allowed, nearest };
        self.desk.fault(node.origin, &self.path_of(key.name), problem, Some(key.doc));
    }

    /// Says that what stands in this table as a whole is not allowed, under one of its keys.
    pub fn refuse_all(&self, key: Key, allowed: String) {
        self.refuse(key, self.node, allowed, None);
    }

    /// A number, if the key is there. A length may be given in feet under its other name.
    pub fn maybe_number(&self, key: Key) -> Option<f32> {
        let metres = self.find(key.name);
        let feet = key.in_feet().and_then(|name| {
            // Known where it is used, but not named beside each length in metres.
            let node = self.node.get(&name).map(|entry| &entry.node);
            if node.is_some() {
                self.ask(&name);
            }
            node
        });
        match (metres, feet) {
            (Some(_), Some(feet)) => {
                let both = key.in_feet().unwrap_or_default();
                let allowed = format!("one of {} and {both}", key.name);
                let problem = Problem::NotAllowed { found: self.desk.written(feet), allowed, nearest: None };
                self.desk.fault(feet.origin, &self.path_of(&both), problem, Some(key.doc));
                None
            }
            (Some(node), None) => Some(self.judge(key, node, 1.0)),
            (None, Some(node)) => Some(self.judge(key, node, FOOT_M)),
            (None, None) => None,
        }
    }

    /// The number in a node, held to the key's range.
    fn judge(&self, key: Key, node: &Node, scale: f64) -> f32 {
        let number = match node.data {
            Data::Whole(whole) => whole as f64 * scale,
            Data::Number(number) => number * scale,
            _ => f64::NAN,
        };
        if number >= key.low && number <= key.high {
            return number as f32;
        }
        self.refuse(key, node, key.allowed(), None);
        key.low as f32
    }

    /// A number that has to be there.
    pub fn number(&self, key: Key) -> f32 {
        self.maybe_number(key).unwrap_or_else(|| {
            self.missing(key, key.allowed());
            key.low as f32
        })
    }

    /// A number, or what stands in for it.
    pub fn number_or(&self, key: Key, default: f32) -> f32 {
        self.maybe_number(key).unwrap_or(default)
    }

    /// A whole number, if the key is there.
    pub fn maybe_whole(&self, key: Key) -> Option<u64> {
        let node = self.find(key.name)?;
        if let Data::Whole(whole) = node.data
            && whole as f64 >= key.low
            && whole as f64 <= key.high
        {
            return u64::try_from(whole).ok();
        }
        self.refuse(key, node, format!("a whole number from {}", key.allowed()), None);
        None
    }

    /// True or false; false if the key is not there.
    pub fn flag(&self, key: Key) -> bool {
        self.find(key.name).is_some_and(|node| self.flag_in(key, node))
    }

    /// The switch in a node.
    pub fn flag_in(&self, key: Key, node: &Node) -> bool {
        if let Data::Flag(flag) = node.data {
            return flag;
        }
        self.refuse(key, node, "true or false".into(), None);
        false
    }

    /// A text, if the key is there.
    pub fn maybe_text(&self, key: Key) -> Option<&'d str> {
        let node = self.find(key.name)?;
        if let Data::Text(text) = &node.data {
            return Some(text);
        }
        self.refuse(key, node, "a text".into(), None);
        None
    }

    /// One of a few words, or what stands in for it.
    pub fn word_or<T: Copy>(&self, key: Key, words: &[(&str, T)], default: T) -> T {
        self.find(key.name).map_or(default, |node| self.word_in(key, node, words).unwrap_or(default))
    }

    /// The meaning of the word in a node.
    pub fn word_in<T: Copy>(&self, key: Key, node: &Node, words: &[(&str, T)]) -> Option<T> {
        let known = || words.iter().map(|(word, _)| *word);
        let Data::Text(text) = &node.data else {
            self.refuse(key, node, one_of(known()), None);
            return None;
        };
        let meaning = words.iter().find(|(word, _)| word == text).map(|(_, meaning)| *meaning);
        if meaning.is_none() {
            self.refuse(key, node, one_of(known()), nearest(text, known()));
        }
        meaning
    }

    /// A nested table, if the key is there.
    pub fn maybe_table(&self, key: Key) -> Option<Reader<'d>> {
        let node = self.find(key.name)?;
        self.table_in(key, node, self.path_of(key.name))
    }

    /// The table in a node.
    pub fn table_in(&self, key: Key, node: &'d Node, path: String) -> Option<Reader<'d>> {
        if matches!(node.data, Data::Table(_)) {
            return Some(self.nested(node, path));
        }
        self.refuse(key, node, "a table".into(), None);
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
        self.find(key.name).map_or(&[], |node| self.list_in(key, node))
    }

    /// The members of the list in a node.
    pub fn list_in(&self, key: Key, node: &'d Node) -> &'d [Node] {
        if let Data::List(list) = &node.data {
            return list;
        }
        self.refuse(key, node, "a list".into(), None);
        &[]
    }

    /// A place, if the key is there.
    pub fn maybe_place(&self, key: Key) -> Option<Vec2> {
        self.find(key.name).map(|node| self.place_in(key, node))
    }

    /// A place that has to be there.
    pub fn place(&self, key: Key) -> Vec2 {
        self.maybe_place(key).unwrap_or_else(|| {
            self.missing(key, "a place [x, y]".into());
            Vec2::RIM
        })
    }

    /// The place `[x, y]` in a node.
    pub fn place_in(&self, key: Key, node: &Node) -> Vec2 {
        if let Data::List(list) = &node.data
            && let [x, y] = list.as_slice()
        {
            return vec2(self.judge(key, x, self.scale), self.judge(key, y, self.scale));
        }
        self.refuse(key, node, "a place [x, y]".into(), None);
        Vec2::RIM
    }
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
            let known = || asked.iter().map(String::as_str);
            let problem =
                Problem::UnknownKey { allowed: one_of(known()), nearest: nearest(&entry.key, known()) };
            self.desk.fault(entry.key_origin, &self.path_of(&entry.key), problem, None);
        }
    }
}
