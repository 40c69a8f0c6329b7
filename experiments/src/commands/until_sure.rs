//! `compare --until-sure`: the choice, before anything is measured.
//!
//! What is chosen goes by possessions of its own, look by look, each of them kept in the folder like any other block. Then the
//! run goes on as one of the variants that are left, and of the one that all are compared with.

use std::ops::Range;
use std::path::Path;

use scenarios::Experiment;

use super::compare::{progress, run_of, there};
use super::result::Asked;
use crate::arena::EnginePlayer;
use crate::cli::RunOptions;
use crate::columns::ratios;
use crate::compare::Question;
use crate::console::Console;
use crate::error::Error;
use crate::kept::parts::{Gathered, gather};
use crate::kept::{Parts, RunOf};
use crate::output::{Reservation, parts_are_in};
use crate::run::{BLOCK, Plan, Played, Watch, resume, run};
use crate::selection::{Racing, Selected, SoFar};
use crate::stats::{UntilSure, looks};
use crate::verdict::Differ;

/// What was chosen, and the experiment that is left to be measured.
pub(super) struct Chosen {
    pub experiment: Experiment,
    pub selected: Selected,
}

/// Refuses what cannot be played until it is sure.
pub(super) fn check(question: &Question, options: &RunOptions) -> Result<(), Error> {
    let Some(until) = options.until_sure else { return Ok(()) };
    let refused = |why: &str| Err(Error::Option(format!("--until-sure: {why}")));
    let looks = looks(until.budget);
    if let Some(found) = options.stop_at.filter(|look| !looks.contains(look)) {
        let looks: Vec<String> = looks.iter().map(u64::to_string).collect();
        return Err(Error::Option(format!(
            "--stop-at: found {found}, allowed with this budget is one of {}",
            looks.join(", ")
        )));
    }
    if question.variants.len() < 2 {
        return refused("it has one variant, so there is nothing to choose");
    }
    if question.differ != Differ::Choices {
        return refused(
            "what differs is met, not chosen (zone, sink, officials, level), so no variant is best; ask for one setting \
             at a time, or leave it out",
        );
    }
    if options.shard.is_some() {
        return refused(
            "it decides by all possessions together what is played next, so it cannot be played in parts; use --threads, \
             or --possessions with --shard",
        );
    }
    Ok(())
}

/// What is chosen, where it was asked for. With a place, what is played is kept in it, and what is kept there is not
/// played again.
pub(super) fn chosen(
    asked: &Asked<'_>,
    question: &Question,
    place: Option<&Reservation>,
    console: &mut Console,
) -> Result<Option<Chosen>, Error> {
    let Some(until) = asked.options.until_sure else { return Ok(None) };
    let whole = run_of(asked);
    let stages = Stages { asked, until, whole: &whole, place };
    let mut racing = racing(asked, until, question);
    while let Some((left, possessions)) = racing.to_play() {
        racing.take(stages.play(&left, possessions, console)?);
    }
    Ok(Some(Chosen::of(asked, question, racing.selected())))
}

/// The race that is asked for.
fn racing(asked: &Asked<'_>, until: UntilSure, question: &Question) -> Racing {
    Racing::new(&question.variants, question.rank_by, until).stopped_at(asked.options.stop_at)
}

impl Chosen {
    /// What a selection leaves to be measured.
    pub fn of(asked: &Asked<'_>, question: &Question, selected: Selected) -> Self {
        let experiment = asked.experiment.only(&selected.to_measure(question.baseline));
        Self { experiment, selected }
    }
}

/// What is kept in a folder of a choice: all looks whose possessions are there, whole.
pub(super) fn so_far(asked: &Asked<'_>, until: UntilSure, (question, folder): (&Question, &Path)) -> SoFar {
    let whole = run_of(asked);
    let stages = Stages { asked, until, whole: &whole, place: None };
    let mut racing = racing(asked, until, question);
    while let Some((left, possessions)) = racing.to_play() {
        let (ratios, own) = (ratios(), stages.run(&left));
        let Gathered { there, missing, .. } =
            gather(folder, &own, &stages.plan(&own, possessions, &ratios), true);
        if !missing.is_empty() {
            return SoFar::On(Box::new(racing));
        }
        racing.take(there.played.in_order());
    }
    SoFar::Ended(Box::new(racing.selected()))
}

/// What is played from look to look.
struct Stages<'a> {
    asked: &'a Asked<'a>,
    until: UntilSure,
    whole: &'a RunOf,
    place: Option<&'a Reservation>,
}

impl Stages<'_> {
    /// The run of what is left, as its parts tell it. Only what measures is put on record.
    fn run(&self, left: &[usize]) -> RunOf {
        let variants = left.iter().map(|v| self.asked.experiment.variants[*v].name.clone()).collect();
        RunOf { variants, records: None, ..self.whole.clone() }
    }

    fn plan<'a>(&self, own: &RunOf, possessions: Range<u64>, ratios: &'a [(usize, usize)]) -> Plan<'a> {
        let options = self.asked.options;
        let variants = own.variants.clone();
        Plan { variants, possessions, batch: options.batch, threads: options.threads, ratios }
    }

    fn play(&self, left: &[usize], possessions: Range<u64>, console: &mut Console) -> Result<Played, Error> {
        let Asked { experiment, options, .. } = *self.asked;
        let setups = left.iter().map(|v| experiment.variants[*v].setup.clone()).collect();
        let (player, ratios, own) = (EnginePlayer::new(setups, options.seed), ratios(), self.run(left));
        let plan = self.plan(&own, possessions, &ratios);
        let progress = progress(&plan, options.quiet);
        // What is one block only is as soon played again.
        let Some(place) = self.place.filter(|_| self.until.budget > BLOCK) else {
            return run(&plan, &player, &progress);
        };
        if !parts_are_in(place.folder()) {
            let parts = Parts::new(place, self.whole, experiment).of(&own);
            return resume(&plan, plan.nothing_there(), &player, &progress, &parts);
        }
        let there = there(place.folder(), &own, &plan, console);
        let kept = there.played.totals.possessions();
        progress.played(kept * left.len() as u64);
        resume(&plan, there, &player, &progress, &Parts::resumed(place, &own, kept))
    }
}
