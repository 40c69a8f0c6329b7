//! What the columns of the two tables are, and how they are filled.

mod event;
mod possession;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use arrow_array::{ArrayRef, RecordBatch, StringArray};
use arrow_schema::{ArrowError, SchemaRef};
use engine::Outcome;
use engine::events::{Detail, EventKind};
use engine::setup::{ProgramKind, Region, Setup};
use scenarios::Experiment;

use super::layout::Layout;
use super::row::Recorded;
use super::typed::{Type, Typed, named, names};
use crate::places::{player_name, region_key};
use crate::wording::program_kind;

pub use event::Events;
pub use possession::Possessions;
use possession::texts_of_factors;

/// One table of records.
pub trait Table: Sync {
    /// Its columns, in order.
    fn columns(&self) -> Vec<Typed>;
    /// The same as Arrow has them.
    fn schema(&self) -> SchemaRef;
    /// The rows of some possessions of a variant.
    ///
    /// # Errors
    /// None that the engine's values could bring about.
    fn batch(&self, variant: &Variant, rows: &[Recorded]) -> Result<RecordBatch, ArrowError>;
}

/// What rows of a variant are named by.
pub struct Variant {
    /// Its place in the plan.
    place: usize,
    name: Arc<StringArray>,
    setup: Arc<Setup>,
    players: Arc<StringArray>,
    regions: Arc<StringArray>,
    movements: Arc<StringArray>,
    movement_kinds: Arc<StringArray>,
}

impl Variant {
    /// The one at a place of the plan.
    #[must_use]
    pub fn of(experiment: &Experiment, place: usize) -> Self {
        let variant = &experiment.variants[place];
        let programs = &variant.setup.attack.programs;
        Self {
            place,
            name: names([&variant.name]),
            players: names((0..10).map(|player| player_name(&variant.setup, player))),
            regions: names(Region::ALL.map(region_key)),
            movements: names(programs.iter().map(|program| &program.name)),
            movement_kinds: names(programs.iter().map(|program| program_kind(program.kind))),
            setup: Arc::clone(&variant.setup),
        }
    }

    /// Its name in so many rows.
    fn names(&self, rows: usize) -> Result<ArrayRef, ArrowError> {
        named(&self.name, std::iter::repeat_n(Some(0), rows))
    }
}

/// The column of the variant, where the files of a layout have it.
fn variant_column(layout: Layout) -> Option<Typed> {
    let meaning = "What was played.";
    (layout == Layout::OneFile).then(|| Typed::new("variant", Type::Named, "-", meaning))
}

/// The column of the possession's number.
fn possession_column() -> Typed {
    let meaning = "Number of the possession, from 0; the same players and draws under every variant.";
    Typed::new("possession", Type::Whole, "-", meaning)
}

/// What the columns of names of both tables may hold in the records of an experiment.
#[must_use]
pub fn known(experiment: &Experiment) -> BTreeMap<String, Vec<String>> {
    let variants = || experiment.variants.iter();
    let each = |of: &dyn Fn(&Setup) -> Vec<String>| -> Vec<String> {
        let mut all: Vec<String> = variants().flat_map(|variant| of(&variant.setup)).collect();
        let mut seen = BTreeSet::new();
        all.retain(|name| seen.insert(name.clone()));
        all
    };
    let players = each(&|setup| (0..10).map(|player| player_name(setup, player)).collect());
    let programs = |setup: &Setup| setup.attack.programs.iter().map(|own| own.name.clone()).collect();
    let texts = |all: &[&str]| all.iter().map(|&name| name.to_owned()).collect();
    let own = [
        ("variant", variants().map(|variant| variant.name.clone()).collect()),
        ("outcome", texts(&Outcome::ALL.map(Outcome::key))),
        ("event", EventKind::ALL.iter().map(|kind| kind.key().to_owned()).collect()),
        ("detail", Detail::ALL.iter().map(|detail| detail.key().to_owned()).collect()),
        ("by", players.clone()),
        ("other", players.clone()),
        ("nearest_defender", players),
        ("place", Region::ALL.map(region_key).to_vec()),
        ("movement", each(&programs)),
        ("movement_kind", texts(&MOVEMENT_KINDS)),
    ];
    texts_of_factors(experiment).chain(own.map(|(name, known)| (name.to_owned(), known))).collect()
}

/// What a movement is.
const MOVEMENT_KINDS: [&str; 4] = [
    program_kind(ProgramKind::Route),
    program_kind(ProgramKind::PostOption),
    program_kind(ProgramKind::GuardOption),
    program_kind(ProgramKind::Set),
];
