//! Texts that were read. Each of the user's files is read once, whoever asks for it and however often: what was read, or
//! why it could not be, is kept here, and a later loading is handed the shelf of the one before.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use crate::fault::Problem;
use crate::gate::{self, Refusal, TEXT_MOST};
use crate::text::path_text;

/// A text that was read, for digests and messages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Its name as messages show it: a path as typed, or `bundled:...`.
    pub name: String,
    /// Its content.
    pub text: String,
    /// It came through a pipe or as standard input, so nobody finds it under its name again.
    pub streamed: bool,
    /// Where it was read; `None` for a bundled one.
    place: Option<PathBuf>,
}

impl Source {
    /// A bundled text.
    pub(crate) fn bundled(name: String, text: &str) -> Source {
        Source { name, text: text.to_owned(), streamed: false, place: None }
    }

    /// A text that was read before and kept: of a bundled file such as `bundled:zones/1-2-2.toml`, which it stands for
    /// whatever is bundled now.
    #[must_use]
    pub fn kept_bundled(name: String, text: String) -> Source {
        Source { name, text, streamed: false, place: None }
    }

    /// A text that was read before and kept: of the file that had this path, or of a pipe.
    #[must_use]
    pub fn kept(path: &Path, text: String, streamed: bool) -> Source {
        Source { name: path_text(path), text, streamed, place: Some(place(path)) }
    }

    /// A text that was written here and stands for the file of a path, which is not read.
    pub(crate) fn written(path: &Path, text: String) -> Source {
        Source { name: path_text(path), text, streamed: false, place: Some(place(path)) }
    }

    /// A text made of another's, of which it keeps the name and the lines; it stands for the file of a path.
    pub(crate) fn made_of(&self, path: &Path, text: String) -> Source {
        Source { name: self.name.clone(), text, streamed: self.streamed, place: Some(place(path)) }
    }

    /// True for the file of this path.
    pub(crate) fn is_at(&self, path: &Path) -> bool {
        self.place.as_deref() == Some(&place(path))
    }

    /// True for a bundled text.
    #[must_use]
    pub fn is_bundled(&self) -> bool {
        self.place.is_none()
    }

    /// The folder that paths in it start from; the current one for what has no folder of its own. `None` for a
    /// bundled text, which names no path.
    pub(crate) fn folder(&self) -> Option<PathBuf> {
        let place = self.place.as_ref()?;
        let own = if is_stream(place) { None } else { Path::new(&self.name).parent() };
        Some(own.map(Path::to_path_buf).unwrap_or_default())
    }
}

/// True for the system's names of what a process is given by another: `/dev/stdin`, `/dev/fd/3`, `/proc/self/fd/3`.
#[must_use]
pub fn is_stream(path: &Path) -> bool {
    let parts: Vec<&str> = path.iter().map(|part| part.to_str().unwrap_or_default()).collect();
    matches!(parts[..], ["/", "dev", "stdin"] | ["/", "dev", "fd", _] | ["/", "proc", _, "fd", _])
}

/// One name for the names of a file that differ in `./` only.
fn place(path: &Path) -> PathBuf {
    path.components().filter(|part| !matches!(part, Component::CurDir)).collect()
}

/// All that was asked for, by place: the text, or what was found in its stead.
#[derive(Clone, Default)]
pub(crate) struct Shelf {
    read: Rc<RefCell<BTreeMap<PathBuf, Result<Arc<Source>, Problem>>>>,
    /// Texts that stand for bundled files.
    bundled: BTreeMap<String, Arc<Source>>,
    /// What is not here is not looked for elsewhere.
    is_closed: bool,
}

impl Shelf {
    /// A shelf with the texts of an earlier loading.
    pub fn of(sources: &[Arc<Source>]) -> Shelf {
        let shelf = Shelf::default();
        let own = sources.iter().filter_map(|source| Some((source.place.clone()?, Ok(Arc::clone(source)))));
        shelf.read.borrow_mut().extend(own);
        let bundled = sources.iter().filter(|source| source.is_bundled());
        Shelf { bundled: bundled.map(|source| (source.name.clone(), Arc::clone(source))).collect(), ..shelf }
    }

    /// The same, and no file is read that is not here.
    pub fn closed(self) -> Shelf {
        Shelf { is_closed: true, ..self }
    }

    /// The text that stands for a bundled file, if there is one.
    pub fn bundled(&self, name: &str) -> Option<Arc<Source>> {
        self.bundled.get(name).cloned()
    }

    /// True where a file was asked for already.
    pub fn has(&self, path: &Path) -> bool {
        self.read.borrow().contains_key(&place(path))
    }

    /// The text of a file, which is read if it has not been yet.
    pub fn text(&self, path: &Path) -> Result<Arc<Source>, Problem> {
        let place = place(path);
        let look = |place| if self.is_closed { Err(not_kept()) } else { read(path, place) };
        self.read.borrow_mut().entry(place.clone()).or_insert_with(|| look(place)).clone()
    }
}

/// What an unreadable file should have been, by its ending.
fn wanted(path: &Path) -> &'static str {
    if path.extension().is_some_and(|ending| ending == "csv") {
        "a CSV file, saved as UTF-8"
    } else {
        "a TOML file"
    }
}

/// What is found where only kept texts may be read.
fn not_kept() -> Problem {
    let (found, allowed) =
        ("no text that was kept".into(), "a file that was read when the result was made".into());
    Problem::Unreadable { found, allowed, nearest: None }
}

fn read(path: &Path, place: PathBuf) -> Result<Arc<Source>, Problem> {
    let problem = |found: String, allowed: String| Problem::Unreadable { found, allowed, nearest: None };
    let entered = gate::read(path, TEXT_MOST).map_err(|refusal| match refusal {
        Refusal::Nowhere => Problem::Unreadable {
            found: refusal.found(),
            allowed: "the path of a file, or a bundled name (see `zoneprobe catalog`)".into(),
            nearest: crate::source::nearest_file(path),
        },
        Refusal::Kind(gate::FOLDER) | Refusal::System(_) => problem(refusal.found(), wanted(path).into()),
        _ => problem(refusal.found(), refusal.allowed()),
    })?;
    let text = String::from_utf8(entered.bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        problem(format!("no text (byte {} is not UTF-8)", at + 1), wanted(path).into())
    })?;
    if text.trim_matches(|letter: char| letter.is_whitespace() || letter == '\u{feff}').is_empty() {
        return Err(problem("an empty file".into(), wanted(path).into()));
    }
    let streamed = entered.piped || is_stream(path);
    Ok(Arc::new(Source { name: path_text(path), text, streamed, place: Some(place) }))
}
