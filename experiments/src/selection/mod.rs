//! The choice before the measurement: a [`Race`] of the variants on possessions of their own, which nothing else is
//! measured on. Who is first by the possessions that chose him looks better than he is; by others he does not.
//!
//! Its possessions have the numbers from [`FROM`] on, of the same seed: no run reaches them, and whoever wants to see one
//! finds it by its number.

mod lines;
mod racing;
mod told;

use std::ops::Range;

use serde::{Deserialize, Serialize};

pub(crate) use lines::SelectionLine;
pub(crate) use racing::Racing;

use crate::columns::Column;
use crate::crash::Crash;
use crate::error::Error;
use crate::run::Played;
use crate::stats::{End, LARGEST_POSSESSIONS, Place, Race, Standing, UntilSure};

/// The number of the first possession that chooses. No run has so many.
pub const FROM: u64 = LARGEST_POSSESSIONS;

/// What a selection came to, as it is kept in a result.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Selection {
    /// The column that variants were compared by.
    pub measure: String,
    /// A difference that does not matter, in the column's unit.
    pub margin: f64,
    /// Possessions of each variant at most.
    pub budget: u64,
    /// How it ended.
    pub ended: Ended,
    /// Looks that were taken.
    pub looks: usize,
    /// Possessions of each variant that was left at the end.
    pub possessions: u64,
    /// Of all variants together.
    pub possessions_in_all: u64,
    /// The number of the first of them.
    pub from: u64,
    /// The variant ahead at the end; empty without data.
    pub ahead: String,
    /// Those left at the end, the one ahead among them, in plan order.
    pub left: Vec<String>,
    /// Those that were dropped, in the order of their numbers of possessions.
    pub dropped: Vec<Dropped>,
    /// Those without a figure, for want of which nobody was chosen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lacking: Vec<String>,
    /// Fingerprint of every possession that chose.
    pub digest: String,
}

impl Selection {
    /// Those that were dropped, in the order of their numbers of possessions.
    pub(crate) fn behind(&self) -> Vec<&str> {
        self.dropped.iter().map(|own| own.variant.as_str()).collect()
    }
}

/// How a selection ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ended {
    /// One is clearly best.
    ClearlyBest,
    /// None of those left can be better than the one ahead by more than the margin.
    WithinMargin,
    /// At the budget, with neither shown.
    BudgetSpent,
    /// Before either was shown, since no more was wanted.
    Stopped,
    /// Without a figure for one of them.
    NoData,
}

impl Ended {
    /// Whether nobody was shown to be the one to choose.
    #[must_use]
    pub fn is_open(self) -> bool {
        matches!(self, Self::BudgetSpent | Self::Stopped)
    }
}

/// A variant that was dropped.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Dropped {
    /// Which.
    pub variant: String,
    /// Possessions of it.
    pub possessions: u64,
}

/// What there is of a selection that may have been stopped.
pub(crate) enum SoFar {
    /// It has not ended.
    On(Box<Racing>),
    Ended(Box<Selected>),
}

/// A selection with all that comes of it.
#[derive(Clone, Debug)]
pub struct Selected {
    /// What it came to.
    pub selection: Selection,
    /// Possessions that broke down, each with its variant's name.
    pub crashes: Vec<(String, Crash)>,
    race: Race,
    names: Vec<String>,
}

impl Selected {
    /// Races the named variants by a column. `play` plays some of them, by their places among the names, over a range of
    /// possession numbers.
    ///
    /// # Errors
    /// Those of `play`.
    pub fn race(
        names: &[String],
        column: &'static Column,
        until: UntilSure,
        mut play: impl FnMut(&[usize], Range<u64>) -> Result<Played, Error>,
    ) -> Result<Self, Error> {
        let mut racing = Racing::new(names, column, until);
        while let Some((left, possessions)) = racing.to_play() {
            racing.take(play(&left, possessions)?);
        }
        Ok(racing.selected())
    }

    /// The variants whose effects are to be measured, in plan order: those left and the one that all are compared with;
    /// where that is one alone, the last that was dropped as well.
    #[must_use]
    pub fn to_measure(&self, baseline: usize) -> Vec<usize> {
        let mut all = self.race.left().to_vec();
        all.push(baseline);
        all.sort_unstable();
        all.dedup();
        if all.len() == 1 {
            all.extend(self.last_dropped());
            all.sort_unstable();
        }
        all
    }

    /// The variant that was dropped last; of several the one that was least behind.
    fn last_dropped(&self) -> Option<usize> {
        let dropped = (0..self.names.len()).filter(|v| !self.race.left().contains(v));
        let seen = dropped.filter_map(|v| {
            let (look, standing) = self.race.last_seen(v)?;
            Some((look.possessions, -standing.behind.estimate.abs(), v))
        });
        seen.max_by(|a, b| (a.0.cmp(&b.0)).then(a.1.total_cmp(&b.1)).then(b.2.cmp(&a.2))).map(|(.., v)| v)
    }

    /// Possessions of a variant up to the last look at it, and where it stood there; None without data.
    pub(crate) fn last_seen(&self, variant: usize) -> Option<(u64, &Standing)> {
        self.race.last_seen(variant).map(|(look, standing)| (look.possessions, standing))
    }

    /// Places of the variants that are left, in plan order.
    pub(crate) fn left(&self) -> &[usize] {
        self.race.left()
    }

    /// Place of the variant that is ahead.
    pub(crate) fn ahead(&self) -> Option<usize> {
        self.race.ahead()
    }

    /// A row for each variant at each look that it was played up to.
    pub(crate) fn lines(&self) -> Vec<SelectionLine> {
        let mut lines = Vec::new();
        for (nth, look) in self.race.taken().iter().enumerate() {
            let ahead = look.standings.iter().find(|own| own.place == Place::Ahead);
            let against = ahead.map_or("", |own| self.names[own.variant].as_str());
            let own = look.standings.iter().map(|standing| {
                let name = &self.names[standing.variant];
                SelectionLine::of((nth + 1, look), (&self.selection.measure, name, against), standing)
            });
            lines.extend(own);
        }
        lines
    }
}

impl From<End> for Ended {
    fn from(end: End) -> Self {
        match end {
            End::Clear => Self::ClearlyBest,
            End::Within => Self::WithinMargin,
            End::Budget => Self::BudgetSpent,
            End::Stopped => Self::Stopped,
            End::NoData => Self::NoData,
        }
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use engine::{Places, PossessionRecord};

    use super::*;
    use crate::columns::ratios;
    use crate::run::{Plan, Player, run};
    use crate::stub::{Stub, Unwatched};

    /// Some of the stub's variants.
    struct Some<'a>(Stub, &'a [usize]);

    impl Player for Some<'_> {
        type Seat = ();
        fn seat(&self, _: usize) {}
        fn play(
            &self,
            seat: &mut (),
            v: usize,
            numbers: Range<u64>,
            each: &mut dyn FnMut(&PossessionRecord),
        ) {
            self.0.play(seat, self.1[v], numbers, each);
        }
        fn add_places(&self, (): &(), _: &mut Places) {}
    }

    /// Made-up records of some variants.
    pub(crate) fn some(names: &[String], left: &[usize], possessions: Range<u64>) -> Played {
        let (variants, ratios) = (left.iter().map(|v| names[*v].clone()).collect(), ratios());
        let plan = Plan { variants, possessions, batch: None, threads: 1, ratios: &ratios };
        run(&plan, &Some(Stub::new(1), left), &Unwatched).unwrap()
    }

    /// A race of made-up records.
    pub(crate) fn raced(names: &[&str], column: &str, until: UntilSure, threads: usize) -> Selected {
        let names: Vec<String> = names.iter().map(ToString::to_string).collect();
        let ratios = ratios();
        let play = |left: &[usize], possessions| {
            let variants = left.iter().map(|v| names[*v].clone()).collect();
            let plan = Plan { variants, possessions, batch: None, threads, ratios: &ratios };
            run(&plan, &Some(Stub::new(1), left), &Unwatched)
        };
        Selected::race(&names, Column::named(column).unwrap(), until, play).unwrap()
    }

    const UNTIL: UntilSure = UntilSure { margin: 0.01, budget: 5000 };

    #[test]
    fn threads_cannot_be_seen_in_a_selection() {
        let of = |threads| {
            let selected = raced(&["a", "b", "c", "d"], "good_look_rate", UNTIL, threads);
            (serde_json::to_string(&selected.selection).unwrap(), crate::output::file(selected.lines()))
        };
        let one = of(1);
        assert!(one == of(2) && one == of(7));
    }

    #[test]
    fn what_was_dropped_keeps_its_figure_and_its_number_of_possessions() {
        let selected = raced(&["a", "b", "c"], "expected_net_points", UNTIL, 1);
        let Selection { ended, ahead, left, dropped, possessions_in_all, .. } = &selected.selection;
        assert_eq!((*ended, ahead.as_str(), left.len()), (Ended::ClearlyBest, "c", 1));
        assert_eq!(dropped.len(), 2, "{dropped:?}");
        let text = String::from_utf8(crate::output::file(selected.lines()).1).unwrap();
        assert!(text.starts_with("look,possessions,variant,measure,estimate,"), "{text}");
        for own in dropped {
            let row = text
                .lines()
                .find(|row| row.contains(&format!(",{},", own.variant)) && row.ends_with(",dropped"));
            assert!(row.is_some_and(|row| row.contains(&format!(",{},", own.possessions))), "{text}");
        }
        let rows = text.lines().count() as u64 - 1;
        assert!(rows >= 3 && *possessions_in_all >= 3 * 1024);
    }

    #[test]
    fn what_is_measured_are_those_left_and_the_one_compared_with_and_never_one_alone() {
        let selected = raced(&["a", "b", "c"], "expected_net_points", UNTIL, 1);
        assert_eq!([0, 1].map(|baseline| selected.to_measure(baseline)), [vec![0, 2], vec![1, 2]]);
        // The stub's variants get better one by one.
        assert_eq!(selected.to_measure(2), [1, 2]);
        let open = raced(&["a", "b", "c"], "turnover_rate", UntilSure { margin: 1e-5, budget: 1024 }, 1);
        assert_eq!((open.selection.ended, open.to_measure(0)), (Ended::BudgetSpent, vec![0, 1, 2]));
    }

    #[test]
    fn a_column_without_data_chooses_nobody() {
        let none = raced(&["a", "b"], "lob_completion", UntilSure { margin: 0.1, budget: 1500 }, 1).selection;
        assert_eq!((none.ended, none.ahead.as_str(), none.left.len(), none.looks), (Ended::NoData, "", 2, 2));
        assert_eq!(none.lacking, ["a", "b"]);
    }
}
