//! The files of a run's records, put together in plan order from what was written aside.
//!
//! A batch holds the possessions of one variant between two fixed numbers, whichever files they come from, so the bytes of the
//! result do not show how it was played. Held in memory are a batch and a group of rows for each file that is written, of which
//! no more are open at a time than there are threads, a file of each table for each.

use std::ops::Range;
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use arrow_array::RecordBatch;
use rayon::ThreadPool;
use scenarios::Experiment;

use super::layout::{EVENTS, Layout, POSSESSIONS, tables};
use super::spool::Spooled;
use super::tables::{Events, Possessions, Table, Variant};
use super::writer::{Writer, add_all};
use super::{Recorded, Records};
use crate::crash::WORKER;
use crate::error::Error;
use crate::note::NOTE;
use crate::output::Fingerprint;
use crate::run::{BLOCK, Watch};

/// Rows of a group, of possessions: what readers take at a time. (a choice: some ten megabytes)
const POSSESSION_ROWS: usize = 1 << 16;
/// The same of events.
const EVENT_ROWS: usize = 1 << 19;

/// A run whose records are put together.
pub struct Assembly<'a> {
    /// What was played.
    pub experiment: &'a Experiment,
    /// The id of the run.
    pub run: &'a str,
    /// The command that makes its result.
    pub command: &'a str,
    /// Master seed.
    pub seed: u64,
    /// Possessions of each variant.
    pub possessions: u64,
    /// What is written.
    pub records: Records,
    /// How it is divided into files.
    pub layout: Layout,
    /// Worker threads.
    pub threads: usize,
}

/// A file of what was written aside, and of which possessions.
pub type Source = (Range<u64>, PathBuf);

impl Assembly<'_> {
    /// Writes the files into a folder that is there; their names and fingerprints come back, in plan order. `sources` are all files of what was
    /// written aside, in any order.
    ///
    /// # Errors
    /// A source cannot be read, a file not be written, or no threads be started.
    pub fn write(
        &self,
        sources: &[Source],
        folder: &Path,
        watch: &dyn Watch,
    ) -> Result<Vec<Fingerprint>, Error> {
        let mut sources = sources.to_vec();
        sources.sort_by_key(|(block, _)| block.start);
        let batches: Vec<&[Source]> =
            sources.chunk_by(|one, other| one.0.start / BLOCK == other.0.start / BLOCK).collect();
        let threads = rayon::ThreadPoolBuilder::new()
            .num_threads(self.threads)
            .thread_name(|_| WORKER.into())
            .build()
            .map_err(|error| Error::Threads(error.to_string()))?;
        let layout = self.layout;
        let variants: Vec<usize> = (0..self.experiment.variants.len()).collect();
        let files: Vec<&[usize]> = match layout {
            Layout::OneFile => vec![&variants],
            Layout::ByVariant => variants.chunks(1).collect(),
        };
        let next = AtomicUsize::new(0);
        // Not on the pool: a thread of it that waits takes up other work, which must not be another file.
        let work = || -> Result<Vec<(usize, Vec<Fingerprint>)>, Error> {
            let mut written = Vec::new();
            loop {
                let nth = next.fetch_add(1, Ordering::Relaxed);
                let Some(variants) = files.get(nth) else { return Ok(written) };
                let own = self.write_variants(variants, &batches, (layout, folder), (&threads, watch));
                // What is left to be written serves nobody.
                let own = own.inspect_err(|_| next.store(files.len(), Ordering::Relaxed))?;
                written.push((nth, own));
            }
        };
        let mut written = self.on_threads(files.len(), &work)?;
        written.sort_by_key(|(nth, _)| *nth);
        Ok(written.into_iter().flat_map(|(_, own)| own).collect())
    }

    /// Does some work on as many threads as are allowed and of use; what all of them came to.
    fn on_threads<T: Send>(
        &self,
        most: usize,
        work: &(impl Fn() -> Result<Vec<T>, Error> + Sync),
    ) -> Result<Vec<T>, Error> {
        thread::scope(|scope| {
            let start = |_| thread::Builder::new().name(WORKER.into()).spawn_scoped(scope, work);
            let started: Result<Vec<_>, _> = (0..self.threads.clamp(1, most.max(1))).map(start).collect();
            let started = started.map_err(|error| Error::Threads(error.to_string()))?;
            let ends: Vec<_> = started.into_iter().map(|thread| thread.join()).collect();
            let ended = ends.into_iter().map(|end| end.unwrap_or_else(|panic| resume_unwind(panic)));
            Ok(ended.collect::<Result<Vec<Vec<T>>, Error>>()?.into_iter().flatten().collect())
        })
    }

    /// Writes the files of some variants, one after the other.
    fn write_variants(
        &self,
        variants: &[usize],
        batches: &[&[Source]],
        (layout, folder): (Layout, &Path),
        (threads, watch): (&ThreadPool, &dyn Watch),
    ) -> Result<Vec<Fingerprint>, Error> {
        let all = self.tables(layout);
        let name = &self.experiment.variants[variants[0]].name;
        let told = self.told();
        let mut writers = Vec::new();
        for (table, rows, own) in &all {
            writers.push(Writer::new(folder, layout.file(table, name), own.as_ref(), &told, *rows)?);
        }
        for &place in variants {
            let variant = Variant::of(self.experiment, place);
            let mut next = batches.first().map(|sources| self.rows(sources, place)).transpose()?;
            for nth in 1..=batches.len() {
                let Some(rows) = next.take() else { break };
                // The next are read while these are written.
                let (written, read) = threads.join(
                    || write(&all, &variant, &rows, &mut writers),
                    || batches.get(nth).map(|sources| self.rows(sources, place)).transpose(),
                );
                written?;
                next = read?;
                watch.played(rows.len() as u64);
            }
        }
        writers.into_iter().map(Writer::end).collect()
    }

    /// A variant's possessions of one batch, in order.
    fn rows(&self, sources: &[Source], variant: usize) -> Result<Vec<Recorded>, Error> {
        let mut rows = Vec::new();
        for (_, path) in sources {
            let opened = Spooled::open(path, self.run);
            let mut spooled = opened.map_err(|source| Error::Damaged { path: path.clone(), source })?;
            rows.extend(spooled.rows(variant)?);
        }
        Ok(rows)
    }

    /// The tables, with their names and the rows of a group.
    fn tables(&self, layout: Layout) -> Vec<(&'static str, usize, Box<dyn Table>)> {
        let table = |&name: &&'static str| -> (&'static str, usize, Box<dyn Table>) {
            match name {
                EVENTS => (EVENTS, EVENT_ROWS, Box::new(Events::new(layout))),
                _ => (POSSESSIONS, POSSESSION_ROWS, Box::new(Possessions::new(self.experiment, layout))),
            }
        };
        tables(self.records).iter().map(table).collect()
    }

    /// What each file says of itself. The build is named in the manifest: another one makes the same bytes.
    fn told(&self) -> Vec<(&'static str, String)> {
        vec![
            ("note", NOTE.into()),
            ("program", format!("zoneprobe {}", env!("CARGO_PKG_VERSION"))),
            ("command", self.command.into()),
            ("question", self.experiment.question.clone()),
            ("seed", self.seed.to_string()),
            ("possessions", self.possessions.to_string()),
        ]
    }
}

/// Writes the rows of one batch into each table's file.
fn write(
    tables: &[(&'static str, usize, Box<dyn Table>)],
    variant: &Variant,
    rows: &[Recorded],
    writers: &mut [Writer],
) -> Result<(), Error> {
    let batch = |(name, _, table): &(&'static str, usize, Box<dyn Table>)| {
        let batch = table.batch(variant, rows);
        batch.map(Arc::new).map_err(|error| Error::Bug(format!("a row of {name} fits no column: {error}")))
    };
    let batches: Result<Vec<Arc<RecordBatch>>, Error> = tables.iter().map(batch).collect();
    add_all(writers, &batches?)
}

#[cfg(test)]
mod tests {
    use std::fs;

    use engine::Arena;

    use super::super::read::{RecordFiles, texts};
    use super::super::spool::{self, Spool};
    use super::*;
    use crate::stub::Unwatched;

    /// Possessions of the first two variants of the bundled question.
    fn played(experiment: &Experiment, possessions: Range<u64>) -> [Vec<Recorded>; 2] {
        [0, 1].map(|variant| {
            let mut rows = Vec::new();
            let setup = &experiment.variants[variant].setup;
            Arena::new(8).play_with_events(setup, 1, possessions.clone(), &mut |record, events| {
                rows.push(Recorded::of(record, events, Records::Events));
            });
            rows.sort_by_key(|row| row.possession);
            rows
        })
    }

    /// Writes them aside in a folder, in blocks that end at these numbers.
    fn aside(folder: &Path, rows: &[Vec<Recorded>; 2], ends: &[usize]) -> Vec<Source> {
        fs::create_dir_all(folder.join(crate::output::PARTS)).unwrap();
        let spool = Spool::new(folder, "id".into());
        let mut from = 0;
        let mut sources = Vec::new();
        for &to in ends {
            let block = rows[0][from].possession..rows[0][to - 1].possession + 1;
            for (variant, rows) in rows.iter().enumerate().rev() {
                rows[from..to].chunks(5).for_each(|chunk| spool.add(&block, variant, chunk).unwrap());
            }
            spool.close(&block).unwrap();
            sources.insert(0, (block.clone(), spool::path(folder, &block)));
            from = to;
        }
        sources
    }

    #[test]
    fn however_rows_were_written_aside_and_are_divided_they_are_the_same() {
        let mut experiment = scenarios::bundled_question().unwrap();
        experiment.variants.truncate(2);
        let rows = played(&experiment, 1010..1040);
        let assembled = |folder: &Path, sources: &[Source], layout: Layout| {
            let assembly = Assembly {
                experiment: &experiment,
                run: "id",
                command: "zoneprobe compare",
                seed: 1,
                possessions: 1040,
                records: Records::Events,
                layout,
                threads: 2,
            };
            fs::create_dir(folder).unwrap();
            assembly.write(sources, folder, &Unwatched).unwrap()
        };
        let home = tempfile::tempdir().unwrap();
        let place = |name: &str| home.path().join(name);
        let whole = aside(&place("whole"), &rows, &[14, 30]);
        let cut = aside(&place("cut"), &rows, &[3, 14, 15, 30]);
        let one = assembled(&place("one"), &whole, Layout::OneFile);
        assert_eq!(one, assembled(&place("other"), &cut, Layout::OneFile));
        let names: Vec<&str> = one.iter().map(|file| file.name.as_str()).collect();
        assert_eq!(names, ["possessions.parquet", "events.parquet"]);
        assert_eq!(one[0], Fingerprint::of_file(names[0], &place("one").join(names[0])).unwrap());

        let divided = assembled(&place("divided"), &cut, Layout::ByVariant);
        assert_eq!(divided[1].name, "events/variant=hold-wing/part-0.parquet");
        let told = |folder: &str, files: &[Fingerprint], named: bool| {
            let names = files.iter().map(|file| file.name.clone()).collect();
            let files = RecordFiles::named(&place(folder), names);
            let columns = ["fingerprint", "variant"];
            let mut rows = Vec::new();
            files
                .each(POSSESSIONS, &columns[..1 + usize::from(named)], &mut |variant, batch| {
                    let own = if named { texts(batch, 1) } else { vec![variant; batch.num_rows()] };
                    let both = texts(batch, 0).into_iter().zip(own);
                    rows.extend(both.map(|(one, two)| (one.unwrap().to_owned(), two.unwrap().to_owned())));
                    Ok(())
                })
                .unwrap();
            rows
        };
        let both = told("one", &one, true);
        assert_eq!(both.len(), 60);
        assert_eq!(both, told("divided", &divided, false));
    }
}
