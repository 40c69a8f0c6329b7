//! Reading switches, texts, words and names of files.

use std::rc::Rc;

use crate::bundled;
use crate::declared::{Kind, Need};
use crate::fault::{Problem, nearest, one_of};
use crate::key::Key;
use crate::read::{Mend, Reader};
use crate::source::Named;
use crate::text::{Text, shown};
use crate::tree::{Data, Entry, Node};

impl<'d> Reader<'d> {
    /// True or false; false if the key is not there.
    pub fn flag(&self, name: &str) -> bool {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::Flag), "`{name}` is no switch");
        self.find(name).is_some_and(|node| self.flag_of(field.key, node, "true or false"))
    }

    /// A key that says what it says by standing there: a fault where it is anything but `true`.
    pub fn only_true(&self, name: &str) {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::True), "`{name}` may be false");
        if let Some(node) = self.find(name)
            && !self.flag_of(field.key, node, "true")
            && matches!(node.data, Data::Flag(false))
        {
            self.refuse(name, node, "true".into(), None);
        }
    }

    fn flag_of(&self, key: Key, node: &Node, allowed: &str) -> bool {
        if let Data::Flag(flag) = node.data {
            return flag;
        }
        let hint = matches!(&node.data, Data::Text(text) if text == "true" || text == "false")
            .then(|| Mend::Hint("Write it without quotes.".into()));
        self.refuse_at(key, node, self.path_of(key.name), allowed.into(), hint);
        false
    }

    /// A text, if the key is there and holds one that may stand there.
    pub fn maybe_text(&self, name: &str) -> Option<&'d str> {
        let field = self.field(name);
        let Kind::Text(text) = field.kind else { unreachable!("`{name}` is no text") };
        self.text_of(field.key, text, self.find(name)?, "a text in quotes")
    }

    /// A text, or what stands in for it.
    pub fn text(&self, name: &str) -> &'d str {
        let default = if let Need::Word(default) = self.field(name).need { default } else { "" };
        self.maybe_text(name).unwrap_or(default)
    }

    /// The text in a member of a list.
    pub fn text_in(&self, name: &str, node: &'d Node, allowed: &str) -> Option<&'d str> {
        let field = self.field(name);
        let Kind::List(&Kind::Text(text), _) = field.kind else { unreachable!("`{name}` lists no texts") };
        self.text_of(field.key, text, node, allowed)
    }

    pub(super) fn text_of(&self, key: Key, kind: Text, node: &'d Node, allowed: &str) -> Option<&'d str> {
        let Data::Text(text) = &node.data else {
            self.refuse_at(key, node, self.path_of(key.name), allowed.to_owned(), None);
            return None;
        };
        let Some(found) = kind.fault(text, "a text", &self.desk.written(node)) else { return Some(text) };
        let problem = Problem::NotAllowed { found, allowed: kind.allowed(), nearest: None };
        self.desk.fault(node.origin, &self.path_of(key.name), problem, Some(key.doc.to_owned()));
        None
    }

    /// Holds a name that the user has made up, the key of a table, to what a name may be.
    pub fn judge_name(&self, entry: &Entry) {
        let shown = shown(&entry.key);
        if let Some(found) = Text::Name.fault(&entry.key, "a name", &shown) {
            let problem = Problem::NotAllowed { found, allowed: Text::Name.allowed(), nearest: None };
            self.desk.fault(
                entry.key_origin,
                &self.path_of(&entry.key),
                problem,
                self.doc.map(str::to_owned),
            );
        }
    }

    /// The meaning of one of a few words, or of the one that stands in for it.
    pub fn word<T: Copy>(&self, name: &str, words: &[(&'static str, T)]) -> T {
        let need = self.field(name).need;
        self.maybe_word(name, words).unwrap_or_else(|| {
            let default =
                words.iter().find(|(word, _)| matches!(need, Need::Word(default) if *word == default));
            default.map_or_else(|| unreachable!("no word stands in for `{name}`"), |(_, meaning)| *meaning)
        })
    }

    /// The meaning of one of a few words, if the key is there. `words` are those that are declared, or some of them.
    pub fn maybe_word<T: Copy>(&self, name: &str, words: &[(&'static str, T)]) -> Option<T> {
        self.find(name).and_then(|node| self.word_in(name, node, words))
    }

    /// The meaning of the word in a node.
    pub fn word_in<T: Copy>(&self, name: &str, node: &Node, words: &[(&'static str, T)]) -> Option<T> {
        let field = self.field(name);
        debug_assert!(
            matches!(field.kind, Kind::Word(declared) | Kind::List(&Kind::Word(declared), _)
                if words.iter().all(|(word, _)| declared.words().contains(word))),
            "`{name}` has words that are not declared"
        );
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        self.word_of(field.key, node, &known).map(|at| words[at].1)
    }

    /// The meanings of the words in a list; a fault where it is empty and must not be.
    pub fn words<T: Copy>(&self, name: &str, node: &Node, words: &[(&'static str, T)]) -> Vec<T> {
        let list = self.list_in(name, node);
        if list.is_empty() && matches!(self.field(name).kind, Kind::List(_, count) if !count.holds(0)) {
            let known = one_of(words.iter().map(|(word, _)| *word));
            self.refuse(name, node, format!("a list of {known}"), None);
        }
        list.iter().filter_map(|node| self.word_in(name, node, words)).collect()
    }

    /// One of the names that another file gives, or a default among them: its number.
    pub fn name(&self, name: &str, names: &[&str]) -> Option<usize> {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::Rule(_)), "`{name}` names no rule");
        self.find(name).and_then(|node| self.word_of(field.key, node, names))
    }

    /// Which of these words stands in a node.
    pub(super) fn word_of(&self, key: Key, node: &Node, words: &[&str]) -> Option<usize> {
        let known = || words.iter().copied();
        let refuse = |nearest: Option<String>| {
            let mend = nearest.map(Mend::Nearest);
            self.refuse_at(key, node, self.path_of(key.name), one_of(known()), mend);
        };
        let Data::Text(text) = &node.data else {
            refuse(None);
            return None;
        };
        let found = words.iter().position(|word| word == text);
        if found.is_none() {
            refuse(nearest(text, known()));
        }
        found
    }

    /// The bundled or user's file that a key names, or the bundled one that stands in for it; a fault where it has to
    /// be there.
    pub fn file(&self, name: &str) -> Option<Named> {
        let field = self.field(name);
        let Kind::File(folder) = field.kind else { unreachable!("`{name}` names no file") };
        match (self.find(name), field.need) {
            (None, Need::Word(default)) => self.desk.bundled(folder, default),
            (None, _) => {
                let known = one_of(bundled::names(folder));
                self.missing(name, format!("{known}, or a path ending in .toml"));
                None
            }
            (Some(node), _) => self.desk.open_named(folder, node, &self.path_of(name)),
        }
    }

    /// The rows of the table of comma-separated values that a key names, if the key is there.
    pub fn rows(&self, name: &str) -> Option<Rc<Node>> {
        let field = self.field(name);
        let Kind::Rows(columns) = field.kind else { unreachable!("`{name}` names no table of values") };
        let node = self.find(name)?;
        self.desk.open_rows(node, &self.path_of(name), columns)
    }

    /// The file that a key names over that of a file below, if the key is there.
    pub fn maybe_file(&self, name: &str) -> Option<Named> {
        if self.has(name) {
            return self.file(name);
        }
        self.find(name);
        None
    }
}
