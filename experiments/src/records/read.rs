//! Reading records back, batch by batch.
//!
//! ```
//! use arrow_array::cast::AsArray;
//! use experiments::records::read::{RecordFiles, texts};
//! use experiments::records::{EVENTS, POSSESSIONS};
//!
//! # use experiments::console::Console;
//! # use std::ffi::OsString;
//! # let home = tempfile::tempdir().unwrap();
//! # let monday = home.path().join("monday");
//! # let line = "zoneprobe simulate sunken-122 --possessions 8 --records events --quiet --out";
//! # let words = line.split(' ').map(OsString::from).chain([monday.clone().into_os_string()]);
//! # let (mut out, mut err) = (Vec::new(), Vec::new());
//! # experiments::app::run(words, &mut Console { out: &mut out, err: &mut err, colour: false, width: 100 });
//! // How many possessions had an open look, and how many passes were thrown in all of them?
//! let records = RecordFiles::open(&monday)?;
//! let (mut possessions, mut looks, mut passes) = (0, 0, 0);
//! records.each(POSSESSIONS, &["open_look"], &mut |_variant, batch| {
//!     possessions += batch.num_rows();
//!     looks += batch.column(0).as_boolean().true_count();
//!     Ok(())
//! })?;
//! records.each(EVENTS, &["event"], &mut |_variant, batch| {
//!     passes += texts(batch, 0).iter().filter(|text| **text == Some("pass")).count();
//!     Ok(())
//! })?;
//! assert_eq!(possessions, 8);
//! assert!(looks <= 8 && passes > 8);
//! # Ok::<(), experiments::error::Error>(())
//! ```

use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use arrow_array::cast::AsArray;
use arrow_array::types::Int32Type;
use arrow_array::{Array, RecordBatch};
use arrow_schema::{ArrowError, DataType, SchemaRef};
use parquet::arrow::ProjectionMask;
use parquet::arrow::arrow_reader::{ParquetRecordBatchReader, ParquetRecordBatchReaderBuilder};
use scenarios::shown_path;

use super::layout::decoded;
use crate::error::Error;
use crate::output::{LEADING_FILE, ResultFolder};

/// Rows of a batch.
const ROWS: usize = 8192;

/// The files of a result that hold records.
pub struct RecordFiles {
    folder: PathBuf,
    /// Their names in the folder, in plan order.
    names: Vec<String>,
}

impl RecordFiles {
    /// Those of a result's folder.
    ///
    /// # Errors
    /// It is no result, or keeps no records.
    pub fn open(folder: &Path) -> Result<Self, Error> {
        Self::of(folder, &ResultFolder::open(folder)?)
    }

    /// The same of a result that is opened already.
    ///
    /// # Errors
    /// It keeps no records.
    pub fn of(folder: &Path, result: &ResultFolder) -> Result<Self, Error> {
        let outputs = result.outputs.iter().map(|output| output.name.clone());
        let names: Vec<String> = outputs.filter(|name| name.ends_with(".parquet")).collect();
        if names.is_empty() {
            return Err(Error::Option(format!(
                "{} keeps no records of its possessions; {}",
                shown_path(folder),
                advice(result)
            )));
        }
        Ok(Self::named(folder, names))
    }

    /// The files of these names in a folder.
    #[must_use]
    pub fn named(folder: &Path, names: Vec<String>) -> Self {
        Self { folder: folder.into(), names }
    }

    /// The files of a table, each with the variant that its folder names, if it does.
    fn files<'a>(&'a self, table: &'a str) -> impl Iterator<Item = (Option<String>, PathBuf)> + 'a {
        let own = move |name: &&String| name.split(['/', '.']).next() == Some(table);
        self.names.iter().filter(own).map(|name| (decoded(name), self.folder.join(name)))
    }

    /// Whether there is this table.
    #[must_use]
    pub fn has(&self, table: &str) -> bool {
        self.files(table).next().is_some()
    }

    /// The columns of a table, without the variant where folders name it.
    ///
    /// # Errors
    /// Its file cannot be read.
    pub fn schema(&self, table: &str) -> Result<SchemaRef, Error> {
        let Some((_, path)) = self.files(table).next() else {
            return Err(Error::Option(format!(
                "{} keeps no {table}; make it again with --records {table}",
                shown_path(&self.folder)
            )));
        };
        Ok(Arc::clone(opened(&path)?.schema()))
    }

    /// The rows of some columns of a table, in the order in which they are named, batch by batch in plan order; with each batch
    /// the variant that its folder names, if it does.
    #[must_use]
    pub fn batches<'a>(&'a self, table: &'a str, columns: &[&str]) -> Batches<'a> {
        let columns = columns.iter().map(|name| (*name).to_owned()).collect();
        Batches { files: Box::new(self.files(table)), columns, open: None }
    }

    /// Hands over the batches of [`RecordFiles::batches`], one after the other.
    ///
    /// # Errors
    /// A file cannot be read or has no such column, or what they are handed to refuses.
    pub fn each(
        &self,
        table: &str,
        columns: &[&str],
        each: &mut dyn FnMut(Option<&str>, &RecordBatch) -> Result<(), Error>,
    ) -> Result<(), Error> {
        for batch in self.batches(table, columns) {
            let (variant, batch) = batch?;
            each(variant.as_deref(), &batch)?;
        }
        Ok(())
    }
}

/// The rows of a table, batch by batch, each with the variant that its folder names, if it does.
pub struct Batches<'a> {
    files: Box<dyn Iterator<Item = (Option<String>, PathBuf)> + 'a>,
    columns: Vec<String>,
    open: Option<(Option<String>, PathBuf, ParquetRecordBatchReader)>,
}

impl Batches<'_> {
    /// The reader of a file, for these columns only.
    fn reader(&self, path: &Path) -> Result<ParquetRecordBatchReader, Error> {
        let builder = opened(path)?;
        let places = self.columns.iter().map(|name| builder.schema().index_of(name));
        let places: Vec<usize> =
            places.collect::<Result<_, _>>().map_err(|error| unreadable(path, &error))?;
        let mask = ProjectionMask::leaves(builder.parquet_schema(), places);
        let reader = builder.with_projection(mask).with_batch_size(ROWS).build();
        reader.map_err(|error| unreadable(path, &error))
    }

    /// A batch with its columns in the order in which they are named.
    fn ordered(&self, batch: &RecordBatch) -> Result<RecordBatch, ArrowError> {
        let order = self.columns.iter().map(|name| batch.schema().index_of(name));
        batch.project(&order.collect::<Result<Vec<usize>, _>>()?)
    }
}

impl Iterator for Batches<'_> {
    type Item = Result<(Option<String>, RecordBatch), Error>;

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            if let Some((variant, path, reader)) = &mut self.open
                && let Some(batch) = reader.next()
            {
                let (variant, path) = (variant.clone(), path.clone());
                return Some(match batch.and_then(|batch| self.ordered(&batch)) {
                    Ok(batch) => Ok((variant, batch)),
                    Err(error) => Err(unreadable(&path, &error)),
                });
            }
            let (variant, path) = self.files.next()?;
            match self.reader(&path) {
                Ok(reader) => self.open = Some((variant, path, reader)),
                Err(error) => return Some(Err(error)),
            }
        }
    }
}

/// How to come by the records of a result that has none.
fn advice(result: &ResultFolder) -> String {
    if result.outputs.iter().any(|output| output.name == LEADING_FILE) {
        return format!(
            "those of a design's leading variants are written by\n  zoneprobe compare {LEADING_FILE} --records events\nin it"
        );
    }
    // A remark of what has to be piped in stands behind the command.
    let (command, remark) = result.made.command.rsplit_once("  # ").unwrap_or((&result.made.command, ""));
    let remark = if remark.is_empty() { String::new() } else { format!("  # {remark}") };
    format!("make it again with\n  {command} --records events{remark}")
}

fn opened(path: &Path) -> Result<ParquetRecordBatchReaderBuilder<File>, Error> {
    let file = File::open(path).map_err(|error| unreadable(path, &error))?;
    ParquetRecordBatchReaderBuilder::try_new(file).map_err(|error| unreadable(path, &error))
}

fn unreadable(path: &Path, error: &dyn std::error::Error) -> Error {
    let advice = "`zoneprobe verify` says whether it is as it was written";
    Error::Differs(format!("cannot read {}: {error}; {advice}", shown_path(path)))
}

/// The texts of a column of texts or of names, by row; none where a row has none, and in any other column.
#[must_use]
pub fn texts(batch: &RecordBatch, column: usize) -> Vec<Option<&str>> {
    let array = batch.column(column);
    let of = |place: usize| array.is_valid(place).then_some(place);
    match array.data_type() {
        DataType::Utf8 => {
            let texts = array.as_string::<i32>();
            (0..array.len()).map(|row| of(row).map(|row| texts.value(row))).collect()
        }
        DataType::Dictionary(_, _) => {
            let names = array.as_dictionary::<Int32Type>();
            let values = names.values().as_string::<i32>();
            let key = |row: usize| names.keys().value(row) as usize;
            (0..array.len()).map(|row| of(row).map(|row| values.value(key(row)))).collect()
        }
        _ => vec![None; array.len()],
    }
}
