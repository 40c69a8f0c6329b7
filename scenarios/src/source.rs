//! Texts: the user's files and the bundled ones, each read and parsed once in a loading.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use crate::bundled;
use crate::fault::{Fault, Faults, Problem, nearest, one_of};
use crate::tree::{self, Data, Node, Origin};

/// A text that was read, for digests and messages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Its name as messages show it: a path as typed, or `bundled:...`.
    pub name: String,
    /// Its content.
    pub text: String,
}

/// A source with the folder that its relative paths start from (`None` for bundled ones).
struct Loaded {
    source: Arc<Source>,
    folder: Option<PathBuf>,
    root: Option<Rc<Node>>,
}

/// Everything one loading has read, and every fault it has found.
#[derive(Default)]
pub(crate) struct Desk {
    loaded: RefCell<Vec<Loaded>>,
    faults: RefCell<Vec<Fault>>,
}

/// A bundled or user's file that was asked for by name, parsed.
#[derive(Clone)]
pub(crate) struct Named {
    /// Name without folder and ending.
    pub name: String,
    /// Its content.
    pub root: Rc<Node>,
}

impl Desk {
    /// Reads and parses a user's file; faults are noted.
    pub fn open_file(&self, path: &Path) -> Option<Rc<Node>> {
        let name = path.display().to_string();
        if let Some(known) = self.known(&name) {
            return known;
        }
        match std::fs::read_to_string(path) {
            Ok(text) => {
                let folder = path.parent().map(Path::to_path_buf).unwrap_or_default();
                self.parse(Source { name, text }, Some(folder))
            }
            Err(reason) => {
                self.note(Fault::of_file(name, Problem::Unreadable(reason.to_string())));
                None
            }
        }
    }

    /// Parses a bundled file, such as `zones/1-2-2`.
    pub fn open_bundled(&self, folder: &str, name: &str) -> Option<Rc<Node>> {
        let text = bundled::find(folder, name)?;
        let shown = format!("bundled:{folder}/{name}.toml");
        if let Some(known) = self.known(&shown) {
            return known;
        }
        self.parse(Source { name: shown, text: text.to_owned() }, None)
    }

    /// The file that a text names: a bundled one of `folder`, or a path (ending in `.toml`) relative to the
    /// file in which the text stands.
    pub fn open_named(&self, folder: &str, name: &Node, path: &str) -> Option<Named> {
        let Data::Text(text) = &name.data else {
            self.refuse(name, path, &format!("the name of one of the bundled {folder}, or a path"), None);
            return None;
        };
        let stem = Path::new(text).file_stem().map_or_else(String::new, |s| s.to_string_lossy().into_owned());
        if !text.ends_with(".toml") {
            let known = bundled::names(folder);
            if !known.iter().any(|k| k == text) {
                let words = format!("{}, or a path ending in .toml", one_of(known.iter().copied()));
                self.refuse(name, path, &words, nearest(text, known.iter().copied()));
                return None;
            }
            return self.open_bundled(folder, text).map(|root| Named { name: text.clone(), root });
        }
        let folder = self.loaded.borrow().get(name.origin.source).and_then(|l| l.folder.clone());
        let Some(folder) = folder else {
            self.refuse(name, path, "a bundled name: a bundled file names no path", None);
            return None;
        };
        let file = folder.join(text);
        if !file.is_file() {
            let shown = format!("{} (no such file: {})", self.written(name), file.display());
            let problem =
                Problem::NotAllowed { found: shown, allowed: "the path of a file".into(), nearest: None };
            self.fault(name.origin, path, problem, None);
            return None;
        }
        self.open_file(&file).map(|root| Named { name: stem, root })
    }

    /// The root of a source that was loaded before; the inner option tells whether it could be parsed.
    fn known(&self, name: &str) -> Option<Option<Rc<Node>>> {
        self.loaded.borrow().iter().find(|l| l.source.name == name).map(|l| l.root.clone())
    }

    fn parse(&self, source: Source, folder: Option<PathBuf>) -> Option<Rc<Node>> {
        let index = self.loaded.borrow().len();
        let source = Arc::new(source);
        let root = match toml_edit::Document::parse(source.text.as_str()) {
            Ok(document) => Some(Rc::new(tree::from_table(document.as_table(), index, 0..0))),
            Err(error) => {
                let span = error.span().unwrap_or(0..0);
                let reason = error.message().trim().replace('\n', ", ");
                let place = (span.start, span.end);
                self.note(Fault::at(
                    (&source.name, &source.text),
                    place,
                    String::new(),
                    Problem::Syntax(reason),
                ));
                None
            }
        };
        self.loaded.borrow_mut().push(Loaded { source, folder, root: root.clone() });
        root
    }

    /// The value as it stands in its file; long ones by the word for their type.
    pub fn written(&self, node: &Node) -> String {
        let loaded = self.loaded.borrow();
        let text = loaded.get(node.origin.source).map_or("", |l| l.source.text.as_str());
        match text.get(node.origin.start..node.origin.end) {
            Some(slice) if slice.len() <= 60 && !slice.is_empty() && !slice.contains('\n') => match node.data
            {
                Data::Table(_) if !slice.starts_with('{') => node.kind().into(),
                _ => slice.to_owned(),
            },
            _ => node.kind().into(),
        }
    }

    /// Notes a value that is not allowed.
    pub fn refuse(&self, node: &Node, path: &str, allowed: &str, nearest: Option<String>) {
        let found = self.written(node);
        self.fault(node.origin, path, Problem::NotAllowed { found, allowed: allowed.into(), nearest }, None);
    }

    /// Notes a fault at a place of a loaded file.
    pub fn fault(&self, origin: Origin, path: &str, problem: Problem, help: Option<&'static str>) {
        let source = self.loaded.borrow().get(origin.source).map(|l| Arc::clone(&l.source));
        let mut fault = match source {
            Some(source) => {
                let text = (source.name.as_str(), source.text.as_str());
                Fault::at(text, (origin.start, origin.end), path.to_owned(), problem)
            }
            None => Fault::of_file(path.to_owned(), problem),
        };
        fault.help = help;
        self.note(fault);
    }

    fn note(&self, fault: Fault) {
        let mut faults = self.faults.borrow_mut();
        if !faults.iter().any(|known| known.same(&fault)) {
            faults.push(fault);
        }
    }

    /// Closes the loading: what was read, or what was wrong with it, file by file in reading order.
    pub fn close<T>(self, value: Option<T>) -> Result<(T, Vec<Source>), Faults> {
        let loaded = self.loaded.into_inner();
        let mut all = self.faults.into_inner();
        let order = |fault: &Fault| {
            let file = loaded.iter().position(|l| l.source.name == fault.file).unwrap_or(usize::MAX);
            (file, fault.line, fault.column)
        };
        all.sort_by_key(order);
        match value {
            Some(value) if all.is_empty() => {
                Ok((value, loaded.into_iter().map(|l| Arc::unwrap_or_clone(l.source)).collect()))
            }
            _ => Err(Faults { all }),
        }
    }
}
