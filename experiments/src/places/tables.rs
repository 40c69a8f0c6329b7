//! All tables of a run beside its comparison.

use std::sync::Arc;

use engine::Places;
use engine::film::Film;
use engine::setup::{ProgramKind, Setup};
use scenarios::Experiment;

use super::answers::AnswersTable;
use super::breakdowns::Breakdowns;
use super::films::{Choice, Still, chosen};
use super::floor::FloorTable;
use super::passes::{PassRow, pass_rows};
use super::regions::Regions;
use super::routes::{RoutePath, route_paths};
use super::runs::Runs;
use super::ways::Way;
use crate::compare::Comparison;
use crate::run::Played;
use crate::units::Units;
use crate::verdict::{Verdict, run_kind};

/// Variants shown in pictures beside the baseline, at most.
const SHOWN: usize = 3;

/// The tables, by variant in plan order unless they say otherwise.
pub struct Tables {
    /// What the engine played, by variant.
    pub setups: Vec<Arc<Setup>>,
    /// All counts by place, as they were made.
    pub counts: Vec<Places>,
    /// Counts by cell.
    pub floor: Vec<FloorTable>,
    /// What happens in each region.
    pub regions: Vec<Regions>,
    /// Lateness by the ball's place.
    pub breakdowns: Vec<Breakdowns>,
    /// Routes as they were run.
    pub paths: Vec<Vec<RoutePath>>,
    /// What is looked at as the run of each variant: what the variants differ in, or else the route or the set.
    pub kinds: Vec<ProgramKind>,
    /// Passes.
    pub passes: Vec<Vec<PassRow>>,
    /// The first by rank, at most three, and the best by net points.
    pub leaders: Vec<usize>,
    /// Possessions to be filmed, by leader.
    pub stills: Vec<Vec<Still>>,
    /// The films of these possessions.
    pub films: Vec<Vec<Film>>,
    /// What is judged and played besides.
    pub beside: Beside,
}

/// What of a run is neither its comparison nor counted in its possessions.
pub struct Beside {
    /// What lengths are told in.
    pub units: Units,
    /// The variants ranked by net points.
    pub by_net: Comparison,
    /// What the comparison comes to, in metres.
    pub verdict: Verdict,
    /// How often routes and options were run, by variant.
    pub runs: Vec<Runs>,
    /// What each position of the leaders did with the ball, by variant.
    pub choices: Vec<(usize, Vec<super::choices::Choice>)>,
    /// The zone's answers, where they were played.
    pub answers: Option<AnswersTable>,
}

impl Beside {
    /// The verdict as it is told.
    pub fn told(&self) -> Verdict {
        self.verdict.clone().told_in(self.units)
    }
}

impl Tables {
    /// The tables of a run.
    pub fn new(
        experiment: &Experiment,
        comparison: &Comparison,
        played: &Played,
        seed: u64,
        beside: Beside,
    ) -> Self {
        let setups: Vec<Arc<Setup>> =
            experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
        let both = || played.places.iter().zip(&setups);
        let floor: Vec<FloorTable> = both().map(|(places, setup)| FloorTable::new(places, setup)).collect();
        let regions = both().map(|(places, setup)| Regions::new(places, setup)).collect();
        let breakdown = |(table, setup): (&FloorTable, &Arc<Setup>)| {
            Breakdowns::new(table, comparison.possessions, setup.step_s)
        };
        let breakdowns = floor.iter().zip(&setups).map(breakdown).collect();
        let paths = both().map(|(places, setup)| route_paths(places, setup)).collect();
        let passes = played.places.iter().map(pass_rows).collect();
        let leaders = leaders(comparison, &beside.by_net);
        let kinds: Vec<ProgramKind> = beside.runs.iter().map(|runs| run_kind(experiment, runs)).collect();
        let filmed = |v: usize, choice| {
            let carried = beside.runs[v].carried_through(&setups[v], kinds[v]);
            chosen((&played.first, &carried), (v, &setups[v], kinds[v]), seed, choice)
        };
        let all = |&v: &usize| Choice::ALL.into_iter().filter_map(|choice| filmed(v, choice)).unzip();
        let (stills, films): (Vec<Vec<Still>>, Vec<Vec<Film>>) = leaders.iter().map(all).unzip();
        let counts = played.places.clone();
        Self {
            setups,
            counts,
            floor,
            regions,
            breakdowns,
            paths,
            kinds,
            passes,
            leaders,
            stills,
            films,
            beside,
        }
    }

    /// The ways of a variant that are drawn one by one, the one that was begun most first: of a set they would not be what it
    /// is.
    pub fn ways(&self, variant: usize) -> Vec<&Way> {
        let (kind, programs) = (self.kinds[variant], &self.setups[variant].attack.programs);
        let own = self.beside.runs[variant].ways.iter().filter(|way| programs[way.program].kind == kind);
        own.filter(|_| kind != ProgramKind::Set).collect()
    }

    /// The typical possession of a leader.
    pub fn typical(&self, variant: usize) -> Option<&Still> {
        let place = self.leaders.iter().position(|&v| v == variant)?;
        self.stills[place].iter().find(|still| still.choice == Choice::Typical)
    }
}

/// The first variants by rank, and the best by net points.
fn leaders(comparison: &Comparison, by_net: &Comparison) -> Vec<usize> {
    let mut leaders: Vec<usize> = comparison.order.iter().copied().take(SHOWN).collect();
    if !leaders.contains(&by_net.leader()) {
        leaders.push(by_net.leader());
    }
    leaders
}

/// Variants that are all played under each of the zone's answers; of more, only some.
pub const MOST_ANSWERED: usize = 12;

/// Of more, at most so many: three by rank, the baseline, and two by net points.
pub const MOST_OF_MANY: usize = SHOWN + 3;

/// Those that are played under each of the zone's answers, by rank: all of a few variants; of many the first by rank,
/// the baseline, and the two best by net points.
pub fn answered(comparison: &Comparison, by_net: &Comparison) -> Vec<usize> {
    if comparison.order.len() <= MOST_ANSWERED {
        return comparison.order.clone();
    }
    let mut answered = shown(comparison, by_net);
    for &v in by_net.order.iter().take(2) {
        if !answered.contains(&v) {
            answered.push(v);
        }
    }
    answered
}

/// The leaders, then the baseline if it is none of them.
pub fn shown(comparison: &Comparison, by_net: &Comparison) -> Vec<usize> {
    let mut shown = leaders(comparison, by_net);
    if !shown.contains(&comparison.question.baseline) {
        shown.push(comparison.question.baseline);
    }
    shown
}
