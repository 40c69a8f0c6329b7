//! Faults found in a file: where, under which key, what was found, what is allowed.
//!
//! A message reads `file:line:column: key.path: found ..., allowed ..., did you mean ...?`.

use std::fmt;
use std::sync::Arc;

use miette::{Diagnostic, LabeledSpan, SourceCode};

use crate::excerpt::Excerpt;
use crate::key::plain;
use crate::shelf::Source;
use crate::text::shown;

/// What is wrong, in words that follow the key's path.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Problem {
    /// The file could not be read at all, or not as text.
    #[error("found {found}, allowed {allowed}{}", guess(nearest.as_deref()))]
    Unreadable {
        /// What is there instead.
        found: String,
        /// What would do.
        allowed: String,
        /// The bundled name that looks most like it.
        nearest: Option<String>,
    },
    /// The file is not TOML.
    #[error("{0}")]
    Syntax(String),
    /// A key that nothing reads.
    #[error("found an unknown key, allowed {allowed}{}", guess(nearest.as_deref()))]
    UnknownKey {
        /// The keys that are read here.
        allowed: String,
        /// The known key that looks most like it.
        nearest: Option<String>,
    },
    /// A key that has to be there.
    #[error("found nothing, allowed {allowed}")]
    Missing {
        /// What would do.
        allowed: String,
    },
    /// A value of the wrong type, out of range, or not one of the words.
    #[error("found {found}, allowed {allowed}{}", guess(nearest.as_deref()))]
    NotAllowed {
        /// The value as written.
        found: String,
        /// What would do.
        allowed: String,
        /// The allowed word that looks most like it.
        nearest: Option<String>,
    },
}

/// The last part of a message.
fn guess(nearest: Option<&str>) -> String {
    nearest.map_or_else(String::new, |word| format!(", did you mean `{word}`?"))
}

/// One fault, with its place in the file.
#[derive(Clone, Debug)]
pub struct Fault {
    /// The file's name as the user knows it.
    pub file: String,
    /// Line, from 1; 0 where the fault is the file itself.
    pub line: usize,
    /// Column in characters, from 1; 0 where the fault is the file itself.
    pub column: usize,
    /// Dotted path of the key, empty where there is none.
    pub key: String,
    /// What is wrong.
    pub problem: Problem,
    /// What the key means, and how the fault may be mended, where that is known.
    pub help: Option<String>,
    /// The lines around it, where they can be shown.
    excerpt: Option<Excerpt>,
    /// First byte and length in the file.
    span: (usize, usize),
}

/// Most bytes of a name in a message. (a choice)
const NAME_MOST: usize = 200;

impl Fault {
    /// A fault of a whole file.
    pub(crate) fn of_file(file: String, problem: Problem) -> Fault {
        let (key, none) = (String::new(), (0, 0));
        Fault { file, line: 0, column: 0, key, problem, help: None, excerpt: None, span: none }
    }

    /// A fault at bytes `start..end` of a text, of which it keeps no more than an excerpt.
    pub(crate) fn at(
        source: &Arc<Source>,
        (start, end): (usize, usize),
        key: String,
        problem: Problem,
    ) -> Fault {
        let text = source.text.as_str();
        let start = floor_boundary(text, start);
        let end = floor_boundary(text, end).max(start);
        let before = &text[..start];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Fault {
            file: source.name.clone(),
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
            key: short(key),
            problem,
            help: None,
            excerpt: Excerpt::of(source, (start, end)),
            span: (start, end - start),
        }
    }

    /// True where it points at bytes `start..end` of the file.
    pub(crate) fn stands_at(&self, file: &str, start: usize, end: usize) -> bool {
        self.span == (start, end.saturating_sub(start)) && self.file == file
    }

    /// True where this refuses a table and the other names an unknown key within it.
    pub(crate) fn is_explained_by(&self, inner: &Fault) -> bool {
        let ((start, length), (inner_start, inner_length)) = (self.span, inner.span);
        matches!(self.problem, Problem::NotAllowed { .. })
            && matches!(inner.problem, Problem::UnknownKey { nearest: Some(_), .. })
            && self.file == inner.file
            && start < inner_start
            && inner_start + inner_length < start + length
    }

    /// True where both are the same fault at the same place.
    pub(crate) fn same(&self, other: &Fault) -> bool {
        self.span == other.span
            && self.file == other.file
            && self.key == other.key
            && self.problem == other.problem
    }
}

/// A name as a message holds it.
pub(crate) fn short(mut name: String) -> String {
    if name.len() > NAME_MOST {
        name.truncate(floor_boundary(&name, NAME_MOST));
        name.push_str("...");
    }
    name
}

/// The nearest character boundary at or below `at`, never past the text's end.
fn floor_boundary(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// What stands in files, and their names, are shown and not obeyed.
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&shown(&self.file))?;
        if self.line > 0 {
            write!(f, ":{}:{}", self.line, self.column)?;
        }
        if !self.key.is_empty() {
            write!(f, ": {}", shown(&self.key))?;
        }
        write!(f, ": {}", shown(&self.problem.to_string()))
    }
}

impl std::error::Error for Fault {}

impl Diagnostic for Fault {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_deref().map(|help| Box::new(shown(help)) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.excerpt.as_ref().map(|excerpt| excerpt as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let (first, length) = self.excerpt.as_ref()?.label;
        let label = LabeledSpan::new(Some("here".into()), first, length);
        Some(Box::new(std::iter::once(label)))
    }
}

/// The faults of one loading, in the order of files and lines. Never empty when returned as an error.
#[derive(Clone, Debug, Default)]
pub struct Faults {
    /// The first of them.
    pub all: Vec<Fault>,
    /// How many more there are.
    pub more: usize,
}

/// So many faults of one loading are shown. (a choice)
const SHOWN: usize = 50;

impl Faults {
    /// One fault.
    pub(crate) fn one(fault: Fault) -> Faults {
        Faults { all: vec![fault], more: 0 }
    }

    /// The first of them, the rest by number.
    pub(crate) fn shown(mut self) -> Faults {
        self.more += self.all.len().saturating_sub(SHOWN);
        self.all.truncate(SHOWN);
        self
    }

    /// That there are more than are shown, as the last line of what is said.
    #[must_use]
    pub fn rest(&self) -> Option<String> {
        match self.more {
            0 => None,
            1 => Some("1 more fault is not shown".into()),
            more => Some(format!("{} more faults are not shown", plain(more as f64))),
        }
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lines = self.all.iter().map(ToString::to_string).chain(self.rest());
        for (nth, line) in lines.enumerate() {
            if nth > 0 {
                writeln!(f)?;
            }
            f.write_str(&line)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

/// True where a word is another with a slip or two of the finger.
pub(crate) fn slip(typed: &str, word: &str) -> bool {
    typed != word && strsim::osa_distance(typed, word) <= 2
}

/// The word among `known` that looks most like `typed`, if any looks like it at all.
pub(crate) fn nearest<'k>(typed: &str, known: impl IntoIterator<Item = &'k str>) -> Option<String> {
    let typed = &typed[..floor_boundary(typed, 80)];
    known
        .into_iter()
        .map(|word| (likeness(typed, word), word))
        .filter(|(alike, _)| *alike >= 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, word)| word.to_owned())
}

/// How much a known word is like a typed one, 0 to 1: by its letters (Jaro and Winkler's), or, where several words of it
/// are all typed as they are, by how many of its words that is: `wing-drops` is a part of `near-wing-drops`.
#[must_use]
pub fn likeness(typed: &str, word: &str) -> f64 {
    let parts = |text: &str| text.split(['-', '_', ' ', '.']).map(str::to_owned).collect::<Vec<_>>();
    let (typed_parts, own) = (parts(typed), parts(word));
    let all = typed_parts.len() > 1 && typed_parts.iter().all(|part| own.contains(part));
    let letters = strsim::jaro_winkler(typed, word);
    // Never as much as the word itself.
    if all { letters.max(0.95 + 0.05 * typed_parts.len() as f64 / own.len() as f64 - 0.01) } else { letters }
}

/// `a, b or c`.
pub(crate) fn one_of<'k>(words: impl IntoIterator<Item = &'k str>) -> String {
    let words: Vec<&str> = words.into_iter().collect();
    match words.as_slice() {
        [] => "nothing".into(),
        [only] => (*only).to_owned(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
