//! The command line as typed, by clap.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::builder::PossibleValuesParser;
use clap::error::{Error as Refusal, ErrorKind};
use clap::parser::ValueSource;
use clap::{ArgMatches, Args as ClapArgs, CommandFactory, FromArgMatches, Parser, Subcommand, ValueHint};

use super::{Colour, Form, Format, RunOptions, Shell, Verdict, WorthOptions, column, help, number};
use crate::sheet::Paper;
use crate::stats::LARGEST_POSSESSIONS;

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
    /// Compute what a possession is worth to a team from each state on, as a file.
    #[command(after_help = help::WORTH)]
    Worth {
        /// Experiment or scenario file (TOML) or the name of a bundled one: the possessions to learn from.
        #[arg(value_name = "FILE.toml", value_hint = ValueHint::FilePath)]
        file: PathBuf,
        #[command(flatten)]
        worth: WorthFlags,
    },
    /// Make a result one printed page for the coach, and a card for each position.
    #[command(after_help = help::SHEET)]
    Sheet {
        /// Folder that `compare` has written.
        #[arg(value_name = "RESULT_DIR", value_hint = ValueHint::DirPath)]
        results: PathBuf,
        /// Size of the paper.
        #[arg(long, value_enum, default_value_t)]
        paper: Paper,
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
    /// Print a bundled file, to be copied and changed.
    #[command(after_help = help::SHOW)]
    Show {
        /// Name of the file as `catalog` lists it.
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

#[derive(ClapArgs, Debug)]
pub struct CompareFlags {
    #[command(flatten)]
    pub run: RunFlags,
    /// Column to rank by, any of comparison.csv. Default: the experiment's.
    #[arg(long, value_name = "COLUMN", value_parser = column::named)]
    pub rank_by: Option<String>,
}

#[derive(ClapArgs, Debug)]
pub struct RunFlags {
    /// Possessions for each variant. Default: the file's.
    #[arg(long, value_name = "N", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 1, LARGEST_POSSESSIONS))]
    pub possessions: Option<u64>,
    /// Master seed: the same seed gives the same result on any machine.
    #[arg(long, value_name = "S", default_value_t = 1, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 0, u64::MAX))]
    pub seed: u64,
    /// Worker threads; they change the speed only. Default: all processors.
    #[arg(long, value_name = "T", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::threads(text))]
    pub threads: Option<u64>,
    /// Possessions that a worker takes at a time; changes the speed only.
    #[arg(long, value_name = "N", hide_short_help = true, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::batch(text))]
    pub batch: Option<u64>,
    /// Output folder, new or empty. Default: results/<file>-<seed>, numbered if it exists.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
    /// What to print.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
    /// Say what would be played and where it would be written; play and write nothing.
    #[arg(long)]
    pub dry_run: bool,
}

#[derive(ClapArgs, Debug)]
pub struct FilmFlags {
    /// Master seed of the run.
    #[arg(long, value_name = "S", default_value_t = 1, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 0, u64::MAX))]
    pub seed: u64,
    /// Number of the possession, from 0.
    #[arg(long, value_name = "K", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 0, u64::MAX))]
    pub possession: u64,
    /// Variant of the experiment. Default: the one it compares with.
    #[arg(long, value_name = "V")]
    pub variant: Option<String>,
    /// The same possession, with the same draws, of another variant beside it: where the two part, and both on one clock.
    #[arg(long, value_name = "V")]
    pub beside: Option<String>,
    /// What is written beside the trace.
    #[arg(long = "as", value_enum, default_value_t, requires = "out")]
    pub form: Form,
    /// Folder for what is written and the trace, new or empty.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
}

#[derive(ClapArgs, Debug)]
pub struct WorthFlags {
    /// Level of both teams, a bundled one or a file. Default: the file's own.
    #[arg(long, value_name = "LEVEL")]
    pub level: Option<String>,
    /// Sweeps: possessions are played with one table and make the next.
    #[arg(long, value_name = "N", default_value_t = 8, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 2, 100))]
    pub sweeps: u64,
    /// Possessions of each variant in each sweep.
    #[arg(long, value_name = "N", default_value_t = 1024, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 1, LARGEST_POSSESSIONS))]
    pub possessions: u64,
    /// Master seed.
    #[arg(long, value_name = "S", default_value_t = 1, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 0, u64::MAX))]
    pub seed: u64,
    /// Worker threads; they change the speed only. Default: all processors.
    #[arg(long, value_name = "T", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::threads(text))]
    pub threads: Option<u64>,
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

impl CompareFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> RunOptions {
        RunOptions { rank_by: self.rank_by, ..self.run.checked(file, quiet) }
    }
}

impl WorthFlags {
    pub fn checked(self, file: PathBuf, quiet: bool) -> WorthOptions {
        let Self { level, sweeps, possessions, seed, threads } = self;
        WorthOptions { file, level, sweeps, possessions, seed, threads: processors(threads), quiet }
    }
}

/// Threads asked for, or as many as the machine has.
fn processors(asked: Option<u64>) -> usize {
    let all = || std::thread::available_parallelism().map_or(1, usize::from);
    asked.map_or_else(all, |threads| threads as usize)
}

impl RunFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> RunOptions {
        let Self { possessions, seed, threads, batch, out, format, dry_run } = self;
        let threads = processors(threads);
        RunOptions { file, possessions, seed, threads, batch, rank_by: None, out, format, dry_run, quiet }
    }
}
