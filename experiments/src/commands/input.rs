//! The experiment that a command is given.

use std::path::Path;

use scenarios::{Experiment, Faults, Problem};

use crate::error::Error;

/// Said of a word that is neither a file nor bundled.
const NAMES: &str =
    "the name of a file ends in .toml; `zoneprobe catalog` lists the names of what is bundled";

/// Loads a file, or what is bundled under that name; without either the bundled question.
pub fn experiment(file: Option<&Path>) -> Result<Experiment, Error> {
    let Some(file) = file else { return scenarios::bundled_question().map_err(Error::Faults) };
    scenarios::experiment(file).map_err(|faults| Error::Faults(advised(file, faults)))
}

/// The faults of a file, with advice where it seems that a bundled name was meant.
pub fn advised(file: &Path, mut faults: Faults) -> Faults {
    for fault in &mut faults.all {
        let is_missing = !file.exists() && matches!(fault.problem, Problem::Unreadable { .. });
        if is_missing && file.extension().is_none() {
            fault.help = fault.help.or(Some(NAMES));
        }
    }
    faults
}
