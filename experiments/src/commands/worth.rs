//! `worth`: continuation values, computed from possessions and printed as a file.

use std::path::Path;

use scenarios::{Experiment, path_text};

use super::{again, input};
use crate::cli::WorthOptions;
use crate::console::Console;
use crate::error::Error;
use crate::progress::Progress;
use crate::shell;
use crate::worth::{Sweeps, compute, toml};

/// Computes a table and prints it.
pub fn worth(options: &WorthOptions, console: &mut Console) -> Result<(), Error> {
    let experiment = input::experiment(Some(&options.file))?;
    let setups = match &options.level {
        Some(level) => experiment.at_level(level).map_err(Error::Faults)?,
        None => experiment.variants.iter().map(|variant| variant.setup.clone()).collect(),
    };
    let how = Sweeps {
        sweeps: options.sweeps,
        possessions: options.possessions,
        seed: options.seed,
        threads: options.threads,
    };
    let progress =
        Progress::new(how.sweeps * how.possessions * setups.len() as u64, "possessions", options.quiet);
    let table = compute(&setups, &how, &progress)?;
    drop(progress);
    Ok(console.print_exactly(&toml(&table, &line(options), &command(options, &experiment)))?)
}

fn line(options: &WorthOptions) -> String {
    let whose = options.level.as_ref().map_or_else(|| experiment_stem(options), Clone::clone);
    format!("continuation values: {whose}")
}

fn experiment_stem(options: &WorthOptions) -> String {
    options.file.file_stem().map_or_else(String::new, |stem| path_text(Path::new(stem)))
}

/// The command that makes the table again.
fn command(options: &WorthOptions, experiment: &Experiment) -> String {
    let level = options.level.as_ref().map(|level| shell::option("--level", level));
    format!(
        "zoneprobe worth{}{} --sweeps {} --possessions {} --seed {}{}",
        shell::file(&options.file),
        level.unwrap_or_default(),
        options.sweeps,
        options.possessions,
        options.seed,
        again::with(experiment)
    )
}
