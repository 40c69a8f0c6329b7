//! What can go wrong, and which exit code says so.

use std::io;
use std::path::PathBuf;
use std::process::ExitCode;

use miette::{GraphicalReportHandler, GraphicalTheme};
use scenarios::{Faults, shown_lines, shown_path};
use thiserror::Error;

use crate::stats::LARGEST_VARIANTS;

/// How the program ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// 0.
    Done,
    /// 1: the run failed, or was stopped.
    Failed,
    /// 2: a file or an option that cannot be used.
    Unusable,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit as u8)
    }
}

/// Everything that stops a command.
#[derive(Debug, Error)]
pub enum Error {
    /// A scenario or experiment file that cannot be used.
    #[error("{0}")]
    Faults(Faults),
    /// An option that cannot be used with this file.
    #[error("{0}")]
    Option(String),
    /// More variants than can be compared.
    #[error(
        "{0} variants are more than the {LARGEST_VARIANTS} that one run compares; name fewer variants or factors"
    )]
    Variants(usize),
    /// The output folder asked for holds something already.
    #[error("{} exists and is not an empty folder, and nothing is written over; name another with --out", shown_path(.0))]
    Taken(PathBuf),
    /// The output folder asked for holds what a stopped run has kept.
    #[error(
        "{} is not an empty folder: it keeps what a run had played that was stopped; go on with it by --resume, or name \
         another with --out",
        shown_path(.0)
    )]
    Stopped(PathBuf),
    /// What was to be gone on with is a whole result.
    #[error("{} holds a whole result of another run; name another folder with --out", shown_path(.0))]
    Whole(PathBuf),
    /// Another run has the output folder asked for.
    #[error("{} is where {by} is about to write; wait for it, or name another with --out", shown_path(.folder))]
    Held {
        /// Which.
        folder: PathBuf,
        /// Which run.
        by: String,
    },
    /// A file stands where a folder is wanted.
    #[error("{} is a file and results need a folder; name another with --out", shown_path(.0))]
    NotAFolder(PathBuf),
    /// A folder in which nothing can be made.
    #[error("cannot write in the folder {}: {}; name another with --out", shown_path(.folder), reason(.source))]
    Unwritable {
        /// Which.
        folder: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// A file or folder could not be written, though it seemed so before the run.
    #[error(
        "cannot write {}: {}; no folder of results was left, and the same command makes them again",
        shown_path(.path),
        reason(.source)
    )]
    Write {
        /// Which.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// The same of a run that has kept what it played.
    #[error(
        "cannot write {}: {}; what was played is kept, and the same command with --resume goes on with it",
        shown_path(.path),
        reason(.source)
    )]
    Keep {
        /// Which.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// What is written in a folder for the time being, only to be compared.
    #[error(
        "cannot keep records in {} for the time being: {}; that takes up to twice the room of the records; name another \
         folder for it by TMPDIR, or make room",
        shown_path(.path),
        reason(.source)
    )]
    Aside {
        /// Which folder or file.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// What was written aside is not there any more, or not as it was written.
    #[error("cannot read {}: {}; play the run on with --resume", shown_path(.path), reason(.source))]
    Damaged {
        /// Which file.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// Standard output could not be written.
    #[error("cannot print the result: {}", reason(.0))]
    Print(#[from] io::Error),
    /// No worker threads.
    #[error("cannot start the worker threads: {0}; ask for fewer with --threads")]
    Threads(String),
    /// The six outcomes do not sum to the possessions: a bug.
    #[error(
        "variant {variant} played {played} possessions and {ended} of them have an outcome: this is a fault of \
         zoneprobe, not of your files. Nothing was written. Please report it to its developers"
    )]
    Outcomes {
        /// Variant's name.
        variant: String,
        /// Outcomes counted.
        ended: i128,
        /// Possessions played.
        played: u64,
    },
    /// Possessions that panicked: a bug.
    #[error("{0}")]
    Crashes(String),
    /// A result that is not as it was written.
    #[error("{0}")]
    Differs(String),
    /// The page cannot be served.
    #[error("cannot serve the page: {0}")]
    Page(String),
    /// A panic outside of any possession: a bug.
    #[error(
        "zoneprobe {version} broke down: \"{0}\". That is a fault of the program, not of your files. Please report it to \
         its developers, with your files, this message and the command",
        version = env!("CARGO_PKG_VERSION")
    )]
    Bug(String),
}

impl Error {
    /// Whether the input was unusable or the run failed.
    pub fn exit(&self) -> Exit {
        match self {
            Self::Faults(_)
            | Self::Option(_)
            | Self::Variants(_)
            | Self::Taken(_)
            | Self::Stopped(_)
            | Self::Whole(_)
            | Self::Held { .. }
            | Self::NotAFolder(_)
            | Self::Unwritable { .. } => Exit::Unusable,
            Self::Write { .. }
            | Self::Keep { .. }
            | Self::Aside { .. }
            | Self::Damaged { .. }
            | Self::Print(_)
            | Self::Threads(_)
            | Self::Outcomes { .. }
            | Self::Crashes(_)
            | Self::Differs(_)
            | Self::Page(_)
            | Self::Bug(_) => Exit::Failed,
        }
    }

    /// The same where what was played is kept.
    #[must_use]
    pub fn kept(self, is_kept: bool) -> Self {
        match self {
            Self::Write { path, source } if is_kept => Self::Keep { path, source },
            other => other,
        }
    }

    /// The same where it was written for the time being only, and nobody can go on with it.
    #[must_use]
    pub fn aside(self) -> Self {
        match self {
            Self::Write { path, source } | Self::Damaged { path, source } => Self::Aside { path, source },
            other => other,
        }
    }

    /// Whether the reader of standard output has gone away, which is no fault of anybody.
    pub fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Print(error) if error.kind() == io::ErrorKind::BrokenPipe)
    }

    /// The message as a reader sees it; faults in files with the lines they stand in. What came from outside is shown
    /// and not obeyed; colours come after that.
    pub fn told(&self, colour: bool) -> String {
        let Self::Faults(faults) = self else {
            return shown_lines(&format!("zoneprobe: {self}\n")).into_owned();
        };
        let theme = if colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
        let handler = GraphicalReportHandler::new_themed(theme).with_width(110).with_links(false);
        let mut text = String::new();
        for fault in &faults.all {
            if handler.render_report(&mut text, fault).is_err() {
                text.push_str(&fault.to_string());
            }
            text.push('\n');
        }
        faults.rest().into_iter().for_each(|rest| text.push_str(&format!("zoneprobe: {rest}\n")));
        text
    }
}

/// What the system says, without its number and as the end of a sentence.
fn reason(error: &io::Error) -> String {
    let text = error.to_string();
    let text = text.split(" (os error").next().unwrap_or_default();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_closed_pipe_is_told_from_a_full_disk() {
        let error = |kind| Error::Print(io::Error::from(kind));
        assert!(error(io::ErrorKind::BrokenPipe).is_closed_pipe());
        assert!(!error(io::ErrorKind::StorageFull).is_closed_pipe());
        assert_eq!(error(io::ErrorKind::StorageFull).exit(), Exit::Failed);
        assert_eq!(Error::Taken("out".into()).exit(), Exit::Unusable);
    }

    #[test]
    fn messages_name_the_thing_and_the_mend() {
        let full = || io::Error::from(io::ErrorKind::StorageFull);
        let unwritable = Error::Unwritable { folder: "out".into(), source: full() };
        for (error, told) in [
            (
                Error::Taken("out".into()),
                "out exists and is not an empty folder, and nothing is written over; name another with --out",
            ),
            (
                Error::NotAFolder("out".into()),
                "out is a file and results need a folder; name another with --out",
            ),
            (unwritable, "cannot write in the folder out: no storage space; name another with --out"),
            (
                Error::Write { path: "out/a.csv".into(), source: full() },
                "cannot write out/a.csv: no storage space; no folder of results was left, and the same command \
                 makes them again",
            ),
            (
                Error::Variants(65),
                "65 variants are more than the 64 that one run compares; name fewer variants or factors",
            ),
        ] {
            assert_eq!(error.told(false), format!("zoneprobe: {told}\n"));
        }
        let system = io::Error::from_raw_os_error(2);
        assert!(!reason(&system).contains("os error") && reason(&system).starts_with(char::is_lowercase));
    }
}
