//! Reading switches, texts, words and names of files.

use crate::asked::{Default, What};
use crate::bundled;
use crate::fault::{nearest, one_of};
use crate::key::Key;
use crate::read::{Mend, Reader};
use crate::source::Named;
use crate::tree::{Data, Node};

impl<'d> Reader<'d> {
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

    /// The file that a key names over that of a file below, if the key is there.
    pub fn maybe_file(&self, key: Key, folder: &'static str) -> Option<Named> {
        let node = self.seek(key, What::File(folder), Default::FileBelow)?;
        self.desk.open_named(folder, node, &self.path_of(key.name))
    }

    /// The file that a key names; the key has to be there.
    pub fn file(&self, key: Key, folder: &'static str) -> Option<Named> {
        if let Some(node) = self.seek(key, What::File(folder), Default::Nothing) {
            return self.desk.open_named(folder, node, &self.path_of(key.name));
        }
        self.missing(key, format!("{}, or a path ending in .toml", one_of(bundled::names(folder))));
        None
    }
}
