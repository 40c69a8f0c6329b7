//! The blocks of a run, kept in the folder of its result while it plays.

use std::collections::BTreeSet;
use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use scenarios::{Entered, Experiment, shown_path};

use super::inputs::{files, inputs};
use super::part;
use super::{FORMAT, RunOf};
use crate::error::Error;
use crate::output::{PARTS, RUN, Reservation, document};
use crate::records::spool::{self, Spool};
use crate::records::{Recorded, Records};
use crate::run::{Keeper, Plan, Played, There, blocks};

/// Keeps the blocks of one run.
pub struct Parts<'a> {
    place: &'a Reservation,
    id: String,
    /// What the folder begins with, until it has begun.
    first: Mutex<Option<Vec<(String, Vec<u8>)>>>,
    /// Where possessions are recorded, if they are.
    records: Option<(Records, Spool)>,
}

/// Where a run's possessions are recorded, if they are.
fn records(place: &Reservation, run: &RunOf) -> Option<(Records, Spool)> {
    Some((run.records?, Spool::new(place.folder(), run.id())))
}

impl<'a> Parts<'a> {
    /// In the folder of a run, which keeps nothing yet.
    #[must_use]
    pub fn new(place: &'a Reservation, run: &RunOf, experiment: &Experiment) -> Self {
        let mut first = files(&inputs(experiment));
        first.push((RUN.into(), document(run).into_bytes()));
        Self { place, id: run.id(), first: Mutex::new(Some(first)), records: records(place, run) }
    }

    /// In the folder of a run, in which so many possessions of each variant are kept already.
    #[must_use]
    pub fn resumed(place: &'a Reservation, run: &RunOf, possessions: u64) -> Self {
        place.has_kept(possessions);
        Self { place, id: run.id(), first: Mutex::new(None), records: records(place, run) }
    }

    /// The same for blocks of a part of the run that has variants of its own.
    #[must_use]
    pub fn of(self, part: &RunOf) -> Self {
        Self { id: part.id(), records: records(self.place, part), ..self }
    }

    /// Writes what says which run is kept here, if that has not been done.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn begin(&self) -> Result<(), Error> {
        let mut first = self.first.lock().unwrap_or_else(PoisonError::into_inner);
        match first.take() {
            Some(files) => self.place.begin_parts(&files),
            None => Ok(()),
        }
    }
}

impl Keeper for Parts<'_> {
    fn records(&self) -> Option<Records> {
        self.records.as_ref().map(|(records, _)| *records)
    }

    fn record(&self, block: &Range<u64>, variant: usize, rows: &[Recorded]) -> Result<(), Error> {
        self.begin()?;
        let added = self.records.as_ref().map_or(Ok(()), |(_, spool)| spool.add(block, variant, rows));
        added.map_err(|error| self.place.told(error))
    }

    fn keep(&self, block: &Range<u64>, played: &Played) -> Result<(), Error> {
        self.begin()?;
        // A block that is kept has its records, too.
        let closed = self.records.as_ref().map_or(Ok(()), |(_, spool)| spool.close(block));
        closed.map_err(|error| self.place.told(error))?;
        let name = part::name(block);
        let bytes = part::bytes(&self.id, block, played)
            .map_err(|source| Error::Keep { path: self.place.folder().join(PARTS).join(&name), source })?;
        self.place.keep(&name, &bytes, block.end - block.start)
    }
}

/// The run that is kept in a folder.
///
/// # Errors
/// None is, or it is of another form.
pub fn run_in(folder: &Path) -> Result<RunOf, Error> {
    let path = folder.join(PARTS).join(RUN);
    let shown = shown_path(&path);
    let advice = "name a folder in which a stopped run or a shard is kept";
    let bytes = scenarios::read_once(&path, part::MOST).map_err(|refusal| {
        Error::Option(format!("{} keeps no run ({shown}: {}); {advice}", shown_path(folder), refusal.found()))
    })?;
    let run: RunOf = serde_json::from_slice(&bytes.bytes)
        .map_err(|error| Error::Option(format!("{shown} cannot be read: {error}; {advice}")))?;
    if (run.program.as_str(), run.format) != ("zoneprobe", FORMAT) {
        let RunOf { program, format, version, .. } = run;
        return Err(Error::Option(format!(
            "{shown} is of {program} {version} and kept in the form {format}, allowed is the form {FORMAT}; play the run \
             again, or go on with it by that version"
        )));
    }
    Ok(run)
}

/// Writes anew what says which run is kept in a folder where that was lost or cannot be read, if all blocks beside it are its `own`,
/// by the id that they have themselves and by their names. The file that was written; None where there was nothing to do, or
/// where the blocks may be another run's.
///
/// # Errors
/// It cannot be written.
pub fn restore(
    folder: &Path,
    run: &RunOf,
    own: impl FnOnce() -> (String, BTreeSet<String>),
) -> Result<Option<PathBuf>, Error> {
    let parts = folder.join(PARTS);
    let path = parts.join(RUN);
    let is_told = |entered: Entered| serde_json::from_slice::<RunOf>(&entered.bytes).is_ok();
    if !parts.is_dir() || scenarios::read_once(&path, part::MOST).is_ok_and(is_told) {
        return Ok(None);
    }
    let entries = fs::read_dir(&parts).into_iter().flatten().flatten();
    let blocks: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|end| end == "gz"))
        .collect();
    let (id, names) = own();
    let is_own = |path: &PathBuf| {
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        let bytes = scenarios::read_once(path, part::MOST).ok();
        let of = bytes.and_then(|entered| part::run_of(&entered.bytes));
        names.contains(name) && of.as_ref() == Some(&id)
    };
    if blocks.is_empty() || !blocks.iter().all(is_own) {
        return Ok(None);
    }
    let unfinished = path.with_extension("unfinished");
    let written = fs::write(&unfinished, document(run)).and_then(|()| fs::rename(&unfinished, &path));
    written.map(|()| Some(path.clone())).map_err(|source| Error::Write { path, source })
}

/// What is kept of the blocks of a plan.
pub struct Gathered {
    /// What can be used.
    pub there: There,
    /// The blocks that are not there.
    pub missing: Vec<Range<u64>>,
    /// Files that are not as they were written; their blocks are missing, too.
    pub damaged: Vec<PathBuf>,
}

/// Gathers what is kept in a folder of a run's blocks; if `prefix`, only of those before the first that is missing.
#[must_use]
pub fn gather(folder: &Path, run: &RunOf, plan: &Plan<'_>, prefix: bool) -> Gathered {
    let there = There { blocks: BTreeSet::new(), played: plan.nothing() };
    let mut gathered = Gathered { there, missing: Vec::new(), damaged: Vec::new() };
    let id = run.id();
    for block in blocks(plan.possessions.clone()) {
        let path = folder.join(PARTS).join(part::name(&block));
        let bytes = scenarios::read_once(&path, part::MOST).ok();
        let found = bytes.as_ref().and_then(|entered| part::read(&entered.bytes, &id, &block, plan));
        let is_recorded = run.records.is_none() || spool::is_whole(folder, &id, &block, plan.variants.len());
        if let Some(played) = found.as_ref().filter(|_| is_recorded) {
            gathered.there.blocks.insert(block.start);
            gathered.there.played.merge(played);
            continue;
        }
        if found.is_none() && path.exists() {
            gathered.damaged.push(path);
        } else if found.is_some() {
            gathered.damaged.push(spool::path(folder, &block));
        }
        gathered.missing.push(block);
        if prefix {
            break;
        }
    }
    gathered
}
