//! The positions of a zone: its five jobs, by line, near and far in pairs.

use engine::setup::{Line, ON_BALL, Pairing, Position};

use crate::bundled;
use crate::declared::{Count, Field, Kind, Part, Table};
use crate::fault::{nearest, one_of, slip};
use crate::read::Reader;
use crate::text::Text;
use crate::tree::{Data, Node};

/// Names the defender nearest to the ball.
const NEAREST: &str = "on ball";

/// Names of positions.
const fn names(name: &'static str, doc: &'static str) -> Field {
    Field::text(name, Text::Name, doc).list(&Kind::Text(Text::Name), Count::Any)
}

static POSITIONS: Table = Table::of(&[Part::Fields(&[
    names("front", "The front line's positions."),
    names("back", "The back line's positions."),
])]);
/// The positions of a zone's file.
pub const FIELD: Field = Field::table("positions", &POSITIONS, "The defenders' jobs, by line.").needed();

/// The positions of a zone by name, for rules and for programs.
#[derive(Clone)]
pub(crate) struct Positions {
    pub all: [Position; 5],
    /// Names of other zones' positions, where those will do as well.
    elsewhere: Vec<String>,
}

impl Positions {
    /// The number of a position named as the trade does: `point`, `near wing`, `far back`; `near front`,
    /// `far front`, `near back` and `far back` name the pair of a line in any zone, and in a line without a
    /// pair its last position (near) and the one before it (far).
    pub fn find(&self, name: &str) -> Option<u8> {
        let exact = (0..5).find(|&c| self.name(c) == name);
        let line = |c: usize| match self.all[c].line {
            Line::Front => "front",
            Line::Back => "back",
        };
        let by_line =
            || (0..5).find(|&c| self.side(c).is_some_and(|side| format!("{side} {}", line(c)) == name));
        let unpaired = || {
            let (side, own) = name.split_once(' ')?;
            let from_last = ["near", "far"].iter().position(|known| *known == side)?;
            (0..5).rev().filter(|&c| line(c) == own).nth(from_last)
        };
        exact.or_else(by_line).or_else(unpaired).and_then(|c| u8::try_from(c).ok())
    }

    fn side(&self, position: usize) -> Option<&'static str> {
        match self.all[position].pairing {
            Pairing::Lone => None,
            Pairing::Near(_) => Some("near"),
            Pairing::Far(_) => Some("far"),
        }
    }

    fn name(&self, position: usize) -> String {
        let name = &self.all[position].name;
        self.side(position).map_or_else(|| name.clone(), |side| format!("{side} {name}"))
    }

    /// The position that a node of a zone's file names; the first position, and a fault, where it names none.
    pub fn read(&self, reader: &Reader<'_>, key: &str, node: &Node) -> u8 {
        self.read_among(reader, key, node, &[])
    }

    /// The defender that a node of a program names: a position, or whoever is nearest to the ball.
    pub fn read_defender(&self, reader: &Reader<'_>, key: &str, node: &Node) -> u8 {
        match &node.data {
            Data::Text(text) if text == NEAREST => ON_BALL,
            _ => self.read_among(reader, key, node, &[NEAREST]),
        }
    }

    fn read_among(&self, reader: &Reader<'_>, key: &str, node: &Node, besides: &[&str]) -> u8 {
        let mut known: Vec<String> = (0..5).map(|c| self.name(c)).collect();
        let lines = ["near front", "far front", "near back", "far back"].map(String::from);
        let besides = besides.iter().map(|name| (*name).to_owned());
        for name in lines.into_iter().chain(besides).chain(self.elsewhere.iter().cloned()) {
            if !known.contains(&name) {
                known.push(name);
            }
        }
        let words = || known.iter().map(String::as_str);
        let Data::Text(text) = &node.data else {
            reader.refuse(key, node, one_of(words()), None);
            return 0;
        };
        if let Some(position) = self.find(text) {
            return position;
        }
        // Seen by itself, a file may be meant for a zone that is not known here: only slips are refused.
        let welcome = known.contains(text) || !words().any(|word| slip(text, word));
        if self.elsewhere.is_empty() || !welcome {
            reader.refuse(key, node, one_of(words()), nearest(text, words()));
        }
        0
    }

    /// The same positions for a file that is seen by itself, whose zone is not known: names of other zones'
    /// positions will do.
    pub fn with_others(self) -> Positions {
        let mut elsewhere = Vec::new();
        for name in bundled::names("zones") {
            let text = bundled::find("zones", name).unwrap_or_default();
            let Ok(document) = toml_edit::Document::parse(text) else { continue };
            let lines = document.get("positions").and_then(toml_edit::Item::as_table_like);
            for (_, line) in lines.iter().flat_map(|lines| lines.iter()) {
                let names = line.as_array().into_iter().flatten().filter_map(toml_edit::Value::as_str);
                elsewhere.extend(names.map(str::to_owned));
            }
        }
        Positions { elsewhere, ..self }
    }
}

/// The five positions: front line first, then back line; `near x` and `far x` are a pair.
pub fn read(root: &Reader<'_>) -> Positions {
    let mut found: Vec<(String, Line)> = Vec::new();
    let table = root.table("positions");
    for (key, line) in [("front", Line::Front), ("back", Line::Back)] {
        let Some(table) = &table else { continue };
        for node in table.list(key) {
            let name = table.text_in(key, node, "a name such as \"near wing\"");
            found.extend(name.map(|name| (name.to_owned(), line)));
        }
    }
    let names: Vec<String> = found.iter().map(|(name, _)| name.clone()).collect();
    let partner = |name: &str| names.iter().position(|n| n == name).and_then(|at| u8::try_from(at).ok());
    let position = |at: usize| {
        let (name, line) = found.get(at).cloned().unwrap_or_else(|| ("nobody".into(), Line::Back));
        let near =
            name.strip_prefix("near ").and_then(|n| Some((n, Pairing::Near(partner(&format!("far {n}"))?))));
        let far = || {
            name.strip_prefix("far ").and_then(|n| Some((n, Pairing::Far(partner(&format!("near {n}"))?))))
        };
        let (short, pairing) = near.or_else(far).unwrap_or((&name, Pairing::Lone));
        Position { name: short.to_owned(), line, pairing }
    };
    let positions = Positions { all: std::array::from_fn(position), elsewhere: Vec::new() };
    let twice = names.iter().enumerate().any(|(at, name)| names[..at].contains(name));
    let unpaired = (0..5).any(|c| {
        let position = &positions.all[c];
        position.pairing == Pairing::Lone
            && (position.name.starts_with("near ") || position.name.starts_with("far "))
    });
    if (found.len() != 5 || twice || unpaired)
        && let Some(table) = &table
    {
        root.refuse(
            "positions",
            table.node(),
            "five different names, `near` and `far` ones in pairs".into(),
            None,
        );
    }
    positions
}
