//! Text from outside: what it may hold where it is a name, and how it is shown wherever it comes from.
//!
//! Some characters are obeyed instead of shown: a terminal takes an escape for a command, a picture with a NUL is no
//! picture, and a turn of direction or a letter without width makes one name look like another. Names and other texts
//! of files may hold none of them ([`Text`]); where text from outside is shown they are written out ([`shown`]).

use std::borrow::Cow;
use std::path::Path;

/// The characters that are hidden, first and last of each range: controls, line and paragraph separators, marks of
/// direction, letters without width or ink, tags, and what no XML may hold. The list is our own; each range is named in
/// the Unicode character database as control, format, separator, default ignorable or no character. Marks that choose a
/// letter's look (U+FE00 to U+FE0F) are left: signs that are pictures need them.
const HIDDEN: [(char, char); 19] = [
    ('\0', '\u{1f}'),
    ('\u{7f}', '\u{9f}'),
    ('\u{ad}', '\u{ad}'),
    ('\u{34f}', '\u{34f}'),
    ('\u{61c}', '\u{61c}'),
    ('\u{115f}', '\u{1160}'),
    ('\u{17b4}', '\u{17b5}'),
    ('\u{180b}', '\u{180f}'),
    ('\u{200b}', '\u{200f}'),
    ('\u{2028}', '\u{202e}'),
    ('\u{2060}', '\u{206f}'),
    ('\u{3164}', '\u{3164}'),
    ('\u{fdd0}', '\u{fdef}'),
    ('\u{feff}', '\u{feff}'),
    ('\u{ffa0}', '\u{ffa0}'),
    ('\u{fff0}', '\u{fffb}'),
    ('\u{1bca0}', '\u{1bca3}'),
    ('\u{1d173}', '\u{1d17a}'),
    ('\u{e0000}', '\u{e0fff}'),
];

/// True for a character that is obeyed, or not seen, where it is shown.
#[must_use]
pub fn is_hidden(letter: char) -> bool {
    // The last two codes of each plane are no characters.
    let no_character = u32::from(letter) & 0xfffe == 0xfffe;
    no_character || HIDDEN.iter().any(|&(first, last)| (first..=last).contains(&letter))
}

/// A text in one line, with each hidden character written out as `\u{1b}`.
#[must_use]
pub fn shown(text: &str) -> Cow<'_, str> {
    if !text.contains(is_hidden) {
        return Cow::Borrowed(text);
    }
    let mut written = String::with_capacity(text.len() + 8);
    for letter in text.chars() {
        push(&mut written, letter);
    }
    Cow::Owned(written)
}

/// The same for a text of many lines, whose line ends and tabs stay.
#[must_use]
pub fn shown_lines(text: &str) -> Cow<'_, str> {
    let is_odd = |letter: char| letter == '\r' || is_hidden(letter) && !stays(letter, None);
    if text.contains(is_odd) { Cow::Owned(shown_lines_with(text, (0, 0)).0) } else { Cow::Borrowed(text) }
}

/// The same with the bytes `start..end` of the text as they lie in what is shown.
pub(crate) fn shown_lines_with(text: &str, (start, end): (usize, usize)) -> (String, (usize, usize)) {
    let mut written = String::with_capacity(text.len() + 8);
    let (mut first, mut last) = (None, None);
    let mut letters = text.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        if at == start {
            first = Some(written.len());
        }
        if at == end {
            last = Some(written.len());
        }
        if stays(letter, letters.peek().map(|(_, next)| *next)) {
            written.push(letter);
        } else {
            push(&mut written, letter);
        }
    }
    let whole = written.len();
    (written, (first.unwrap_or(whole), last.unwrap_or(whole)))
}

/// True for what gives a text of many lines its shape. A line may end as it does on Windows; a return by itself would
/// have the next words written over the last ones.
fn stays(letter: char, next: Option<char>) -> bool {
    matches!(letter, '\n' | '\t') || letter == '\r' && next == Some('\n')
}

fn push(written: &mut String, letter: char) {
    if is_hidden(letter) { written.extend(letter.escape_unicode()) } else { written.push(letter) }
}

/// A path as text; bytes that are no text are written out as `\xff`, so that two paths never look the same for them.
#[must_use]
pub fn path_text(path: &Path) -> String {
    let mut written = String::new();
    for chunk in path.as_os_str().as_encoded_bytes().utf8_chunks() {
        written.push_str(chunk.valid());
        for byte in chunk.invalid() {
            written.push_str(&format!("\\x{byte:02x}"));
        }
    }
    written
}

/// A path as it is shown.
#[must_use]
pub fn shown_path(path: &Path) -> String {
    shown(&path_text(path)).into_owned()
}

/// What kind of text a key takes: how long it may be, and whether it has lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Text {
    /// What something is called in tables and pictures.
    Name,
    /// A heading: a question, a line of the catalog.
    Line,
    /// Words that no table or picture shows.
    Prose,
}

impl Text {
    /// The most characters that it may have: a name has to fit a picture (a choice), a line two or three lines of a
    /// page (a choice), and prose is not meant to be a book (a choice).
    pub const fn most(self) -> usize {
        match self {
            Text::Name => 64,
            Text::Line => 200,
            Text::Prose => 1000,
        }
    }

    /// Whether a character may stand in it.
    pub fn takes(self, letter: char) -> bool {
        !is_hidden(letter) || self == Text::Prose && stays(letter, Some('\n'))
    }

    /// What would do, in words.
    pub fn allowed(self) -> String {
        let most = self.most();
        match self {
            Text::Name => format!("a name of 1 to {most} characters, all of them visible"),
            Text::Line => format!("one line of at most {most} characters, all of them visible"),
            Text::Prose => format!("a text of at most {most} characters, all of them visible"),
        }
    }

    /// What is wrong with a text; `None` where nothing is. `written` is the text as its file has it, `what` what it is.
    pub fn fault(self, text: &str, what: &str, written: &str) -> Option<String> {
        if let Some(letter) = text.chars().find(|letter| !self.takes(*letter)) {
            return Some(with(written, letter));
        }
        let length = text.chars().count();
        if length > self.most() {
            return Some(format!("{what} of {length} characters"));
        }
        (self == Text::Name && text.trim().is_empty()).then(|| written.to_owned())
    }
}

/// A text with a character that it may not hold.
fn with(written: &str, letter: char) -> String {
    format!("{written} with U+{:04X}, a character that is not shown", u32::from(letter))
}

/// What is wrong with a path that a file names: hidden characters anywhere in it, or its file's name; `None` where
/// nothing is.
pub(crate) fn path_fault(path: &str, written: &str) -> Option<String> {
    let letter = path.chars().find(|letter| is_hidden(*letter));
    letter.map(|letter| with(written, letter)).or_else(|| file_name_fault(Path::new(path), written))
}

/// What is wrong with the name of a file, which names in tables and pictures are made of; `None` where nothing is.
pub(crate) fn file_name_fault(path: &Path, written: &str) -> Option<String> {
    let name = path.file_stem()?;
    match name.to_str() {
        None => Some(format!("{written} with bytes that are no text")),
        Some(name) => Text::Name.fault(name, "a file name", written),
    }
}
