//! `passes.csv`: who passes to whom, how, and what becomes of it.

use engine::Places;
use engine::setup::PassKind;
use serde::Serialize;

use super::names::ATTACKERS;
use crate::output::{Decimal, FileLine};
use crate::wording::pass_kind;

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

/// One row of `passes.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct PassLine {
    variant: String,
    from: &'static str,
    to: &'static str,
    kind: &'static str,
    thrown: i64,
    completed: i64,
    taken_by_defender: i64,
    per_100_possessions: Decimal,
}

impl FileLine for PassLine {
    const FILE: &'static str = "passes.csv";
}

/// One row for each variant, pair of roles and kind.
pub(crate) fn pass_lines(
    variants: &[String],
    passes: &[Vec<PassRow>],
    possessions: u64,
) -> impl Iterator<Item = PassLine> {
    variants.iter().zip(passes).flat_map(move |(variant, rows)| {
        rows.iter().map(move |row| PassLine {
            variant: variant.clone(),
            from: ATTACKERS[row.from],
            to: ATTACKERS[row.to],
            kind: pass_kind(row.kind),
            thrown: row.thrown,
            completed: row.completed,
            taken_by_defender: row.taken,
            per_100_possessions: (100.0 * row.thrown as f64 / possessions as f64).into(),
        })
    })
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

/// One row of `pass_pairs.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct PassPairLine {
    variant: String,
    from: &'static str,
    to: &'static str,
    thrown: i64,
    per_100_possessions: Decimal,
    caught_share: Decimal,
    taken_by_defender_share: Decimal,
}

impl FileLine for PassPairLine {
    const FILE: &'static str = "pass_pairs.csv";
}

/// One row for each variant and pair of roles.
pub(crate) fn pass_pair_lines(
    variants: &[String],
    passes: &[Vec<PassRow>],
    possessions: u64,
) -> impl Iterator<Item = PassPairLine> {
    variants.iter().zip(passes).flat_map(move |(variant, rows)| {
        pass_pairs(rows).into_iter().map(move |pair| {
            let share = |part: i64| Decimal::from(part as f64 / pair.thrown as f64);
            PassPairLine {
                variant: variant.clone(),
                from: ATTACKERS[pair.from],
                to: ATTACKERS[pair.to],
                thrown: pair.thrown,
                per_100_possessions: (100.0 * pair.thrown as f64 / possessions as f64).into(),
                caught_share: share(pair.completed),
                taken_by_defender_share: share(pair.taken),
            }
        })
    })
}
