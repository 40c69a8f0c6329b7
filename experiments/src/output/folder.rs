//! The output folder: written whole or not at all, never over something that is there.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use crate::error::Error;

/// Where a result goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Destination {
    /// The folder named with `--out`.
    Named(PathBuf),
    /// `results/<stem>`, numbered if it exists.
    Numbered(PathBuf),
}

/// Refuses, before anything is run, a named folder that holds something or cannot be written.
pub fn claim_named(folder: &Path) -> Result<Destination, Error> {
    match fs::read_dir(folder).map(|mut entries| entries.next().is_none()) {
        Ok(true) => {}
        Ok(false) => return Err(Error::Taken(folder.into())),
        // A link that leads nowhere is something, too.
        Err(_) if is_there(folder) && fs::metadata(folder).is_err() => {
            return Err(Error::Taken(folder.into()));
        }
        // The way to it tells the rest.
        Err(_) => {}
    }
    try_to_write(folder)?;
    Ok(Destination::Named(folder.into()))
}

/// Refuses, before anything is run, a default folder that cannot be made.
pub fn claim_numbered(stem: &Path) -> Result<Destination, Error> {
    try_to_write(stem.parent().unwrap_or(stem))?;
    Ok(Destination::Numbered(stem.into()))
}

/// Makes a folder in the nearest one that exists on the way to `folder`, or in itself, and removes it again.
fn try_to_write(folder: &Path) -> Result<(), Error> {
    for place in folder.ancestors() {
        // The last of a relative path's ancestors is empty.
        let place = if place.as_os_str().is_empty() { Path::new(".") } else { place };
        match fs::metadata(place) {
            Ok(found) if found.is_dir() => {
                let tried = Draft::within(place).map(drop);
                return tried.map_err(|source| Error::Unwritable { folder: place.into(), source });
            }
            Ok(_) => return Err(Error::NotAFolder(place.into())),
            Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => {}
            Err(source) => return Err(Error::Unwritable { folder: place.into(), source }),
        }
    }
    Err(Error::Unwritable { folder: folder.into(), source: ErrorKind::NotFound.into() })
}

impl Destination {
    /// The folder that would be written now.
    pub fn folder(&self) -> PathBuf {
        match self {
            Self::Named(folder) => folder.clone(),
            Self::Numbered(stem) => (1..=u32::MAX)
                .map(|number| numbered(stem, number))
                .find(|folder| !is_there(folder))
                .unwrap_or_else(|| stem.clone()),
        }
    }

    /// Writes the files aside, then gives them their place; returns the folder.
    pub fn write(&self, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<PathBuf, Error> {
        if let Self::Named(folder) = self {
            // Somebody may have put something there since the run began.
            claim_named(folder)?;
            if folder.is_dir() {
                return fill(folder, files).map(|()| folder.clone());
            }
        }
        self.make(files)
    }

    /// Writes a new folder beside its place, then gives it its name.
    fn make(&self, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<PathBuf, Error> {
        let (Self::Named(wanted) | Self::Numbered(wanted)) = self;
        let parent = wanted.parent().filter(|parent| !parent.as_os_str().is_empty());
        let parent = parent.unwrap_or(Path::new("."));
        fs::create_dir_all(parent).map_err(fault(parent))?;
        let draft = Draft::within(parent).map_err(fault(parent))?;
        draft.hold(files)?;
        // Only now, so that two runs that end together take two numbers.
        let folder = self.folder();
        if is_there(&folder) {
            return Err(Error::Taken(folder));
        }
        fs::rename(&draft.0, &folder).map_err(fault(&folder))?;
        Ok(folder)
    }
}

/// Writes into an empty folder, which stays what it is: it may be a link, or where a disk is mounted.
fn fill(folder: &Path, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<(), Error> {
    let draft = Draft::within(folder).map_err(fault(folder))?;
    draft.hold(files)?;
    let entries = fs::read_dir(&draft.0).and_then(Iterator::collect::<io::Result<Vec<_>>>);
    let mut moved: Vec<PathBuf> = Vec::new();
    for entry in entries.map_err(fault(folder))? {
        let path = folder.join(entry.file_name());
        if let Err(source) = fs::rename(entry.path(), &path) {
            for done in &moved {
                // What cannot be removed either is beyond mending here.
                let _ = fs::remove_file(done).or_else(|_| fs::remove_dir_all(done));
            }
            return Err(Error::Write { path, source });
        }
        moved.push(path);
    }
    Ok(())
}

fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

fn fault(path: &Path) -> impl FnOnce(io::Error) -> Error + use<> {
    let path = path.to_path_buf();
    move |source| Error::Write { path, source }
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

/// A folder that is being written; gone again unless it gets another name.
struct Draft(PathBuf);

impl Draft {
    fn within(folder: &Path) -> io::Result<Self> {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let draft = folder.join(format!(".zoneprobe-draft-{}-{count}", std::process::id()));
        fs::create_dir(&draft)?;
        Ok(Self(draft))
    }

    /// Writes files; their names may lead into folders.
    fn hold(&self, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<(), Error> {
        for (name, bytes) in files {
            let path = self.0.join(name);
            let inner = path.parent().unwrap_or(&self.0);
            fs::create_dir_all(inner).map_err(fault(inner))?;
            fs::write(&path, bytes).map_err(fault(&path))?;
        }
        Ok(())
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
        assert!(matches!(Destination::Named(folder.clone()).write(&FILES), Err(Error::Taken(_))));
        let file = home.path().join("out/a.txt");
        assert!(matches!(claim_named(&file), Err(Error::NotAFolder(path)) if path == file));
        assert!(matches!(claim_named(&file.join("deep/out")), Err(Error::NotAFolder(path)) if path == file));
        assert!(matches!(claim_numbered(&file.join("q-1")), Err(Error::NotAFolder(path)) if path == file));
        assert_eq!(names(&folder), ["a.txt"], "trying leaves nothing behind");
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

    #[test]
    fn a_folder_that_cannot_be_made_is_refused_before_anything_runs() {
        let home = tempfile::tempdir().unwrap();
        // No file system takes a name of a thousand letters.
        let folder = home.path().join("x".repeat(1000));
        assert!(matches!(claim_named(&folder), Err(Error::Unwritable { .. })));
        assert!(matches!(claim_named(&folder.join("out")), Err(Error::Unwritable { .. })));
        assert_eq!(names(home.path()), [""; 0]);
    }

    #[test]
    fn a_new_folder_may_be_deep_and_trying_makes_none_of_it() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("a/b/c");
        let to = claim_named(&folder).unwrap();
        assert_eq!(names(home.path()), [""; 0]);
        assert_eq!(to.write(&FILES).unwrap(), folder);
        assert_eq!(names(&folder), ["a.txt"]);
    }

    #[test]
    fn files_that_cannot_be_written_leave_nothing() {
        let home = tempfile::tempdir().unwrap();
        let (new, empty) = (home.path().join("new"), home.path().join("empty"));
        fs::create_dir(&empty).unwrap();
        let long = "x".repeat(1000);
        let files = [("a.txt", Vec::new()), (long.as_str(), Vec::new())];
        for folder in [&new, &empty] {
            let error = Destination::Named(folder.clone()).write(&files);
            assert!(matches!(error, Err(Error::Write { .. })), "{error:?}");
        }
        assert_eq!((names(home.path()), names(&empty)), (vec!["empty".into()], Vec::new()));
    }

    #[test]
    fn files_may_lie_in_folders() {
        let home = tempfile::tempdir().unwrap();
        let (new, empty) = (home.path().join("new"), home.path().join("empty"));
        fs::create_dir(&empty).unwrap();
        let files = ["a.txt", "deep/b.txt"].map(|name| (name.to_string(), name.as_bytes().to_vec()));
        for folder in [&new, &empty] {
            claim_named(folder).unwrap().write(&files).unwrap();
            assert_eq!(
                (names(folder), names(&folder.join("deep"))),
                (vec!["a.txt".into(), "deep".into()], vec!["b.txt".into()])
            );
            assert_eq!(fs::read(folder.join("deep/b.txt")).unwrap(), b"deep/b.txt");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_an_empty_folder_is_used_and_one_to_nowhere_is_not() {
        let home = tempfile::tempdir().unwrap();
        let (folder, link) = (home.path().join("folder"), home.path().join("link"));
        std::os::unix::fs::symlink(&folder, &link).unwrap();
        assert!(matches!(claim_named(&link), Err(Error::Taken(_))));
        fs::create_dir(&folder).unwrap();
        claim_named(&link).unwrap().write(&FILES).unwrap();
        assert_eq!(names(&folder), ["a.txt"]);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    }
}
