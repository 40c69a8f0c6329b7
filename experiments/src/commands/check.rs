//! `check`: judges files of any kind, all of them, and changes nothing.

use scenarios::{Checked, Fault, Faults, Problem, path_text, shown};
use serde::Serialize;

use crate::cli::{CheckOptions, Verdict};
use crate::columns::{Column, keys};
use crate::console::Console;
use crate::error::Error;
use crate::output::document;

/// Says of each file what it is; all faults of all files come back together.
pub fn check(options: &CheckOptions, console: &mut Console) -> Result<(), Error> {
    let found = scenarios::check(&options.files).into_iter().map(judge);
    let files = options.files.iter().map(|file| path_text(file));
    let judged: Vec<Judged> = files.zip(found).map(|(file, found)| Judged { file, found }).collect();
    let text = match options.format {
        Verdict::Table if options.quiet => String::new(),
        Verdict::Table => judged.iter().filter_map(Judged::line).collect(),
        Verdict::Json => json(&judged),
    };
    let printed = console.print_exactly(&text);
    let bad = judged.iter().filter(|judged| judged.found.is_err()).count();
    let faults = judged.into_iter().filter_map(|judged| judged.found.err());
    let faults = faults.fold(Faults::default(), |mut all, own| {
        all.all.extend(own.all);
        all.more += own.more;
        all
    });
    match (bad, options.format) {
        (0, _) => Ok(printed?),
        (_, Verdict::Json) => {
            printed?;
            let files = if options.files.len() == 1 { "file" } else { "files" };
            Err(Error::Option(format!("{bad} of {} {files} cannot be used", options.files.len())))
        }
        // A reader who has gone away does not make the files any better.
        (_, Verdict::Table) => Err(Error::Faults(faults)),
    }
}

/// The kind of a file, or what is wrong with it.
fn judge(found: Result<Checked, Faults>) -> Result<&'static str, Faults> {
    let Checked { kind, experiment } = found?;
    // The loader does not know the columns, so the ranking column is judged here.
    match experiment {
        Some(experiment) if Column::named(&experiment.rank_by).is_none() => {
            Err(experiment.rank_by_fault(&keys()))
        }
        _ => Ok(kind),
    }
}

/// One file and what was found.
struct Judged {
    file: String,
    found: Result<&'static str, Faults>,
}

impl Judged {
    fn line(&self) -> Option<String> {
        self.found.as_ref().ok().map(|kind| format!("{}: {kind}, nothing wrong\n", shown(&self.file)))
    }
}

#[derive(Serialize)]
struct Page<'a> {
    ok: bool,
    files: Vec<File<'a>>,
}

#[derive(Serialize)]
struct File<'a> {
    file: &'a str,
    kind: Option<&'static str>,
    ok: bool,
    faults: Vec<Row<'a>>,
    /// Faults that are not listed.
    more: usize,
}

#[derive(Serialize)]
struct Row<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    key: &'a str,
    found: Option<&'a str>,
    allowed: Option<&'a str>,
    nearest: Option<&'a str>,
    message: String,
    help: Option<&'a str>,
}

impl<'a> Row<'a> {
    fn of(fault: &'a Fault) -> Self {
        let (found, allowed, nearest) = match &fault.problem {
            Problem::NotAllowed { found, allowed, nearest } => {
                (Some(found), Some(allowed), nearest.as_deref())
            }
            Problem::UnknownKey { allowed, nearest } => (Some(&fault.key), Some(allowed), nearest.as_deref()),
            Problem::Unreadable { found, allowed, nearest } => {
                (Some(found), Some(allowed), nearest.as_deref())
            }
            _ => (None, None, None),
        };
        let Fault { file, line, column, key, problem, help, .. } = fault;
        let (found, allowed) = (found.map(String::as_str), allowed.map(String::as_str));
        let message = problem.to_string();
        Self {
            file,
            line: *line,
            column: *column,
            key,
            found,
            allowed,
            nearest,
            message,
            help: help.as_deref(),
        }
    }
}

/// One document, as `check --help` describes it.
fn json(judged: &[Judged]) -> String {
    let files: Vec<File> = judged
        .iter()
        .map(|Judged { file, found }| {
            let faults = found.as_ref().err().map_or(&[][..], |faults| &faults.all);
            let more = found.as_ref().err().map_or(0, |faults| faults.more);
            let kind = found.as_ref().ok().copied();
            File { file, kind, ok: kind.is_some(), faults: faults.iter().map(Row::of).collect(), more }
        })
        .collect();
    let page = Page { ok: files.iter().all(|file| file.ok), files };
    document(&page)
}
