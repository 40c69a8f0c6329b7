//! The zone's answers: variants of an experiment under each post help rule that their zone knows.

use std::sync::Arc;

use engine::setup::Setup;

use crate::load::Variant;
use crate::schema::scenario;
use crate::source::{Desk, Named};
use crate::tree::{Data, Entry, Node};

/// A variant with the zone's post help rule replaced.
#[derive(Clone, Debug)]
pub struct Answer {
    /// Name of the variant.
    pub variant: String,
    /// The post help rule.
    pub rule: String,
    /// What the zone does under it, as a clause: `the point drops to the low post`.
    pub line: String,
    /// It is the rule that the variant has anyway.
    pub in_force: bool,
    /// What the engine plays.
    pub setup: Arc<Setup>,
}

/// A rule that a zone knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ZoneRule {
    /// Its name.
    pub name: String,
    /// What the zone does under it, as a clause.
    pub line: String,
}

/// The rules that a scenario's zone knows, each kind in the order of the zone's file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ZoneRules {
    /// Name of the zone.
    pub zone: String,
    /// Who takes a catch in the corner.
    pub corner: Vec<ZoneRule>,
    /// Who takes the low post once the near back has gone out.
    pub post_help: Vec<ZoneRule>,
    /// Everybody follows his man, and nobody has a place.
    pub follows_men: bool,
}

/// The rules of a scenario's zone; None where it names none that can be read, which is noted.
pub(crate) fn known(desk: &Desk, tree: &Node) -> Option<ZoneRules> {
    let (_, file) = zone_of(desk, tree)?;
    let of = |table: &str| {
        let rules = file.root.get(table).map_or(&[][..], |table| table.node.entries());
        rules.iter().map(|rule| ZoneRule { name: rule.key.clone(), line: line_of(rule) }).collect()
    };
    let (corner, post_help) = (of("corner"), of("post_help"));
    Some(ZoneRules { corner, post_help, follows_men: file.root.get("marks").is_some(), zone: file.name })
}

/// The number of rules of a scenario's zone.
pub(crate) fn count(desk: &Desk, tree: &Node) -> usize {
    zone_of(desk, tree).map_or(0, |(_, file)| rules_of(&file).len())
}

/// The `[zone]` table of a scenario, and the file that it names.
fn zone_of<'t>(desk: &Desk, tree: &'t Node) -> Option<(&'t Node, Named)> {
    let zone = &tree.get("zone")?.node;
    let file = desk.open_named("zones", &zone.get("use")?.node, "zone.use")?;
    Some((zone, file))
}

fn rules_of(file: &Named) -> &[Entry] {
    file.root.get("post_help").map_or(&[][..], |table| table.node.entries())
}

/// A variant (with its scenario's tree) under every rule of its zone, in the order of the zone's file. Empty
/// for a zone that knows no post help rules.
pub(crate) fn of(desk: &Desk, variant: &Variant, tree: &Node) -> Vec<Answer> {
    let Some((zone, file)) = zone_of(desk, tree) else { return Vec::new() };
    let rules = rules_of(&file);
    let own = match zone.get(RULE).map(|entry| &entry.node.data) {
        Some(Data::Text(rule)) => rule.as_str(),
        // The first rule of the file is the one of a scenario that does not say.
        _ => rules.first().map_or("", |rule| rule.key.as_str()),
    };
    let under = |rule: &Entry| {
        let in_force = rule.key == own;
        let setup = if in_force {
            variant.setup.clone()
        } else {
            Arc::new(scenario::read(desk, &with_rule(tree, rule))?.1)
        };
        let line = line_of(rule);
        Some(Answer { variant: variant.name.clone(), rule: rule.key.clone(), line, in_force, setup })
    };
    rules.iter().filter_map(under).collect()
}

const RULE: &str = "post_help_rule";

/// A rule's `line`, or what it comes to.
fn line_of(rule: &Entry) -> String {
    let text = |key: &str| match &rule.node.get(key)?.node.data {
        Data::Text(text) => Some(text.as_str()),
        _ => None,
    };
    let helped = || text("helper").map(|helper| format!("the {helper} takes the low post"));
    let taken = || text("on_ball").map(|taker| format!("the {taker} takes the corner"));
    text("line")
        .map(String::from)
        .or_else(helped)
        .or_else(taken)
        .unwrap_or_else(|| format!("they play {}", rule.key))
}

/// A scenario's tree with another rule in its `[zone]`.
fn with_rule(tree: &Node, rule: &Entry) -> Node {
    let mut tree = tree.clone();
    let value = Node { origin: rule.key_origin, data: Data::Text(rule.key.clone()) };
    if let Data::Table(entries) = &mut tree.data
        && let Some(zone) = entries.iter_mut().find(|entry| entry.key == "zone")
        && let Data::Table(entries) = &mut zone.node.data
    {
        entries.retain(|entry| entry.key != RULE);
        let key_origin = rule.key_origin;
        entries.push(Entry { key: RULE.into(), key_origin, dotted: false, node: value });
    }
    tree
}
