//! What commands say alike: where their files are, and a form that is handed out blank or comes back filled in.

use std::path::{Path, PathBuf};

use scenarios::shown_path;

use crate::console::Console;
use crate::error::Error;
use crate::output::{Reservation, Written};
use crate::wrapping::wrapped;

/// Columns in which what a form came to is printed.
pub(super) const WIDTH: usize = 100;

/// What is printed, and the files that are written with it.
pub(super) type Answer = (String, Vec<(String, Vec<u8>)>);

/// Says where files were written.
pub(super) fn say_where(written: &Written, quiet: bool, console: &mut Console) {
    written.word().inspect(|word| console.say(word));
    if !quiet {
        console.say(&format!("written to {}\n", shown_path(&written.folder)));
    }
}

/// A form as it is handed out.
pub(super) struct Blank {
    /// What has to be named where there is no folder for it: `the chart that you have filled in`.
    pub filled_in: &'static str,
    /// The page to print.
    pub page: (&'static str, String),
    /// The table to type it into.
    pub table: (String, Vec<u8>),
    /// How it is used.
    pub words: &'static str,
}

/// Writes the blank form, or what a filled one comes to.
pub(super) fn blank_or_answered(
    (file, out, quiet): (Option<&PathBuf>, Option<&Path>, bool),
    console: &mut Console,
    blank: impl FnOnce() -> Blank,
    answered: impl FnOnce(&Path) -> Result<Answer, Error>,
) -> Result<(), Error> {
    let place = out.map(Reservation::named).transpose()?;
    let (text, files) = match file {
        None => handed_out(blank(), place.is_some())?,
        Some(file) => answered(file)?,
    };
    let written = place.map(|place| place.write(&files)).transpose()?;
    let printed = console.print(&text);
    if let Some(written) = &written {
        say_where(written, quiet, console);
    }
    Ok(printed?)
}

fn handed_out(blank: Blank, has_folder: bool) -> Result<Answer, Error> {
    let Blank { filled_in, page: (name, page), table, words } = blank;
    if !has_folder {
        return Err(Error::Option(format!("name a folder with --out for the blank form, or {filled_in}")));
    }
    Ok((wrapped(words, WIDTH), vec![table, (name.to_owned(), page.into_bytes())]))
}
