//! A filter asked of all records of a result. Possessions and events stand in the same order and are read side by side, so
//! held are a batch of each and the counts of one possession, whatever is asked and found.

use std::collections::VecDeque;
use std::sync::Arc;

use arrow_array::{ArrayRef, RecordBatch, StringArray};

use super::super::read::{Batches, RecordFiles, texts};
use super::super::{EVENTS, POSSESSIONS};
use super::compiled::{Asked, Read, Row, Value};
use super::parsed::Filter;
use crate::error::Error;

/// The column of the variant.
const VARIANT: &str = "variant";
/// What is told of a possession that was found.
const TOLD: [&str; 6] = [VARIANT, "possession", "outcome", "points", "ball_path", "fingerprint"];

/// A possession that answers a filter.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// What was played.
    pub variant: String,
    /// Its number.
    pub possession: u64,
    /// How it ended.
    pub outcome: String,
    /// Points scored.
    pub points: f64,
    /// Who had the ball, one after the other.
    pub ball_path: String,
    /// The fingerprint of what was played.
    pub fingerprint: String,
}

/// Hands over the possessions that answer a filter, in the order of the files; how many were looked at.
///
/// # Errors
/// A file cannot be read, events are of other possessions, or what is found is refused by whom it is handed to.
pub fn search(
    files: &RecordFiles,
    filter: &Filter,
    each: &mut dyn FnMut(Found) -> Result<(), Error>,
) -> Result<u64, Error> {
    let mut pages = Pages::new(files, POSSESSIONS, &filter.columns, &TOLD)?;
    let mut counts = if filter.asks_events() { Some(Counts::new(files, filter)?) } else { None };
    let mut looked_at = 0;
    while let Some((asked, told)) = pages.next()? {
        let (columns, numbers) = (Read::all(&asked), Read::all(&told));
        let [variants, outcomes, paths, fingerprints] = [0, 2, 4, 5].map(|column| texts(&told, column));
        for row in 0..told.num_rows() {
            looked_at += 1;
            let variant = variants[row].unwrap_or_default();
            let possession = whole(numbers[1].value(row));
            let counts = counts.as_mut().map(|counts| counts.of(variant, possession)).transpose()?;
            let counts = counts.unwrap_or_default();
            if filter.asked.holds(&One { columns: &columns, row, counts: &counts }) == Some(true) {
                each(Found {
                    variant: variant.into(),
                    possession,
                    outcome: outcomes[row].unwrap_or_default().into(),
                    points: number(numbers[3].value(row)),
                    ball_path: paths[row].unwrap_or_default().into(),
                    fingerprint: fingerprints[row].unwrap_or_default().into(),
                })?;
            }
        }
    }
    let left = match &mut counts {
        Some(counts) => counts.left()?,
        None => None,
    };
    match left {
        Some(left) => Err(Error::Differs(format!(
            "the events of possession {} of {} stand where no possession does; `zoneprobe verify` says which file is \
             not as it was written",
            left.possession, left.variant
        ))),
        None => Ok(looked_at),
    }
}

/// How many events of one possession answer each question.
struct Count {
    variant: String,
    possession: u64,
    answers: Vec<u64>,
}

/// The counts of all possessions that have events, one after the other.
struct Counts<'a> {
    pages: Pages<'a>,
    questions: &'a [Asked],
    /// Those of the batch that was read last.
    waiting: VecDeque<Count>,
}

impl<'a> Counts<'a> {
    fn new(files: &'a RecordFiles, filter: &'a Filter) -> Result<Self, Error> {
        let pages = Pages::new(files, EVENTS, &filter.event_columns, &TOLD[..2])?;
        Ok(Self { pages, questions: &filter.questions, waiting: VecDeque::new() })
    }

    /// Those of a possession, which is the next that has any.
    fn of(&mut self, variant: &str, possession: u64) -> Result<Vec<u64>, Error> {
        let mut sums = vec![0; self.questions.len()];
        // Its events may go on in the next batch.
        while let Some(next) = self.left()? {
            if next.possession != possession || next.variant != variant {
                break;
            }
            sums.iter_mut().zip(&next.answers).for_each(|(sum, answers)| *sum += answers);
            self.waiting.pop_front();
        }
        Ok(sums)
    }

    /// The first that was not asked for, if there is one.
    fn left(&mut self) -> Result<Option<&Count>, Error> {
        while self.waiting.is_empty() {
            let Some((asked, told)) = self.pages.next()? else { break };
            self.count(&asked, &told);
        }
        Ok(self.waiting.front())
    }

    fn count(&mut self, asked: &RecordBatch, told: &RecordBatch) {
        let (columns, numbers, variants) = (Read::all(asked), Read::all(told), texts(told, 0));
        for (row, variant) in variants.into_iter().enumerate() {
            let one = One { columns: &columns, row, counts: &[] };
            let variant = variant.unwrap_or_default();
            let possession = whole(numbers[1].value(row));
            let is_same = |last: &Count| last.possession == possession && last.variant == variant;
            if !self.waiting.back().is_some_and(is_same) {
                let answers = vec![0; self.questions.len()];
                self.waiting.push_back(Count { variant: variant.into(), possession, answers });
            }
            let Some(last) = self.waiting.back_mut() else { continue };
            for (count, question) in last.answers.iter_mut().zip(self.questions) {
                *count += u64::from(question.holds(&one) == Some(true));
            }
        }
    }
}

/// The batches of a table: the columns of a filter, and what is told of each row.
struct Pages<'a> {
    batches: Batches<'a>,
    asked: Vec<&'a str>,
    told: &'a [&'a str],
}

impl<'a> Pages<'a> {
    fn new(
        files: &'a RecordFiles,
        table: &'a str,
        columns: &'a [String],
        told: &'a [&'a str],
    ) -> Result<Self, Error> {
        let asked: Vec<&str> = columns.iter().map(String::as_str).collect();
        let has_variant = files.schema(table)?.index_of(VARIANT).is_ok();
        let mut read: Vec<&str> = Vec::new();
        for name in asked.iter().chain(told).filter(|name| has_variant || **name != VARIANT) {
            if !read.contains(name) {
                read.push(name);
            }
        }
        Ok(Self { batches: files.batches(table, &read), asked, told })
    }

    /// The next batch, if there is one.
    fn next(&mut self) -> Result<Option<(RecordBatch, RecordBatch)>, Error> {
        let Some((named, batch)) = self.batches.next().transpose()? else { return Ok(None) };
        let batch = named.map_or_else(|| Ok(batch.clone()), |named| with_variant(&batch, &named))?;
        let of = |names: &[&str]| {
            let places: Result<Vec<usize>, _> =
                names.iter().map(|name| batch.schema().index_of(name)).collect();
            places.and_then(|places| batch.project(&places)).map_err(|error| Error::Bug(error.to_string()))
        };
        Ok(Some((of(&self.asked)?, of(self.told)?)))
    }
}

/// A batch with the variant as a column, where only its folder names that.
fn with_variant(batch: &RecordBatch, variant: &str) -> Result<RecordBatch, Error> {
    let names: ArrayRef = Arc::new(StringArray::from(vec![variant; batch.num_rows()]));
    let schema = batch.schema();
    let own = schema.fields().iter().map(|field| field.name().as_str()).zip(batch.columns().to_vec());
    let columns: Vec<(&str, ArrayRef)> = own.chain([(VARIANT, names)]).collect();
    RecordBatch::try_from_iter(columns).map_err(|error| Error::Bug(error.to_string()))
}

fn number(value: Value<'_>) -> f64 {
    if let Value::Number(number) = value { number } else { 0.0 }
}

fn whole(value: Value<'_>) -> u64 {
    number(value) as u64
}

/// One row of a batch.
struct One<'a> {
    columns: &'a [Read<'a>],
    row: usize,
    counts: &'a [u64],
}

impl Row for One<'_> {
    fn value(&self, column: usize) -> Value<'_> {
        self.columns[column].value(self.row)
    }

    fn count(&self, question: usize) -> u64 {
        self.counts[question]
    }
}
