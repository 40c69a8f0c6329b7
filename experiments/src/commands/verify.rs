//! `verify`: whether a result's files are those that were written, without playing anything.

use std::path::Path;

use scenarios::{shown, shown_path};

use crate::console::Console;
use crate::error::Error;
use crate::output::ResultFolder;

/// Names what is missing, changed or extra.
pub fn verify(folder: &Path, quiet: bool, console: &mut Console) -> Result<(), Error> {
    let result = ResultFolder::open(folder)?;
    let findings = result.findings()?;
    let count = result.outputs.len();
    if findings.is_empty() {
        let told = format!("{}: all {count} files are as they were written\n", shown_path(folder));
        return if quiet { Ok(()) } else { Ok(console.print(&told)?) };
    }
    let kinds = [("missing", &findings.missing), ("changed", &findings.changed), ("extra", &findings.extra)];
    let lines = kinds.iter().flat_map(|(kind, names)| names.iter().map(move |name| (kind, name)));
    let lines: String = lines.map(|(kind, name)| format!("{kind}: {}\n", shown(name))).collect();
    console.print(&lines)?;
    let [missing, changed, extra] = kinds.map(|(_, names)| names.len());
    Err(Error::Differs(format!(
        "{} is not as it was written: of {count} files {missing} missing and {changed} changed, {extra} extra; make the \
         result again with\n  {}",
        shown_path(folder),
        result.made.command
    )))
}
