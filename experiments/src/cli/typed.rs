//! The command line as typed, by clap.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::builder::PossibleValuesParser;
use clap::error::{Error as Refusal, ErrorKind};
use clap::parser::ValueSource;
use clap::{ArgMatches, Args as ClapArgs, CommandFactory, FromArgMatches, Parser, Subcommand, ValueHint};

use super::bench::{ChartFlags, ScoutFlags};
use super::filming::{FilmFlags, FindFlags};
use super::playing::{CompareFlags, MergeFlags, PowerFlags, RunFlags, WorthFlags};
use super::sure::WhoFlags;
use super::{Colour, Format, Shell, Verdict, game, help, number};
use crate::sheet::Paper;
use crate::units::Units;

/// Compares what attacks do to zone defences, by simulating many possessions of a stated model.
#[derive(Debug, Parser)]
#[command(name = "zoneprobe", version, max_term_width = 100)]
#[command(after_help = help::PROGRAM)]
pub struct Args {
    #[command(subcommand)]
    pub command: Option<Command>,
    #[command(flatten)]
    pub compare: CompareFlags,
    #[command(flatten)]
    pub manners: Manners,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Play all variants of an experiment and rank them.
    #[command(after_help = help::COMPARE)]
    Compare {
        /// Experiment file (TOML) or the name of a bundled one; without it the bundled question.
        #[arg(value_name = "EXPERIMENT.toml", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
        #[command(flatten)]
        compare: CompareFlags,
    },
    /// Play one matchup and show its rates.
    #[command(after_help = help::SIMULATE)]
    Simulate {
        /// Scenario file (TOML) or the name of a bundled one.
        #[arg(value_name = "SCENARIO.toml", value_hint = ValueHint::FilePath)]
        file: PathBuf,
        #[command(flatten)]
        run: RunFlags,
    },
    /// Tell one possession again, move for move.
    #[command(after_help = help::FILM)]
    Film {
        /// Scenario or experiment file (TOML) or the name of a bundled one; without it the bundled question.
        #[arg(value_name = "FILE.toml", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
        #[command(flatten)]
        film: FilmFlags,
    },
    /// Pick possessions of a result by what happened in them, and film them.
    #[command(after_help = help::FIND)]
    Find {
        /// Folder that `compare` or `simulate` has written with --records.
        #[arg(value_name = "RESULT_DIR", value_hint = ValueHint::DirPath)]
        results: PathBuf,
        /// What is asked of each possession, as behind WHERE in SQL.
        #[arg(value_name = "FILTER")]
        filter: String,
        #[command(flatten)]
        find: FindFlags,
    },
    /// Say how many possessions a question needs, from a pilot of it.
    #[command(after_help = help::POWER)]
    Power {
        /// Experiment file (TOML) or the name of a bundled one; without it the bundled question.
        #[arg(value_name = "EXPERIMENT.toml", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
        #[command(flatten)]
        power: PowerFlags,
    },
    /// Compute what a possession is worth to a team from each state on, as a file.
    #[command(after_help = help::WORTH)]
    Worth {
        /// Experiment or scenario file (TOML) or the name of a bundled one: the possessions to learn from.
        #[arg(value_name = "FILE.toml", value_hint = ValueHint::FilePath)]
        file: PathBuf,
        #[command(flatten)]
        worth: WorthFlags,
    },
    /// Say what sightings of a zone come to, or write the blank form for them.
    #[command(after_help = help::SCOUT)]
    Scout {
        /// Table of sightings (CSV), filled in; without it the blank form is written to --out.
        #[arg(value_name = "SIGHTINGS.csv", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
        #[command(flatten)]
        scout: ScoutFlags,
    },
    /// Hold what was charted on the bench against a result, or write the blank form for it.
    #[command(after_help = help::CHART)]
    Chart {
        /// Chart (CSV), filled in, a row a possession; without it the blank form is written to --out.
        #[arg(value_name = "CHART.csv", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
        #[command(flatten)]
        chart: ChartFlags,
    },
    /// Say who of a squad should play where, or that it makes no difference.
    #[command(after_help = help::WHO)]
    Who {
        /// Scenario file (TOML) or the name of a bundled one: the attack, and the zone that it meets.
        #[arg(value_name = "SCENARIO.toml", value_hint = ValueHint::FilePath)]
        file: PathBuf,
        #[command(flatten)]
        who: WhoFlags,
    },
    /// Make a result two printed pages for the coach, and a card for each position.
    #[command(after_help = help::SHEET)]
    Sheet {
        /// Folder that `compare` has written.
        #[arg(value_name = "RESULT_DIR", value_hint = ValueHint::DirPath)]
        results: PathBuf,
        /// Size of the paper.
        #[arg(long, value_enum, default_value_t)]
        paper: Paper,
        /// What lengths are told in. Default: the result's.
        #[arg(long, value_enum)]
        units: Option<Units>,
        /// Whom it is against, as it is to stand on the sheet and the cards.
        #[arg(long, value_name = "NAME", value_parser = game::opponent)]
        opponent: Option<String>,
        /// The day of the game, as 2026-12-04. No clock is read: without it no day is told.
        #[arg(long, value_name = "DATE", value_parser = game::date)]
        date: Option<String>,
        /// Output folder, new or empty. Default: the folder sheet in RESULT_DIR.
        #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
        out: Option<PathBuf>,
    },
    /// Tell whether a result's files are as they were written; play nothing.
    #[command(after_help = help::VERIFY)]
    Verify {
        /// Folder that `compare` or `simulate` has written.
        #[arg(value_name = "RESULT_DIR", value_hint = ValueHint::DirPath)]
        results: PathBuf,
    },
    /// Play a result again from its folder alone; tell whether every byte agrees.
    #[command(after_help = help::AGAIN)]
    Again {
        /// Folder that `compare`, `simulate` or `merge` has written.
        #[arg(value_name = "RESULT_DIR", value_hint = ValueHint::DirPath)]
        results: PathBuf,
        /// Worker threads; they change the speed only. Default: all processors.
        #[arg(long, value_name = "T", allow_negative_numbers = true)]
        #[arg(value_parser = |text: &str| number::threads(text))]
        threads: Option<u64>,
    },
    /// Put the shards of a run together into the result of one run.
    #[command(after_help = help::MERGE)]
    Merge {
        /// Folders that `compare --shard` or `simulate --shard` has written, in any order.
        #[arg(required = true, value_name = "DIR", value_hint = ValueHint::DirPath)]
        folders: Vec<PathBuf>,
        #[command(flatten)]
        merge: MergeFlags,
    },
    /// Serve a page on this machine to ask, play, watch, print and save.
    #[command(after_help = help::OPEN)]
    Open {
        /// Worker threads of each run; they change the speed only. Default: all processors.
        #[arg(long, value_name = "T", allow_negative_numbers = true)]
        #[arg(value_parser = |text: &str| number::threads(text))]
        threads: Option<u64>,
        /// Print the page's address and start no browser.
        #[arg(long)]
        no_browser: bool,
    },
    /// Judge files that you wrote; change nothing.
    #[command(after_help = help::CHECK)]
    Check {
        /// Files (TOML).
        #[arg(required = true, value_name = "FILE", value_hint = ValueHint::FilePath)]
        files: Vec<PathBuf>,
        /// What to print.
        #[arg(long, value_enum, default_value_t)]
        format: Verdict,
    },
    /// List the bundled zones, attacks, routes, options, levels and files.
    #[command(after_help = help::CATALOG)]
    Catalog {
        /// What to print.
        #[arg(long, value_enum, default_value_t)]
        format: Format,
    },
    /// Print a bundled file, or the players of a file of your own as they were read.
    #[command(after_help = help::SHOW)]
    Show {
        /// Name of the file as `catalog` lists it, or the path of a scenario or experiment (TOML).
        name: String,
    },
    /// Print the keys that files may hold, or the columns that results have, with units.
    #[command(after_help = help::KEYS)]
    Keys {
        /// Kind of file, or `columns`: those of a result's files. Without it all kinds of files.
        #[arg(value_parser = PossibleValuesParser::new(scenarios::FILE_KINDS.into_iter().chain([COLUMNS])))]
        kind: Option<String>,
    },
    /// Print the JSON Schema of a kind of file, for editors.
    #[command(after_help = help::SCHEMA)]
    Schema {
        /// Kind of file.
        #[arg(value_parser = PossibleValuesParser::new(scenarios::FILE_KINDS))]
        kind: String,
    },
    /// Print a script that completes zoneprobe's commands in your shell.
    #[command(after_help = help::COMPLETIONS)]
    Completions {
        /// Your shell.
        #[arg(value_enum)]
        shell: Shell,
    },
    /// Print the manual page, or write one for each command.
    #[command(after_help = help::MAN)]
    Man {
        /// Folder for a page a command, new or empty; without it the main page is printed.
        #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
        out: Option<PathBuf>,
    },
}

/// What `keys` explains besides the kinds of files.
pub const COLUMNS: &str = "columns";

/// What every command takes.
#[derive(ClapArgs, Debug)]
pub struct Manners {
    /// Nothing but the result: no progress bar, no word about files written. Errors are still shown.
    #[arg(long, global = true)]
    pub quiet: bool,
    /// Whether messages are coloured.
    #[arg(long, global = true, value_name = "WHEN", value_enum, default_value_t)]
    pub color: Colour,
}

impl Args {
    /// Reads a command line.
    pub fn read(args: impl IntoIterator<Item = OsString>) -> Result<Self, Refusal> {
        let mut command = Self::command();
        let matches = command.try_get_matches_from_mut(args)?;
        match misplaced(&command, &matches) {
            None => Self::from_arg_matches(&matches),
            Some(text) => Err(command.error(ErrorKind::ArgumentConflict, text)),
        }
    }
}

/// What is said of options of a run that stand before a command, where they would go unheard.
fn misplaced(program: &clap::Command, matches: &ArgMatches) -> Option<String> {
    let command = matches.subcommand_name()?;
    let typed = |id: &str| matches.value_source(id) == Some(ValueSource::CommandLine);
    let misplaced =
        program.get_arguments().find(|arg| !arg.is_global_set() && typed(arg.get_id().as_str()))?;
    let flag = misplaced.get_long()?;
    Some(format!("--{flag} stands before the command; write it behind `{command}`"))
}
