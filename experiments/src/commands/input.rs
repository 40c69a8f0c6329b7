//! The experiment that a command is given.

use std::path::{Path, absolute};

use scenarios::{Experiment, is_hidden, path_text, shown_path};

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

/// A scenario's name as a file in another folder may give it.
pub fn whole_name(scenario: &Path) -> Result<String, Error> {
    if scenario.extension().is_none() {
        return Ok(path_text(scenario));
    }
    let whole =
        absolute(scenario).map_err(|error| Error::Option(format!("{}: {error}", path_text(scenario))))?;
    Ok(path_text(&whole))
}
