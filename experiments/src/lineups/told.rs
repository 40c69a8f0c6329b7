//! What was found of the line-ups, in words and as a table.

use comfy_table::Cell;
use scenarios::{Candidate, WHERE};

use super::{Lineup, MOST, TRIED_POSSESSIONS};
use crate::columns::Column;
use crate::output::{empty, headed, in_cell, right};
use crate::selection::{Ended, Selected};
use crate::stats::Interval;
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
    let mut all = vec![headline(found)];
    all.extend(ORDER.into_iter().map(|place| by_place(found, place)));
    all.push(raced(found));
    let (possessions, _) = found.measured;
    all.push(format!(
        "The table has those left and the line-up in the file's order, measured on {} other possessions of each, which chose \
         nothing. who.csv has all that were raced, each with its number of possessions.",
        grouped(possessions)
    ));
    (table(found), all)
}

/// How it ended.
fn headline(found: &Told<'_>) -> String {
    let selection = &found.selected.selection;
    let (words, margin) = selection.measured();
    let each = grouped(selection.possessions);
    match selection.ended {
        Ended::ClearlyBest => format!(
            "Sure, after {each} possessions of each that was left: one line-up is clearly best by {words}."
        ),
        Ended::WithinMargin => format!(
            "No difference that matters, after {each} possessions of each that was left: {} line-ups are left, and none of them \
             is better by {words} than the one ahead by more than the margin of {margin}.",
            found.left.len()
        ),
        Ended::BudgetSpent => format!(
            "No difference found with the budget of {each} possessions of each: {} line-ups are left that cannot be told apart by \
             {words}, nor be shown to be within {margin} of one another.",
            found.left.len()
        ),
        Ended::NoData => {
            format!("Nothing can be said: no figure for {words} after {each} possessions of each.")
        }
    }
}

/// Who is in a place in all line-ups that are left, and who in some of them.
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
    match (always.as_slice(), sometimes.as_slice()) {
        (all, []) => format!("{head}: {}.", listed(all)),
        ([], some) => format!("{head}: no difference shown between {}.", listed(some)),
        (all, some) => {
            format!("{head}: {}; beside him no difference shown between {}.", listed(all), any_of(some))
        }
    }
}

/// What was raced, and how sure that is.
fn raced(found: &Told<'_>) -> String {
    let selection = &found.selected.selection;
    let of = match found.tried {
        None => format!("All {} line-ups were raced", found.all),
        Some(tried) => format!(
            "Of {} line-ups {tried} were tried on {} possessions each; the {MOST} that seemed best by the sum of what each player \
             is worth in each place were raced (those left out were not shown to be worse)",
            grouped(found.all as u64),
            grouped(TRIED_POSSESSIONS)
        ),
    };
    format!(
        "{of}, {} possessions in all; dropped as clearly behind: {}. All that is said of those raced is right together in 19 of \
         20 runs. With other players beside him, or another attack, another may be better.",
        grouped(selection.possessions_in_all),
        selection.dropped.len()
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
    fn is_ahead(&self, nth: usize) -> bool {
        self.selected.ahead() == Some(nth)
    }
}
