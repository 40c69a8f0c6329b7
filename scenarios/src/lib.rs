//! What is played: data files, and the loader that turns them into [`engine::setup::Setup`].
//!
//! Start with [`scenario`] and [`experiment`]; [`bundled_question`] needs no file. A file and all that it
//! names is checked as a whole: every [`Fault`] is reported, with its place and with what is allowed there.
//! Everything that a possession depends on (rule sets, levels of play, zones, routes, options) is a TOML
//! file under `data/`, each value with its unit, plausible range and source.

mod answers;
mod at_level;
mod bundled;
mod catalog;
mod declared;
pub mod design;
mod excerpt;
mod fault;
mod gate;
mod hint;
mod key;
mod kind;
mod load;
mod overrides;
mod read;
mod reference;
mod rows;
mod schema;
mod shelf;
mod source;
mod syntax;
mod tables;
mod text;
mod tree;
mod value;
pub mod watching;

#[cfg(test)]
mod tests;

pub use answers::{Answer, ZoneRule, ZoneRules};
pub use catalog::{Entry, bundled_text, catalog, rules};
pub use fault::{Fault, Faults, Problem, likeness};
pub use gate::{Entered, Refusal, read as read_once};
pub use kind::FILE_KINDS;
pub use load::{
    Checked, Experiment, Scenario, Variant, bundled_question, check, experiment, experiment_beside,
    experiment_kept, experiment_of, scenario, zone_rules,
};
pub use reference::{KeyEntry, json_schema, key_reference, key_reference_markdown};
pub use rows::as_key;
pub use schema::chart::{
    Attempt, CHART_COLUMNS, Charted, ENDS, SESSIONS, SHAPES_SEEN, SPACES, SPOTS, Session, Wearer,
};
pub use schema::player::ROSTER_SHOTS;
pub use schema::player::squad::{Candidate, Squad, WHERE};
pub use schema::sightings::{ASKED, Asked, Sightings};
pub use shelf::{Source, is_stream};
pub use tables::{chart, roster, sightings, squad};
pub use text::{is_hidden, path_text, shown, shown_lines, shown_path};
