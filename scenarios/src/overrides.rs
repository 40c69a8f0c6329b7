//! Overrides by dotted path: a value of one file put in the place of another's.

use std::sync::OnceLock;

use crate::fault::Problem;
use crate::reference::tree;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node, Origin};
use crate::value::same_key;

/// The lists whose members a path names by a key of theirs: `player.rover.open_threes`, `opponent.back-line.late`.
const MEMBERS: [(&str, &str); 2] = [("player", "role"), ("opponent", "who")];

/// One override: a dotted path and the value that goes there.
#[derive(Clone, Debug)]
pub(crate) struct Override {
    pub path: String,
    pub path_origin: Origin,
    pub value: Node,
    /// The value in one line, where it stands so in no file.
    pub told: Option<String>,
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
                    told: None,
                });
            }
        }
        found
    }

    /// How many overrides [`Override::all`] finds.
    pub fn count(entries: &[Entry]) -> usize {
        let of = |entry: &Entry| if entry.dotted { Override::count(entry.node.entries()) } else { 1 };
        entries.iter().map(of).sum()
    }

    /// Puts the value in its place, as a whole. A place that no file knows is found when the tree is read.
    pub fn apply(&self, desk: &Desk, root: &mut Node) {
        let steps: Vec<&str> = self.path.split('.').collect();
        if steps.iter().any(|step| step.is_empty()) {
            self.refuse(desk, "a dotted path such as zone.sink_back_m".into());
            return;
        }
        if self.path == "units" {
            self.refuse(
                desk,
                "a path other than units: each file says for itself what its places are in".into(),
            );
            return;
        }
        let by = MEMBERS.iter().find(|(list, _)| *list == steps[0]).map(|(_, by)| *by);
        let mut at = root;
        for (nth, step) in steps.iter().enumerate() {
            let last = nth + 1 == steps.len();
            let kind = at.kind();
            if let Some(by) = by.filter(|_| nth == 1 && matches!(at.data, Data::List(_))) {
                at = self.member(at, (by, step));
                if last {
                    self.replace_member(at, (by, step));
                    return;
                }
                continue;
            }
            let Data::Table(entries) = &mut at.data else {
                let short = steps[..nth].join(".");
                self.refuse(desk, format!("a path through tables; `{short}` is {kind}"));
                return;
            };
            if last {
                // A length in feet takes the place of the same length in metres, and the other way round.
                entries.retain(|entry| entry.key == *step || !same_key(&entry.key, step));
            }
            let here = entries.iter().position(|entry| entry.key == *step).unwrap_or_else(|| {
                let named = nth == 0 && by.is_some() && !last;
                let data = if named { Data::List(Vec::new()) } else { Data::Table(Vec::new()) };
                let node = Node { origin: self.path_origin, data };
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

    /// The member of a list that a step names, a new one where there is none; what is no list as it is.
    fn member<'n>(&self, list: &'n mut Node, (by, step): (&str, &str)) -> &'n mut Node {
        let named = |node: &Node| node.get(by).and_then(|entry| entry.node.text()) == Some(step);
        let at = list.members().iter().position(named);
        if at.is_none()
            && let Data::List(members) = &mut list.data
        {
            members.push(Node { origin: self.path_origin, data: Data::Table(vec![self.name(by, step)]) });
        }
        let last = list.members().len().saturating_sub(1);
        match &mut list.data {
            Data::List(members) => &mut members[at.unwrap_or(last)],
            _ => unreachable!("only a list is asked for its members"),
        }
    }

    /// Puts the value in the place of a member, which keeps its name.
    fn replace_member(&self, at: &mut Node, (by, step): (&str, &str)) {
        *at = self.value.clone();
        if let Data::Table(entries) = &mut at.data
            && !entries.iter().any(|entry| entry.key == by)
        {
            entries.push(self.name(by, step));
        }
    }

    /// The entry by which a member is named.
    fn name(&self, by: &str, step: &str) -> Entry {
        let origin = self.path_origin;
        let node = Node { origin, data: Data::Text(step.to_owned()) };
        Entry { key: by.into(), key_origin: origin, dotted: false, node }
    }

    /// Names the whole path in faults about keys that nobody knows, and the path that looks most like it.
    pub fn name_whole_paths(&self, desk: &Desk) {
        desk.amend(self.path_origin, |fault| {
            let Problem::UnknownKey { nearest, .. } = &mut fault.problem else { return };
            let Some(rest) = self.path.strip_prefix(&fault.key) else { return };
            let known = scenario_paths();
            let last = self.path.rsplit('.').next().unwrap_or_default();
            let same_end = || known.iter().find(|path| path.rsplit('.').next() == Some(last));
            let table = fault.key.rsplit_once('.').map_or("", |(table, _)| table);
            let mended = nearest.as_ref().map(|name| {
                let dot = if table.is_empty() { "" } else { "." };
                format!("{table}{dot}{name}{rest}")
            });
            let mended = mended.filter(|path| known.contains(path));
            let alike = || crate::fault::nearest(&self.path, known.iter().map(String::as_str));
            *nearest = mended.or_else(|| same_end().cloned()).or_else(alike);
            fault.key.clone_from(&self.path);
        });
    }

    fn refuse(&self, desk: &Desk, allowed: String) {
        let found = format!("`{}`", self.path);
        desk.fault(self.path_origin, "", Problem::NotAllowed { found, allowed, nearest: None }, None);
    }
}

/// Every path that a scenario may have, made-up names left out.
fn scenario_paths() -> &'static [String] {
    static PATHS: OnceLock<Vec<String>> = OnceLock::new();
    PATHS.get_or_init(|| tree::paths("scenario"))
}
