//! One output folder, held by a lock from before anything is played until the result stands in it.
//!
//! Until then it holds a lock file and, at the end, a draft, both of fixed names. Who has the lock owns both, and the
//! system frees the lock when a process dies, however it dies. What lies beside a free lock therefore belongs to
//! nobody, and the next run that comes by clears it.
//!
//! Files are written in the draft and moved from there, after their names were noted in the lock file. What is noted
//! and no longer in the draft has reached its place; if the run does not get through, it is removed with the rest.
//! Emptying the note is what makes the result stand.

use std::collections::BTreeSet;
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Component, Path, PathBuf};
use std::thread;
use std::time::Duration;

use tempfile::TempPath;

use super::Manifest;
use super::made::{Made, make};
use super::parts::{self, PARTS};
use crate::error::Error;

/// The lock's name in the folder. Its first line is the process that has it.
pub(super) const LOCK: &str = ".zoneprobe-lock";
/// The draft's name in the folder.
pub(super) const DRAFT: &str = ".zoneprobe-draft";
/// Bytes that must find room before anything is played: about what the result of a small comparison takes.
const ROOM: usize = 2 << 20;
/// A folder and a file name that must fit, no shorter than those of any result.
const LONG: [&str; 2] = ["pictures", "a-name-as-long-as-those-of-the-longest-pictures-of-any-result.svg"];
/// How often a folder that goes away under one's hands is made again.
const TRIES: usize = 100;

/// What may be in a folder that is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Found {
    /// Nothing.
    Empty,
    /// Nothing, or what a stopped run has kept.
    Parts,
}

/// A folder that is held.
#[derive(Debug)]
pub(super) struct Place {
    folder: PathBuf,
    lock: File,
    /// Whether parts were begun here and nothing is kept in them yet.
    parts_are_bare: bool,
    /// Removed last, when the lock is gone.
    made: Made,
}

/// What did not let the files into their places.
#[derive(Debug)]
pub(super) enum Trouble {
    /// Somebody put something there, or took the folder away.
    Lost,
    /// The system refused.
    Refused(Error),
}

impl Place {
    /// Takes a folder, new or with no more in it than it may have, and tries it out.
    pub(super) fn take(folder: &Path, found: Found) -> Result<Self, Error> {
        for _ in 0..TRIES {
            let made = make(folder)?;
            if let Some(place) = Self::locked(folder, made, found)? {
                return place.tried();
            }
        }
        Err(unwritable(folder)(ErrorKind::NotFound.into()))
    }

    /// Takes the first of `x`, `x-2`, `x-3`, ... that does not exist, or is what a dead run has left.
    pub(super) fn take_numbered(stem: &Path) -> Result<Self, Error> {
        for number in 1..=u32::MAX {
            let folder = numbered(stem, number);
            for _ in 0..TRIES {
                let was_there = is_there(&folder);
                if was_there && !is_there(&folder.join(LOCK)) {
                    break;
                }
                let made = make(&folder)?;
                match Self::locked(&folder, made, Found::Empty) {
                    Ok(Some(place)) => return place.tried(),
                    // It went away meanwhile.
                    Ok(None) => {}
                    Err(Error::Held { .. } | Error::Taken(_) | Error::Stopped(_)) => break,
                    // It may be another user's.
                    Err(_) if was_there => break,
                    Err(error) => return Err(error),
                }
            }
        }
        Err(Error::Taken(stem.into()))
    }

    /// Takes a new folder beside one that was lost.
    pub(super) fn beside(folder: &Path) -> Result<Self, Error> {
        // A folder such as `.` has no name of its own.
        let named = if folder.file_name().is_none() { fs::canonicalize(folder).ok() } else { None };
        Self::take_numbered(named.as_deref().unwrap_or(folder))
    }

    /// Locks a folder that exists; `None` if it went away meanwhile.
    fn locked(folder: &Path, made: Made, found: Found) -> Result<Option<Self>, Error> {
        let path = folder.join(LOCK);
        // Without a lock, what is there is somebody's and not even a lock is put beside it.
        if !is_there(&path) {
            match others(folder) {
                Ok(others) => may_be_there(folder, &others, found)?,
                Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
                Err(source) => return Err(unwritable(folder)(source)),
            }
        }
        let lock = match File::options().read(true).write(true).create(true).truncate(false).open(&path) {
            Ok(lock) => lock,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(source) => return Err(unwritable(folder)(source)),
        };
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                return Err(Error::Held { folder: folder.into(), by: holder(&path) });
            }
            Err(TryLockError::Error(source)) => return Err(unwritable(folder)(source)),
        }
        let place = Self { folder: folder.into(), lock, parts_are_bare: false, made };
        // Who had it before may have removed it between the opening and the locking.
        if !place.is_own() {
            return Ok(None);
        }
        place.clear().map_err(unwritable(folder))?;
        let others = others(folder).map_err(unwritable(folder))?;
        may_be_there(folder, &others, found).inspect_err(|error| {
            // Whoever wrote the result had no time to clear away what it was made from.
            if matches!(error, Error::Whole(_)) {
                parts::remove(folder);
            }
        })?;
        place.note(&format!("{}\n", std::process::id())).map_err(unwritable(folder))?;
        Ok(Some(place))
    }

    /// Writes what a result would, and removes it.
    fn tried(self) -> Result<Self, Error> {
        let inner = self.folder.join(DRAFT).join(LONG[0]);
        let tried = fs::create_dir_all(&inner)
            .and_then(|()| File::create_new(inner.join(LONG[1])))
            .and_then(|mut file| file.write_all(&vec![0; ROOM]).and_then(|()| file.sync_all()))
            .and_then(|()| fs::remove_dir_all(self.folder.join(DRAFT)));
        tried.map_err(unwritable(&self.folder))?;
        Ok(self)
    }

    /// The folder.
    pub(super) fn folder(&self) -> &Path {
        &self.folder
    }

    /// Begins to keep what is played: see [`parts::begin`].
    pub(super) fn begin_parts(&mut self, files: &[(String, Vec<u8>)]) -> Result<(), (PathBuf, io::Error)> {
        parts::begin(&self.folder, &self.folder.join(DRAFT), files)?;
        self.parts_are_bare = true;
        Ok(())
    }

    /// From now on what is kept outlives this process.
    pub(super) fn parts_stay(&mut self) {
        self.parts_are_bare = false;
    }

    /// Removes what was kept, if the folder still is this run's and the result is on the disk.
    pub(super) fn remove_parts(&self, result: &Path) {
        if self.is_own() && parts::are_in(&self.folder) && parts::settle(result).is_ok() {
            parts::remove(&self.folder);
        }
    }

    /// The folder in which a result is written aside, made if need be.
    pub(super) fn draft_folder(&self) -> Result<PathBuf, (PathBuf, io::Error)> {
        let draft = self.folder.join(DRAFT);
        match fs::create_dir_all(&draft) {
            Ok(()) => Ok(draft),
            Err(error) => Err((draft, error)),
        }
    }

    /// Writes the files aside, then puts all of them in their places, or none; before them those that have been written aside
    /// already.
    pub(super) fn fill(
        &self,
        written: &[impl AsRef<Path>],
        files: &[(impl AsRef<Path>, Vec<u8>)],
    ) -> Result<(), Trouble> {
        if !self.is_own() {
            return Err(Trouble::Lost);
        }
        let names: Vec<&Path> =
            written.iter().map(AsRef::as_ref).chain(files.iter().map(|(name, _)| name.as_ref())).collect();
        let filled = self.draft(files).and_then(|()| self.put(&names));
        filled.map_err(|error| match error {
            // Whatever failed, failed because of that.
            _ if !self.is_own() => Trouble::Lost,
            Trouble::Refused(Error::Write { source, .. }) if is_in_the_way(&source) => Trouble::Lost,
            other => other,
        })
    }

    /// Has what another place has written aside in its own draft, too.
    pub(super) fn adopt(&self, lost: &Self, names: &[impl AsRef<Path>]) -> Result<(), (PathBuf, io::Error)> {
        if names.is_empty() {
            return Ok(());
        }
        if !lost.is_own() {
            return Err((lost.folder.clone(), taken_away()));
        }
        let draft = self.draft_folder()?;
        for name in names {
            let (name, to) = (name.as_ref(), draft.join(name));
            // What had reached its place is no longer in the draft; what still is there belongs to nobody else.
            let from = [lost.folder.join(DRAFT).join(name), lost.folder.join(name)];
            let from = from.iter().find(|path| is_there(path)).unwrap_or(&from[0]);
            let inner = to.parent().unwrap_or(&draft);
            // Not moved: what is missing from the other draft counts as moved to its place there.
            let linked = fs::create_dir_all(inner)
                .and_then(|()| fs::hard_link(from, &to).or_else(|_| fs::copy(from, &to).map(drop)));
            linked.map_err(|error| (to, error))?;
        }
        Ok(())
    }

    /// Writes files in the draft; their names may lead into folders.
    fn draft(&self, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<(), Trouble> {
        let draft = self.draft_folder().map_err(|(path, error)| refused(&path)(error))?;
        for (name, bytes) in files {
            let path = draft.join(name);
            let inner = path.parent().unwrap_or(&draft);
            fs::create_dir_all(inner).map_err(refused(inner))?;
            fs::write(&path, bytes).map_err(refused(&path))?;
        }
        Ok(())
    }

    /// Moves what is in the draft to its place, in order, folders whole.
    fn put(&self, names: &[&Path]) -> Result<(), Trouble> {
        let draft = self.folder.join(DRAFT);
        let mut others = others(&self.folder).map_err(refused(&self.folder))?;
        others.retain(|name| name != Path::new(PARTS));
        if !self.is_own() || !others.is_empty() {
            return Err(Trouble::Lost);
        }
        let noted: String = names.iter().map(|name| format!("{}\n", name.display())).collect();
        self.note(&format!("{}\n{noted}", std::process::id())).map_err(refused(&self.folder))?;
        let mut moved = BTreeSet::new();
        for name in names {
            let Some(top) = name.components().next() else { continue };
            if !moved.insert(top) {
                continue;
            }
            let (from, to) = (draft.join(top), self.folder.join(top));
            if from.is_dir() {
                // No folder is renamed over a file, nor over a folder that holds something.
                fs::rename(&from, &to).map_err(refused(&to))?;
            } else {
                let mut file = TempPath::try_from_path(from).map_err(refused(&to))?;
                // What is still in the draft has not been moved.
                file.disable_cleanup(true);
                file.persist_noclobber(&to).map_err(|error| refused(&to)(error.error))?;
            }
        }
        self.note("").map_err(refused(&self.folder))
    }

    /// Whether the folder still holds this lock.
    pub(super) fn is_own(&self) -> bool {
        let path = self.folder.join(LOCK);
        #[cfg(unix)]
        let (own, there) = {
            use std::os::unix::fs::MetadataExt;
            // Without opening it, which the umask may forbid.
            let mark = |data: fs::Metadata| (data.dev(), data.ino());
            (self.lock.metadata().map(mark), fs::metadata(path).map(mark))
        };
        #[cfg(not(unix))]
        let (own, there) = (
            self.lock.try_clone().and_then(same_file::Handle::from_file),
            same_file::Handle::from_path(path),
        );
        own.is_ok_and(|own| there.is_ok_and(|there| own == there))
    }

    /// Writes the lock file anew.
    fn note(&self, text: &str) -> io::Result<()> {
        let mut lock = &self.lock;
        lock.set_len(0)?;
        lock.seek(SeekFrom::Start(0))?;
        lock.write_all(text.as_bytes())
    }

    /// Removes the draft and what has left it for its place.
    fn clear(&self) -> io::Result<()> {
        let (mut lock, mut note, draft) = (&self.lock, String::new(), self.folder.join(DRAFT));
        lock.seek(SeekFrom::Start(0))?;
        // A note that is no text was not written here.
        let _ = lock.read_to_string(&mut note);
        let names: Vec<&Path> = note.split_inclusive('\n').skip(1).filter_map(noted).collect();
        let moved: Vec<&&Path> = names.iter().filter(|name| !is_there(&draft.join(name))).collect();
        let mut folders = BTreeSet::new();
        for name in moved {
            gone(fs::remove_file(self.folder.join(name)))?;
            folders.extend(name.ancestors().skip(1).filter(|folder| !folder.as_os_str().is_empty()));
        }
        for folder in folders.into_iter().rev().filter(|folder| !is_there(&draft.join(folder))) {
            // One that holds something else stays.
            let _ = fs::remove_dir(self.folder.join(folder));
        }
        self.lock.set_len(0)?;
        // An empty one goes even where it was made so that nobody may look into it.
        gone(fs::remove_dir(&draft)).or_else(|_| parts::remove_all(&draft))
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        if self.is_own() {
            // Whoever came by would be told to go on with nothing.
            if self.parts_are_bare {
                parts::remove(&self.folder);
            }
            // What cannot be removed is beyond mending here, and the next run tries again.
            let _ = self.clear();
            let _ = fs::remove_file(self.folder.join(LOCK));
        } else {
            // Somebody else may have made these since.
            self.made.forget();
        }
    }
}

/// Refuses a folder that holds what may not be there.
fn may_be_there(folder: &Path, others: &[PathBuf], found: Found) -> Result<(), Error> {
    let is_kept = others == [Path::new(PARTS)] && parts::are_in(folder);
    let is_whole = others.iter().any(|name| name == Path::new(Manifest::NAME));
    match found {
        _ if others.is_empty() => Ok(()),
        Found::Parts if is_whole => Err(Error::Whole(folder.into())),
        Found::Parts if is_kept => Ok(()),
        Found::Empty if is_kept => Err(Error::Stopped(folder.into())),
        _ => Err(Error::Taken(folder.into())),
    }
}

/// What is in a folder besides what runs leave there.
fn others(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let entries = fs::read_dir(folder)?.map(|entry| entry.map(|entry| PathBuf::from(entry.file_name())));
    let own = |name: &PathBuf| [LOCK, DRAFT].map(Path::new).contains(&name.as_path());
    entries.filter(|name| !name.as_ref().is_ok_and(own)).collect()
}

/// Who has the lock, as far as can be told.
fn holder(path: &Path) -> String {
    let process = || {
        let text = fs::read_to_string(path).ok()?;
        text.split_inclusive('\n').next()?.strip_suffix('\n')?.parse::<u32>().ok()
    };
    let mut found = process();
    // It is written right after the lock is had.
    for _ in 0..20 {
        if found.is_some() {
            break;
        }
        thread::sleep(Duration::from_millis(5));
        found = process();
    }
    let since = fs::metadata(path).and_then(|data| data.modified()).ok().and_then(|at| at.elapsed().ok());
    let since = since.map_or_else(String::new, |since| match since.as_secs() {
        0..120 => format!(", since {} s ago", since.as_secs()),
        seconds => format!(", since {} min ago", seconds / 60),
    });
    found.map_or_else(|| "another run".into(), |process| format!("another run (process {process}{since})"))
}

/// A noted name, if it was noted whole and leads nowhere else.
fn noted(line: &str) -> Option<&Path> {
    let name = Path::new(line.strip_suffix('\n')?);
    let is_plain = name.components().all(|part| matches!(part, Component::Normal(_)));
    (is_plain && !name.as_os_str().is_empty()).then_some(name)
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

fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Whether this is said where something stands that was not there before.
fn is_in_the_way(error: &io::Error) -> bool {
    matches!(
        error.kind(),
        ErrorKind::AlreadyExists
            | ErrorKind::DirectoryNotEmpty
            | ErrorKind::NotADirectory
            | ErrorKind::IsADirectory
    )
}

/// To remove what is not there is no failure.
fn gone(removed: io::Result<()>) -> io::Result<()> {
    match removed {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}

/// What is said where what was written in a folder went with it.
pub(super) fn taken_away() -> io::Error {
    io::Error::other("the folder was taken away during the run")
}

pub(super) fn unwritable(folder: &Path) -> impl Fn(io::Error) -> Error + use<> {
    let folder = folder.to_path_buf();
    move |source| Error::Unwritable { folder: folder.clone(), source }
}

fn refused(path: &Path) -> impl FnOnce(io::Error) -> Trouble + use<> {
    let path = path.to_path_buf();
    move |source| Trouble::Refused(Error::Write { path, source })
}
