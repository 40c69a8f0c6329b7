//! The records of a run: put together for its result, and made again without a folder of one.

use std::ops::Range;
use std::path::Path;

use super::compare::{plan, player, possessions, progress, run_of};
use super::result::Asked;
use crate::columns::ratios;
use crate::error::Error;
use crate::kept::RunOf;
use crate::output::Fingerprint;
use crate::progress::Progress;
use crate::records::assemble::{Assembly, Source};
use crate::records::spool::{self, Spool};
use crate::records::{Layout, Recorded, Records};
use crate::run::{Keeper, Played, blocks, resume};

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
        layout: Layout::of(asked.experiment.variants.len(), own),
        threads: asked.options.threads,
    };
    assembly.write(sources, folder, &progress)
}

/// The files of what a run that keeps its parts in one folder has written aside.
pub(super) fn sources(folder: &Path, possessions: Range<u64>) -> Vec<Source> {
    blocks(possessions).map(|block| (block.clone(), spool::path(folder, &block))).collect()
}

/// Writes possessions aside, and keeps nothing else.
struct Aside(Records, Spool);

impl Keeper for Aside {
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
    let unwritable = |source| Error::Unwritable { folder: std::env::temp_dir(), source };
    let home = tempfile::tempdir().map_err(unwritable)?;
    std::fs::create_dir(home.path().join(crate::output::PARTS)).map_err(unwritable)?;
    let (run, ratios): (RunOf, _) = (run_of(asked), ratios());
    let plan = plan(asked, &ratios);
    let aside = Aside(records, Spool::new(home.path(), run.id()));
    let watch = progress(&plan, asked.options.quiet);
    let played = resume(&plan, plan.nothing_there(), &player(asked), &watch, &aside)?;
    drop(watch);
    let made = assembled(asked, &sources(home.path(), plan.possessions.clone()), &home.path().join("made"))?;
    Ok((played, made))
}
