//! `compare` and `simulate`: load, play, compare, write, show.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use scenarios::{Experiment, shown_path};

use super::beside::again_at_most;
use super::design::{self, is_designed};
use super::plan::Intent;
use super::recalled::noted;
use super::recorded::{self, assembled, sources};
use super::result::{Asked, broken};
use super::standing::{of_choice, standing};
use super::until_sure;
use super::varied::noun;
use super::{again, input};
use crate::arena::EnginePlayer;
use crate::cli::RunOptions;
use crate::columns::{Column, keys, ratios};
use crate::compare::Question;
use crate::console::Console;
use crate::error::Error;
use crate::kept::inputs::inputs;
use crate::kept::parts::{Gathered, gather, restore, run_in};
use crate::kept::{Build, FORMAT, Parts, RunOf, Shard, part};
use crate::layout::Layout;
use crate::output::{Reservation, ResultFolder, parts_are_in};
use crate::progress::{Progress, Waiting};
use crate::run::{BLOCK, Plan, Played, There, Watch, blocks, resume, run};
use crate::stats::LARGEST_VARIANTS;
use crate::verdict::Differ;
use crate::wording::grouped;

/// Plays all variants of an experiment, the bundled question without a file, and ranks them.
pub fn compare(options: &RunOptions, console: &mut Console) -> Result<(), Error> {
    let experiment = read(options.file.as_deref(), options)?;
    answer(&Asked::new("compare", &experiment, options), console)
}

/// Plays one matchup and shows its rates.
pub fn simulate(options: &RunOptions, console: &mut Console) -> Result<(), Error> {
    let file = options.file.as_deref().unwrap_or(Path::new(""));
    let experiment = read(Some(file), options)?;
    if experiment.variants.len() != 1 {
        return Err(Error::Option(format!(
            "{} has {} variants and `simulate` plays one matchup; use `zoneprobe compare`",
            shown_path(file),
            experiment.variants.len()
        )));
    }
    answer(&Asked::new("simulate", &experiment, options), console)
}

/// A design may have tens of thousands of cells, each a setup of its own.
fn read(file: Option<&Path>, options: &RunOptions) -> Result<Experiment, Error> {
    let _waiting = Waiting::new("reading what is to be played", options.quiet);
    input::experiment(file)
}

/// The data flow, from an experiment to what is written and shown.
fn answer(asked: &Asked<'_>, console: &mut Console) -> Result<(), Error> {
    let Asked { command, experiment, options, .. } = *asked;
    if is_designed(experiment) {
        return design::answer(asked, console);
    }
    let question = question(experiment, options)?;
    until_sure::check(&question, options)?;
    recorded::check(asked)?;
    check_shard(options)?;
    // What was chosen by which measure and margin, blocks of a choice do not say.
    if options.until_sure.is_none() {
        let own = || {
            let own = blocks(plan(asked, &ratios()).possessions);
            (run_of(asked).id(), own.map(|block| part::name(&block)).collect())
        };
        restored(asked, own, console)?;
    }
    if options.resume && options.dry_run {
        let folder = stopped(asked)?;
        check_choice(asked, &folder)?;
        return match options.until_sure {
            Some(until) => of_choice::standing(asked, until, (question, &folder), console),
            None => standing(asked, question, &folder, console),
        };
    }
    let Some(place) = place_to_fill(asked, console)? else { return Ok(()) };
    if options.dry_run {
        let (rank_by, possessions) = (question.rank_by, possessions(experiment, options));
        let (folder, width) = (place.folder(), console.width);
        let again = if command == "compare" { again_at_most(experiment, possessions)? } else { None };
        let intent = Intent { command, experiment, rank_by, possessions, again, folder, width };
        return Ok(console.print_exactly(&intent.told(options))?);
    }
    let whole = run_of(asked);
    if parts_are_in(place.folder()) {
        check_choice(asked, place.folder())?;
    }
    let chosen = until_sure::chosen(asked, &question, Some(&place), console)?;
    let (asked, question) = asked.after(chosen.as_ref(), question)?;
    let played = play(&asked, &whole, &place, console)?;
    if let Some(shard) = options.shard {
        return shard_done(shard, &place, options.quiet, console);
    }
    let records = match options.records {
        Some(_) => {
            assembled(&asked, &sources(place.folder(), 0..run_of(&asked).possessions), &place.draft()?)
                .map_err(|error| error.kept(true))?
        }
        None => Vec::new(),
    };
    asked.answered(question, (&played, records), console.width)?.hand_over(place, options.quiet, console)?;
    broken(&asked.crashes(&played), options)
}

/// Refuses what is kept of another run, or of a choice that was asked for otherwise.
fn check_choice(asked: &Asked<'_>, folder: &Path) -> Result<(), Error> {
    let kept = run_in(folder)?;
    check_same(folder, &run_of(asked), &kept)?;
    // What has been chosen so far was chosen by that measure, margin and budget.
    let chooses = |own: &RunOptions| (own.until_sure, own.rank_by.clone());
    let is_as_before =
        || noted(&kept.command).is_some_and(|(_, before)| chooses(&before) == chooses(asked.options));
    if asked.options.until_sure.is_some() && !is_as_before() {
        return Err(asked_otherwise(folder, &kept, "a choice that"));
    }
    Ok(())
}

/// Refuses to plan a part: the plan is that of the whole.
pub(super) fn check_shard(options: &RunOptions) -> Result<(), Error> {
    match options.shard {
        Some(shard) if options.dry_run && !options.resume => Err(Error::Option(format!(
            "--shard {shard}: what would be played is planned as a whole; leave out --shard, or add --resume to see what \
             the shard has come to so far"
        ))),
        _ => Ok(()),
    }
}

/// Where a run is to go on in a folder that has lost what says which run is kept there, though all blocks in it are its `own`, by
/// their id and their names: writes that anew.
pub(super) fn restored(
    asked: &Asked<'_>,
    own: impl FnOnce() -> (String, BTreeSet<String>),
    console: &mut Console,
) -> Result<(), Error> {
    let goes_on = asked.options.resume && !asked.options.dry_run;
    let Some(folder) = asked.options.out.as_ref().filter(|_| goes_on) else { return Ok(()) };
    if let Some(path) = restore(folder, &run_of(asked), own)? {
        console.say(&format!(
            "zoneprobe: {} was lost or damaged and is written anew: the blocks beside it are of this run\n",
            shown_path(&path)
        ));
    }
    Ok(())
}

/// What is asked, checked against the columns and the limits of a run.
pub(super) fn question(experiment: &Experiment, options: &RunOptions) -> Result<Question, Error> {
    let rank_by = Column::named(options.rank_by.as_ref().unwrap_or(&experiment.rank_by))
        .ok_or_else(|| Error::Faults(experiment.rank_by_fault(&keys())))?;
    let variants: Vec<String> = experiment.variants.iter().map(|variant| variant.name.clone()).collect();
    if variants.len() > LARGEST_VARIANTS {
        return Err(Error::Variants(variants.len()));
    }
    let baseline = variants.iter().position(|name| *name == experiment.baseline);
    let baseline = baseline.ok_or_else(|| {
        Error::Option(format!(
            "no variant is called {}, the one that the file names as its baseline",
            experiment.baseline
        ))
    })?;
    let (text, noun, differ) = (experiment.question.clone(), noun(experiment), Differ::of(experiment));
    Ok(Question { text, variants, noun, differ, baseline, rank_by, layout: Layout::of(experiment) })
}

/// Possessions for each variant.
pub(super) fn possessions(experiment: &Experiment, options: &RunOptions) -> u64 {
    options.possessions.unwrap_or(experiment.possessions)
}

/// The folder of results where none is named; of a shard by its number.
fn stem(asked: &Asked<'_>) -> PathBuf {
    let Asked { experiment, options, .. } = asked;
    let shard =
        options.shard.map_or_else(String::new, |shard| format!("-shard-{}-of-{}", shard.nth, shard.of));
    format!("results/{}-{}{shard}", experiment.key, options.seed).into()
}

/// The folder that the result goes to.
pub(super) fn place(asked: &Asked<'_>) -> Result<Reservation, Error> {
    match (&asked.options.out, asked.options.resume) {
        (_, true) => Reservation::resumed(&stopped(asked)?),
        (Some(folder), false) => Reservation::named(folder),
        (None, false) => Reservation::numbered(&stem(asked)),
    }
}

/// The folder in which a stopped run is kept: the one that is named, or the first of the numbered ones that keeps this run.
pub(super) fn stopped(asked: &Asked<'_>) -> Result<PathBuf, Error> {
    if let Some(folder) = &asked.options.out {
        return Ok(folder.clone());
    }
    let (stem, own) = (stem(asked), run_of(asked));
    let numbered = (2..).map(|number| PathBuf::from(format!("{}-{number}", stem.display())));
    let folders = std::iter::once(stem.clone()).chain(numbered).take_while(|folder| folder.exists());
    let keeps = |folder: &PathBuf| run_in(folder).is_ok_and(|run| is_same(&own, &run));
    folders.filter(|folder| parts_are_in(folder)).find(keeps).ok_or_else(|| {
        Error::Option(format!(
            "no run of this that was stopped is kept in {} or the numbered folders beside it; name its folder with \
             --out, or leave out --resume to begin",
            shown_path(&stem)
        ))
    })
}

/// Whether a folder holds the result that is asked for.
pub(super) fn is_own_result(asked: &Asked<'_>, folder: &Path) -> bool {
    let own = run_of(asked);
    let is_own = |result: ResultFolder| result.made.command == own.command && result.inputs == own.inputs;
    ResultFolder::open(folder).is_ok_and(is_own)
}

/// The folder that the result goes to; None, and a word of it, where this very result is there.
pub(super) fn place_to_fill(asked: &Asked<'_>, console: &mut Console) -> Result<Option<Reservation>, Error> {
    match place(asked) {
        Err(Error::Whole(folder)) if is_own_result(asked, &folder) => {
            say_whole(&folder, asked.options.quiet, console);
            Ok(None)
        }
        place => place.map(Some),
    }
}

/// Says that there is nothing to do.
pub(super) fn say_whole(folder: &Path, quiet: bool, console: &mut Console) {
    if !quiet {
        console.say(&format!("{} is whole already; nothing was played\n", shown_path(folder)));
    }
}

fn is_same(one: &RunOf, other: &RunOf) -> bool {
    one.differs(other).is_none() && one.shard == other.shard
}

/// The run that is asked for, as its parts tell it.
pub(super) fn run_of(asked: &Asked<'_>) -> RunOf {
    let Asked { command, experiment, options, .. } = *asked;
    let possessions = possessions(experiment, options);
    RunOf {
        format: FORMAT,
        program: "zoneprobe".into(),
        version: env!("CARGO_PKG_VERSION").into(),
        build: Build::own(),
        command: again::run(command, options, experiment, possessions),
        seed: options.seed,
        possessions,
        shard: options.shard,
        records: options.records,
        variants: experiment.variants.iter().map(|variant| variant.name.clone()).collect(),
        inputs: inputs(experiment).into_iter().map(|(input, _)| input).collect(),
    }
}

/// Refuses what is kept of another run.
pub(super) fn check_same(folder: &Path, own: &RunOf, kept: &RunOf) -> Result<(), Error> {
    let part =
        |run: &RunOf| run.shard.map_or_else(|| "the whole run".into(), |shard| format!("shard {shard}"));
    let shard = || (own.shard != kept.shard).then(|| format!("{}, not {}", part(kept), part(own)));
    let Some(what) = own.differs(kept).or_else(shard) else { return Ok(()) };
    Err(Error::Option(format!(
        "{} keeps another run: it has {what}; ask for the same, or name another folder with --out",
        shown_path(folder)
    )))
}

/// Said where what is played was decided by what was asked for, and that was something else.
pub(super) fn asked_otherwise(folder: &Path, kept: &RunOf, what: &str) -> Error {
    Error::Option(format!(
        "{} keeps {what} was asked for by another command: {}; give the same, or name another folder with --out",
        shown_path(folder),
        kept.command
    ))
}

/// The plan of a run, or of its shard.
pub(super) fn plan<'a>(asked: &Asked<'_>, ratios: &'a [(usize, usize)]) -> Plan<'a> {
    let Asked { experiment, options, .. } = asked;
    let possessions = possessions(experiment, options);
    Plan {
        variants: experiment.variants.iter().map(|variant| variant.name.clone()).collect(),
        possessions: options.shard.map_or(0..possessions, |shard| shard.range(possessions)),
        batch: options.batch,
        threads: options.threads,
        ratios,
    }
}

/// The engine for what is asked.
pub(super) fn player(asked: &Asked<'_>) -> EnginePlayer {
    let setups = asked.experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
    EnginePlayer::new(setups, asked.options.seed)
}

/// Hears of the possessions of a plan.
pub(super) fn progress(plan: &Plan<'_>, quiet: bool) -> Progress {
    let each = plan.possessions.end - plan.possessions.start;
    Progress::new(each * plan.variants.len() as u64, "possessions", quiet)
}

/// What is kept in a folder of a plan; what is damaged is named.
pub(super) fn there(folder: &Path, own: &RunOf, plan: &Plan<'_>, console: &mut Console) -> There {
    let Gathered { there, damaged, .. } = gather(folder, own, plan, false);
    for path in damaged {
        console.say(&format!("zoneprobe: {} is damaged; what it held is played again\n", shown_path(&path)));
    }
    there
}

/// Plays what has not been played yet, and keeps it block by block. `whole` is the run before anything was chosen.
fn play(
    asked: &Asked<'_>,
    whole: &RunOf,
    place: &Reservation,
    console: &mut Console,
) -> Result<Played, Error> {
    let (ratios, own) = (ratios(), run_of(asked));
    let plan = plan(asked, &ratios);
    let each = plan.possessions.end - plan.possessions.start;
    let progress = progress(&plan, asked.options.quiet);
    if !parts_are_in(place.folder()) {
        // What is one block only is as soon played again.
        if each <= BLOCK && asked.options.shard.is_none() && asked.options.records.is_none() {
            return run(&plan, &player(asked), &progress);
        }
        let parts = Parts::new(place, whole, asked.experiment).of(&own);
        if asked.options.shard.is_some() {
            parts.begin()?;
        }
        return resume(&plan, plan.nothing_there(), &player(asked), &progress, &parts);
    }
    let there = there(place.folder(), &own, &plan, console);
    let kept = there.played.totals.possessions();
    if !asked.options.quiet && (kept > 0 || asked.selected.is_none()) {
        let (kept, each) = (grouped(kept), grouped(each));
        console.say(&format!("going on after {kept} of {each} possessions of each\n"));
    }
    progress.played(kept * plan.variants.len() as u64);
    let parts = Parts::resumed(place, &own, kept);
    resume(&plan, there, &player(asked), &progress, &parts)
}

/// Says that a shard is whole; its parts stay where they are.
pub(super) fn shard_done(
    shard: Shard,
    place: &Reservation,
    quiet: bool,
    console: &mut Console,
) -> Result<(), Error> {
    // That of fewer possessions than shards may be empty.
    place.has_kept(0);
    if !quiet {
        let folder = shown_path(place.folder());
        console.say(&format!("shard {shard} is whole in {folder}; `zoneprobe merge` puts shards together\n"));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_set_alike_in_all_variants_does_not_vary() {
        let of = |name: &str| {
            let experiment = scenarios::experiment(Path::new(name)).unwrap();
            experiment.varied
        };
        // Each of its variants names the rule and the route, and all the same.
        assert_eq!(of("post-options-point-drops"), ["attack.posts.options"]);
        assert_eq!(of("guard-options"), ["attack.guards.options"]);
        assert!(of("routes-by-sink-and-help").contains(&"zone.post_help_rule".to_owned()));
    }
}
