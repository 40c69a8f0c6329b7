//! What a run keeps while it plays: files in the folder `parts` of its result, each there whole or not at all.
//!
//! The folder appears at once with all that says what is kept in it, so that one without it is somebody else's. Who holds
//! the result's folder is the only one who writes here.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The folder's name in that of the result.
pub const PARTS: &str = "parts";
/// The file in it that says what run it is.
pub const RUN: &str = "run.json";
/// What a file is called until it is whole.
const UNFINISHED: &str = "unfinished";

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
        let _ = fs::remove_dir_all(folder.join(PARTS));
    }
}

/// Writes a file so that it outlives the machine's going down.
fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}
