//! What a run keeps while it plays: files in the folder `parts` of its result, each there whole or not at all.
//!
//! The folder appears at once with all that says what is kept in it, so that one without it is somebody else's. Who holds
//! the result's folder is the only one who writes here.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::thread;

/// The folder's name in that of the result.
pub const PARTS: &str = "parts";
/// The file in it that says what run it is.
pub const RUN: &str = "run.json";
/// What a file is called until it is whole.
const UNFINISHED: &str = "unfinished";
/// How often a folder that others fill is emptied. (a choice: each thread makes a few files at most)
const TRIES: usize = 1000;

/// Whether something is kept in the folder of a result.
pub fn are_in(folder: &Path) -> bool {
    folder.join(PARTS).join(RUN).is_file()
}

/// Makes the folder with its first files: in a draft, then moved to its place.
///
/// # Errors
/// They cannot be written. Nothing of them is left in its place.
pub(super) fn begin(
    folder: &Path,
    draft: &Path,
    files: &[(String, Vec<u8>)],
) -> Result<(), (PathBuf, io::Error)> {
    let own = draft.join(PARTS);
    for (name, bytes) in files {
        let path = own.join(name);
        let inner = path.parent().unwrap_or(&own);
        fs::create_dir_all(inner).map_err(|error| (inner.to_path_buf(), error))?;
        write(&path, bytes).map_err(|error| (path.clone(), error))?;
    }
    let place = folder.join(PARTS);
    fs::rename(&own, &place).and_then(|()| fs::remove_dir(draft)).map_err(|error| (place, error))
}

/// Puts one more file there, or one in the place of another.
///
/// # Errors
/// It cannot be written. The one that was there still is.
pub(super) fn keep(folder: &Path, name: &str, bytes: &[u8]) -> Result<(), (PathBuf, io::Error)> {
    let (unfinished, path) = (folder.join(PARTS).join(UNFINISHED), folder.join(PARTS).join(name));
    write(&unfinished, bytes).and_then(|()| fs::rename(&unfinished, &path)).map_err(|error| {
        // What cannot be removed is written over by the next.
        let _ = fs::remove_file(&unfinished);
        (path, error)
    })
}

/// Removes the folder, once the result is there.
pub(super) fn remove(folder: &Path) {
    if are_in(folder) {
        // What cannot be removed is named by `verify`.
        let _ = remove_all(&folder.join(PARTS));
    }
}

/// Removes a folder in which others may still be making files; that there is none is no failure.
///
/// # Errors
/// It cannot be removed.
pub(super) fn remove_all(folder: &Path) -> io::Result<()> {
    for _ in 0..TRIES {
        match fs::remove_dir_all(folder) {
            // A file came after the last look.
            Err(error) if error.kind() == ErrorKind::DirectoryNotEmpty => {}
            Err(error) if error.kind() != ErrorKind::NotFound => return Err(error),
            _ => return Ok(()),
        }
    }
    Err(ErrorKind::DirectoryNotEmpty.into())
}

/// So many files are put on the disk at once: most of that is waiting. (a choice)
const AT_ONCE: usize = 16;

/// Puts a result on the disk, so that it outlives the machine's going down: what it was made from may go then.
///
/// # Errors
/// The system cannot.
pub(super) fn settle(folder: &Path) -> io::Result<()> {
    let (mut files, mut folders) = (Vec::new(), vec![folder.to_path_buf()]);
    let mut nth = 0;
    while let Some(folder) = folders.get(nth).cloned() {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            match entry.file_type()? {
                kind if kind.is_dir() && entry.file_name() == PARTS => {}
                kind if kind.is_dir() => folders.push(entry.path()),
                _ => files.push(entry.path()),
            }
        }
        nth += 1;
    }
    let sync = |path: &PathBuf| File::open(path).and_then(|file| file.sync_all());
    thread::scope(|scope| {
        let each = files.len().div_ceil(AT_ONCE).max(1);
        let waiting: Vec<_> =
            files.chunks(each).map(|own| scope.spawn(move || own.iter().try_for_each(sync))).collect();
        waiting.into_iter().try_for_each(|own| own.join().unwrap_or_else(|panic| resume_unwind(panic)))
    })?;
    // Names are the folders' own. Only Unix opens a folder like a file.
    if cfg!(unix) { folders.iter().rev().try_for_each(sync) } else { Ok(()) }
}

/// Writes a file so that it outlives the machine's going down.
fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use super::super::Reservation;
    use super::*;
    use crate::error::Error;

    /// What lies in a folder.
    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap();
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
    }

    #[test]
    fn parts_in_which_nothing_is_kept_go_with_the_run_and_those_of_another_stay() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        let first = [(String::from("run.json"), b"{}".to_vec())];
        let place = Reservation::named(&folder).unwrap();
        place.begin_parts(&first).unwrap();
        fs::create_dir(folder.join("parts/records")).unwrap();
        fs::write(folder.join("parts/records/1.unfinished"), "half").unwrap();
        let told = |place: &Reservation| {
            let error = Error::Write { path: "x".into(), source: ErrorKind::StorageFull.into() };
            place.told(error).told(false)
        };
        assert!(told(&place).contains("no folder of results was left"), "{}", told(&place));
        drop(place);
        assert_eq!(names(home.path()), [""; 0]);
        let place = Reservation::named(&folder).unwrap();
        place.begin_parts(&first).unwrap();
        place.has_kept(0);
        assert!(told(&place).contains("--resume"), "{}", told(&place));
        drop(place);
        drop(Reservation::resumed(&folder).unwrap());
        assert_eq!(names(&folder), ["parts"]);
        let place = Reservation::resumed(&folder).unwrap();
        fs::remove_dir_all(&folder).unwrap();
        assert!(told(&place).contains("out: the folder was taken away"), "{}", told(&place));
    }
}
