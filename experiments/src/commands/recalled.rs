//! What was asked of a run, recalled from its folder: the command that it noted, and the texts that it kept.

use std::ffi::OsString;
use std::path::Path;

use scenarios::{Experiment, shown_path};

use super::result::Asked;
use crate::cli::{Options, RunOptions};
use crate::error::Error;
use crate::kept::{Input, sources};
use crate::output::Fingerprint;

/// Most bytes of a kept text: no data file that was read has more.
const MOST: u64 = 1 << 20;

/// A run as it was asked for.
pub(super) struct Recalled {
    command: &'static str,
    experiment: Experiment,
    /// How, by its command: without what cannot be seen in its result.
    pub options: RunOptions,
}

impl Recalled {
    /// From a command as a result notes it, and the files of its inputs in a folder.
    ///
    /// # Errors
    /// The command is none of a run, an input is missing or changed, or cannot be loaded.
    pub fn of(command: &str, inputs: &[Input], folder: &Path) -> Result<Self, Error> {
        let (name, options) = noted(command).ok_or_else(|| {
            Error::Option(format!("{} notes a command that makes no result: {command}", shown_path(folder)))
        })?;
        if inputs.iter().all(|input| input.file.is_empty()) {
            return Err(Error::Option(format!(
                "{} does not keep the texts that it was made from, as older versions wrote it; make the result again with\n  \
                 {command}",
                shown_path(folder)
            )));
        }
        let sources = sources(inputs, |file| text(folder, file, inputs))?;
        let experiment = scenarios::experiment_kept(&sources).map_err(Error::Faults)?;
        Ok(Self { command: name, experiment, options })
    }

    /// What was played.
    pub fn experiment(&self) -> &Experiment {
        &self.experiment
    }

    /// The same, to be played so.
    pub fn asked<'a>(&'a self, options: &'a RunOptions) -> Asked<'a> {
        Asked::new(self.command, &self.experiment, options)
    }
}

/// A noted command line, read as the program reads it.
pub(super) fn noted(command: &str) -> Option<(&'static str, RunOptions)> {
    let words = shlex::split(command)?.into_iter().map(OsString::from);
    match Options::parse(words).ok()?.0 {
        Options::Compare(options) => Some(("compare", options)),
        Options::Simulate(options) => Some(("simulate", options)),
        _ => None,
    }
}

/// The text of an input, as it was read.
fn text(folder: &Path, file: &str, inputs: &[Input]) -> Result<String, Error> {
    let path = folder.join(file);
    let unusable = |why: &str| Error::Differs(format!("{} {why}: nothing was played", shown_path(&path)));
    let is_inside = Path::new(file).components().all(|part| matches!(part, std::path::Component::Normal(_)));
    if file.is_empty() || !is_inside {
        return Err(unusable("is named as an input and is no file of the folder"));
    }
    let bytes = scenarios::read_once(&path, MOST)
        .map_err(|refusal| unusable(&format!("cannot be read ({})", refusal.found())))?
        .bytes;
    let wanted = inputs.iter().find(|input| input.file == file).map(|input| input.sha256.as_str());
    if wanted != Some(Fingerprint::of(file, &bytes).sha256.as_str()) {
        return Err(unusable("is not the input that was read then"));
    }
    String::from_utf8(bytes).map_err(|_| unusable("is no text in UTF-8"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_noted_command_is_read_as_a_shell_reads_it() {
        let words = "zoneprobe compare 'my plays/it'\\''s.toml' --possessions 8 --seed 3 --rank-by drives  # with the \
                     same text piped in as stdin";
        let (name, options) = noted(words).unwrap();
        assert_eq!((name, options.possessions, options.seed), ("compare", Some(8), 3));
        assert_eq!(options.file.as_deref(), Some(Path::new("my plays/it's.toml")));
        assert_eq!(options.rank_by.as_deref(), Some("drives"));
        assert_eq!(noted("zoneprobe simulate ./-night.toml --possessions 2 --seed 1").unwrap().0, "simulate");
        for other in ["zoneprobe catalog", "zoneprobe compare --possessions x", "rm -r x", "zoneprobe 'half"]
        {
            assert!(noted(other).is_none(), "{other}");
        }
    }
}
