//! What a comparison is turned into: a table to read, rows for other programs, a folder of files.

mod csv_rows;
mod folder;
mod json;
mod manifest;
mod place;
mod terminal;
mod verify;

pub(crate) use csv_rows::{as_named, cell, written};
pub use csv_rows::{comparison_csv, differences_csv};
pub(crate) use folder::give_up;
pub use folder::{Reservation, Written};
pub use json::comparison_json;
pub use manifest::{Fingerprint, Manifest, Settings, relative};
pub use terminal::{comparison_text, rates_text};
pub use verify::Findings;
