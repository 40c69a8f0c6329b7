//! `events.parquet`: a row an event.

use std::sync::Arc;

use arrow_array::{ArrayRef, Float32Array, Int32Array, Int64Array, RecordBatch, StringArray};
use arrow_schema::{ArrowError, SchemaRef};
use engine::events::{Detail, Event, EventKind};
use engine::film::Slot;
use engine::math::vec2;
use engine::setup::Region;

use super::super::layout::Layout;
use super::super::row::Recorded;
use super::super::typed::{Type, Typed, named, names, schema};
use super::{Table, Variant, possession_column, variant_column};

/// The table.
pub struct Events {
    columns: Vec<(Typed, Source)>,
    kinds: Arc<StringArray>,
    details: Arc<StringArray>,
    schema: SchemaRef,
}

/// Where the values of a column come from.
#[derive(Clone, Copy)]
enum Source {
    Variant,
    Possession,
    Nth,
    Kind,
    Detail,
    Player(fn(&Event) -> Option<Slot>),
    Place,
    Real(fn(&Event) -> Option<f32>),
    Points,
    Movement,
    MovementKind,
}

/// One event of a possession, and which it is of it.
struct Row<'a> {
    possession: u64,
    nth: usize,
    event: &'a Event,
}

impl Events {
    /// For a run.
    #[must_use]
    pub fn new(layout: Layout) -> Self {
        let mut columns: Vec<(Typed, Source)> =
            variant_column(layout).map(|column| (column, Source::Variant)).into_iter().collect();
        columns.push((possession_column(), Source::Possession));
        columns.extend(own_columns());
        let schema = Arc::new(schema(columns.iter().map(|(column, _)| column)));
        let kinds = names(EventKind::ALL.iter().map(|kind| kind.key()));
        let details = names(Detail::ALL.iter().map(|detail| detail.key()));
        Self { columns, kinds, details, schema }
    }

    fn array(&self, source: Source, variant: &Variant, rows: &[Row<'_>]) -> Result<ArrayRef, ArrowError> {
        let program = |row: &Row<'_>| row.event.program.map(usize::from);
        Ok(match source {
            Source::Variant => variant.names(rows.len())?,
            Source::Possession => {
                Arc::new(Int64Array::from_iter_values(rows.iter().map(|row| row.possession as i64)))
            }
            Source::Nth => Arc::new(Int32Array::from_iter_values(rows.iter().map(|row| row.nth as i32))),
            Source::Kind => named(&self.kinds, rows.iter().map(|row| Some(row.event.kind as usize)))?,
            Source::Detail => {
                named(&self.details, rows.iter().map(|row| row.event.detail.map(|detail| detail as usize)))?
            }
            Source::Player(who) => {
                named(&variant.players, rows.iter().map(|row| who(row.event).map(Slot::index)))?
            }
            Source::Place => named(
                &variant.regions,
                rows.iter().map(|row| {
                    let at = vec2(row.event.x_m, row.event.y_m);
                    Some(Region::of(&variant.setup.zone, at) as usize)
                }),
            )?,
            Source::Real(value) => {
                Arc::new(rows.iter().map(|row| value(row.event)).collect::<Float32Array>())
            }
            Source::Points => {
                Arc::new(rows.iter().map(|row| row.event.points.map(i32::from)).collect::<Int32Array>())
            }
            Source::Movement => named(&variant.movements, rows.iter().map(program))?,
            Source::MovementKind => named(&variant.movement_kinds, rows.iter().map(program))?,
        })
    }
}

/// The columns of an event itself.
fn own_columns() -> [(Typed, Source); 17] {
    let one = Typed::new;
    let maybe = Typed::optional;
    [
        (
            one("nth", Type::Count, "-", "Which event of the possession it is, from 0, in order of time."),
            Source::Nth,
        ),
        (one("time_s", Type::Short, "s", "When, since the start."), Source::Real(|event| Some(event.time_s))),
        (
            maybe(
                "shot_clock_s",
                Type::Short,
                "s",
                "What is left on the shot clock at the end of that step; none without one.",
            ),
            Source::Real(|event| Some(event.shot_clock_s).filter(|left| left.is_finite())),
        ),
        (one("event", Type::Named, "-", "What happened: see the list of events."), Source::Kind),
        (maybe("detail", Type::Named, "-", "Which kind of it: see the list of details."), Source::Detail),
        (maybe("by", Type::Named, "-", "Who did it, by his position."), Source::Player(|event| event.by)),
        (maybe("other", Type::Named, "-", "To, on or against whom."), Source::Player(|event| event.other)),
        (
            one(
                "x_m",
                Type::Short,
                "m",
                "Where he is who did it, or what the event says, across the floor from the rim; + is the side on which the rover starts.",
            ),
            Source::Real(|event| Some(event.x_m)),
        ),
        (
            one("y_m", Type::Short, "m", "Where, from the rim toward midcourt."),
            Source::Real(|event| Some(event.y_m)),
        ),
        (
            one(
                "place",
                Type::Named,
                "-",
                "The region of that place; right is the side on which the rover starts.",
            ),
            Source::Place,
        ),
        (
            one(
                "nearest_defender",
                Type::Named,
                "-",
                "The defender nearest to that place at that time, whoever did it.",
            ),
            Source::Player(|event| Some(event.nearest)),
        ),
        (
            one("nearest_m", Type::Short, "m", "How far he is from it, centre to centre."),
            Source::Real(|event| Some(event.nearest_m)),
        ),
        (
            maybe("length_m", Type::Short, "m", "Of a pass its length, of a shot the distance from the rim."),
            Source::Real(|event| event.length_m),
        ),
        (
            maybe("chance", Type::Short, "share", "Of a shot: the chance that it goes in."),
            Source::Real(|event| event.chance),
        ),
        (
            maybe(
                "points",
                Type::Count,
                "points",
                "Of a made shot, of free throws, and at the end of the whole possession.",
            ),
            Source::Points,
        ),
        (
            maybe(
                "movement",
                Type::Named,
                "-",
                "The route, option or movement that is started, gone on with or ended, or that made the shot.",
            ),
            Source::Movement,
        ),
        (
            maybe("movement_kind", Type::Named, "-", "What that is: route, post option, guard option, set."),
            Source::MovementKind,
        ),
    ]
}

impl Table for Events {
    fn columns(&self) -> Vec<Typed> {
        self.columns.iter().map(|(column, _)| column.clone()).collect()
    }

    fn schema(&self) -> SchemaRef {
        Arc::clone(&self.schema)
    }

    fn batch(&self, variant: &Variant, rows: &[Recorded]) -> Result<RecordBatch, ArrowError> {
        let rows: Vec<Row<'_>> = rows
            .iter()
            .flat_map(|row| {
                let events = row.events.iter().enumerate();
                events.map(move |(nth, event)| Row { possession: row.possession, nth, event })
            })
            .collect();
        let arrays: Result<Vec<ArrayRef>, ArrowError> =
            self.columns.iter().map(|(_, source)| self.array(*source, variant, &rows)).collect();
        RecordBatch::try_new(self.schema(), arrays?)
    }
}
