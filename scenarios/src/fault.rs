//! Faults found in a file: where, under which key, what was found, what is allowed.
//!
//! A message reads `file:line:column: key.path: found ..., allowed ..., did you mean ...?`.

use std::fmt;
use std::sync::Arc;

use miette::{Diagnostic, LabeledSpan, NamedSource, SourceCode};

use crate::text::{shown, shown_lines_with};

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
    /// The file as it is shown, with the bytes there at which the fault stands.
    text: Option<(Arc<NamedSource<String>>, (usize, usize))>,
    span: (usize, usize),
}

impl Fault {
    /// A fault of a whole file.
    pub(crate) fn of_file(file: String, problem: Problem) -> Fault {
        Fault { file, line: 0, column: 0, key: String::new(), problem, help: None, text: None, span: (0, 0) }
    }

    /// A fault at bytes `start..end` of a text.
    pub(crate) fn at(
        (file, text): (&str, &str),
        (start, end): (usize, usize),
        key: String,
        problem: Problem,
    ) -> Fault {
        let start = floor_boundary(text, start);
        let end = floor_boundary(text, end).max(start);
        let before = &text[..start];
        let (shown_text, at) = shown_lines_with(text, (start, end));
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Fault {
            file: file.to_owned(),
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
            key,
            problem,
            help: None,
            text: Some((Arc::new(NamedSource::new(shown(file), shown_text)), at)),
            span: (start, end - start),
        }
    }

    /// True where it points at bytes `start..end` of the file.
    pub(crate) fn stands_at(&self, file: &str, start: usize, end: usize) -> bool {
        self.file == file && self.span == (start, end.saturating_sub(start))
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
        self.file == other.file
            && self.span == other.span
            && self.key == other.key
            && self.problem == other.problem
    }
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
        self.text.as_ref().map(|(text, _)| text.as_ref() as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let (_, (start, end)) = self.text.as_ref()?;
        let label = LabeledSpan::new(Some("here".into()), *start, end - start);
        Some(Box::new(std::iter::once(label)))
    }
}

/// All faults of one loading, in the order of files and lines. Never empty when returned as an error.
#[derive(Clone, Debug, Default)]
pub struct Faults {
    /// The faults.
    pub all: Vec<Fault>,
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (nth, fault) in self.all.iter().enumerate() {
            if nth > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
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
    let typed = typed.get(..typed.len().min(80)).unwrap_or(typed);
    known
        .into_iter()
        .map(|word| (strsim::jaro_winkler(typed, word), word))
        .filter(|(alike, _)| *alike >= 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, word)| word.to_owned())
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
