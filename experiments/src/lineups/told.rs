//! What was found of the line-ups, in words and as a table.

use comfy_table::Cell;
use std::sync::Arc;

use engine::setup::Setup;
use scenarios::{Candidate, WHERE};

use super::doubt::{Doubt, doubts};
use super::{Lineup, MOST, TRIED_POSSESSIONS};
use crate::columns::Column;
use crate::output::{empty, headed, in_cell, right};
use crate::selection::{Ended, Selected};
use crate::stats::{Better, Interval};
use crate::wording::{any_of, grouped, listed};

/// The places in the order in which they are told.
const ORDER: [usize; 3] = [1, 0, 2];

/// What is told of.
pub(crate) struct Told<'a> {
    /// The players.
    pub squad: &'a [Candidate],
    /// Line-ups that can be made.
    pub all: usize,
    /// Those that were tried to find the ones that were raced; None where all were raced.
    pub tried: Option<usize>,
    /// Those that were raced, with their numbers among all, from 1.
    pub raced: &'a [(usize, Lineup)],
    /// What these were played with.
    pub setups: &'a [Arc<Setup>],
    /// The race.
    pub selected: &'a Selected,
    /// Places among those raced of the ones that are left.
    pub left: &'a [usize],
    /// What was measured, by places among those raced, on so many possessions of each.
    pub measured: (u64, &'a [(usize, Interval)]),
    /// By what.
    pub column: &'static Column,
}

/// The table, and sentences, a paragraph an entry.
pub(crate) fn told(found: &Told<'_>) -> (String, Vec<String>) {
    let doubts = found.doubts();
    let mut all = vec![headline(found, &doubts)];
    all.extend(doubted(&doubts));
    if found.selected.selection.ended != Ended::NoData {
        all.extend(ORDER.into_iter().map(|place| by_place(found, place)));
    }
    all.push(raced(found));
    let (possessions, _) = found.measured;
    all.push(format!(
        "The table has those left and the line-up in the file's order, measured on {} other possessions of each, which chose \
         nothing; each interval there speaks of its line-up alone. who.csv has all that were raced.",
        grouped(possessions)
    ));
    (table(found), all)
}

/// How it ended. Nothing is called sure that the counts behind the players do not show.
fn headline(found: &Told<'_>, doubts: &[Doubt]) -> String {
    let selection = &found.selected.selection;
    let (words, margin) = selection.measured();
    let each = grouped(selection.possessions);
    match selection.ended {
        Ended::ClearlyBest if doubts.is_empty() => {
            format!("One line-up is clearly best by {words}, sure after {each} possessions of it.")
        }
        Ended::ClearlyBest => format!(
            "If everybody shoots just as he was played, one line-up is best by {words}, after {each} possessions of it; whether he \
             does is not sure."
        ),
        Ended::WithinMargin => within(found),
        Ended::BudgetSpent => format!(
            "Not sure with the budget of {each} possessions of each: {} line-ups are left that cannot be told apart by {words}, \
             and another may be better than the one ahead by more than {margin}.",
            found.left.len()
        ),
        Ended::NoData => format!(
            "Nothing can be said: after {each} possessions of each there was no figure for {words} of {} of {} line-ups; rank \
             by another column.",
            selection.lacking.len(),
            found.raced.len()
        ),
    }
}

/// What the counts do not show, and what was taken for granted in any case.
fn doubted(doubts: &[Doubt]) -> Option<String> {
    let words: Vec<String> = doubts.iter().map(Doubt::words).collect();
    (!words.is_empty()).then(|| format!("What their counts show of it is little: {}.", words.join("; ")))
}

/// That nobody is better than the one ahead by more than the margin; that they are equals only where he is not better than them
/// by more, either.
fn within(found: &Told<'_>) -> String {
    let selection = &found.selected.selection;
    let ((words, margin), each) = (selection.measured(), grouped(selection.possessions));
    let better = |nth: &usize| {
        let behind = found.selected.last_seen(*nth).map(|(_, standing)| standing.behind)?;
        Some(match found.column.better {
            Better::Higher => -behind.low,
            Better::Lower => behind.high,
        })
    };
    let most = found.left.iter().filter_map(better).fold(0.0, f64::max);
    let left = found.left.len();
    if most <= selection.margin {
        format!(
            "No difference that matters, after {each} possessions of each that was left: {left} line-ups are left, and by {words} \
             none of them is apart from the one ahead by more than the margin of {margin}, either way."
        )
    } else {
        format!(
            "Good enough, after {each} possessions of each that was left: {left} line-ups are left, and none of them is better by \
             {words} than the one ahead, {}, by more than the margin of {margin}. It may be better than another by up to {}.",
            selection.ahead,
            selection.in_unit(most)
        )
    }
}

/// Who is in a place in all line-ups that are left, who in some of them, and who in none of them but in some that were raced.
fn by_place(found: &Told<'_>, place: usize) -> String {
    let left: Vec<Lineup> = found.left.iter().map(|nth| found.raced[*nth].1).collect();
    let name = |player: &usize| found.squad[*player].name.as_str();
    let plays =
        |player: usize| left.iter().filter(|own| own.players(place).any(|other| other == player)).count();
    let some: Vec<usize> = (0..found.squad.len()).filter(|&player| plays(player) > 0).collect();
    let (always, sometimes): (Vec<usize>, Vec<usize>) =
        some.into_iter().partition(|&player| plays(player) == left.len());
    let always: Vec<&str> = always.iter().map(name).collect();
    let sometimes: Vec<&str> = sometimes.iter().map(name).collect();
    let head = match WHERE[place] {
        "rover" => "Rover".to_owned(),
        own => format!("{}s", crate::wording::capital(own)),
    };
    let told = match (always.as_slice(), sometimes.as_slice()) {
        (all, []) => format!("{head}: {}.", listed(all)),
        ([], some) => format!("{head}: no difference shown between {}.", listed(some)),
        (all, some) => {
            format!("{head}: {}; beside him no difference shown between {}.", listed(all), any_of(some))
        }
    };
    told + &behind(found, place, |player| plays(player) == 0)
}

/// Who is in a place in line-ups that were raced, but in none that is left. Where not all were raced, only who was held
/// against the ones in that place with the same four beside him is said to be behind them.
fn behind(found: &Told<'_>, place: usize, is_out: impl Fn(usize) -> bool) -> String {
    let has = |own: &Lineup, player: usize| own.players(place).any(|other| other == player);
    let ahead = found.selected.ahead().map(|nth| found.raced[nth].1);
    let is_held = |player: usize| {
        let by_him = |(_, own): &(usize, Lineup)| {
            has(own, player) && ahead.is_some_and(|ahead| ahead.is_but_one(own, place))
        };
        found.tried.is_none() || found.raced.iter().any(by_him)
    };
    let raced = |player: &usize| is_out(*player) && found.raced.iter().any(|(_, own)| has(own, *player));
    let (held, others): (Vec<usize>, Vec<usize>) =
        (0..found.squad.len()).filter(raced).partition(|player| is_held(*player));
    let names = |players: &[usize]| {
        listed(&players.iter().map(|player| found.squad[*player].name.as_str()).collect::<Vec<_>>())
    };
    let mut told = String::new();
    if !held.is_empty() {
        told += &format!(" Worse there: {}.", names(&held));
    }
    if !others.is_empty() {
        told += &format!(" Tried there beside others only, so not shown to be worse: {}.", names(&others));
    }
    told
}

/// What was raced, and how sure that is.
fn raced(found: &Told<'_>) -> String {
    let selection = &found.selected.selection;
    let of = match found.tried {
        None => format!("All {} line-ups were raced", found.all),
        Some(tried) => format!(
            "Of {} line-ups {tried} were tried on {} possessions each; the {MOST} that seemed best by the sum of what each player \
             is worth in each place were raced, and the one that seemed best with each player in each place, {} together. The \
             others were compared with nobody, and one of them may be better",
            grouped(found.all as u64),
            grouped(TRIED_POSSESSIONS),
            found.raced.len()
        ),
    };
    format!(
        "{of}. {} of them were clearly behind; it took {} possessions in all. What is said of those raced is right, all of it \
         together, in 19 of 20 runs, as far as chance in the possessions goes: every share, and the level where nothing is said of \
         a player, was taken to be exactly right. With other players beside him, or another attack, another may be better.",
        selection.dropped.len(),
        grouped(selection.possessions_in_all)
    )
}

fn table(found: &Told<'_>) -> String {
    let mut table = empty();
    let head = [
        Cell::new("line-up"),
        Cell::new("rover"),
        Cell::new("guards"),
        Cell::new("posts"),
        right(headed(found.column)),
    ];
    table.set_header(head);
    let mut rows: Vec<&(usize, Interval)> = found.measured.1.iter().collect();
    rows.sort_by_key(|(nth, _)| (!found.is_ahead(*nth), !found.left.contains(nth), *nth));
    for (nth, figure) in rows {
        let (number, lineup) = &found.raced[*nth];
        let names = |place: usize| {
            let names: Vec<&str> =
                lineup.players(place).map(|player| found.squad[player].name.as_str()).collect();
            Cell::new(names.join("\n"))
        };
        let mark = if found.is_ahead(*nth) {
            " (ahead)"
        } else if found.left.contains(nth) {
            ""
        } else {
            " (behind)"
        };
        let value = |value| in_cell(found.column, value);
        table.add_row([
            Cell::new(format!("{number}{mark}")),
            names(1),
            names(0),
            names(2),
            right(format!("{} ({} to {})", value(figure.estimate), value(figure.low), value(figure.high))),
        ]);
    }
    table.trim_fmt().lines().map(str::trim_end).collect::<Vec<_>>().join("\n")
}

impl Told<'_> {
    /// What speaks for the one ahead, and is not shown by the counts behind it.
    fn doubts(&self) -> Vec<Doubt> {
        let of = |nth: usize| Some((&self.raced[nth].1, self.setups.get(nth)?.as_ref()));
        let Some(ahead) = self.selected.ahead().and_then(of) else { return Vec::new() };
        let behind: Vec<_> =
            (0..self.raced.len()).filter(|nth| !self.left.contains(nth)).filter_map(of).collect();
        doubts(self.squad, ahead, &behind)
    }

    fn is_ahead(&self, nth: usize) -> bool {
        self.selected.ahead() == Some(nth)
    }
}
