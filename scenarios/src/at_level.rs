//! A question's setups at another level of play.

use std::sync::Arc;

use engine::setup::Setup;

use crate::bundled;
use crate::fault::{Fault, Faults, Problem, nearest, one_of};
use crate::schema::scenario;
use crate::source::Desk;
use crate::tree::{Data, Entry, Node};

/// Refuses what names no level, as it was typed.
pub(crate) fn named(level: &str) -> Result<(), Faults> {
    let known = bundled::names("levels");
    if level.ends_with(".toml") || known.contains(&level) {
        return Ok(());
    }
    let problem = Problem::NotAllowed {
        found: format!("\"{level}\""),
        allowed: format!("{}, or a path ending in .toml", one_of(known.iter().copied())),
        nearest: nearest(level, known.iter().copied()),
    };
    Err(Faults::one(Fault::of_file("--level".into(), problem)))
}

/// The setup of a scenario's tree with both teams of this level; `None` where it cannot be read (faults are noted).
pub(crate) fn of(desk: &Desk, tree: &Node, level: &str) -> Option<Arc<Setup>> {
    let mut tree = tree.clone();
    if let Data::Table(entries) = &mut tree.data
        && let Some(levels) = entries.iter_mut().find(|entry| entry.key == "level")
    {
        let origin = levels.key_origin;
        let name = || Node { origin, data: Data::Text(level.to_owned()) };
        let side = |key: &str| Entry { key: key.into(), key_origin: origin, dotted: false, node: name() };
        levels.node.data = Data::Table(vec![side("attack"), side("defence")]);
    }
    scenario::read(desk, &tree).map(|(_, setup)| Arc::new(setup))
}
