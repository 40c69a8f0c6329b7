//! The rows of a roster with the `[[player]]` tables over them.

use std::rc::Rc;

use super::shooting;
use crate::read::Reader;
use crate::tree::{Data, Entry, Node};
use crate::value::same_key;

/// The players of a scenario as tables, each with the path by which it is named: those of the scenario's own list first,
/// each over the roster's row of its role.
pub(super) fn merged(root: &Reader<'_>) -> Vec<(String, Node)> {
    let roster: Option<Rc<Node>> = root.rows("roster");
    let rows = roster.as_ref().map_or(&[][..], |roster| roster.members());
    let role = |node: &Node| node.get("role").and_then(|entry| entry.node.text()).map(str::to_owned);
    let mut taken = vec![false; rows.len()];
    let mut players: Vec<(String, Node)> = Vec::new();
    for (nth, own) in root.list("player").iter().enumerate() {
        let path = format!("player.{}", nth + 1);
        if !matches!(own.data, Data::Table(_)) {
            root.refuse("player", own, "a table, { key = value, ... }".into(), None);
            continue;
        }
        let under = rows.iter().position(|row| role(own).is_some() && role(row) == role(own));
        let node = match under {
            Some(at) => {
                taken[at] = true;
                over(&rows[at], own)
            }
            None => own.clone(),
        };
        players.push((path, node));
    }
    let rest = rows.iter().zip(taken).enumerate().filter(|(_, (_, taken))| !taken);
    players.extend(rest.map(|(nth, (row, _))| (super::named(row, nth), row.clone())));
    players
}

/// A row with a table's keys in the place of its own; made and attempted give way to a share, and a share to them.
fn over(row: &Node, own: &Node) -> Node {
    let of_same_shots = |a: &str, b: &str| {
        let (a, b) = (shooting::shots_of(a), shooting::shots_of(b));
        a.is_some() && a == b
    };
    let gives_way =
        |key: &str| own.entries().iter().any(|own| same_key(&own.key, key) || of_same_shots(&own.key, key));
    let mut entries: Vec<Entry> =
        row.entries().iter().filter(|entry| !gives_way(&entry.key)).cloned().collect();
    entries.extend(own.entries().iter().cloned());
    Node { origin: own.origin, data: Data::Table(entries) }
}
