//! Folders that are made on the way to a result, and go again if nothing comes into them.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use super::place::unwritable;
use crate::error::Error;

/// Folders that were made, outermost first; those that are empty when it is dropped are removed again.
#[derive(Debug, Default)]
pub(super) struct Made(Vec<PathBuf>);

impl Drop for Made {
    fn drop(&mut self) {
        for folder in self.0.iter().rev() {
            // The first that holds something ends it: the others hold that one.
            if fs::remove_dir(folder).is_err() {
                return;
            }
        }
    }
}

impl Made {
    /// Leaves them where they are.
    pub(super) fn forget(&mut self) {
        self.0.clear();
    }
}

/// Makes a folder and those on the way to it.
pub(super) fn make(folder: &Path) -> Result<Made, Error> {
    let mut missing = Vec::new();
    for place in folder.ancestors() {
        // The last of a relative path's ancestors is empty.
        let place = if place.as_os_str().is_empty() { Path::new(".") } else { place };
        match fs::metadata(place) {
            Ok(found) if found.is_dir() => break,
            Ok(_) => return Err(Error::NotAFolder(place.into())),
            Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => {
                // A folder may have been made by another run since it was looked for.
                if fs::symlink_metadata(place).is_ok_and(|found| found.is_symlink()) {
                    let source = io::Error::other("it is a link that leads nowhere");
                    return Err(unwritable(place)(source));
                }
                missing.push(place);
            }
            Err(source) => return Err(unwritable(place)(source)),
        }
    }
    let mut made = Made::default();
    for place in missing.into_iter().rev() {
        match fs::create_dir(place) {
            Ok(()) => made.0.push(place.into()),
            // Another run made it, or removed what it made on the way; whether it is there is found out later.
            Err(error) if matches!(error.kind(), ErrorKind::AlreadyExists | ErrorKind::NotFound) => {}
            Err(source) => return Err(unwritable(place)(source)),
        }
    }
    Ok(made)
}
