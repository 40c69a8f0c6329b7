//! `check`: judges files of any kind, all of them, and changes nothing.

use std::path::PathBuf;

use scenarios::Faults;

use crate::columns::{Column, keys};
use crate::console::Console;
use crate::error::Error;

/// Says of each file what it is; all faults of all files come back together.
pub fn check(files: &[PathBuf], quiet: bool, console: &mut Console) -> Result<(), Error> {
    let mut faults = Faults { all: Vec::new() };
    for file in files {
        let judged = scenarios::check(file).and_then(|kind| {
            if kind != "experiment" {
                return Ok(kind);
            }
            // The loader does not know the columns, so the ranking column is judged here.
            let experiment = scenarios::experiment(file)?;
            match Column::named(&experiment.rank_by) {
                Some(_) => Ok(kind),
                None => Err(experiment.rank_by_fault(&keys())),
            }
        });
        match judged {
            Ok(kind) if !quiet => console.print(&format!("{}: {kind}, nothing wrong\n", file.display()))?,
            Ok(_) => {}
            Err(more) => faults.all.extend(more.all),
        }
    }
    if faults.all.is_empty() { Ok(()) } else { Err(Error::Faults(faults)) }
}
