//! The output folder: reserved before anything is played, written whole or not at all, never over something.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use scenarios::shown_path;

use super::parts;
use super::place::{Found, Place, Trouble, taken_away};
use crate::error::Error;
use crate::stop;

/// A folder for one result. Dropped without one, nothing of it stays.
#[derive(Debug)]
pub struct Reservation {
    number: u64,
    folder: PathBuf,
}

/// Where a result was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// Its folder.
    pub folder: PathBuf,
    /// The folder that was reserved and lost, where that is another.
    pub lost: Option<PathBuf>,
}

/// All that this process holds, so that a stop finds it. While something is written, a stop waits.
#[derive(Debug)]
struct Holdings {
    places: BTreeMap<u64, Place>,
    taken: u64,
    written: Option<PathBuf>,
    /// By the reservation.
    kept: BTreeMap<u64, Kept>,
    /// Folders for the time being.
    aside: BTreeSet<PathBuf>,
}

static HOLDINGS: Mutex<Holdings> = Mutex::new(Holdings {
    places: BTreeMap::new(),
    taken: 0,
    written: None,
    kept: BTreeMap::new(),
    aside: BTreeSet::new(),
});

/// What of a run is kept, should it be stopped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Kept {
    /// In which folder.
    pub folder: PathBuf,
    /// Possessions of each variant.
    pub possessions: u64,
}

/// What this process leaves when it is stopped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Left {
    /// Nothing.
    Nothing,
    /// A result that had been written.
    Written(PathBuf),
    /// What it has played so far.
    Kept(Kept),
}

fn holdings() -> MutexGuard<'static, Holdings> {
    // What is held is as it was, whoever panicked.
    HOLDINGS.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Reservation {
    /// The folder named with `--out`, new or empty.
    ///
    /// # Errors
    /// It holds something, another run has it, or nothing can be written in it.
    pub fn named(folder: &Path) -> Result<Self, Error> {
        Self::take(|| Place::take(folder, Found::Empty))
    }

    /// The same folder for a run that goes on with what a stopped one has kept there, if it has.
    ///
    /// # Errors
    /// As with [`Reservation::named`].
    pub fn resumed(folder: &Path) -> Result<Self, Error> {
        Self::take(|| Place::take(folder, Found::Parts))
    }

    /// `results/<stem>`, numbered if it exists.
    ///
    /// # Errors
    /// Nothing can be written there.
    pub fn numbered(stem: &Path) -> Result<Self, Error> {
        Self::take(|| Place::take_numbered(stem))
    }

    fn take(take: impl FnOnce() -> Result<Place, Error>) -> Result<Self, Error> {
        // Before there is anything that a stop would have to remove.
        stop::listen();
        let mut holdings = holdings();
        let place = take()?;
        holdings.taken += 1;
        let (number, folder) = (holdings.taken, place.folder().to_path_buf());
        holdings.places.insert(number, place);
        Ok(Self { number, folder })
    }

    /// The folder that is held.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Begins to keep what is played, with the files that say what is kept: named in the folder `parts`. A folder that was
    /// lost keeps nothing.
    ///
    /// # Errors
    /// They cannot be written.
    pub fn begin_parts(&self, files: &[(String, Vec<u8>)]) -> Result<(), Error> {
        let mut holdings = holdings();
        let Some(place) = holdings.places.get_mut(&self.number).filter(|place| place.is_own()) else {
            return Ok(());
        };
        match place.begin_parts(files) {
            Err((path, source)) if place.is_own() => Err(Error::Write { path, source }),
            _ => Ok(()),
        }
    }

    /// Keeps a file with what so many possessions of each variant came to, where the folder has not been lost.
    ///
    /// # Errors
    /// It cannot be written. What was kept before still is.
    pub fn keep(&self, name: &str, bytes: &[u8], possessions: u64) -> Result<(), Error> {
        let mut holdings = holdings();
        let is_own = |holdings: &Holdings| holdings.places.get(&self.number).is_some_and(Place::is_own);
        if is_own(&holdings) {
            match parts::keep(&self.folder, name, bytes) {
                Ok(()) => self.count(&mut holdings, possessions),
                Err((path, source)) if is_own(&holdings) => {
                    let is_kept = holdings.kept.contains_key(&self.number);
                    return Err(Error::Write { path, source }.kept(is_kept));
                }
                Err(_) => {}
            }
        }
        if !is_own(&holdings) {
            holdings.kept.remove(&self.number);
        }
        Ok(())
    }

    /// Notes that so many possessions of each variant had been kept before.
    pub fn has_kept(&self, possessions: u64) {
        self.count(&mut holdings(), possessions);
    }

    fn count(&self, holdings: &mut Holdings, possessions: u64) {
        let none = || Kept { folder: self.folder.clone(), possessions: 0 };
        holdings.kept.entry(self.number).or_insert_with(none).possessions += possessions;
        if let Some(place) = holdings.places.get_mut(&self.number) {
            place.parts_stay();
        }
    }

    /// What is to be said where something could not be written aside: whether what was played is kept, and that it went with
    /// the folder where somebody took that away.
    pub fn told(&self, error: Error) -> Error {
        let holdings = holdings();
        let is_own = holdings.places.get(&self.number).is_some_and(Place::is_own);
        match error {
            Error::Write { .. } if !is_own => {
                Error::Write { path: self.folder.clone(), source: taken_away() }
            }
            error => error.kept(holdings.kept.contains_key(&self.number)),
        }
    }

    /// The folder for files of the result that are too large to be held, to be written into before the others.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn draft(&self) -> Result<PathBuf, Error> {
        let holdings = holdings();
        let lost = || (self.folder.clone(), taken_away());
        let place = holdings.places.get(&self.number).filter(|place| place.is_own()).ok_or_else(lost);
        let made = place.and_then(Place::draft_folder);
        made.map_err(|(path, source)| Error::Write { path, source })
    }

    /// Writes the files; if the folder was lost meanwhile, into a new one beside it.
    ///
    /// # Errors
    /// They cannot be written. None of them was left.
    pub fn write(self, files: &[(impl AsRef<Path>, Vec<u8>)]) -> Result<Written, Error> {
        self.write_with::<&str>(&[], files)
    }

    /// The same, with files that stand in its draft already. They move with the others, unless the folder was taken away with them.
    ///
    /// # Errors
    /// As with [`Reservation::write`].
    pub fn write_with<N: AsRef<Path>>(
        self,
        drafted: &[N],
        files: &[(impl AsRef<Path>, Vec<u8>)],
    ) -> Result<Written, Error> {
        let mut holdings = holdings();
        // Only a stop takes it away, and that does not let go of the lock again.
        let mut place = holdings.places.remove(&self.number);
        let mut tried: Vec<Place> = Vec::new();
        let folder = loop {
            let own = place.take().map_or_else(|| Place::beside(&self.folder), Ok)?;
            if let Some(lost) = tried.last() {
                own.adopt(lost, drafted).map_err(|(path, source)| Error::Write { path, source })?;
            }
            let filled = own.fill(drafted, files);
            let folder = own.folder().to_path_buf();
            tried.push(own);
            match filled {
                Ok(()) => break folder,
                Err(Trouble::Lost) => {}
                Err(Trouble::Refused(error)) => {
                    return Err(error.kept(holdings.kept.contains_key(&self.number)));
                }
            }
        };
        // They have served.
        tried.iter().for_each(|own| own.remove_parts(&folder));
        holdings.kept.remove(&self.number);
        holdings.written = Some(folder.clone());
        // One that was only taken away was made again.
        let lost = (folder != self.folder).then(|| self.folder.clone());
        Ok(Written { folder, lost })
    }
}

impl Drop for Reservation {
    fn drop(&mut self) {
        let mut holdings = holdings();
        holdings.kept.remove(&self.number);
        // Dropped in here: it goes while the lock is had.
        holdings.places.remove(&self.number);
    }
}

/// A folder for the time being, gone when this is dropped or the process is stopped.
#[derive(Debug)]
pub(crate) struct Aside(PathBuf);

impl Aside {
    /// A new one among the system's.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn new() -> Result<Self, Error> {
        stop::listen();
        let mut holdings = holdings();
        let made = tempfile::Builder::new().prefix("zoneprobe-").tempdir();
        let made = made.map_err(|source| Error::Aside { path: std::env::temp_dir(), source })?;
        let folder = made.keep();
        holdings.aside.insert(folder.clone());
        Ok(Self(folder))
    }

    /// Where it is.
    pub fn folder(&self) -> &Path {
        &self.0
    }
}

impl Drop for Aside {
    fn drop(&mut self) {
        let mut holdings = holdings();
        holdings.aside.remove(&self.0);
        // What cannot be removed is the system's to clear away.
        let _ = parts::remove_all(&self.0);
    }
}

impl Written {
    /// What must be said even of a quiet run: the result is not where it was wanted.
    pub fn word(&self) -> Option<String> {
        let (lost, folder) = (shown_path(self.lost.as_ref()?), shown_path(&self.folder));
        Some(format!(
            "zoneprobe: {lost} was changed by somebody during the run, so the result is in {folder}\n"
        ))
    }
}

/// Lets go of everything, for good: this process writes no result any more. What it leaves comes back.
pub(crate) fn give_up() -> Left {
    let mut holdings = holdings();
    holdings.places.clear();
    for folder in std::mem::take(&mut holdings.aside) {
        let _ = parts::remove_all(&folder);
    }
    let (written, kept) = (holdings.written.take(), holdings.kept.pop_last());
    std::mem::forget(holdings);
    kept.map(|(_, kept)| Left::Kept(kept)).or(written.map(Left::Written)).unwrap_or(Left::Nothing)
}

#[cfg(test)]
mod tests {
    use std::fs::{self, File};

    use super::super::place::{DRAFT, LOCK};
    use super::*;

    const FILES: [(&str, Vec<u8>); 1] = [("a.txt", Vec::new())];

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    fn write(place: Reservation) -> PathBuf {
        let written = place.write(&FILES).unwrap();
        assert_eq!(written.lost, None);
        written.folder
    }

    #[test]
    fn default_folders_are_numbered() {
        let home = tempfile::tempdir().unwrap();
        let stem = home.path().join("results/q-1");
        let mut written: Vec<PathBuf> =
            (0..2).map(|_| write(Reservation::numbered(&stem).unwrap())).collect();
        let held = Reservation::numbered(&stem).unwrap();
        written.push(write(Reservation::numbered(&stem).unwrap()));
        let results = home.path().join("results");
        assert_eq!(written, ["q-1", "q-1-2", "q-1-4"].map(|name| results.join(name)));
        assert_eq!(held.folder(), results.join("q-1-3"));
        drop(held);
        assert_eq!(names(&results), ["q-1", "q-1-2", "q-1-4"], "nothing else is left behind");
        assert_eq!(names(&written[2]), ["a.txt"]);
    }

    #[test]
    fn a_named_folder_with_something_in_it_is_refused() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        write(Reservation::named(&folder).unwrap());
        assert!(matches!(Reservation::named(&folder), Err(Error::Taken(_))));
        let file = home.path().join("out/a.txt");
        for place in [file.clone(), file.join("deep/out")] {
            assert!(matches!(Reservation::named(&place), Err(Error::NotAFolder(path)) if path == file));
        }
        let stem = file.join("q-1");
        assert!(matches!(Reservation::numbered(&stem), Err(Error::NotAFolder(path)) if path == file));
        assert_eq!(names(&folder), ["a.txt"], "trying leaves nothing behind");
        assert_eq!(names(home.path()), ["out"]);
    }

    #[test]
    fn a_folder_that_is_held_is_refused_until_it_is_let_go() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        let first = Reservation::named(&folder).unwrap();
        match Reservation::named(&folder) {
            Err(Error::Held { by, .. }) => {
                assert!(by.contains(&format!("process {}", std::process::id())), "{by}");
            }
            other => panic!("{other:?}"),
        }
        drop(first);
        assert_eq!(names(home.path()), [""; 0], "what was made for it is gone");
        assert_eq!(write(Reservation::named(&folder).unwrap()), folder);
    }

    #[test]
    fn a_new_folder_may_be_deep_and_an_empty_one_is_used() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("a/b/c");
        drop(Reservation::named(&folder).unwrap());
        assert_eq!(names(home.path()), [""; 0]);
        assert_eq!(write(Reservation::named(&folder).unwrap()), folder);
        let empty = home.path().join("empty");
        fs::create_dir(&empty).unwrap();
        drop(Reservation::named(&empty).unwrap());
        assert_eq!(write(Reservation::named(&empty).unwrap()), empty, "it was not this run's to remove");
    }

    #[test]
    fn what_a_dead_run_has_left_is_cleared_and_nothing_else() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        let left = |noted: &str| {
            fs::create_dir_all(folder.join(DRAFT).join("pictures")).unwrap();
            fs::write(folder.join(LOCK), format!("4711\n{noted}")).unwrap();
            fs::write(folder.join(DRAFT).join("b.txt"), "half").unwrap();
        };
        // It died before, and while, it put its files in their places.
        left("");
        assert_eq!(write(Reservation::named(&folder).unwrap()), folder);
        assert_eq!(names(&folder), ["a.txt"]);
        fs::remove_dir_all(&folder).unwrap();
        left("a.txt\nb.txt\n");
        fs::write(folder.join("a.txt"), "half").unwrap();
        drop(Reservation::named(&folder).unwrap());
        assert_eq!(names(&folder), [""; 0]);
        // What it had not moved yet is somebody else's where it stands, and so is what it did not name.
        left("b.txt\n../keep.txt\n");
        fs::write(folder.join("b.txt"), "mine").unwrap();
        fs::write(home.path().join("keep.txt"), "mine").unwrap();
        assert!(matches!(Reservation::named(&folder), Err(Error::Taken(_))));
        assert_eq!(names(&folder), ["b.txt"]);
        assert_eq!(names(home.path()), ["keep.txt", "out"]);
        // A default folder that a dead run left is used before a new one.
        fs::remove_dir_all(&folder).unwrap();
        left("");
        assert_eq!(Reservation::numbered(&folder).unwrap().folder(), folder);
    }

    #[test]
    fn a_place_that_was_lost_is_left_alone_and_the_result_stands_beside_it() {
        type Loss = fn(&Path);
        let losses: [(Loss, &[&str]); 4] = [
            (|folder| fs::write(folder.join("a.txt"), "mine").unwrap(), &["a.txt"]),
            (|folder| fs::write(folder.join("notes.txt"), "mine").unwrap(), &["notes.txt"]),
            (|folder| fs::remove_dir_all(folder).unwrap(), &[]),
            (
                |folder| {
                    fs::remove_dir_all(folder).unwrap();
                    fs::create_dir(folder).unwrap();
                },
                &[],
            ),
        ];
        for (lose, kept) in losses {
            let home = tempfile::tempdir().unwrap();
            let folder = home.path().join("out");
            let place = Reservation::named(&folder).unwrap();
            lose(&folder);
            let there = folder.exists();
            let written = place.write(&FILES).unwrap();
            let beside = home.path().join(if there { "out-2" } else { "out" });
            assert_eq!((&written.folder, &written.lost), (&beside, &there.then(|| folder.clone())));
            assert!(written.word().is_none_or(|word| word.contains(beside.to_str().unwrap())));
            assert_eq!(names(&beside), ["a.txt"]);
            if there {
                assert_eq!(names(&folder), kept);
                kept.iter().for_each(|name| assert_eq!(fs::read(folder.join(name)).unwrap(), b"mine"));
            }
        }
    }

    #[test]
    fn what_was_written_aside_moves_with_the_result_unless_it_is_gone() {
        let drafted = ["large.bin", "deep/one/large.bin"];
        let begun = |folder: &Path| {
            let place = Reservation::named(folder).unwrap();
            let draft = place.draft().unwrap();
            for name in drafted {
                fs::create_dir_all(draft.join(name).parent().unwrap()).unwrap();
                fs::write(draft.join(name), name).unwrap();
            }
            place
        };
        let home = tempfile::tempdir().unwrap();
        let (folder, beside) = (home.path().join("out"), home.path().join("out-2"));
        let place = begun(&folder);
        fs::write(folder.join("notes.txt"), "mine").unwrap();
        let written = place.write_with(&drafted, &FILES).unwrap();
        assert_eq!((&written.folder, &written.lost), (&beside, &Some(folder.clone())));
        assert_eq!(names(&beside), ["a.txt", "deep", "large.bin"]);
        drafted.iter().for_each(|name| assert_eq!(fs::read(beside.join(name)).unwrap(), name.as_bytes()));
        assert_eq!(names(&folder), ["notes.txt"]);

        let away = home.path().join("away");
        let place = begun(&away);
        fs::remove_dir_all(&away).unwrap();
        let told = place.write_with(&drafted, &FILES).unwrap_err().told(false);
        assert!(told.contains("taken away") && told.contains("no folder of results was left"), "{told}");
        assert_eq!(names(home.path()), ["out", "out-2"]);
    }

    #[test]
    fn files_that_cannot_be_written_leave_nothing() {
        let home = tempfile::tempdir().unwrap();
        let (new, empty) = (home.path().join("new"), home.path().join("empty"));
        fs::create_dir(&empty).unwrap();
        let long = "x".repeat(1000);
        let files = [("a.txt", Vec::new()), (long.as_str(), Vec::new())];
        for folder in [&new, &empty] {
            let error = Reservation::named(folder).unwrap().write(&files);
            assert!(matches!(error, Err(Error::Write { .. })), "{error:?}");
        }
        assert_eq!((names(home.path()), names(&empty)), (vec!["empty".into()], Vec::new()));
    }

    #[test]
    fn a_folder_that_cannot_be_made_or_has_no_room_for_long_names_is_refused() {
        let home = tempfile::tempdir().unwrap();
        // No file system takes a name of a thousand letters, and few a way of over four thousand.
        let long = home.path().join("x".repeat(1000));
        let deep = home.path().join(vec!["x".repeat(190); 21].join("/"));
        for folder in [long.clone(), long.join("out"), deep] {
            assert!(matches!(Reservation::named(&folder), Err(Error::Unwritable { .. })));
        }
        assert_eq!(names(home.path()), [""; 0]);
    }

    #[test]
    fn files_may_lie_in_folders() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("new");
        let files = ["a.txt", "deep/b.txt"].map(|name| (name.to_string(), name.as_bytes().to_vec()));
        Reservation::named(&folder).unwrap().write(&files).unwrap();
        assert_eq!(
            (names(&folder), names(&folder.join("deep"))),
            (vec!["a.txt".into(), "deep".into()], vec!["b.txt".into()])
        );
        assert_eq!(fs::read(folder.join("deep/b.txt")).unwrap(), b"deep/b.txt");
        // One that came in the way of the folder after the last look.
        let place = Reservation::named(&home.path().join("other")).unwrap();
        File::create(home.path().join("other/deep")).unwrap();
        assert_eq!(place.write(&files).unwrap().folder, home.path().join("other-2"));
    }

    #[test]
    fn what_is_kept_stays_until_the_result_is_there() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out");
        let first = [(String::from("run.json"), b"{}".to_vec()), ("inputs/own/a.toml".into(), Vec::new())];
        let place = Reservation::named(&folder).unwrap();
        place.begin_parts(&first).unwrap();
        place.keep("1", b"one", 5).unwrap();
        // What stands in the way of a part is left alone, and so are the parts before it.
        fs::create_dir_all(folder.join("parts/2/mine")).unwrap();
        assert!(
            matches!(place.keep("2", b"two", 5), Err(Error::Keep { path, .. }) if path.ends_with("parts/2"))
        );
        fs::remove_dir_all(folder.join("parts/2")).unwrap();
        drop(place);
        assert_eq!(names(&folder), ["parts"]);
        assert_eq!(names(&folder.join("parts")), ["1", "inputs", "run.json"]);
        assert!(matches!(Reservation::named(&folder), Err(Error::Stopped(path)) if path == folder));
        assert_eq!(write(Reservation::numbered(&folder).unwrap()), home.path().join("out-2"));
        let place = Reservation::resumed(&folder).unwrap();
        place.keep("2", b"two", 5).unwrap();
        let long = [("x".repeat(1000), Vec::new())];
        assert!(matches!(place.write(&long), Err(Error::Keep { .. })));
        assert_eq!(names(&folder), ["parts"]);
        assert_eq!(write(Reservation::resumed(&folder).unwrap()), folder);
        assert_eq!(names(&folder), ["a.txt"]);
        // A folder of that name that no run made is somebody's.
        let other = home.path().join("other");
        fs::create_dir_all(other.join("parts")).unwrap();
        for taken in [Reservation::named(&other), Reservation::resumed(&other)] {
            assert!(matches!(taken, Err(Error::Taken(_))));
        }
        // A folder that was lost keeps nothing, and that ends no run.
        let place = Reservation::named(&home.path().join("lost")).unwrap();
        place.begin_parts(&first).unwrap();
        fs::remove_dir_all(home.path().join("lost")).unwrap();
        place.keep("1", b"one", 5).unwrap();
        assert_eq!(write(place), home.path().join("lost"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_an_empty_folder_is_used_and_one_to_nowhere_is_not() {
        let home = tempfile::tempdir().unwrap();
        let (folder, link) = (home.path().join("folder"), home.path().join("link"));
        std::os::unix::fs::symlink(&folder, &link).unwrap();
        for taken in [Reservation::named(&link), Reservation::numbered(&link.join("q-1"))] {
            let told = taken.unwrap_err().told(false);
            assert!(told.contains("link that leads nowhere"), "{told}");
        }
        fs::create_dir(&folder).unwrap();
        write(Reservation::named(&link).unwrap());
        assert_eq!(names(&folder), ["a.txt"]);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    }
}
