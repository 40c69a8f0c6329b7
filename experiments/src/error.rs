//! What can go wrong, and which exit code says so.

use std::io;
use std::path::PathBuf;

use miette::{GraphicalReportHandler, GraphicalTheme};
use scenarios::Faults;
use thiserror::Error;

use crate::app::Exit;
use crate::stats::LARGEST_VARIANTS;

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
    #[error("{} exists and is not an empty folder; name another with --out", .0.display())]
    Taken(PathBuf),
    /// A file or folder could not be written.
    #[error("cannot write {}: {source}", .path.display())]
    Write {
        /// Which.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// Standard output could not be written.
    #[error("cannot write the result: {0}")]
    Print(#[from] io::Error),
    /// No worker threads.
    #[error("cannot start the worker threads: {0}")]
    Threads(String),
    /// The six outcomes do not sum to the possessions: a bug.
    #[error(
        "{ended} outcomes for {played} possessions of variant {variant}: this is a bug in zoneprobe, and \
         nothing was written"
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
    Breakdowns(String),
    /// Stopped by Ctrl-C.
    #[error("stopped; nothing was written")]
    Interrupted,
}

impl Error {
    /// Whether the input was unusable or the run failed.
    pub fn exit(&self) -> Exit {
        match self {
            Self::Faults(_) | Self::Option(_) | Self::Variants(_) | Self::Taken(_) => Exit::Unusable,
            _ => Exit::Failed,
        }
    }

    /// Whether the reader of standard output has gone away, which is no fault of anybody.
    pub fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Print(error) if error.kind() == io::ErrorKind::BrokenPipe)
    }

    /// The message as a reader sees it; faults in files with the lines they stand in.
    pub fn told(&self, colour: bool) -> String {
        let Self::Faults(faults) = self else {
            return format!("zoneprobe: {self}\n");
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
        text
    }
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
}
