//! One loading: the user's files and the bundled ones, each parsed once, and every fault found in them.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use crate::bundled;
use crate::declared::Table;
use crate::fault::{Fault, Faults, Problem, nearest, one_of};
use crate::rows::{self, Flaw};
use crate::shelf::{Shelf, Source};
use crate::syntax;
use crate::text::{Text, file_name_fault, path_fault, path_text};
use crate::tree::{self, Data, Node, Origin};

/// A source, parsed.
struct Loaded {
    source: Arc<Source>,
    root: Option<Rc<Node>>,
    /// Its places are in feet.
    feet: bool,
}

/// Everything one loading has read, and every fault it has found.
#[derive(Default)]
pub(crate) struct Desk {
    shelf: Shelf,
    loaded: RefCell<Vec<Loaded>>,
    faults: RefCell<Vec<Fault>>,
    /// Where these faults stand.
    places: RefCell<BTreeSet<(usize, usize, usize)>>,
    /// Where those stand that were found when there were enough.
    beyond: RefCell<BTreeSet<(usize, usize, usize)>>,
}

/// So many faults of one loading are kept: more than a table of worth has numbers, each of them wrong.
const FAULTS_MOST: usize = 2000;

/// A bundled or user's file that was asked for by name, parsed.
#[derive(Clone)]
pub(crate) struct Named {
    /// Name without folder and ending.
    pub name: String,
    /// Its content.
    pub root: Rc<Node>,
}

/// A file's name without folder and ending.
pub(crate) fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned())
}

/// The file of this name with its ending, if there is one, or else the bundled name that looks most like it.
pub(crate) fn nearest_file(path: &Path) -> Option<String> {
    let ended = path.with_extension("toml");
    if path.extension().is_none() && ended.is_file() {
        return Some(path_text(&ended));
    }
    nearest(&stem(path), bundled::all_names())
}

impl Desk {
    /// A desk whose files are taken from a shelf, and put there once they are read.
    pub fn with(shelf: Shelf) -> Desk {
        Desk { shelf, ..Desk::default() }
    }

    /// Reads and parses a user's file; faults are noted.
    pub fn open_file(&self, path: &Path) -> Option<Rc<Node>> {
        if let Some(found) = file_name_fault(path, "a file name") {
            let (name, allowed) = (path_text(path), Text::Name.allowed());
            self.note(Fault::of_file(name, Problem::Unreadable { found, allowed, nearest: None }));
            return None;
        }
        if let Some(known) = self.known(|source| source.is_at(path)) {
            return known;
        }
        match self.shelf.text(path) {
            Ok(source) => self.parse(source),
            Err(problem) => {
                self.note(Fault::of_file(path_text(path), problem));
                None
            }
        }
    }

    /// The name of the file whose root this is.
    pub fn name_of(&self, root: &Node) -> String {
        self.loaded.borrow().get(root.origin.source).map_or_else(String::new, |l| l.source.name.clone())
    }

    /// A bundled file by its name.
    pub fn bundled(&self, folder: &str, name: &str) -> Option<Named> {
        self.open_bundled(folder, name).map(|root| Named { name: name.to_owned(), root })
    }

    /// True where a place stands in a file whose places are in feet.
    pub fn in_feet(&self, origin: Origin) -> bool {
        self.loaded.borrow().get(origin.source).is_some_and(|loaded| loaded.feet)
    }

    /// Parses a bundled file, such as `zones/1-2-2`.
    pub fn open_bundled(&self, folder: &str, name: &str) -> Option<Rc<Node>> {
        let shown = format!("bundled:{folder}/{name}.toml");
        if let Some(known) = self.known(|source| source.is_bundled() && source.name == shown) {
            return known;
        }
        let bundled = || Some(Arc::new(Source::bundled(shown.clone(), bundled::find(folder, name)?)));
        self.parse(self.shelf.bundled(&shown).or_else(bundled)?)
    }

    /// The file that a text names: a bundled one of the folder `kind`, or a path (ending in `.toml`) relative to the
    /// file in which the text stands.
    pub fn open_named(&self, kind: &str, name: &Node, path: &str) -> Option<Named> {
        let Data::Text(text) = &name.data else {
            let known = one_of(bundled::names(kind));
            self.refuse(name, path, &format!("{known}, or a path ending in .toml, in quotes"), None);
            return None;
        };
        if !text.ends_with(".toml") {
            let known = bundled::names(kind);
            if !known.iter().any(|k| k == text) {
                let words = format!("{}, or a path ending in .toml", one_of(known.iter().copied()));
                self.refuse(name, path, &words, nearest(text, known.iter().copied()));
                return None;
            }
            return self.open_bundled(kind, text).map(|root| Named { name: text.clone(), root });
        }
        let file = self.beside(name, text, path)?;
        if !self.shelf.has(&file) && (!file.exists() || file.is_dir()) {
            let bundled = bundled::names(kind);
            let problem = Problem::NotAllowed {
                found: format!("{} (no such file: {})", self.written(name), path_text(&file)),
                allowed: format!(
                    "the path of a file, from this one's folder, or {}",
                    one_of(bundled.clone())
                ),
                nearest: nearest(&stem(Path::new(text)), bundled),
            };
            self.fault(name.origin, path, problem, None);
            return None;
        }
        self.open_file(&file).map(|root| Named { name: stem(&file), root })
    }

    /// The path of a file that a text names, seen from the file in which the text stands.
    fn beside(&self, name: &Node, text: &str, path: &str) -> Option<PathBuf> {
        if let Some(found) = path_fault(text, &self.written(name)) {
            let problem = Problem::NotAllowed { found, allowed: Text::Name.allowed(), nearest: None };
            self.fault(name.origin, path, problem, None);
            return None;
        }
        let folder = self.loaded.borrow().get(name.origin.source).and_then(|l| l.source.folder());
        if folder.is_none() {
            self.refuse(name, path, "a bundled name: a bundled file names no path", None);
        }
        folder.map(|folder| folder.join(text))
    }

    /// The file of comma-separated values that a text names by its path.
    fn table_file(&self, name: &Node, path: &str) -> Option<PathBuf> {
        let text = name.text().filter(|text| text.ends_with(".csv"));
        let Some(text) = text else {
            self.refuse(name, path, "a path ending in .csv, in quotes", None);
            return None;
        };
        let file = self.beside(name, text, path)?;
        if !self.shelf.has(&file) && (!file.exists() || file.is_dir()) {
            let problem = Problem::NotAllowed {
                found: format!("{} (no such file: {})", self.written(name), path_text(&file)),
                allowed: "the path of a file, from this one's folder".into(),
                nearest: None,
            };
            self.fault(name.origin, path, problem, None);
            return None;
        }
        Some(file)
    }

    /// The rows of the table of comma-separated values that a text names by its path.
    pub fn open_rows(&self, name: &Node, path: &str, columns: &'static Table) -> Option<Rc<Node>> {
        let file = self.table_file(name, path)?;
        if let Some(known) = self.known(|source| source.is_at(&file)) {
            return known;
        }
        self.open_table(&file, columns)
    }

    /// All cells of such a table, whatever its headings, and the number of its source.
    pub fn open_cells(&self, name: &Node, path: &str) -> Option<(usize, Vec<Vec<rows::Cell>>)> {
        let file = self.table_file(name, path)?;
        match self.shelf.text(&file) {
            Ok(source) => {
                let index = self.loaded.borrow().len();
                let cells = rows::parsed(&source.text);
                self.loaded.borrow_mut().push(Loaded { source, root: None, feet: false });
                Some((index, cells))
            }
            Err(problem) => {
                self.note(Fault::of_file(path_text(&file), problem));
                None
            }
        }
    }

    /// The rows of a user's table of comma-separated values; faults are noted.
    pub fn open_table(&self, file: &Path, columns: &'static Table) -> Option<Rc<Node>> {
        match self.shelf.text(file) {
            Ok(source) => Some(self.keep_rows(source, columns)),
            Err(problem) => {
                self.note(Fault::of_file(path_text(file), problem));
                None
            }
        }
    }

    /// The headings of a user's table as keys; faults are noted.
    pub fn headings(&self, file: &Path) -> Option<Vec<String>> {
        match self.shelf.text(file) {
            Ok(source) => Some(rows::headings_of(&source.text)),
            Err(problem) => {
                self.note(Fault::of_file(path_text(file), problem));
                None
            }
        }
    }

    /// The rows of a text, with what is wrong with its headings noted.
    fn keep_rows(&self, source: Arc<Source>, columns: &'static Table) -> Rc<Node> {
        let index = self.loaded.borrow().len();
        let (rows, flaws) = rows::rows(&source.text, index, columns);
        let root = Rc::new(rows);
        self.loaded.borrow_mut().push(Loaded { source, root: Some(root.clone()), feet: false });
        for Flaw { start, end, found, allowed, nearest, help } in flaws {
            let problem = Problem::NotAllowed { found, allowed, nearest };
            self.fault(Origin { source: index, start, end }, "", problem, Some(help.into()));
        }
        root
    }

    /// The root of a source that was loaded before; the inner option tells whether it could be parsed.
    fn known(&self, is_it: impl Fn(&Source) -> bool) -> Option<Option<Rc<Node>>> {
        self.loaded.borrow().iter().find(|l| is_it(&l.source)).map(|l| l.root.clone())
    }

    fn parse(&self, source: Arc<Source>) -> Option<Rc<Node>> {
        let index = self.loaded.borrow().len();
        let root = match toml_edit::Document::parse(source.text.as_str()) {
            Ok(document) => Some(Rc::new(tree::from_table(document.as_table(), index, 0..0))),
            Err(error) => {
                let span = error.span().unwrap_or(0..0);
                let (reason, help) = syntax::told(error.message(), &source.text, span.clone());
                let place = (span.start, span.end);
                let problem = Problem::Syntax(reason);
                let mut fault = Fault::at(&source, place, String::new(), problem);
                fault.help = Some(help);
                self.note(fault);
                None
            }
        };
        let units = root.as_ref().and_then(|root| root.get("units")).map(|entry| &entry.node.data);
        let feet = matches!(units, Some(Data::Text(word)) if word == "ft");
        self.loaded.borrow_mut().push(Loaded { source, root: root.clone(), feet });
        root
    }

    /// The value as it stands in its file; long ones by the word for their type.
    pub fn written(&self, node: &Node) -> String {
        let slice = self.slice(node);
        let is_short = slice.len() <= 60 && !slice.is_empty() && !slice.contains('\n');
        let is_headed = matches!(node.data, Data::Table(_)) && !slice.starts_with('{');
        if is_short && !is_headed { slice } else { node.kind().into() }
    }

    /// The value as it stands in its file, however long.
    pub fn slice(&self, node: &Node) -> String {
        let loaded = self.loaded.borrow();
        let text = loaded.get(node.origin.source).map_or("", |l| l.source.text.as_str());
        text.get(node.origin.start..node.origin.end).unwrap_or_default().to_owned()
    }

    /// Notes a value that is not allowed.
    pub fn refuse(&self, node: &Node, path: &str, allowed: &str, nearest: Option<String>) {
        let found = self.written(node);
        self.fault(node.origin, path, Problem::NotAllowed { found, allowed: allowed.into(), nearest }, None);
    }

    /// True where any fault was found.
    pub fn has_faults(&self) -> bool {
        !self.faults.borrow().is_empty()
    }

    /// True where so many faults were found that what else there is need only be counted.
    pub fn is_full(&self) -> bool {
        self.faults.borrow().len() >= FAULTS_MOST
    }

    /// Notes a fault at a place of a loaded file.
    pub fn fault(&self, origin: Origin, path: &str, problem: Problem, help: Option<String>) {
        if self.is_full() {
            return self.count(origin);
        }
        let source = self.loaded.borrow().get(origin.source).map(|l| Arc::clone(&l.source));
        let mut fault = match source {
            Some(source) => Fault::at(&source, (origin.start, origin.end), path.to_owned(), problem),
            None => Fault::of_file(path.to_owned(), problem),
        };
        fault.help = help;
        self.places.borrow_mut().insert((origin.source, origin.start, origin.end));
        self.note(fault);
    }

    /// Counts a fault that would not be shown, one for each place.
    pub fn count(&self, origin: Origin) {
        let place = (origin.source, origin.start, origin.end);
        if !self.places.borrow().contains(&place) {
            self.beyond.borrow_mut().insert(place);
        }
    }

    pub fn note(&self, fault: Fault) {
        let mut faults = self.faults.borrow_mut();
        if faults.len() < FAULTS_MOST && !faults.iter().any(|known| known.same(&fault)) {
            faults.push(fault);
        }
    }

    /// Changes the faults that point at a place.
    pub fn amend(&self, origin: Origin, mut change: impl FnMut(&mut Fault)) {
        let source = self.loaded.borrow().get(origin.source).map(|l| Arc::clone(&l.source));
        let Some(source) = source else { return };
        let mut faults = self.faults.borrow_mut();
        let mut changed = false;
        for fault in faults.iter_mut().filter(|f| f.stands_at(&source.name, origin.start, origin.end)) {
            change(fault);
            changed = true;
        }
        if !changed {
            return;
        }
        let mut kept: Vec<Fault> = Vec::new();
        for fault in faults.drain(..) {
            if !kept.iter().any(|known| known.same(&fault)) {
                kept.push(fault);
            }
        }
        *faults = kept;
    }

    /// Closes the loading: what was read, or what was wrong with it, file by file in reading order.
    pub fn close<T>(self, value: Option<T>) -> Result<(T, Vec<Arc<Source>>), Faults> {
        let loaded = self.loaded.into_inner();
        let mut all = self.faults.into_inner();
        // A table that is refused as a whole because its one key is misspelt needs no second fault.
        let explained = |fault: &Fault| all.iter().any(|inner| fault.is_explained_by(inner));
        let kept: Vec<bool> = all.iter().map(|fault| !explained(fault)).collect();
        let mut kept = kept.into_iter();
        all.retain(|_| kept.next().unwrap_or(true));
        let order = |fault: &Fault| {
            let file = loaded.iter().position(|l| l.source.name == fault.file).unwrap_or(usize::MAX);
            (file, fault.line, fault.column)
        };
        all.sort_by_key(order);
        match value {
            Some(value) if all.is_empty() => Ok((value, loaded.into_iter().map(|l| l.source).collect())),
            _ => Err(Faults { all, more: self.beyond.into_inner().len() }),
        }
    }
}
