//! The keys of a kind of file as a tree.

use crate::asked::What;
use crate::explore::{self, Found};

/// A key with the keys inside it.
#[derive(Clone)]
pub(crate) struct Branch {
    /// Its name; `*` for a member of a list or a name that the user makes up.
    pub name: String,
    /// What was found out about it.
    pub found: Found,
    /// What it holds, in the order in which it is asked for.
    pub inner: Vec<Branch>,
}

impl Branch {
    /// True where this type of value is read there.
    pub fn reads(&self, what: &What) -> bool {
        self.found.what.contains(what)
    }

    /// Whatever stands for each member or each made-up name.
    pub fn each(&self) -> Option<&Branch> {
        self.inner.iter().find(|branch| branch.name == "*")
    }

    /// The one type of value that is read there; of a list, that of its members.
    pub fn value(&self) -> Option<&What> {
        let types = || self.found.what.iter();
        types().find(|what| **what == What::Sourced).or_else(|| {
            types().find(|what| !matches!(what, What::Open | What::List | What::Table | What::Map))
        })
    }
}

/// The tree of a kind: the keys at the top of the file.
pub(crate) fn of_kind(kind: &str) -> Vec<Branch> {
    let mut top = Vec::new();
    for found in explore::keys(kind) {
        put(&mut top, found.clone(), 0);
    }
    top
}

fn put(branches: &mut Vec<Branch>, found: Found, depth: usize) {
    let Some(name) = found.path.get(depth) else { return };
    let last = depth + 1 == found.path.len();
    match branches.iter().position(|branch| branch.name == *name) {
        Some(at) if !last => put(&mut branches[at].inner, found, depth + 1),
        Some(_) => {}
        None if last => branches.push(Branch { name: name.clone(), found, inner: Vec::new() }),
        // A key inside a table is asked for after the table.
        None => {}
    }
}
