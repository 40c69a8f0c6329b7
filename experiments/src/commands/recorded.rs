//! The records of a run: put together for its result, and made again without a folder of one.

use std::ops::Range;
use std::path::Path;

use super::compare::{plan, player, possessions, progress, run_of};
use super::result::Asked;
use crate::columns::ratios;
use crate::error::Error;
use crate::kept::RunOf;
use crate::output::{Aside, Fingerprint, PARTS};
use crate::progress::Progress;
use crate::records::assemble::{Assembly, Source};
use crate::records::spool::{self, Spool};
use crate::records::{Layout, Recorded, Records};
use crate::run::{Keeper, Played, blocks, resume};

/// Refuses, before anything is played, what could not be put on record.
pub(super) fn check(asked: &Asked<'_>) -> Result<(), Error> {
    let Asked { experiment, options, .. } = asked;
    let layout = layout(asked);
    let names = experiment.variants.iter().map(|variant| variant.name.as_str());
    if options.records.is_some() { layout.check(names) } else { Ok(()) }
}

/// How the records of a run are divided into files.
fn layout(asked: &Asked<'_>) -> Layout {
    let Asked { experiment, options, .. } = asked;
    Layout::of(experiment.variants.len(), possessions(experiment, options), options.divide_records)
}

/// Puts the records of a run together in a folder, if it has any; the names and fingerprints of their files.
pub(super) fn assembled(
    asked: &Asked<'_>,
    sources: &[Source],
    folder: &Path,
) -> Result<Vec<Fingerprint>, Error> {
    let Some(records) = asked.options.records else { return Ok(Vec::new()) };
    let (run, own) = (run_of(asked), possessions(asked.experiment, asked.options));
    let all = own * asked.experiment.variants.len() as u64;
    let progress = Progress::new(all, "possessions put on record", asked.options.quiet);
    let assembly = Assembly {
        experiment: asked.experiment,
        run: &run.id(),
        command: &run.command,
        seed: asked.options.seed,
        possessions: own,
        records,
        layout: layout(asked),
        threads: asked.options.threads,
    };
    assembly.write(sources, folder, &progress)
}

/// The files of what a run that keeps its parts in one folder has written aside.
pub(super) fn sources(folder: &Path, possessions: Range<u64>) -> Vec<Source> {
    blocks(possessions).map(|block| (block.clone(), spool::path(folder, &block))).collect()
}

/// Writes possessions aside, and keeps nothing else.
struct Spooled(Records, Spool);

impl Keeper for Spooled {
    fn records(&self) -> Option<Records> {
        Some(self.0)
    }

    fn record(&self, block: &Range<u64>, variant: usize, rows: &[Recorded]) -> Result<(), Error> {
        self.1.add(block, variant, rows)
    }

    fn keep(&self, block: &Range<u64>, _: &Played) -> Result<(), Error> {
        self.1.close(block)
    }
}

/// Plays a run that has records in a folder for the time being; what it came to, and the fingerprints of its records.
pub(super) fn played_aside(asked: &Asked<'_>, records: Records) -> Result<(Played, Vec<Fingerprint>), Error> {
    let home = Aside::new()?;
    let (parts, made) = (home.folder().join(PARTS), home.folder().join("made"));
    for folder in [&parts, &made] {
        std::fs::create_dir(folder).map_err(|source| Error::Aside { path: folder.clone(), source })?;
    }
    let (run, ratios): (RunOf, _) = (run_of(asked), ratios());
    let plan = plan(asked, &ratios);
    let spooled = Spooled(records, Spool::new(home.folder(), run.id()));
    let watch = progress(&plan, asked.options.quiet);
    let played =
        resume(&plan, plan.nothing_there(), &player(asked), &watch, &spooled).map_err(Error::aside)?;
    drop(watch);
    let made = assembled(asked, &sources(home.folder(), plan.possessions.clone()), &made);
    Ok((played, made.map_err(Error::aside)?))
}
