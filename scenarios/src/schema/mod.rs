//! One file for each kind of data file: what its keys are, and what they become.

pub(crate) mod alone;
pub(crate) mod attack;
pub(crate) mod chart;
pub(crate) mod design;
pub(crate) mod experiment;
pub(crate) mod factor;
pub(crate) mod fit;
pub(crate) mod level;
pub(crate) mod listed;
pub(crate) mod opponent;
pub(crate) mod plan;
pub(crate) mod player;
pub(crate) mod program;
pub(crate) mod route;
pub(crate) mod rules;
pub(crate) mod scenario;
pub(crate) mod sightings;
pub(crate) mod worth;
pub(crate) mod zone;

use crate::declared::{Field, Kind, Need, Table};
use crate::kind::FILE_KINDS;
use crate::text::Text;

const UNITS: [(&str, ()); 2] = [("m", ()), ("ft", ())];

/// The keys that every file may have at its top.
pub(crate) const HEAD: [Field; 2] = [
    Field::other(
        "units",
        Kind::Word(&UNITS),
        "Unit of the file's places, and of lengths whose key names no unit.",
    )
    .or(Need::Word("m")),
    Field::text("line", Text::Line, "What it is, in one line, for the catalog."),
];

/// What a kind of file may hold besides, in the order of [`FILE_KINDS`].
const TABLES: [&Table; FILE_KINDS.len()] = [
    &scenario::SCENARIO,
    &experiment::EXPERIMENT,
    &zone::ZONE,
    &attack::ATTACK,
    &route::ROUTE,
    &attack::OPTION,
    &plan::PLAN,
    &level::LEVEL,
    &rules::RULES,
    &worth::WORTH,
];

/// What a kind of file may hold besides; `None` for a word that is no kind.
pub(crate) fn table(kind: &str) -> Option<&'static Table> {
    FILE_KINDS.iter().position(|known| *known == kind).map(|at| TABLES[at])
}
