//! A filter asked of all records of a result, in bounded memory but for what it finds.

use std::collections::BTreeMap;

use arrow_array::RecordBatch;

use super::super::read::{RecordFiles, texts};
use super::super::{EVENTS, POSSESSIONS};
use super::compiled::{Asked, Read, Row, Value};
use super::parsed::Filter;
use crate::error::Error;

/// What is told of a possession that was found.
const TOLD: [&str; 4] = ["possession", "outcome", "points", "ball_path"];

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
}

/// How many events answer each question, by variant and possession; possessions without any are left out.
type Counts = BTreeMap<String, BTreeMap<u64, Vec<u64>>>;

/// The possessions that answer a filter, in the order of the files, and how many were looked at. `only` is the one variant of
/// a result whose files do not name it.
///
/// # Errors
/// A file cannot be read.
pub fn search(files: &RecordFiles, filter: &Filter, only: &str) -> Result<(Vec<Found>, u64), Error> {
    let counts = if filter.asks_events() { counted(files, filter, only)? } else { Counts::new() };
    let none = vec![0; filter.questions.len()];
    let (mut found, mut looked_at) = (Vec::new(), 0);
    each(files, POSSESSIONS, &filter.columns, &TOLD, only, &mut |batch, variants, told| {
        let (columns, numbers) = (Read::all(batch), Read::all(told));
        let (outcomes, paths) = (texts(told, 1), texts(told, 3));
        for (row, variant) in variants.iter().enumerate() {
            looked_at += 1;
            let possession = whole(numbers[0].value(row));
            let counts = counts.get(*variant).and_then(|own| own.get(&possession)).unwrap_or(&none);
            if filter.asked.holds(&One { columns: &columns, row, counts }) == Some(true) {
                found.push(Found {
                    variant: (*variant).into(),
                    possession,
                    outcome: outcomes[row].unwrap_or_default().into(),
                    points: number(numbers[2].value(row)),
                    ball_path: paths[row].unwrap_or_default().into(),
                });
            }
        }
    })?;
    Ok((found, looked_at))
}

/// Counts the events that answer the questions.
fn counted(files: &RecordFiles, filter: &Filter, only: &str) -> Result<Counts, Error> {
    let mut counts = Counts::new();
    let questions = &filter.questions;
    each(files, EVENTS, &filter.event_columns, &TOLD[..1], only, &mut |batch, variants, told| {
        let (columns, numbers) = (Read::all(batch), Read::all(told));
        for (row, variant) in variants.iter().enumerate() {
            let one = One { columns: &columns, row, counts: &[] };
            let mut answers = questions.iter().map(|question: &Asked| question.holds(&one) == Some(true));
            if !answers.clone().any(|answer| answer) {
                continue;
            }
            let possession = whole(numbers[0].value(row));
            let of_variant = counts.entry((*variant).to_owned()).or_default();
            let own = of_variant.entry(possession).or_insert_with(|| vec![0; questions.len()]);
            own.iter_mut().zip(&mut answers).for_each(|(count, answer)| *count += u64::from(answer));
        }
    })?;
    Ok(counts)
}

/// Hands over batch after batch: the columns of the filter, the variant of each row, and what is told of it.
fn each(
    files: &RecordFiles,
    table: &str,
    columns: &[String],
    told: &[&str],
    only: &str,
    each: &mut dyn FnMut(&RecordBatch, &[&str], &RecordBatch),
) -> Result<(), Error> {
    let own: Vec<&str> = columns.iter().map(String::as_str).collect();
    let has_variant = files.schema(table)?.index_of(VARIANT).is_ok();
    // Where folders name the variant, a filter that asks for it is asked of a column that is put in.
    let read: Vec<&str> = own.iter().copied().filter(|name| has_variant || *name != VARIANT).collect();
    let mut wanted: Vec<&str> = read.clone();
    let more = told.iter().copied().chain(has_variant.then_some(VARIANT));
    more.for_each(|name| {
        if !wanted.contains(&name) {
            wanted.push(name)
        }
    });
    files.each(table, &wanted, &mut |named, batch| {
        let of = |names: &[&str]| -> Result<RecordBatch, Error> {
            let places: Vec<usize> =
                names.iter().filter_map(|name| wanted.iter().position(|own| own == name)).collect();
            batch.project(&places).map_err(|error| Error::Bug(error.to_string()))
        };
        let variants = of(&[VARIANT])?;
        let variants: Vec<&str> = if has_variant {
            texts(&variants, 0).into_iter().map(Option::unwrap_or_default).collect()
        } else {
            vec![named.unwrap_or(only); batch.num_rows()]
        };
        let asked = if has_variant { of(&own)? } else { with_variant(&of(&read)?, &own, &variants)? };
        each(&asked, &variants, &of(told)?);
        Ok(())
    })
}

/// The column of the variant.
const VARIANT: &str = "variant";

/// The columns of a filter with that of the variant put where the filter has it.
fn with_variant(batch: &RecordBatch, own: &[&str], variants: &[&str]) -> Result<RecordBatch, Error> {
    let Some(place) = own.iter().position(|name| *name == VARIANT) else { return Ok(batch.clone()) };
    let names: arrow_array::ArrayRef = std::sync::Arc::new(arrow_array::StringArray::from(variants.to_vec()));
    let mut columns = batch.columns().to_vec();
    columns.insert(place, names);
    let named: Vec<(&str, arrow_array::ArrayRef)> = own.iter().copied().zip(columns).collect();
    RecordBatch::try_from_iter(named).map_err(|error| Error::Bug(error.to_string()))
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
