//! Values of files by what they are and not by how they are written: `0.1`, `0.10` and `1e-1` are one number,
//! `sink_back_m` and `sink_back_ft` one key.

use crate::key::FOOT_M;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node};

/// A length's name in metres, where this is its name in feet.
fn in_metres(key: &str) -> Option<String> {
    key.strip_suffix("_ft").map(|stem| format!("{stem}_m"))
}

/// True for one key under either name of its unit.
pub(crate) fn same_key(a: &str, b: &str) -> bool {
    let in_metres = |key: &str| in_metres(key).unwrap_or_else(|| key.to_owned());
    a == b || in_metres(a) == in_metres(b)
}

/// True for dotted paths to one key under either name of its unit.
pub(crate) fn same_path(a: &str, b: &str) -> bool {
    match (a.rsplit_once('.'), b.rsplit_once('.')) {
        (Some((table_a, key_a)), Some((table_b, key_b))) => table_a == table_b && same_key(key_a, key_b),
        (None, None) => same_key(a, b),
        _ => false,
    }
}

/// True where a value at the first path takes away all that stood at the second.
pub(crate) fn covers(over: &str, under: &str) -> bool {
    same_path(over, under) || under.strip_prefix(over).is_some_and(|rest| rest.starts_with('.'))
}

/// A value with what its key says of it.
#[derive(Clone, Copy)]
pub(crate) struct Valued<'n> {
    node: &'n Node,
    /// The unit that its numbers are written in.
    unit_m: f64,
    /// The order of its keys counts.
    in_order: bool,
}

/// Whether a member of `opponent` speaks of somebody.
fn speaks_of(member: &Node, whom: &str) -> bool {
    member.get("who").and_then(|entry| entry.node.text()) == Some(whom)
}

impl<'n> Valued<'n> {
    /// A value under a key, or under a dotted path.
    pub fn under(key: &str, node: &'n Node) -> Valued<'n> {
        Valued { node, unit_m: 1.0, in_order: false }.inside(key, node)
    }

    /// The value at a dotted path of a tree, whatever unit its key names.
    pub fn at(tree: &'n Node, path: &str) -> Option<Valued<'n>> {
        let (tables, key) = path.rsplit_once('.').map_or((None, path), |(tables, key)| (Some(tables), key));
        let mut at = tree;
        for step in tables.into_iter().flat_map(|tables| tables.split('.')) {
            at = match &at.data {
                // What was scouted of several is a list; a path names one by whom it speaks of.
                Data::List(members) => members.iter().find(|own| speaks_of(own, step))?,
                _ => &at.get(step)?.node,
            };
        }
        let entry = at.entries().iter().find(|entry| same_key(&entry.key, key))?;
        Some(Valued::under(&entry.key, &entry.node))
    }

    fn inside(self, key: &str, node: &'n Node) -> Valued<'n> {
        let unit_m = if in_metres(key).is_some() { FOOT_M } else { self.unit_m };
        Valued { node, unit_m, in_order: key.rsplit('.').next() == Some(OPTIONS) }
    }

    /// Its number in the unit that a key names, where it is one.
    pub fn number_under(self, key: &str) -> Option<f64> {
        let unit_m = if in_metres(key).is_some() { FOOT_M } else { 1.0 };
        Some(self.node.number()? * self.unit_m / unit_m)
    }

    /// True where what is played is the same with either.
    pub fn is_same(self, other: Valued<'_>, desk: &Desk) -> bool {
        if let (Some(a), Some(b)) = (self.node.number(), other.node.number()) {
            // The engine knows numbers of this size.
            return (a * self.unit_m) as f32 == (b * other.unit_m) as f32;
        }
        match (&self.node.data, &other.node.data) {
            (Data::Text(a), Data::Text(b)) => a == b,
            (Data::Flag(a), Data::Flag(b)) => a == b,
            (Data::List(a), Data::List(b)) => {
                let one_unit = desk.in_feet(self.node.origin) == desk.in_feet(other.node.origin);
                let same = |(a, b)| Valued { node: a, ..self }.is_same(Valued { node: b, ..other }, desk);
                // Places are in the unit of their file.
                one_unit && a.len() == b.len() && a.iter().zip(b).all(same)
            }
            (Data::Table(a), Data::Table(b)) => {
                let same = |(nth, entry): (usize, &Entry)| {
                    let twin = b.iter().position(|twin| same_key(&entry.key, &twin.key));
                    twin.filter(|at| !self.in_order || *at == nth).is_some_and(|at| {
                        let own = self.inside(&entry.key, &entry.node);
                        own.is_same(other.inside(&b[at].key, &b[at].node), desk)
                    })
                };
                a.len() == b.len() && a.iter().enumerate().all(same)
            }
            _ => false,
        }
    }
}

/// The key of a table whose order counts: options are tried in the order written.
const OPTIONS: &str = "options";

/// A value in one line: as it is written, if that is one line.
pub(crate) fn in_line(desk: &Desk, node: &Node) -> String {
    let written = desk.slice(node);
    let opens = match node.data {
        Data::Table(_) => "{",
        Data::List(_) => "[",
        _ => "",
    };
    if !written.is_empty() && !written.contains('\n') && written.starts_with(opens) {
        return written;
    }
    let of = |node: &Node| in_line(desk, node);
    match &node.data {
        Data::Table(entries) => {
            let pair = |key: &str, node| format!("{} = {}", toml_edit::Key::new(key), of(node));
            let pairs: Vec<String> = entries.iter().map(|entry| pair(&entry.key, &entry.node)).collect();
            if pairs.is_empty() { "{}".into() } else { format!("{{ {} }}", pairs.join(", ")) }
        }
        Data::List(list) => format!("[{}]", list.iter().map(of).collect::<Vec<_>>().join(", ")),
        Data::Text(text) => quoted(text),
        _ => written,
    }
}

/// A text in quotes, in one line.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => quoted.extend(['\\', letter]),
            '\n' => quoted.push_str("\\n"),
            '\r' => quoted.push_str("\\r"),
            letter => quoted.push(letter),
        }
    }
    quoted + "\""
}

/// What a factor's value is called in the names of variants: itself, or, if it is long, what it is and its number.
pub(crate) fn label(desk: &Desk, node: &Node, nth: usize) -> String {
    let written = desk.written(node);
    if written == node.kind() {
        return format!("{} {}", written.trim_start_matches("a "), nth + 1);
    }
    node.text().map_or(written, str::to_owned)
}
