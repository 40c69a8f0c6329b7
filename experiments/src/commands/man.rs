//! `man`: the manual, made from the same definition as the help.

use std::path::Path;

use super::handed::say_where;
use crate::cli;
use crate::console::Console;
use crate::error::Error;
use crate::output::Reservation;

/// Prints the main page, or writes a page a command into a folder.
pub fn man(out: Option<&Path>, quiet: bool, console: &mut Console) -> Result<(), Error> {
    let Some(folder) = out else {
        return Ok(console.print_exactly(&cli::manual())?);
    };
    let pages = cli::manuals();
    let files: Vec<(&str, Vec<u8>)> =
        pages.iter().map(|(name, text)| (name.as_str(), text.clone().into_bytes())).collect();
    let written = Reservation::named(folder)?.write(&files)?;
    say_where(&written, quiet, console);
    Ok(())
}
