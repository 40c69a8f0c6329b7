//! What the server holds: the bundled answer, the questions that were asked, each in a folder of its own, and the pictures
//! drawn so far. All of it lies in one temporary folder, which goes when the program ends.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::AtomicBool;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tempfile::TempDir;

use super::fields::Fields;
use super::first;
use super::guard::Guard;
use super::outcome::Outcome;
use super::play::Reins;
use super::written::{QUESTION, files};
use crate::commands::open::{Asking, Size};
use crate::error::Error;

/// The server.
pub struct App {
    /// Who may use it.
    pub guard: Guard,
    /// Worker threads of a run.
    pub threads: usize,
    /// Set when the program is to end.
    pub ended: Arc<AtomicBool>,
    /// The bundled question with its answer, and the film of a possession of the best.
    pub first: (Asking, Outcome),
    /// Pictures by their address.
    pub pictures: Mutex<BTreeMap<String, Arc<Vec<u8>>>>,
    questions: Mutex<Vec<Arc<Asked>>>,
    home: TempDir,
}

/// A question that was asked.
pub struct Asked {
    /// Its number, from 1.
    pub number: usize,
    /// The folder of its files.
    pub folder: PathBuf,
    /// What was typed.
    pub fields: Fields,
    /// As `compare` has it.
    pub asking: Arc<Asking>,
    /// How much of it is played.
    pub size: Size,
    /// The run that is on.
    pub run: Mutex<Option<Arc<Reins>>>,
    /// What it came to.
    pub outcome: Mutex<Option<Arc<Answered>>>,
}

impl Asked {
    /// What it came to, once report and sheet have been written.
    pub fn answer(&self) -> Option<Arc<Answered>> {
        held(&self.outcome).clone().filter(|answer| held(&answer.written).is_some())
    }
}

/// What a run came to.
pub struct Answered {
    /// What was measured: the question, or what a choice has left of it.
    pub asking: Arc<Asking>,
    /// The claims, ranking and films.
    pub outcome: Outcome,
    /// Whether report and sheet have been written, or why they could not be.
    pub written: Mutex<Option<Result<(), String>>>,
}

/// What is in a lock, whoever panicked with it.
pub fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

impl App {
    /// With the bundled question answered.
    ///
    /// # Errors
    /// No temporary folder, or an answer of another build.
    pub fn new(guard: Guard, threads: usize, ended: Arc<AtomicBool>) -> Result<Self, Error> {
        let home = tempfile::Builder::new().prefix("zoneprobe-").tempdir();
        let home = home.map_err(|source| Error::Unwritable { folder: std::env::temp_dir(), source })?;
        let first = first::answer(threads)?;
        let (pictures, questions) = (Mutex::default(), Mutex::default());
        Ok(Self { guard, threads, ended, first, pictures, questions, home })
    }

    /// Takes a question: its files are written and loaded as any others are.
    ///
    /// # Errors
    /// What cannot be used, to be shown.
    pub fn take(&self, fields: Fields) -> Result<Arc<Asked>, String> {
        let files = files(&fields)?;
        let (possessions, seed) = fields.size()?;
        let size = Size { possessions, seed, threads: self.threads, until: fields.until()? };
        // Two tabs may ask at the same moment.
        let folder = tempfile::Builder::new().prefix("question-").tempdir_in(self.home.path());
        let folder = folder.map_err(|error| error.to_string())?.keep();
        write(&folder, &files)?;
        let asking = Asking::new(Some((&folder, QUESTION)), size);
        // The folder is nobody's business but the program's.
        let asking =
            asking.map_err(|error| error.told(false).replace(&format!("{}/", folder.display()), ""))?;
        let asking = Arc::new(asking);
        let (run, outcome) = (Mutex::default(), Mutex::default());
        let mut all = held(&self.questions);
        let number = all.len() + 1;
        let asked = Arc::new(Asked { number, folder, fields, asking, size, run, outcome });
        all.push(Arc::clone(&asked));
        Ok(asked)
    }

    /// A question by its number.
    pub fn asked(&self, number: usize) -> Option<Arc<Asked>> {
        held(&self.questions).get(number.checked_sub(1)?).cloned()
    }

    /// What the loader makes of these fields, without asking it.
    ///
    /// # Errors
    /// What cannot be used.
    pub fn loaded(&self, fields: &Fields) -> Result<scenarios::Experiment, String> {
        let folder = tempfile::tempdir_in(self.home.path()).map_err(|error| error.to_string())?;
        write(folder.path(), &files(fields)?)?;
        scenarios::experiment(&folder.path().join(QUESTION)).map_err(|faults| faults.to_string())
    }
}

fn write(folder: &Path, files: &[(String, String)]) -> Result<(), String> {
    let one = |(name, text): &(String, String)| std::fs::write(folder.join(name), text);
    files.iter().try_for_each(one).map_err(|error| error.to_string())
}
