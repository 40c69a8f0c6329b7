//! `completions`: the script by which a shell completes zoneprobe's command lines.

use crate::cli::{self, Shell};
use crate::console::Console;
use crate::error::Error;

/// Prints the script.
pub fn completions(shell: Shell, console: &mut Console) -> Result<(), Error> {
    Ok(console.print(&cli::completions(shell))?)
}
