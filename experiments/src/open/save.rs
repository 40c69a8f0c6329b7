//! *Save as question*: what was asked and what came of it, in a folder of one's own.

use std::path::{Path, PathBuf};

use super::app::{Answered, Asked};
use super::live::{PRINTED, RESULT, SHEET};
use super::written::QUESTION;
use crate::error::Error;
use crate::output::Reservation;

/// What was saved.
pub struct Saved {
    /// Where.
    pub folder: PathBuf,
    /// The command that makes the result again, in that folder.
    pub command: String,
}

/// The folder in which a question is saved is called so where nothing was typed.
pub const NAME: &str = "saved-question";
/// The file that has the command.
const COMMAND: &str = "command.txt";

/// Writes the question, its result and its sheet to a new folder under the one in which the program was started, numbered if
/// there is one of this name.
///
/// # Errors
/// It cannot be written.
pub fn save(asked: &Asked, answer: &Answered, name: Option<&str>) -> Result<Saved, Error> {
    let command = answer.asking.command(answer.outcome.possessions);
    let mut files = vec![(COMMAND.to_owned(), format!("{command} --out again\n").into_bytes())];
    let own = |name: &str| ![PRINTED, RESULT, SHEET, "errors.txt"].contains(&name);
    for entry in names(&asked.folder)?.into_iter().filter(|name| own(name)) {
        gather(&asked.folder, Path::new(&entry), &mut files)?;
    }
    for name in [PRINTED, RESULT, SHEET] {
        gather(&asked.folder, Path::new(name), &mut files)?;
    }
    debug_assert!(files.iter().any(|(name, _)| name == QUESTION));
    let place = Reservation::numbered(Path::new(&plain(name.unwrap_or_default())))?;
    Ok(Saved { folder: place.write(&files)?.folder, command: command + " --out again" })
}

/// A name that is one folder on every machine.
fn plain(name: &str) -> String {
    let kept =
        name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect::<String>();
    let words: Vec<&str> = kept.split('-').filter(|word| !word.is_empty()).collect();
    let name: String = words.join("-").chars().take(64).collect();
    if name.is_empty() { NAME.to_owned() } else { name }
}

fn names(folder: &Path) -> Result<Vec<String>, Error> {
    let read = |path: &Path| -> std::io::Result<Vec<String>> {
        let entry =
            |entry: std::io::Result<std::fs::DirEntry>| Ok(entry?.file_name().to_string_lossy().into_owned());
        std::fs::read_dir(path)?.map(entry).collect()
    };
    let mut names = read(folder).map_err(|source| Error::Unwritable { folder: folder.into(), source })?;
    names.sort_unstable();
    Ok(names)
}

/// A file, or all that lies in a folder, each under its name from `root`.
fn gather(root: &Path, name: &Path, files: &mut Vec<(String, Vec<u8>)>) -> Result<(), Error> {
    let path = root.join(name);
    if path.is_dir() {
        return names(&path)?.iter().try_for_each(|inner| gather(root, &name.join(inner), files));
    }
    let bytes = std::fs::read(&path).map_err(|source| Error::Unwritable { folder: path, source })?;
    let name: Vec<String> = name.iter().map(|part| part.to_string_lossy().into_owned()).collect();
    files.push((name.join("/"), bytes));
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_name_is_one_folder_here() {
        for (typed, name) in [
            ("Friday: their 2-3", "friday-their-2-3"),
            ("../../etc", "etc"),
            ("/", NAME),
            ("", NAME),
            (&"a".repeat(80), &"a".repeat(64)),
        ] {
            assert_eq!(plain(typed), name);
        }
    }
}
