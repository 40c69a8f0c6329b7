//! Overrides by dotted path: a value of one file put in the place of another's.

use crate::fault::Problem;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node, Origin};

/// One override: a dotted path and the value that goes there.
#[derive(Clone, Debug)]
pub(crate) struct Override {
    pub path: String,
    pub path_origin: Origin,
    pub value: Node,
}

impl Override {
    /// The entries of a table as overrides, in the order written. A key may be quoted (`"zone.use"`) or
    /// dotted (`zone.use`); both mean the same path.
    pub fn all(entries: &[Entry]) -> Vec<Override> {
        let mut found = Vec::new();
        for entry in entries {
            if entry.dotted {
                for mut inner in Override::all(entry.node.entries()) {
                    inner.path = format!("{}.{}", entry.key, inner.path);
                    found.push(inner);
                }
            } else {
                found.push(Override {
                    path: entry.key.clone(),
                    path_origin: entry.key_origin,
                    value: entry.node.clone(),
                });
            }
        }
        found
    }

    /// Puts the value in its place, as a whole. A place that no file knows is found when the tree is read.
    pub fn apply(&self, desk: &Desk, root: &mut Node) {
        let steps: Vec<&str> = self.path.split('.').collect();
        if steps.iter().any(|step| step.is_empty()) {
            self.refuse(desk, "a dotted path such as zone.sink_back_m".into());
            return;
        }
        let mut at = root;
        for (nth, step) in steps.iter().enumerate() {
            let last = nth + 1 == steps.len();
            let Data::Table(entries) = &mut at.data else {
                self.refuse(desk, format!("a path within tables ({} is none)", steps[..nth].join(".")));
                return;
            };
            let here = entries.iter().position(|entry| entry.key == *step).unwrap_or_else(|| {
                let node = Node { origin: self.path_origin, data: Data::Table(Vec::new()) };
                let key_origin = self.path_origin;
                entries.push(Entry { key: (*step).to_owned(), key_origin, dotted: false, node });
                entries.len() - 1
            });
            if last {
                entries[here].key_origin = self.path_origin;
                entries[here].node = self.value.clone();
                return;
            }
            at = &mut entries[here].node;
        }
    }

    fn refuse(&self, desk: &Desk, allowed: String) {
        let found = format!("`{}`", self.path);
        desk.fault(self.path_origin, "", Problem::NotAllowed { found, allowed, nearest: None }, None);
    }
}
