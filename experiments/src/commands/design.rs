//! A comparison by a design: cells played, kept part by part, and what they come to written and shown.

use scenarios::{Experiment, shown_lines, shown_path};

use super::compare::{
    asked_otherwise, check_same, check_shard, place_to_fill, possessions, restored, run_of, shard_done,
};
use super::design_plan::DesignPlan;
use super::designed::Designed;
use super::result::{Asked, broken, crashes};
use super::standing::of_design;
use crate::arena::EnginePlayer;
use crate::columns::{Column, keys, ratios};
use crate::console::Console;
use crate::design::{
    self, Part, PartSums, Sketch, Sums, check_outcomes, id, in_parts, keeper, kept, means, play, told_columns,
};
use crate::effects::{Sought, effects};
use crate::error::Error;
use crate::kept::Parts;
use crate::kept::parts::run_in;
use crate::kept::shards::Shards;
use crate::output::{Reservation, parts_are_in};
use crate::progress::Progress;
use crate::run::Watch;
use crate::stats::LARGEST_VARIANTS;
use crate::wording::grouped;

/// A design with all that it takes to play it and to tell what it came to.
pub(super) struct Asking<'a> {
    pub asked: Asked<'a>,
    pub rank_by: &'static Column,
    pub sought: Sought,
    /// Columns of effects, with their places in a row.
    pub means: Vec<(&'static Column, usize)>,
    ratios: Vec<(usize, usize)>,
}

impl<'a> Asking<'a> {
    /// What is asked, checked.
    pub fn new(asked: Asked<'a>) -> Result<Self, Error> {
        let Asked { experiment, options, .. } = asked;
        let rank_by = Column::named(options.rank_by.as_ref().unwrap_or(&experiment.rank_by))
            .ok_or_else(|| Error::Faults(experiment.rank_by_fault(&keys())))?;
        let each = experiment.variants.len() / experiment.cells.len();
        if each > LARGEST_VARIANTS {
            return Err(Error::Variants(each));
        }
        if options.until_sure.is_some() {
            return Err(Error::Option(
                "--until-sure is for a comparison, not for a design of many cells; ask for it of leading.toml in its result".into(),
            ));
        }
        if options.records.is_some() {
            return Err(Error::Option(
                "--records is for a comparison, not for a design of many cells; ask for it of leading.toml in its result".into(),
            ));
        }
        if options.bootstrap.is_some() {
            return Err(Error::Option(
                "--bootstrap is for a comparison, not for a design of many cells; ask for it of leading.toml in its result".into(),
            ));
        }
        let means = means(&told_columns(rank_by));
        Ok(Self { asked, rank_by, sought: effects(experiment)?, means, ratios: ratios() })
    }

    /// Whether each cell is played on possessions of its own.
    pub fn has_own_draws(&self) -> bool {
        self.asked.experiment.design.as_ref().is_some_and(|design| design.own_draws)
    }

    pub fn sketch(&self) -> Sketch<'_> {
        let Asked { experiment, options, .. } = self.asked;
        Sketch {
            cells: experiment.cells.len(),
            variants: experiment.variants.len() / experiment.cells.len(),
            possessions: possessions(experiment, options),
            own_draws: self.has_own_draws(),
            threads: options.threads,
            ratios: &self.ratios,
            weights: if self.has_own_draws() { Vec::new() } else { in_parts(&self.sought.effects) },
            measures: self.means.iter().map(|(_, place)| *place).collect(),
        }
    }

    pub fn player(&self) -> EnginePlayer {
        let setups = self.asked.experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
        EnginePlayer::new(setups, self.asked.options.seed)
    }

    fn names(&self) -> Vec<String> {
        self.asked.experiment.variants.iter().map(|variant| variant.name.clone()).collect()
    }

    fn progress(&self, all: u64) -> Progress {
        Progress::new(all, "possessions", self.asked.options.quiet)
    }

    /// All of it, kept nowhere.
    pub fn played(&self) -> Result<Sums, Error> {
        let sketch = self.sketch();
        let progress = self.progress(sketch.in_all());
        self.checked(play(
            &sketch,
            (&sketch.parts(), Sums::nothing(&sketch)),
            (&self.player(), &progress),
            &|_, _| Ok(()),
        )?)
    }

    fn checked(&self, sums: Sums) -> Result<Sums, Error> {
        check_outcomes(&sums.cells, &self.names())?;
        Ok(sums)
    }

    /// What shards have kept, put together.
    pub fn merged(&self, shards: &Shards) -> Result<Sums, Error> {
        let sketch = self.sketch();
        self.checked(shards.designed(&id(&shards.run, &sketch), &sketch)?)
    }

    /// What has not been played yet of the design or its shard, kept part by part.
    fn played_in(&self, place: &Reservation, console: &mut Console) -> Result<Sums, Error> {
        let (sketch, run, experiment) = (self.sketch(), run_of(&self.asked), self.asked.experiment);
        let own = sketch.parts_of(run.shard);
        let size = |parts: &[Part]| parts.iter().map(|part| sketch.size(part)).sum::<u64>();
        let (count, all) = (own.len(), size(&own));
        let (id, progress) = (id(&run, &sketch), self.progress(all));
        let (mut sums, mut missing) = (Sums::nothing(&sketch), own);
        if parts_are_in(place.folder()) {
            let there = run_in(place.folder())?;
            check_same(place.folder(), &run, &there)?;
            if there.command != run.command {
                return Err(asked_otherwise(place.folder(), &there, "a design that"));
            }
            let damaged;
            (missing, damaged) = kept(place.folder(), &id, (&sketch, missing), &mut sums);
            for path in damaged {
                console.say(&format!(
                    "zoneprobe: {} is damaged; what it held is played again\n",
                    shown_path(&path)
                ));
            }
            let played = all - size(&missing);
            if !self.asked.options.quiet {
                let (played, all) = (grouped(played), grouped(all));
                console.say(&format!("going on after {played} of {all} possessions\n"));
            }
            progress.played(played);
        }
        let parts = Parts::new(place, &run, experiment);
        let there = (count - missing.len()) as u64;
        let (fresh, keep) = (!parts_are_in(place.folder()), keeper(place, &id, &sketch, there));
        // Of a design of few parts a shard may have none.
        if fresh && run.shard.is_some() {
            parts.begin()?;
        }
        let keep = |part: &Part, sums: &PartSums| {
            if fresh {
                parts.begin()?;
            }
            keep(part, sums)
        };
        self.checked(play(&sketch, (&missing, sums), (&self.player(), &progress), &keep)?)
    }

    /// Writes and shows what it comes to.
    pub fn hand_over(&self, sums: &Sums, place: Reservation, console: &mut Console) -> Result<(), Error> {
        let Asked { experiment, options, .. } = self.asked;
        let designed = Designed::new(self, sums, console.width)?;
        let written = place.write(&designed.files);
        // A long run is shown even if it cannot be kept, and kept even if nobody reads it.
        let printed = console.print_exactly(&shown_lines(&designed.shown));
        let written = written?;
        written.word().inspect(|word| console.say(word));
        if !options.quiet {
            let folder = written.folder;
            let report =
                designed.report.map(|report| format!("report: {}\n", shown_path(&folder.join(report))));
            console.say(&format!("written to {}\n{}", shown_path(&folder), report.unwrap_or_default()));
        }
        printed?;
        broken(&crashes(&sums.crashes, experiment).collect::<Vec<_>>(), options)
    }
}

/// Plays a design and writes what it comes to.
pub(super) fn answer(asked: &Asked<'_>, console: &mut Console) -> Result<(), Error> {
    let asking = Asking::new(*asked)?;
    let options = asked.options;
    check_shard(options)?;
    let own = || {
        let (run, sketch) = (run_of(asked), asking.sketch());
        (id(&run, &sketch), sketch.parts_of(run.shard).iter().map(design::name).collect())
    };
    restored(asked, own, console)?;
    if options.resume && options.dry_run {
        return of_design::standing(&asking, console);
    }
    let Some(place) = place_to_fill(asked, console)? else { return Ok(()) };
    if options.dry_run {
        let plan = DesignPlan { asking: &asking, folder: place.folder(), width: console.width };
        return Ok(console.print_exactly(&plan.told()?)?);
    }
    let sums = asking.played_in(&place, console)?;
    if let Some(shard) = options.shard {
        return shard_done(shard, &place, options.quiet, console);
    }
    asking.hand_over(&sums, place, console)
}

/// Whether an experiment is played by a design.
pub(super) fn is_designed(experiment: &Experiment) -> bool {
    experiment.design.is_some()
}
