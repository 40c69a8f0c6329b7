//! `merge`: the shards of a run put together, and its result.

use super::compare::{is_own_result, place, plan, question, run_of, say_whole};
use super::design::{Asking, is_designed};
use super::recalled::Recalled;
use super::recorded::assembled;
use super::result::broken;
use crate::cli::{MergeOptions, RunOptions};
use crate::columns::ratios;
use crate::console::Console;
use crate::error::Error;
use crate::kept::shards::Shards;
use crate::output::PARTS;

/// Writes the result that one run would have written.
pub fn merge(options: &MergeOptions, console: &mut Console) -> Result<(), Error> {
    let shards = Shards::of(&options.folders)?;
    let recalled = Recalled::of(&shards.run.command, &shards.run.inputs, &shards.first().join(PARTS))?;
    let asked_for = RunOptions {
        threads: options.threads,
        out: options.out.clone(),
        format: options.format,
        quiet: options.quiet,
        ..recalled.options.clone()
    };
    let asked = recalled.asked(&asked_for);
    if let Some(what) = run_of(&asked).differs(&shards.run) {
        return Err(Error::Option(format!(
            "the shards are of a run that has {what}; put them together by the program that played them"
        )));
    }
    let place = match place(&asked) {
        Err(Error::Taken(folder)) if is_own_result(&asked, &folder) => {
            say_whole(&folder, options.quiet, console);
            return Ok(());
        }
        place => place?,
    };
    if is_designed(asked.experiment) {
        let asking = Asking::new(asked)?;
        return asking.hand_over(&asking.merged(&shards)?, place, console);
    }
    let question = question(asked.experiment, &asked_for)?;
    let ratios = ratios();
    let played = shards.played(&plan(&asked, &ratios))?;
    let records = match asked_for.records {
        Some(_) => assembled(&asked, &shards.records(), &place.draft()?)?,
        None => Vec::new(),
    };
    asked.answered(question, (&played, records), console.width)?.hand_over(place, options.quiet, console)?;
    broken(&asked.crashes(&played), &asked_for)
}
