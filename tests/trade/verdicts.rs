//! The verdicts in force: for each fact how many possessions its first look has, and what is seen of each of its
//! effects, in their order. `Shown`: as stated. `Refuted`: beyond doubt not as stated. `Open`: neither, and a second look
//! would not settle it either. An engine that has changed is judged anew with the command in `tests/trade/mod.rs`; it
//! says which of these lines have to read otherwise. Reasons for what is not shown: `experiments/studies/trade-facts.md`.

use super::judge::Row;
use super::{drives, glass, moves, passes, post, pressure, screens, shape, team, tempo};
use crate::looks::Seen::{Open, Refuted, Shown};

/// Every fact, by number.
pub const VERDICTS: [Row; 25] = [
    Row { fact: &tempo::HOLDS, possessions: 900, verdicts: &[Refuted, Shown, Open, Refuted] },
    Row { fact: &passes::KICK_OUTS, possessions: 6000, verdicts: &[Shown, Shown] },
    Row {
        fact: &passes::REVERSALS,
        possessions: 1500,
        verdicts: &[Shown, Refuted, Shown, Open, Refuted, Refuted],
    },
    Row { fact: &passes::SKIPS, possessions: 5000, verdicts: &[Shown, Shown] },
    Row { fact: &shape::OVERLOAD, possessions: 400, verdicts: &[Shown] },
    Row { fact: &team::SHOOTERS, possessions: 1500, verdicts: &[Shown, Refuted, Shown, Shown] },
    Row { fact: &post::BACK_OUT, possessions: 2000, verdicts: &[Shown, Shown, Shown] },
    Row { fact: &shape::EXTENSION, possessions: 800, verdicts: &[Shown, Shown] },
    Row { fact: &shape::TWO_GUARDS, possessions: 1000, verdicts: &[Shown] },
    Row { fact: &moves::FLASH, possessions: 3000, verdicts: &[Open, Shown] },
    Row { fact: &passes::FAKES, possessions: 2500, verdicts: &[Open, Open] },
    Row { fact: &screens::FAR_WING, possessions: 3000, verdicts: &[Refuted, Shown, Open] },
    Row { fact: &drives::DRAWS_TWO, possessions: 4500, verdicts: &[Open, Shown, Refuted] },
    Row { fact: &tempo::CUTS, possessions: 4000, verdicts: &[Shown, Shown, Refuted, Refuted, Shown, Shown] },
    Row { fact: &glass::MISSES, possessions: 2000, verdicts: &[Shown, Open] },
    Row { fact: &glass::STAYING_BACK, possessions: 4000, verdicts: &[Open, Shown, Refuted, Shown] },
    Row { fact: &team::QUICKNESS, possessions: 1500, verdicts: &[Shown, Open, Shown, Open] },
    Row { fact: &pressure::TRAP, possessions: 3000, verdicts: &[Shown, Refuted, Refuted] },
    Row { fact: &team::ARMS, possessions: 5000, verdicts: &[Shown, Shown, Refuted, Refuted] },
    Row { fact: &pressure::EARLY, possessions: 4500, verdicts: &[Refuted, Refuted, Shown, Open] },
    Row { fact: &post::PARKED, possessions: 700, verdicts: &[Open, Open, Refuted, Shown] },
    Row { fact: &moves::DROP, possessions: 3000, verdicts: &[Refuted, Refuted] },
    Row { fact: &screens::NEAR_BACK, possessions: 400, verdicts: &[Shown] },
    Row { fact: &moves::STRETCHED, possessions: 2000, verdicts: &[Refuted, Shown, Shown] },
    Row {
        fact: &shape::SINK,
        possessions: 1500,
        verdicts: &[Shown, Refuted, Refuted, Refuted, Open, Open, Open],
    },
];

#[test]
fn every_fact_is_judged_once_and_in_order() {
    let numbers = VERDICTS.each_ref().map(|row| usize::from(row.fact.number));
    assert!(numbers.into_iter().eq(1..=VERDICTS.len()), "{numbers:?}");
}
