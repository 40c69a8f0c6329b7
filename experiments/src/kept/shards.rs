//! The shards of one run, put together: each there once, whole, and of the same run.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use scenarios::shown_path;

use super::parts::{Gathered, gather, run_in};
use super::{RunOf, Shard};
use crate::design::{Sketch, Sums, kept};
use crate::error::Error;
use crate::records::assemble::Source;
use crate::records::spool;
use crate::run::{Plan, Played, blocks};
use crate::wording::{grouped, listed};

/// Missing shards that are named.
const NAMED: usize = 5;

/// The folders of a run's shards, in their order.
pub struct Shards {
    /// The run that they are parts of, as the first of them tells it.
    pub run: RunOf,
    folders: Vec<(Shard, PathBuf)>,
}

impl Shards {
    /// Of these folders, in any order.
    ///
    /// # Errors
    /// A folder keeps no shard, one of another run, or one that is there twice; or one is missing.
    pub fn of(folders: &[PathBuf]) -> Result<Self, Error> {
        let mut runs = Vec::new();
        for folder in folders {
            let run = run_in(folder)?;
            let shard = run.shard.unwrap_or(Shard { nth: 1, of: 1 });
            runs.push((shard, run, folder.clone()));
        }
        runs.sort_by_key(|(shard, ..)| *shard);
        let Some((first, run, folder)) = runs.first().cloned() else {
            return Err(Error::Option("name the folders of the shards".into()));
        };
        for (shard, other, place) in &runs[1..] {
            same(&run, &folder, other, place)?;
            if shard.of != first.of {
                let (one, two) = (shown_path(&folder), shown_path(place));
                return Err(Error::Option(format!(
                    "{one} is shard {first} and {two} is shard {shard}; only shards of one division make a whole"
                )));
            }
        }
        if let Some(pair) = runs.windows(2).find(|pair| pair[0].0 == pair[1].0) {
            let (one, two) = (shown_path(&pair[0].2), shown_path(&pair[1].2));
            return Err(Error::Option(format!(
                "shard {} is there twice, in {one} and in {two}; leave one out",
                pair[0].0
            )));
        }
        let there: BTreeSet<u64> = runs.iter().map(|(shard, ..)| shard.nth).collect();
        let missing = (1..=first.of).filter(|nth| !there.contains(nth));
        missing_ones(missing.map(|nth| Shard { nth, of: first.of }).collect())?;
        let folders = runs.into_iter().map(|(shard, _, folder)| (shard, folder)).collect();
        Ok(Self { run, folders })
    }

    /// What all of them came to, by the plan of the whole run.
    ///
    /// # Errors
    /// A shard is not whole.
    pub fn played(&self, plan: &Plan<'_>) -> Result<Played, Error> {
        let mut all = plan.nothing();
        for (shard, folder) in &self.folders {
            let part = Plan { possessions: shard.range(self.run.possessions), ..plan.clone() };
            let Gathered { there, missing, damaged } = gather(folder, &self.run, &part, false);
            if !missing.is_empty() {
                return Err(not_whole(*shard, folder, missing.len(), &damaged));
            }
            all.merge(&there.played);
        }
        Ok(all.in_order())
    }

    /// The same of a design, whose parts have an id of their own.
    ///
    /// # Errors
    /// A shard is not whole.
    pub fn designed(&self, id: &str, sketch: &Sketch<'_>) -> Result<Sums, Error> {
        let mut all = Sums::nothing(sketch);
        for (shard, folder) in &self.folders {
            let own = sketch.parts_of(Some(*shard));
            let (missing, damaged) = kept(folder, id, (sketch, own), &mut all);
            if !missing.is_empty() {
                return Err(not_whole(*shard, folder, missing.len(), &damaged));
            }
        }
        Ok(all.in_order())
    }

    /// The files of what all of them recorded.
    #[must_use]
    pub fn records(&self) -> Vec<Source> {
        let of = |(shard, folder): &(Shard, PathBuf)| {
            let folder = folder.clone();
            let own = blocks(shard.range(self.run.possessions));
            own.map(move |block| (block.clone(), spool::path(&folder, &block)))
        };
        self.folders.iter().flat_map(of).collect()
    }

    /// The folder of the first shard, which has the texts.
    #[must_use]
    pub fn first(&self) -> &Path {
        &self.folders[0].1
    }
}

/// Refuses a whole of which some are missing.
fn missing_ones(missing: Vec<Shard>) -> Result<(), Error> {
    if missing.is_empty() {
        return Ok(());
    }
    let mut named: Vec<String> = missing.iter().take(NAMED).map(Shard::to_string).collect();
    if missing.len() > NAMED {
        named.push(format!("{} more", grouped((missing.len() - NAMED) as u64)));
    }
    let (noun, verb) = if missing.len() == 1 { ("shard", "is") } else { ("shards", "are") };
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    Err(Error::Option(format!("{noun} {} {verb} missing; name all folders", listed(&named))))
}

/// Refuses shards of different runs, or of what would be different results.
fn same(one: &RunOf, folder: &Path, other: &RunOf, place: &Path) -> Result<(), Error> {
    let command = || (one.command != other.command).then(|| format!("the command {}", other.command));
    let Some(what) = one.differs(other).or_else(command) else { return Ok(()) };
    Err(Error::Option(format!(
        "{} is not of the run that {} is of: it has {what}",
        shown_path(place),
        shown_path(folder)
    )))
}

fn not_whole(shard: Shard, folder: &Path, missing: usize, damaged: &[PathBuf]) -> Error {
    let blocks = if missing == 1 { "block is" } else { "blocks are" };
    let damaged = match damaged.first() {
        Some(path) => format!(" ({} is damaged)", shown_path(path)),
        None => String::new(),
    };
    Error::Option(format!(
        "shard {shard} in {} is not whole: {missing} {blocks} missing{damaged}; play it on with --resume",
        shown_path(folder)
    ))
}
