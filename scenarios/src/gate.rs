//! The gate for what comes in from outside: a file or a pipe, read once, and never more of it than a limit.
//!
//! What it is, is asked before it is opened: opening a device may do something, and reading one may never end. A pipe is
//! waited for as long as somebody may still write to it, as every program does.

use std::fmt;
use std::fs::{self, File, FileType};
use std::io::{self, Read};
use std::path::Path;

use crate::key::plain;

/// Most bytes of a data file; the longest bundled one has less than 20,000.
pub(crate) const TEXT_MOST: u64 = 1 << 20;

/// What a folder is called.
pub(crate) const FOLDER: &str = "a folder";

/// What was let in.
#[derive(Debug)]
pub struct Entered {
    /// Its content.
    pub bytes: Vec<u8>,
    /// It came through a pipe, so it is gone once it has been read.
    pub piped: bool,
}

/// What was not let in, and why.
#[derive(Debug)]
pub enum Refusal {
    /// There is no such file.
    Nowhere,
    /// It is something else than a file or a pipe: `a folder`, `a device`.
    Kind(&'static str),
    /// It is larger than the limit.
    Large {
        /// Bytes that it has, as far as they were counted.
        found: u64,
        /// They are all that it has.
        counted: bool,
        /// The limit.
        most: u64,
    },
    /// The system refuses it.
    System(io::Error),
}

impl Refusal {
    /// What is there instead.
    #[must_use]
    pub fn found(&self) -> String {
        match self {
            Refusal::Nowhere => "no such file".into(),
            Refusal::Kind(kind) => (*kind).into(),
            Refusal::Large { found, counted: true, .. } => format!("{} bytes", plain(*found as f64)),
            Refusal::Large { most, .. } => format!("more than {} bytes", plain(*most as f64)),
            Refusal::System(error) => format!("a file that cannot be read ({})", error.kind()),
        }
    }

    /// What would do.
    #[must_use]
    pub fn allowed(&self) -> String {
        match self {
            Refusal::Large { most, .. } => format!("at most {} bytes", plain(*most as f64)),
            _ => "a file or a pipe".into(),
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "found {}, allowed {}", self.found(), self.allowed())
    }
}

impl std::error::Error for Refusal {}

impl From<Refusal> for io::Error {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Nowhere => io::ErrorKind::NotFound.into(),
            Refusal::System(error) => error,
            other => io::Error::other(other),
        }
    }
}

/// Reads a file or a pipe to its end.
///
/// # Errors
/// It is something else, larger than `most` bytes, or the system refuses it.
pub fn read(path: &Path, most: u64) -> Result<Entered, Refusal> {
    let piped = is_piped(&fs::metadata(path).map_err(refused)?.file_type())?;
    let file = File::open(path).map_err(refused)?;
    // Another may have been put in its place since.
    let opened = file.metadata().map_err(refused)?;
    if is_piped(&opened.file_type())? != piped {
        return Err(Refusal::Kind("something that changes while it is opened"));
    }
    if opened.len() > most {
        return Err(Refusal::Large { found: opened.len(), counted: !piped, most });
    }
    let mut bytes = Vec::new();
    file.take(most + 1).read_to_end(&mut bytes).map_err(refused)?;
    let found = bytes.len() as u64;
    if found > most {
        Err(Refusal::Large { found, counted: false, most })
    } else {
        Ok(Entered { bytes, piped })
    }
}

fn refused(error: io::Error) -> Refusal {
    if error.kind() == io::ErrorKind::NotFound { Refusal::Nowhere } else { Refusal::System(error) }
}

/// Whether it is a pipe rather than a file.
fn is_piped(kind: &FileType) -> Result<bool, Refusal> {
    if kind.is_file() {
        Ok(false)
    } else if kind.is_dir() {
        Err(Refusal::Kind(FOLDER))
    } else {
        special(kind)
    }
}

#[cfg(unix)]
fn special(kind: &FileType) -> Result<bool, Refusal> {
    use std::os::unix::fs::FileTypeExt;

    match () {
        () if kind.is_fifo() => Ok(true),
        () if kind.is_socket() => Err(Refusal::Kind("a socket")),
        () => Err(Refusal::Kind("a device")),
    }
}

#[cfg(not(unix))]
fn special(_: &FileType) -> Result<bool, Refusal> {
    Err(Refusal::Kind("a device"))
}
