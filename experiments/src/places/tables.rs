//! All tables of a run beside its comparison.

use std::sync::Arc;

use engine::film::Film;
use engine::setup::Setup;
use scenarios::Experiment;

use super::answers::AnswersTable;
use super::breakdowns::Breakdowns;
use super::films::{Choice, Still, chosen};
use super::floor::FloorTable;
use super::passes::{PassRow, pass_rows};
use super::routes::{RoutePath, route_paths};
use crate::compare::Comparison;
use crate::run::Played;

/// Variants shown in pictures beside the baseline, at most.
const SHOWN: usize = 3;

/// The tables, by variant in plan order unless they say otherwise.
pub struct Tables {
    /// What the engine played, by variant.
    pub setups: Vec<Arc<Setup>>,
    /// Counts by cell.
    pub floor: Vec<FloorTable>,
    /// Lateness by the ball's place.
    pub breakdowns: Vec<Breakdowns>,
    /// Routes as they were run.
    pub paths: Vec<Vec<RoutePath>>,
    /// Passes.
    pub passes: Vec<Vec<PassRow>>,
    /// The first by rank, at most three.
    pub leaders: Vec<usize>,
    /// Possessions to be filmed, by leader.
    pub stills: Vec<Vec<Still>>,
    /// The films of these possessions.
    pub films: Vec<Vec<Film>>,
    /// The variants ranked by net points, for the coach's sheet.
    pub by_net: Comparison,
    /// The typical possession of the best by net points.
    pub moment: Option<Still>,
    /// The zone's answers, where they were played.
    pub answers: Option<AnswersTable>,
}

impl Tables {
    /// The tables of a run; the answers are another run's.
    pub fn new(
        experiment: &Experiment,
        comparison: &Comparison,
        played: &Played,
        seed: u64,
        answers: Option<AnswersTable>,
        by_net: Comparison,
    ) -> Self {
        let setups: Vec<Arc<Setup>> =
            experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
        let both = || played.places.iter().zip(&setups);
        let floor: Vec<FloorTable> = both().map(|(places, setup)| FloorTable::new(places, setup)).collect();
        let breakdown = |(table, setup): (&FloorTable, &Arc<Setup>)| {
            Breakdowns::new(table, comparison.possessions, setup.step_s)
        };
        let breakdowns = floor.iter().zip(&setups).map(breakdown).collect();
        let paths = both().map(|(places, setup)| route_paths(places, setup)).collect();
        let passes = played.places.iter().map(pass_rows).collect();
        let leaders = leaders(comparison);
        let filmed = |v: usize, choice| chosen(&played.first, (v, &setups[v]), seed, choice);
        let all = |&v: &usize| Choice::ALL.into_iter().filter_map(|choice| filmed(v, choice)).unzip();
        let (stills, films): (Vec<Vec<Still>>, Vec<Vec<Film>>) = leaders.iter().map(all).unzip();
        let best = by_net.leader();
        let moment = match leaders.iter().position(|&v| v == best) {
            Some(nth) => stills[nth].iter().find(|still| still.choice == Choice::Typical).cloned(),
            None => filmed(best, Choice::Typical).map(|(still, _)| still),
        };
        Self { setups, floor, breakdowns, paths, passes, leaders, stills, films, by_net, moment, answers }
    }
}

/// The first variants by rank.
fn leaders(comparison: &Comparison) -> Vec<usize> {
    comparison.order.iter().copied().take(SHOWN).collect()
}

/// Variants that are all played under each of the zone's answers; of more, only some.
pub const MOST_ANSWERED: usize = 12;

/// Those that are played under each of the zone's answers, by rank: all of a few variants; of many the first by rank,
/// the baseline, and the two best by net points, whom the coach's sheet is about.
pub fn answered(comparison: &Comparison, by_net: &Comparison) -> Vec<usize> {
    if comparison.order.len() <= MOST_ANSWERED {
        return comparison.order.clone();
    }
    let mut answered = shown(comparison);
    for &v in by_net.order.iter().take(2) {
        if !answered.contains(&v) {
            answered.push(v);
        }
    }
    answered
}

/// The first variants by rank, then the baseline if it is none of them.
pub fn shown(comparison: &Comparison) -> Vec<usize> {
    let mut shown = leaders(comparison);
    if !shown.contains(&comparison.question.baseline) {
        shown.push(comparison.question.baseline);
    }
    shown
}
