//! The experiment that a command is given.

use std::path::Path;

use scenarios::{Experiment, is_hidden, shown_path};

use crate::error::Error;

/// Loads a file, or what is bundled under that name; without either the bundled question.
pub fn experiment(file: Option<&Path>) -> Result<Experiment, Error> {
    match file {
        Some(file) if !can_be_told(file) => Err(Error::Option(format!(
            "the name {} is not plain text, so the command that makes the result again could not be told; give the \
             file another name",
            shown_path(file)
        ))),
        Some(file) => scenarios::experiment(file).map_err(Error::Faults),
        None => scenarios::bundled_question().map_err(Error::Faults),
    }
}

/// Whether a name can stand in a command that a reader copies.
fn can_be_told(file: &Path) -> bool {
    file.to_str().is_some_and(|name| !name.contains(is_hidden))
}
