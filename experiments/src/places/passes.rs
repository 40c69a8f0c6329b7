//! `passes.csv`: who passes to whom, how, and what becomes of it.

use engine::Places;
use engine::setup::PassKind;

use super::names::ATTACKERS;
use crate::output::{cell, written};

/// Passes of one kind from one role to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PassRow {
    /// Thrower, by slot.
    pub from: usize,
    /// Whom it was meant for, by slot.
    pub to: usize,
    /// Kind.
    pub kind: PassKind,
    /// Thrown.
    pub thrown: i64,
    /// Caught by a team-mate.
    pub completed: i64,
    /// Taken by a defender.
    pub taken: i64,
}

/// The passes of a variant, those that were never thrown left out.
pub fn pass_rows(places: &Places) -> Vec<PassRow> {
    let pairs = (0..5).flat_map(|from| (0..5).map(move |to| (from, to)));
    let row = |((from, to), kind)| {
        let passes = places.passes(from, to, kind);
        let row = PassRow {
            from,
            to,
            kind,
            thrown: passes.thrown,
            completed: passes.completed,
            taken: passes.taken,
        };
        (row.thrown != 0).then_some(row)
    };
    pairs.flat_map(|pair| PassKind::ALL.map(|kind| (pair, kind))).filter_map(row).collect()
}

/// Name of a kind of pass.
pub const fn kind_name(kind: PassKind) -> &'static str {
    match kind {
        PassKind::Chest => "chest",
        PassKind::Bounce => "bounce",
        PassKind::Overhead => "overhead",
        PassKind::Lob => "lob",
    }
}

/// One row for each variant, pair of roles and kind.
pub fn passes_csv(variants: &[String], passes: &[Vec<PassRow>], possessions: u64) -> Vec<u8> {
    let header =
        ["variant", "from", "to", "kind", "thrown", "completed", "taken_by_defender", "per_100_possessions"];
    let rows = variants.iter().zip(passes).flat_map(|(variant, rows)| {
        rows.iter().map(move |row| {
            vec![
                variant.clone(),
                ATTACKERS[row.from].into(),
                ATTACKERS[row.to].into(),
                kind_name(row.kind).into(),
                row.thrown.to_string(),
                row.completed.to_string(),
                row.taken.to_string(),
                cell(Some(100.0 * row.thrown as f64 / possessions as f64)),
            ]
        })
    });
    written(header.map(String::from).to_vec(), rows)
}

/// Passes of all kinds from one role to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PassPair {
    /// Thrower, by slot.
    pub from: usize,
    /// Whom they were meant for, by slot.
    pub to: usize,
    /// Thrown.
    pub thrown: i64,
    /// Caught by a team-mate.
    pub completed: i64,
    /// Taken by a defender.
    pub taken: i64,
}

/// The pairs of a variant, most passes first, equals in slot order.
pub fn pass_pairs(rows: &[PassRow]) -> Vec<PassPair> {
    let mut pairs: Vec<PassPair> = Vec::new();
    for row in rows {
        match pairs.iter_mut().find(|pair| (pair.from, pair.to) == (row.from, row.to)) {
            Some(pair) => {
                pair.thrown += row.thrown;
                pair.completed += row.completed;
                pair.taken += row.taken;
            }
            None => {
                let &PassRow { from, to, thrown, completed, taken, .. } = row;
                pairs.push(PassPair { from, to, thrown, completed, taken });
            }
        }
    }
    pairs.sort_by_key(|pair| -pair.thrown);
    pairs
}

/// `pass_pairs.csv`: one row for each variant and pair of roles.
pub fn pass_pairs_csv(variants: &[String], passes: &[Vec<PassRow>], possessions: u64) -> Vec<u8> {
    let header =
        ["variant", "from", "to", "thrown", "per_100_possessions", "caught_share", "taken_by_defender_share"];
    let rows = variants.iter().zip(passes).flat_map(|(variant, rows)| {
        pass_pairs(rows).into_iter().map(move |pair| {
            let share = |part: i64| cell(Some(part as f64 / pair.thrown as f64));
            vec![
                variant.clone(),
                ATTACKERS[pair.from].into(),
                ATTACKERS[pair.to].into(),
                pair.thrown.to_string(),
                cell(Some(100.0 * pair.thrown as f64 / possessions as f64)),
                share(pair.completed),
                share(pair.taken),
            ]
        })
    });
    written(header.map(String::from).to_vec(), rows)
}
