//! `again`: a result made anew from its folder alone, and held against it byte by byte.

use std::path::Path;

use scenarios::{shown, shown_path};

use super::compare::{plan, player, progress, question};
use super::design::{Asking, is_designed};
use super::designed::Designed;
use super::recalled::Recalled;
use super::recorded::played_aside;
use super::result::Asked;
use super::until_sure;
use crate::cli::RunOptions;
use crate::columns::ratios;
use crate::console::Console;
use crate::error::Error;
use crate::kept::Build;
use crate::output::{Fingerprint, Manifest, ResultFolder};
use crate::run::run;

/// Says whether every byte agrees, and names what does not.
pub fn again(folder: &Path, threads: usize, quiet: bool, console: &mut Console) -> Result<(), Error> {
    let result = ResultFolder::open(folder)?;
    let recalled = Recalled::of(&result.made.command, &result.inputs, folder)?;
    let options = RunOptions { threads, quiet, ..recalled.options.clone() };
    let asked = recalled.asked(&options);
    let (files, records) = files(&asked, console)?;
    let made = files.iter().filter(|(name, _)| name != Manifest::NAME);
    let made = made.map(|(name, bytes)| Fingerprint::of(name, bytes));
    let count = files.len() + records.len();
    let made: Vec<Fingerprint> = records.into_iter().chain(made).collect();
    let mut differs = result.against(&made)?;
    let manifest = files.iter().find(|(name, _)| name == Manifest::NAME).map(|(_, bytes)| bytes.as_slice());
    let is_other_build =
        (result.made.version.as_str(), &result.build) != (env!("CARGO_PKG_VERSION"), &Build::own());
    // Another build says in its manifest that it is another.
    if !is_other_build && manifest != Some(result.manifest.as_bytes()) {
        differs.changed.push(Manifest::NAME.into());
    }
    told(folder, &result, &differs, (count, is_other_build, quiet), console)
}

/// Files by name with their bytes, and the fingerprints of the records, which are too large to be held.
type Made = (Vec<(String, Vec<u8>)>, Vec<Fingerprint>);

/// All files of a result, played anew.
fn files(asked: &Asked<'_>, console: &mut Console) -> Result<Made, Error> {
    if is_designed(asked.experiment) {
        let asking = Asking::new(*asked)?;
        return Ok((Designed::new(&asking, &asking.played()?, console.width)?.files, Vec::new()));
    }
    let question = question(asked.experiment, asked.options)?;
    let chosen = until_sure::chosen(asked, &question, None, console)?;
    let (asked, question) = asked.after(chosen.as_ref(), question)?;
    let (played, records) = match asked.options.records {
        Some(records) => played_aside(&asked, records)?,
        None => {
            let ratios = ratios();
            let plan = plan(&asked, &ratios);
            (run(&plan, &player(&asked), &progress(&plan, asked.options.quiet))?, Vec::new())
        }
    };
    Ok((asked.answered(question, (&played, records.clone()), console.width)?.files, records))
}

fn told(
    folder: &Path,
    result: &ResultFolder,
    differs: &crate::output::Findings,
    (count, is_other_build, quiet): (usize, bool, bool),
    console: &mut Console,
) -> Result<(), Error> {
    let build = if is_other_build {
        format!(
            "made by {}; this is {}, {}\n",
            made_by(&result.made.version, &result.build),
            env!("CARGO_PKG_VERSION"),
            words(&Build::own())
        )
    } else {
        String::new()
    };
    if differs.is_empty() {
        let told = format!("{}: all {count} files are made again, byte for byte\n", shown_path(folder));
        return if quiet { Ok(()) } else { Ok(console.print(&(build + &told))?) };
    }
    let kinds =
        [("missing", &differs.missing), ("not the same", &differs.changed), ("extra", &differs.extra)];
    let lines = kinds.iter().flat_map(|(kind, names)| names.iter().map(move |name| (kind, name)));
    let lines: String = lines.map(|(kind, name)| format!("{kind}: {}\n", shown(name))).collect();
    console.print(&(build + &lines))?;
    let [missing, changed, extra] = kinds.map(|(_, names)| names.len());
    Err(Error::Differs(format!(
        "{} is not what is made again from its inputs: of {count} files {missing} missing and {changed} not the same, \
         {extra} extra",
        shown_path(folder)
    )))
}

/// The program that made a result, in words.
pub(super) fn made_by(version: &str, build: &Build) -> String {
    format!("zoneprobe {version}, {}", words(build))
}

fn words(build: &Build) -> String {
    let commit = build.commit.as_ref().map_or_else(String::new, |commit| format!("commit {commit}, "));
    // Builds that play alike need not be told from one another by that.
    let own = Build::own();
    let play = if build.play == own.play { "" } else { ", which plays otherwise" };
    format!("{commit}{} by {}{play}", build.target, build.compiler)
}
