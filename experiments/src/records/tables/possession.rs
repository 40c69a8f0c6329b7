//! `possessions.parquet`: a row a possession and variant.

use std::sync::Arc;

use arrow_array::{ArrayRef, BooleanArray, Float64Array, Int32Array, Int64Array, RecordBatch, StringArray};
use arrow_schema::{ArrowError, SchemaRef};
use engine::{Measure, Outcome, Unit};
use scenarios::Experiment;

use super::super::layout::Layout;
use super::super::row::Recorded;
use super::super::typed::{Type, Typed, named, names, schema};
use super::{Table, Variant, possession_column, variant_column};
use crate::places::player_name;

/// The table.
pub struct Possessions {
    columns: Vec<(Typed, Source)>,
    factors: Vec<Factor>,
    outcomes: Arc<StringArray>,
    schema: SchemaRef,
}

/// Where the values of a column come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Source {
    Variant,
    Possession,
    /// By its place among the factors.
    Factor(usize),
    Outcome,
    Path,
    Fingerprint,
    /// In its unit.
    Natural(Measure),
    /// As it is summed.
    Exact(Measure),
}

/// A path at which the variants differ, and what each has there.
struct Factor {
    path: String,
    values: Values,
}

/// By variant; none where it is left as the scenario has it.
enum Values {
    Numbers(Vec<Option<f64>>),
    Texts { places: Vec<Option<usize>>, names: Arc<StringArray> },
}

impl Factor {
    fn of(experiment: &Experiment, path: &str) -> Self {
        let own = |settings: &[(String, String)]| {
            let found = settings.iter().rev().find(|(own, _)| own == path);
            found.map(|(_, value)| value.trim_matches('"').to_owned())
        };
        let texts: Vec<Option<String>> =
            experiment.variants.iter().map(|variant| own(&variant.settings)).collect();
        let numbers: Option<Vec<Option<f64>>> = texts.iter().map(number).collect();
        let values = numbers.map_or_else(
            || Values::Texts {
                places: texts.iter().enumerate().map(|(place, text)| text.as_ref().map(|_| place)).collect(),
                names: names(texts.iter().map(|text| text.as_deref().unwrap_or_default())),
            },
            Values::Numbers,
        );
        Self { path: path.into(), values }
    }

    /// The texts that it may be; none where it is a number.
    fn texts(self) -> Vec<String> {
        match self.values {
            Values::Numbers(_) => Vec::new(),
            Values::Texts { places, names } => {
                let mut texts: Vec<String> =
                    places.into_iter().flatten().map(|place| names.value(place).to_owned()).collect();
                texts.sort_unstable();
                texts.dedup();
                texts
            }
        }
    }

    fn column(&self) -> Typed {
        let holds = match self.values {
            Values::Numbers(_) => Type::Real,
            Values::Texts { .. } => Type::Named,
        };
        let meaning = "What the variant has at this key of the scenario; none where it leaves it as it is.";
        Typed::optional(&self.path, holds, "the key's", meaning)
    }

    fn array(&self, variant: usize, rows: usize) -> Result<ArrayRef, ArrowError> {
        Ok(match &self.values {
            Values::Numbers(numbers) => {
                Arc::new(Float64Array::from_iter(std::iter::repeat_n(numbers[variant], rows)))
            }
            Values::Texts { places, names } => named(names, std::iter::repeat_n(places[variant], rows))?,
        })
    }
}

/// What the column of each path at which the variants differ may hold, where that is a text.
pub fn texts_of_factors(experiment: &Experiment) -> impl Iterator<Item = (String, Vec<String>)> {
    experiment.varied.iter().map(|path| (path.clone(), Factor::of(experiment, path).texts()))
}

/// The number that a value is, if it is one or none at all.
fn number(text: &Option<String>) -> Option<Option<f64>> {
    match text {
        None => Some(None),
        Some(text) => text.replace('_', "").parse().ok().filter(|number: &f64| number.is_finite()).map(Some),
    }
}

/// The unit of a measure as a value of one possession.
fn unit(measure: Measure) -> &'static str {
    match measure.unit() {
        Unit::Flag => "true, false",
        Unit::Count => "times",
        Unit::Points => "points",
        Unit::Seconds => "s",
        Unit::Metres => "m",
        Unit::Share => "share",
    }
}

/// The columns of a measure: in its unit, and where that is no whole number also as the integer that tables sum.
fn of_measure(measure: Measure) -> impl Iterator<Item = (Typed, Source)> {
    let holds = match measure.unit() {
        Unit::Flag => Type::Flag,
        Unit::Count => Type::Count,
        _ => Type::Real,
    };
    let own =
        (Typed::new(measure.key(), holds, unit(measure), measure.meaning().trim()), Source::Natural(measure));
    let exact = (holds == Type::Real).then(|| {
        let name = format!("{}_millionths", measure.key());
        let meaning = format!("`{}` as the whole number that the tables sum up.", measure.key());
        (Typed::new(&name, Type::Whole, "millionths", &meaning), Source::Exact(measure))
    });
    std::iter::once(own).chain(exact)
}

impl Possessions {
    /// For a run.
    #[must_use]
    pub fn new(experiment: &Experiment, layout: Layout) -> Self {
        let factors: Vec<Factor> =
            experiment.varied.iter().map(|path| Factor::of(experiment, path)).collect();
        let mut columns: Vec<(Typed, Source)> =
            variant_column(layout).map(|column| (column, Source::Variant)).into_iter().collect();
        columns.push((possession_column(), Source::Possession));
        let varied = factors.iter().enumerate();
        columns.extend(varied.map(|(place, factor)| (factor.column(), Source::Factor(place))));
        columns.extend([
            (
                Typed::new("outcome", Type::Named, "-", "How it ended: one of the first six measures."),
                Source::Outcome,
            ),
            (
                Typed::new(
                    "ball_path",
                    Type::Text,
                    "-",
                    "Who of the attack had the ball, one after the other, with > between.",
                ),
                Source::Path,
            ),
            (
                Typed::new("fingerprint", Type::Text, "-", "The fingerprint that its film has, too."),
                Source::Fingerprint,
            ),
        ]);
        columns.extend(Measure::ALL.iter().copied().flat_map(of_measure));
        let schema = Arc::new(schema(columns.iter().map(|(column, _)| column)));
        Self { columns, factors, outcomes: names(Outcome::ALL.map(Outcome::key)), schema }
    }

    fn array(&self, source: Source, variant: &Variant, rows: &[Recorded]) -> Result<ArrayRef, ArrowError> {
        let exact = |measure: Measure| rows.iter().map(move |row| row.value(measure));
        Ok(match source {
            Source::Variant => variant.names(rows.len())?,
            Source::Possession => {
                Arc::new(Int64Array::from_iter_values(rows.iter().map(|row| row.possession as i64)))
            }
            Source::Factor(place) => self.factors[place].array(variant.place, rows.len())?,
            Source::Outcome => named(
                &self.outcomes,
                rows.iter()
                    .map(|row| Outcome::ALL.iter().position(|&outcome| row.values[outcome as usize] == 1)),
            )?,
            Source::Path => {
                let keys: Vec<String> = (0..5).map(|player| player_name(&variant.setup, player)).collect();
                let path = |row: &Recorded| {
                    let names: Vec<&str> = row.path.iter().map(|slot| keys[slot.index()].as_str()).collect();
                    names.join(">")
                };
                Arc::new(StringArray::from_iter_values(rows.iter().map(path)))
            }
            Source::Fingerprint => {
                Arc::new(StringArray::from_iter_values(rows.iter().map(|row| format!("{:016x}", row.digest))))
            }
            Source::Natural(measure) => match measure.unit() {
                Unit::Flag => Arc::new(BooleanArray::from_iter(exact(measure).map(|value| Some(value != 0)))),
                Unit::Count => {
                    Arc::new(Int32Array::from_iter_values(exact(measure).map(|value| value as i32)))
                }
                unit => Arc::new(Float64Array::from_iter_values(
                    exact(measure).map(|value| value as f64 / unit.scale()),
                )),
            },
            Source::Exact(measure) => Arc::new(Int64Array::from_iter_values(exact(measure))),
        })
    }
}

impl Table for Possessions {
    fn columns(&self) -> Vec<Typed> {
        self.columns.iter().map(|(column, _)| column.clone()).collect()
    }

    fn schema(&self) -> SchemaRef {
        Arc::clone(&self.schema)
    }

    fn batch(&self, variant: &Variant, rows: &[Recorded]) -> Result<RecordBatch, ArrowError> {
        let arrays: Result<Vec<ArrayRef>, ArrowError> =
            self.columns.iter().map(|(_, source)| self.array(*source, variant, rows)).collect();
        RecordBatch::try_new(self.schema(), arrays?)
    }
}
