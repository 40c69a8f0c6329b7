//! What a comparison is turned into: a table to read, rows for other programs, a folder of files.

mod csv_rows;
mod effects;
mod folder;
mod json;
mod lines;
mod made;
mod manifest;
mod needed;
mod paired;
mod parts;
mod place;
mod ranked;
mod result_folder;
mod terminal;
mod verify;

pub(crate) use csv_rows::difference_lines;
pub use csv_rows::{comparison_csv, comparison_rows};
pub(crate) use effects::effects_text;
pub(crate) use folder::{Aside, Left, give_up};
pub use folder::{Reservation, Written};
pub use json::comparison_json;
pub(crate) use json::document;
pub(crate) use lines::{Decimal, FileLine, Hundredths, as_named, cell, file, lines, written};
pub(crate) use manifest::hex;
pub use manifest::{Fingerprint, Made, Manifest, Settings, relative};
pub use needed::{Pilot, needed_csv, needed_json, needed_text};
pub use parts::{PARTS, RUN, are_in as parts_are_in};
pub(crate) use ranked::{empty, headed, in_cell, right};
pub(crate) use result_folder::LEADING_FILE;
pub use result_folder::ResultFolder;
pub use terminal::{Run, comparison_text, rates_text};
pub use verify::Findings;
