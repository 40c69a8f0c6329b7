//! The output folder: written whole or not at all, never over something that is there.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::error::Error;

/// Where a result goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Destination {
    /// The folder named with `--out`.
    Named(PathBuf),
    /// `results/<stem>`, numbered if it exists.
    Numbered(PathBuf),
}

/// Refuses, before anything is run, a named folder that holds something.
pub fn claim_named(folder: &Path) -> Result<Destination, Error> {
    match fs::read_dir(folder).map(|mut entries| entries.next().is_none()) {
        Ok(true) => {}
        Ok(false) => return Err(Error::Taken(folder.into())),
        Err(error) if error.kind() == io::ErrorKind::NotFound => {}
        Err(error) if error.kind() == io::ErrorKind::NotADirectory => {
            return Err(Error::Taken(folder.into()));
        }
        Err(source) => return Err(Error::Write { path: folder.into(), source }),
    }
    Ok(Destination::Named(folder.into()))
}

impl Destination {
    /// Writes the files into a folder beside it, then gives that its name; returns the name.
    pub fn write(&self, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<PathBuf, Error> {
        let (Self::Named(wanted) | Self::Numbered(wanted)) = self;
        let draft = Draft::beside(wanted)?;
        for (name, bytes) in files {
            let path = draft.0.join(name);
            if let Some(inner) = path.parent() {
                fs::create_dir_all(inner).map_err(|source| Error::Write { path: inner.into(), source })?;
            }
            fs::write(&path, bytes).map_err(|source| Error::Write { path, source })?;
        }
        match self {
            Self::Named(folder) => {
                // Somebody may have put something there since the run began.
                claim_named(folder)?;
                // Not every system renames over an empty folder.
                let _ = fs::remove_dir(folder);
                draft.rename(folder)?;
                Ok(folder.clone())
            }
            Self::Numbered(stem) => (1..)
                .map(|number| numbered(stem, number))
                .find(|folder| fs::symlink_metadata(folder).is_err())
                .map_or_else(
                    || Err(Error::Taken(stem.clone())),
                    |folder| draft.rename(&folder).map(|()| folder),
                ),
        }
    }
}

/// `results/x-1`, `results/x-1-2`, `results/x-1-3`, ...
fn numbered(stem: &Path, number: u32) -> PathBuf {
    if number == 1 {
        return stem.into();
    }
    let mut name = stem.file_name().unwrap_or_default().to_os_string();
    name.push(format!("-{number}"));
    stem.with_file_name(name)
}

/// A folder that is being written; gone again unless it gets its name.
struct Draft(PathBuf);

impl Draft {
    fn beside(folder: &Path) -> Result<Self, Error> {
        let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty());
        let parent = parent.unwrap_or(Path::new("."));
        let fault = |path: &Path| {
            let path = path.to_path_buf();
            move |source| Error::Write { path, source }
        };
        fs::create_dir_all(parent).map_err(fault(parent))?;
        let mut name = std::ffi::OsString::from(".");
        name.push(folder.file_name().unwrap_or_default());
        name.push(format!(".draft-{}", std::process::id()));
        let draft = parent.join(name);
        fs::create_dir(&draft).map_err(fault(&draft))?;
        Ok(Self(draft))
    }

    fn rename(&self, folder: &Path) -> Result<(), Error> {
        fs::rename(&self.0, folder).map_err(|source| Error::Write { path: folder.into(), source })
    }
}

impl Drop for Draft {
    fn drop(&mut self) {
        // After a rename there is nothing left to remove.
        let _ = fs::remove_dir_all(&self.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FILES: [(&str, Vec<u8>); 1] = [("a.txt", Vec::new())];

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn default_folders_are_numbered() {
        let home = tempfile::tempdir().unwrap();
        let to = Destination::Numbered(home.path().join("results/q-1"));
        let written: Vec<PathBuf> = (0..3).map(|_| to.write(&FILES).unwrap()).collect();
        let wanted = ["q-1", "q-1-2", "q-1-3"];
        assert_eq!(written, wanted.map(|name| home.path().join("results").join(name)));
        assert_eq!(names(&home.path().join("results")), wanted, "no draft is left behind");
        assert_eq!(names(&written[2]), ["a.txt"]);
    }

    #[test]
    fn a_named_folder_with_something_in_it_is_refused() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        claim_named(&folder).unwrap().write(&FILES).unwrap();
        assert!(matches!(claim_named(&folder), Err(Error::Taken(_))));
        assert!(matches!(Destination::Named(folder).write(&FILES), Err(Error::Taken(_))));
        let file = home.path().join("out/a.txt");
        assert!(matches!(claim_named(&file), Err(Error::Taken(_))), "a file is in the way, too");
        assert_eq!(names(home.path()), ["out"]);
    }

    #[test]
    fn an_empty_named_folder_is_used() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        fs::create_dir(&folder).unwrap();
        assert_eq!(claim_named(&folder).unwrap().write(&FILES).unwrap(), folder);
        assert_eq!(names(&folder), ["a.txt"]);
    }
}
