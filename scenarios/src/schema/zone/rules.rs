//! The rules of a zone's file: who helps at the post, who takes the corner, who bumps whom off. The first rule
//! of each kind in the file is the one of a scenario that does not say.

use engine::setup::BallPlace;

use super::Positions;
use super::rows::{ANCHORS, Row, Rows, SUNK, row_of};
use crate::declared::{Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::text::Text;

/// True where a rule holds only once the back has been bumped off.
const AFTER_BUMP: Field =
    Field::flag("after_bump", "True where this holds only once the back has been bumped off.");

/// A rule's words, for whoever is told what the zone does.
const LINE: Field =
    Field::text("line", Text::Line, "What the zone does under this rule, in words that can follow \"if\".");

static POST_HELP: Table = Table::of(&[Part::Fields(&[
    ANCHORS,
    SUNK,
    Field::other("helper", Kind::Position, "The position that drops to the low post."),
    AFTER_BUMP,
    LINE,
])]);
static CORNER: Table = Table::of(&[Part::Fields(&[
    ANCHORS,
    SUNK,
    Field::other("on_ball", Kind::Position, "The position that takes the ball in the corner."),
    AFTER_BUMP,
    LINE,
])]);
static BUMP: Table = Table::of(&[Part::Fields(&[
    Field::other("on_ball", Kind::Position, "The position that bumps the first on-ball defender off.")
        .needed(),
    ANCHORS,
    SUNK,
])]);
static BUMPS: Table = Table::of(&[Part::Each(
    &BallPlace::NAMES,
    Field::table("", &BUMP, "Who has the ball here once he has come."),
)]);

const HELPS: &str = "The post help rules, each with its corner row.";
const HELP: Field = Field::table("", &POST_HELP, HELPS);
const CORNERS: &str = "The corner rules, each with its row and on-ball defender.";
const CORNER_RULE: Field = Field::table("", &CORNER, CORNERS);

/// The rules of a zone's file.
pub const FIELDS: Part = Part::Fields(&[
    Field::other("post_help", Kind::Map(&HELP), HELPS),
    Field::other("corner", Kind::Map(&CORNER_RULE), CORNERS),
    Field::table("bump", &BUMPS, "Ball places where a second position bumps off the first on-ball defender."),
]);

const FIRST: Need = Need::Depends("the first of the zone's file");
/// The choice among them in a scenario's `[zone]`.
pub const CHOSEN: Part = Part::Fields(&[
    Field::other(
        "post_help_rule",
        Kind::Rule("post_help"),
        "Who takes the low post once the near back has gone out.",
    )
    .or(FIRST),
    Field::other("corner_rule", Kind::Rule("corner"), "Who takes a catch in the corner.").or(FIRST),
]);

/// Second acts by ball place: the row, where it is another one, and the position that has the ball then.
pub type Bumps = [Option<(Option<Row>, u8)>; BallPlace::COUNT];

/// One rule as written: its row for the corner, if it has one, and the position that it names.
pub struct Rule {
    row: Option<Row>,
    position: Option<u8>,
    after_bump: bool,
}

/// The rules that a table is made under; the post help rule has been worked into the rows.
pub struct Rules {
    /// Position that drops to the low post once the near back has gone out.
    pub helper: Option<u8>,
    /// The corner rules in the file's order, and the one that is in force.
    pub corners: Vec<Rule>,
    pub corner: Option<usize>,
    /// Second acts of any place.
    pub bumps: Bumps,
}

impl Rules {
    /// Reads all rules and picks those that the scenario names.
    pub fn read(root: &Reader<'_>, choice: &Reader<'_>, on: (&Positions, Fit), rows: &mut Rows) -> Rules {
        let (helps, chosen) = all(root, "post_help", "helper", (choice, "post_help_rule"), on);
        let low_post = BallPlace::LowPost as usize;
        let mut helper = None;
        if let Some(rule) = chosen.and_then(|at| helps.into_iter().nth(at)) {
            if let Some(row) = rule.row {
                rows.rows[BallPlace::Corner as usize] = row;
            }
            let position = rule.position.unwrap_or(rows.on_ball[low_post][0]);
            rows.on_ball[low_post][1] = position;
            helper = Some(position);
        }
        let (corners, corner) = all(root, "corner", "on_ball", (choice, "corner_rule"), on);
        Rules { helper, corners, corner, bumps: bumps(root, on) }
    }
}

impl Rule {
    /// Changes the corner's row and on-ball defender, or what comes after its bump.
    pub fn apply(&self, rows: &mut [Row], on_ball: &mut [[u8; 2]], bumps: &mut Bumps) {
        let corner = BallPlace::Corner as usize;
        let first = self.position.unwrap_or(on_ball[corner][0]);
        if self.after_bump {
            bumps[corner] = self.row.clone().map(|row| (Some(row), first));
            return;
        }
        if let Some(row) = &self.row {
            rows[corner] = row.clone();
        }
        on_ball[corner] = [first, if self.position.is_some() { first } else { on_ball[corner][1] }];
    }
}

/// Every rule of a table, and the number of the one that the scenario names, or else of the first.
fn all(
    root: &Reader<'_>,
    tables: &str,
    position: &str,
    (choice, rule): (&Reader<'_>, &str),
    on: (&Positions, Fit),
) -> (Vec<Rule>, Option<usize>) {
    let mut rules: Vec<(&str, Rule)> = Vec::new();
    if let Some(table) = root.table(tables) {
        for entry in table.entries() {
            table.judge_name(entry);
            let Some(t) = table.table_under(entry) else { continue };
            let row = t.find("anchors").map(|_| row_of(&t, on));
            t.maybe_text(LINE.key.name);
            let named = t.find(position).map(|node| on.0.read(&t, position, node));
            rules.push((&entry.key, Rule { row, position: named, after_bump: t.flag("after_bump") }));
        }
    }
    let names: Vec<&str> = rules.iter().map(|(name, _)| *name).collect();
    if names.is_empty() {
        if let Some(node) = choice.find(rule) {
            choice.refuse(rule, node, "no such key: this zone has no rules of that kind".into(), None);
        }
        return (Vec::new(), None);
    }
    let chosen = choice.name(rule, &names).or(Some(0));
    (rules.into_iter().map(|(_, rule)| rule).collect(), chosen)
}

/// Second acts of any ball place: `[bump.wing]`.
fn bumps(root: &Reader<'_>, on: (&Positions, Fit)) -> Bumps {
    let mut found: Bumps = Default::default();
    let Some(table) = root.table("bump") else { return found };
    for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
        let Some(bump) = table.table(name) else { continue };
        match bump.find("on_ball") {
            Some(node) => {
                let row = bump.find("anchors").map(|_| row_of(&bump, on));
                found[place] = Some((row, on.0.read(&bump, "on_ball", node)));
            }
            None => bump.missing("on_ball", "a position".into()),
        }
    }
    found
}
