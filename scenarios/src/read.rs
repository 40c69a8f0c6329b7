//! A typed reader over a table of a file.
//!
//! Each read names its [`Key`]; a fault is noted and a harmless stand-in returned, so that all faults of a
//! file are found in one go. When a reader is dropped, every key that was not asked for is refused. A desk
//! that takes notes learns of every key from the same calls.

use std::cell::RefCell;

use engine::math::{Vec2, vec2};

use crate::asked::{Default, Note, What, plain};
use crate::bundled;
use crate::fault::{Problem, nearest, one_of};
use crate::hint::{self, Unit};
use crate::key::Key;
use crate::source::{Desk, Named};
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

    /// The value of a length that is given in feet under its other name, if the key is there.
    fn find_feet(&self, key: Key) -> Option<&'d Node> {
        let name = key.in_feet()?;
        // Known where it is used, but not named beside each length in metres.
        let node = self.node.get(&name).map(|entry| &entry.node)?;
        self.ask(&name);
        Some(node)
    }

    /// A length, or another number, by either of its names; true where it is given in feet by name.
    fn either(&self, key: Key) -> Option<(&'d Node, bool)> {
        match (self.look(key.name), self.find_feet(key)) {
            (Some(_), Some(feet)) => {
                let both = key.in_feet().unwrap_or_default();
                let allowed = format!("one of {} and {both}, not both", key.name);
                self.refuse_at(key, feet, self.path_of(&both), allowed, None);
                None
            }
            (Some(node), None) => Some((node, false)),
            (None, Some(node)) => Some((node, true)),
            (None, None) => None,
        }
    }

    fn maybe_number_as(&self, key: Key, what: What, default: Default) -> Option<f32> {
        self.note(key, what, default);
        let (node, by_name) = self.either(key)?;
        let unit = match (by_name, key.unit == "m" && key.in_feet().is_none()) {
            (true, _) => Unit::FeetByName,
            (false, true) => self.file_unit(node),
            (false, false) => Unit::Own,
        };
        Some(self.judge(key, node, unit))
    }

    fn file_unit(&self, node: &Node) -> Unit {
        if self.desk.in_feet(node.origin) { Unit::FileFeet } else { Unit::FileMetres }
    }

    /// A number, if the key is there. A length may be given in feet under its other name.
    pub fn maybe_number(&self, key: Key) -> Option<f32> {
        self.maybe_number_as(key, What::Number, Default::Nothing)
    }

    /// The number in a node, held to the key's range.
    fn judge(&self, key: Key, node: &Node, unit: Unit) -> f32 {
        self.judge_at(key, node, unit, None)
    }

    fn judge_at(&self, key: Key, node: &Node, unit: Unit, path: Option<String>) -> f32 {
        if let Some(number) = node.number().map(|number| number * unit.scale())
            && key.holds(number)
        {
            return number as f32;
        }
        let range = key.allowed_in(unit.is_feet());
        let allowed = if node.number().is_some() { range } else { format!("a number, {range}") };
        let own = || match (unit, key.in_feet()) {
            (Unit::FeetByName, Some(feet)) => self.path_of(&feet),
            _ => self.path_of(key.name),
        };
        let mend = hint::for_number(&key, &node.data, unit).map(Mend::Hint);
        self.refuse_at(key, node, path.unwrap_or_else(own), allowed, mend);
        // As near as may be, so that what hangs on it is not refused as well.
        let number = node.number().filter(|number| number.is_finite());
        number.map_or(key.low, |number| (number * unit.scale()).clamp(key.low, key.high)) as f32
    }

    /// The number in a node of a table whose keys are made up, under its own path.
    pub fn number_in(&self, key: Key, node: &Node, path: String) -> Option<f32> {
        self.note_at(key, path.clone(), What::Number, Default::Nothing);
        let fits = node.number().is_some_and(|number| key.holds(number));
        let number = self.judge_at(key, node, Unit::Own, Some(path));
        fits.then_some(number)
    }

    /// A number that has to be there.
    pub fn number(&self, key: Key) -> f32 {
        self.maybe_number(key).unwrap_or_else(|| {
            if self.node.get(key.name).is_none() {
                self.missing(key, key.allowed());
            }
            key.low as f32
        })
    }

    /// A number, or what stands in for it.
    pub fn number_or(&self, key: Key, default: f32) -> f32 {
        let written = Default::Value(format!("{default}"));
        self.maybe_number_as(key, What::Number, written).unwrap_or(default)
    }

    /// A number that lies over that of a file or a level, if the key is there.
    pub fn maybe_number_over(&self, key: Key) -> Option<f32> {
        self.maybe_number_as(key, What::Number, Default::FileBelow)
    }

    /// A number, or that of the file or the level that this table lies over.
    pub fn number_over(&self, key: Key, below: f32) -> f32 {
        self.maybe_number_over(key).unwrap_or(below)
    }

    /// A number or the word `none`, if the key is there.
    pub fn number_or_none(&self, key: Key, default: Default) -> Option<Option<f32>> {
        let none = |node: &Node| matches!(&node.data, Data::Text(text) if text == "none");
        let found = self.look(key.name);
        if found.is_some_and(none) {
            self.note(key, What::NumberOrNone, default);
            return Some(None);
        }
        if let Some(node) = found.filter(|node| node.number().is_none()) {
            self.note(key, What::NumberOrNone, default);
            let mend = hint::for_number(&key, &node.data, Unit::Own).map(Mend::Hint);
            let allowed = format!("a number, {}, or \"none\"", key.allowed());
            self.refuse_at(key, node, self.path_of(key.name), allowed, mend);
            return None;
        }
        self.maybe_number_as(key, What::NumberOrNone, default).map(Some)
    }

    /// A number written as `{ value, range, source }`: the value, held to both ranges.
    pub fn sourced(&self, key: Key) -> f32 {
        self.note(key, What::Sourced, Default::Nothing);
        let Some((node, by_name)) = self.either(key) else {
            if self.node.get(key.name).is_none() {
                self.missing(key, "a table { value, range, source }".into());
            }
            return key.low as f32;
        };
        let unit = if by_name { Unit::FeetByName } else { Unit::Own };
        let name = key.in_feet().filter(|_| by_name).unwrap_or_else(|| key.name.to_owned());
        let Data::Table(_) = node.data else {
            let allowed = format!("a table {{ value, range, source }}, the value {}", key.allowed());
            let hint = node.number().map(|number| {
                let number = plain(number);
                Mend::Hint(format!(
                    "Write {{ value = {number}, range = [{number}, {number}], source = \"assumed\" }}, with the \
                     range that you think possible and the source that you have."
                ))
            });
            self.refuse_at(key, node, self.path_of(&name), allowed, hint);
            return key.low as f32;
        };
        let table = self.nested(node, self.path_of(&name), Some(key.doc));
        table.value_of_source(key, unit)
    }

    /// The value in a table `{ value, range, source }`.
    fn value_of_source(&self, key: Key, unit: Unit) -> f32 {
        let (of_value, of_range) = (Key { name: "value", ..key }, Key { name: "range", ..key });
        let source = Key::other("source", "Where the value comes from, or 'assumed'.");
        let value = match self.look("value") {
            Some(node) => self.judge(of_value, node, unit),
            None => {
                self.missing(of_value, key.allowed_in(unit.is_feet()));
                key.low as f32
            }
        };
        let within = || format!("[low, high], the lower first, within {}", key.allowed_in(unit.is_feet()));
        match self.look("range") {
            None => self.missing(of_range, within()),
            Some(node) => {
                let members = node.members();
                let ends = members.iter().map(|end| end.number().map(|end| end * unit.scale()));
                match ends.collect::<Option<Vec<f64>>>().as_deref() {
                    Some([low, high]) if low <= high && key.holds(*low) && key.holds(*high) => {
                        if (value < *low as f32 || value > *high as f32)
                            && let Some(node) = self.look("value")
                        {
                            let [low, high] = [&members[0], &members[1]].map(|end| self.desk.written(end));
                            self.refuse(of_value, node, format!("its own range, {low} to {high}"), None);
                        }
                    }
                    _ => self.refuse(of_range, node, within(), None),
                }
            }
        }
        if self.maybe_text(source).is_none() && self.node.get("source").is_none() {
            self.missing(source, "a text".into());
        }
        value
    }

    /// A whole number, or what stands in for it.
    pub fn whole_or(&self, key: Key, default: u64) -> u64 {
        let written = Default::Value(default.to_string());
        let Some(node) = self.seek(key, What::Whole, written) else { return default };
        if let Data::Whole(whole) = node.data
            && key.holds(whole as f64)
        {
            return u64::try_from(whole).unwrap_or(default);
        }
        let mend = match node.data {
            Data::Number(number) if number.fract() == 0.0 && key.holds(number) => {
                Some(Mend::Hint(format!("Write {number:.0}, without a point.")))
            }
            _ => hint::for_number(&key, &node.data, Unit::Own).map(Mend::Hint),
        };
        let allowed = format!("a whole number, {}", key.allowed());
        self.refuse_at(key, node, self.path_of(key.name), allowed, mend);
        default
    }

    /// True or false; false if the key is not there.
    pub fn flag(&self, key: Key) -> bool {
        let node = self.seek(key, What::Flag, Default::Value("false".into()));
        node.is_some_and(|node| self.flag_of(key, node))
    }

    /// The switch in a node.
    pub fn flag_in(&self, key: Key, node: &Node) -> bool {
        self.note(key, What::Flag, Default::Nothing);
        self.flag_of(key, node)
    }

    fn flag_of(&self, key: Key, node: &Node) -> bool {
        if let Data::Flag(flag) = node.data {
            return flag;
        }
        let hint = matches!(&node.data, Data::Text(text) if text == "true" || text == "false")
            .then(|| Mend::Hint("Write it without quotes.".into()));
        self.refuse_at(key, node, self.path_of(key.name), "true or false".into(), hint);
        false
    }

    /// A text, if the key is there.
    pub fn maybe_text(&self, key: Key) -> Option<&'d str> {
        let node = self.seek(key, What::Text, Default::Nothing)?;
        self.text_of(key, node, "a text in quotes")
    }

    /// A text, or what stands in for it.
    pub fn text_or(&self, key: Key, default: &'static str) -> &'d str {
        let node = self.seek(key, What::Text, Default::Value(format!("\"{default}\"")));
        node.and_then(|node| self.text_of(key, node, "a text in quotes")).unwrap_or(default)
    }

    /// The text in a node.
    pub fn text_in(&self, key: Key, node: &'d Node, allowed: &str) -> Option<&'d str> {
        self.note(key, What::Text, Default::Nothing);
        self.text_of(key, node, allowed)
    }

    fn text_of(&self, key: Key, node: &'d Node, allowed: &str) -> Option<&'d str> {
        match &node.data {
            Data::Text(text) => Some(text),
            _ => {
                self.refuse(key, node, allowed.to_owned(), None);
                None
            }
        }
    }

    /// One of a few words, or what stands in for it.
    pub fn word_or<T: Copy + PartialEq>(&self, key: Key, words: &[(&str, T)], default: T) -> T {
        let word = words.iter().find(|(_, meaning)| *meaning == default);
        let written = word.map_or(Default::Nothing, |(word, _)| Default::Value(format!("\"{word}\"")));
        self.word_over(key, words, (default, written))
    }

    /// One of a few words, or what stands in for it, with a word for that.
    pub fn word_over<T: Copy>(&self, key: Key, words: &[(&str, T)], (default, written): (T, Default)) -> T {
        let what = What::Word(words.iter().map(|(word, _)| (*word).to_owned()).collect());
        let node = self.seek(key, what, written);
        node.and_then(|node| self.word_of(key, node, words)).unwrap_or(default)
    }

    /// One of the names that another file gives, or a default among them.
    pub fn name_or<'n>(&self, key: Key, names: &[&'n str], default: &'n str) -> Option<&'n str> {
        let what = What::Name(names.iter().map(|name| (*name).to_owned()).collect());
        let words: Vec<(&str, &'n str)> = names.iter().map(|name| (*name, *name)).collect();
        match self.seek(key, what, Default::Value(format!("\"{default}\""))) {
            Some(node) => self.word_of(key, node, &words),
            None => Some(default),
        }
    }

    /// The meaning of the word in a node.
    pub fn word_in<T: Copy>(&self, key: Key, node: &Node, words: &[(&str, T)]) -> Option<T> {
        let what = What::Word(words.iter().map(|(word, _)| (*word).to_owned()).collect());
        self.note(key, what, Default::Nothing);
        self.word_of(key, node, words)
    }

    fn word_of<T: Copy>(&self, key: Key, node: &Node, words: &[(&str, T)]) -> Option<T> {
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

    /// Notes that a key takes the name of a column.
    pub fn note_column(&self, key: Key) {
        self.note(key, What::Column, Default::Nothing);
    }

    /// The bundled or user's file that a key names, or the bundled `default`.
    pub fn file_or(&self, key: Key, folder: &'static str, default: &str) -> Option<Named> {
        let written = Default::Value(format!("\"{default}\""));
        match self.seek(key, What::File(folder), written) {
            Some(node) => self.desk.open_named(folder, node, &self.path_of(key.name)),
            None => self.desk.bundled(folder, default),
        }
    }

    /// The file that a key names; the key has to be there.
    pub fn file(&self, key: Key, folder: &'static str) -> Option<Named> {
        if let Some(node) = self.seek(key, What::File(folder), Default::Nothing) {
            return self.desk.open_named(folder, node, &self.path_of(key.name));
        }
        self.missing(key, format!("{}, or a path ending in .toml", one_of(bundled::names(folder))));
        None
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

    /// A place, if the key is there.
    pub fn maybe_place(&self, key: Key) -> Option<Vec2> {
        self.seek(key, What::Place, Default::Nothing).map(|node| self.place_of(key, node))
    }

    /// A place, or that of the file that this table lies over.
    pub fn place_over(&self, key: Key) -> Option<Vec2> {
        self.seek(key, What::Place, Default::FileBelow).map(|node| self.place_of(key, node))
    }

    /// A place that has to be there.
    pub fn place(&self, key: Key) -> Vec2 {
        self.maybe_place(key).unwrap_or_else(|| {
            self.missing(key, "a place [x, y]".into());
            Vec2::RIM
        })
    }

    /// Places in a list of just so many; `None` where it is not there or not so long.
    pub fn places(&self, key: Key, (count, fixed): (usize, bool), allowed: String) -> Option<Vec<Vec2>> {
        let node = self.seek(key, What::Places(fixed.then_some(count)), Default::Nothing)?;
        if node.members().len() != count {
            self.refuse(key, node, allowed, None);
            return None;
        }
        Some(node.members().iter().map(|node| self.place_of(key, node)).collect())
    }

    /// The place `[x, y]` in a node.
    fn place_of(&self, key: Key, node: &Node) -> Vec2 {
        if let [x, y] = node.members() {
            let unit = self.file_unit(node);
            let fits = |at: &Node| at.number().is_some_and(|number| key.holds(number * unit.scale()));
            let place = vec2(self.judge(key, x, unit), self.judge(key, y, unit));
            // What was refused by itself is not refused again as no place on the floor.
            return if fits(x) && fits(y) { place } else { Vec2::RIM };
        }
        self.refuse(key, node, "a place [x, y]".into(), None);
        Vec2::RIM
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
