//! Where words go: standard output and standard error, or whatever a test puts in their place.

use std::io::{self, IsTerminal, Write};

/// The two streams, and whether they may be coloured.
pub struct Console<'a> {
    /// Results.
    pub out: &'a mut dyn Write,
    /// Everything else.
    pub err: &'a mut dyn Write,
    /// Whether the second stream is a terminal that wants colour.
    pub colour: bool,
}

impl Console<'_> {
    /// Runs `work` with the process's own streams. No colour unless the stream is a terminal and the environment
    /// does not say `NO_COLOR` (<https://no-color.org>).
    pub fn of_process<T>(work: impl FnOnce(&mut Console) -> T) -> T {
        let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        let colour = io::stderr().is_terminal() && !refused;
        work(&mut Console { out: &mut io::stdout().lock(), err: &mut io::stderr(), colour })
    }

    /// Prints a result.
    pub fn print(&mut self, text: &str) -> io::Result<()> {
        self.out.write_all(text.as_bytes())?;
        self.out.flush()
    }

    /// Says something beside the result; nobody listening is no fault.
    pub fn say(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes());
    }
}
