//! The rules of a zone's file: who helps at the post, who takes the corner, who bumps whom off. The first rule
//! of each kind in the file is the one of a scenario that does not say.

use engine::setup::BallPlace;

use super::Columns;
use super::rows::{Row, Rows, row_of};
use crate::key::Key;
use crate::read::Reader;

/// Second acts by ball place: the row, where it is another one, and the column that has the ball then.
pub type Bumps = [Option<(Option<Row>, u8)>; BallPlace::COUNT];

/// One rule as written: its row for the corner, if it has one, and the column that it names.
pub struct Rule {
    row: Option<Row>,
    column: Option<u8>,
    after_bump: bool,
}

/// The rules that a table is made under; the post help rule has been worked into the rows.
pub struct Rules {
    /// Column that drops to the low post once the near back has gone out.
    pub helper: Option<u8>,
    /// The corner rules in the file's order, and the one that is in force.
    pub corners: Vec<Rule>,
    pub corner: Option<usize>,
    /// Second acts of any place.
    pub bumps: Bumps,
}

impl Rules {
    /// Reads all rules and picks those that the scenario names.
    pub fn read(root: &Reader<'_>, choice: &Reader<'_>, columns: &Columns, rows: &mut Rows) -> Rules {
        let tables = Key::other("post_help", "The post help rules, each with its corner row.");
        let column = Key::other("helper", "The column that drops to the low post.");
        let rule = Key::other("post_help_rule", "Who takes the low post once the near back has gone out.");
        let (helps, chosen) = all(root, tables, column, (choice, rule), columns);
        let low_post = BallPlace::LowPost as usize;
        let mut helper = None;
        if let Some(rule) = chosen.and_then(|at| helps.into_iter().nth(at)) {
            if let Some(row) = rule.row {
                rows.rows[BallPlace::Corner as usize] = row;
            }
            let column = rule.column.unwrap_or(rows.takers[low_post][0]);
            rows.takers[low_post][1] = column;
            helper = Some(column);
        }
        let tables = Key::other("corner", "The corner rules, each with its row and taker.");
        let column = Key::other("taker", "The column that takes the ball in the corner.");
        let rule = Key::other("corner_rule", "Who takes a catch in the corner.");
        let (corners, corner) = all(root, tables, column, (choice, rule), columns);
        Rules { helper, corners, corner, bumps: bumps(root, columns) }
    }
}

impl Rule {
    /// Changes the corner's row and taker, or what comes after its bump.
    pub fn apply(&self, rows: &mut [Row], takers: &mut [[u8; 2]], bumps: &mut Bumps) {
        let corner = BallPlace::Corner as usize;
        let taker = self.column.unwrap_or(takers[corner][0]);
        if self.after_bump {
            bumps[corner] = self.row.clone().map(|row| (Some(row), taker));
            return;
        }
        if let Some(row) = &self.row {
            rows[corner] = row.clone();
        }
        takers[corner] = [taker, if self.column.is_some() { taker } else { takers[corner][1] }];
    }
}

/// Every rule of a table, and the number of the one that the scenario names, or else of the first.
fn all(
    root: &Reader<'_>,
    tables: Key,
    column: Key,
    (choice, rule): (&Reader<'_>, Key),
    columns: &Columns,
) -> (Vec<Rule>, Option<usize>) {
    let mut rules: Vec<(&str, Rule)> = Vec::new();
    if let Some(table) = root.maybe_table(tables) {
        for entry in table.entries() {
            let Some(t) = table.table_in(tables, &entry.node, table.path_of(&entry.key)) else { continue };
            let row = t.find("anchors").map(|_| row_of(&t, columns));
            let named = t.find(column.name).map(|node| columns.read(&t, column, node));
            let after =
                Key::other("after_bump", "True where this holds only once the back has been bumped off.");
            t.maybe_text(Key::other(
                "line",
                "What the zone does under this rule, in words that can follow \"if\".",
            ));
            rules.push((&entry.key, Rule { row, column: named, after_bump: t.flag(after) }));
        }
    }
    let names: Vec<&str> = rules.iter().map(|(name, _)| *name).collect();
    let Some(first) = names.first() else {
        if let Some(node) = choice.find(rule.name) {
            choice.refuse(rule, node, "no such key: this zone has no rules of that kind".into(), None);
        }
        return (Vec::new(), None);
    };
    let chosen = choice.name_or(rule, &names, first);
    let chosen = chosen.and_then(|chosen| names.iter().position(|name| *name == chosen)).or(Some(0));
    (rules.into_iter().map(|(_, rule)| rule).collect(), chosen)
}

/// Second acts of any ball place: `[bump.wing]`.
fn bumps(root: &Reader<'_>, columns: &Columns) -> Bumps {
    let mut found: Bumps = Default::default();
    let tables = Key::other("bump", "Ball places where a second column bumps off the first taker.");
    let Some(table) = root.maybe_table(tables) else { return found };
    for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
        let key = Key::other(name, "Who has the ball here once he has come.");
        let Some(bump) = table.maybe_table(key) else { continue };
        let taker = Key::other("taker", "The column that bumps the first taker off.");
        match bump.find(taker.name) {
            Some(node) => {
                let row = bump.find("anchors").map(|_| row_of(&bump, columns));
                found[place] = Some((row, columns.read(&bump, taker, node)));
            }
            None => bump.missing(taker, "a column".into()),
        }
    }
    found
}
