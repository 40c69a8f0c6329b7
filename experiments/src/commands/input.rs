//! The experiment that a command is given.

use std::path::Path;

use scenarios::Experiment;

use crate::error::Error;

/// Loads a file, or what is bundled under that name; without either the bundled question.
pub fn experiment(file: Option<&Path>) -> Result<Experiment, Error> {
    match file {
        Some(file) => scenarios::experiment(file).map_err(Error::Faults),
        None => scenarios::bundled_question().map_err(Error::Faults),
    }
}
