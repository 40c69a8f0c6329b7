//! What a comparison is turned into: a table to read, rows for other programs, a folder of files.

mod csv_rows;
mod folder;
mod json;
mod lines;
mod manifest;
mod terminal;

pub use csv_rows::comparison_csv;
pub(crate) use csv_rows::difference_lines;
pub use folder::{Destination, claim_named, claim_numbered};
pub use json::comparison_json;
pub(crate) use lines::{Decimal, FileLine, Hundredths, cell, file, lines};
pub use manifest::{Input, Made, Manifest, Settings, relative};
pub use terminal::{comparison_text, rates_text};
