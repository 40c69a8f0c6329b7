//! The command line as typed, by clap.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::builder::PossibleValuesParser;
use clap::error::{Error as Refusal, ErrorKind};
use clap::parser::ValueSource;
use clap::{ArgMatches, Args as ClapArgs, CommandFactory, FromArgMatches, Parser, Subcommand, ValueHint};

use super::sure::{SureFlags, WhoFlags};
use super::{
    ChartOptions, Colour, FindOptions, Form, Format, MergeOptions, PowerOptions, RunOptions, ScoutOptions,
    Shell, Verdict, WorthOptions, column, game, help, number,
};
use crate::kept::Shard;
use crate::records::Records;
use crate::sheet::Paper;
use crate::stats::LARGEST_POSSESSIONS;
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
    /// Say who of a squad should be rover, guards and posts of an attack, or that it makes no difference.
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
    /// Serve a page on this machine: set their zone and your players, play, watch, print, save.
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

#[derive(ClapArgs, Debug)]
pub struct CompareFlags {
    #[command(flatten)]
    pub run: RunFlags,
    /// Column to rank by, any of comparison.csv. Default: the experiment's.
    #[arg(long, value_name = "COLUMN", value_parser = column::named)]
    pub rank_by: Option<String>,
    /// Column that is rare or skewed, any of comparison.csv: bootstrap.csv has intervals that allow for it, from the first 8,192
    /// possessions at most, played once more.
    #[arg(long, value_name = "COLUMN", value_parser = column::named)]
    pub bootstrap: Option<String>,
    #[command(flatten)]
    pub sure: SureFlags,
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
    /// What report, films and terminal tell lengths in; tables stay in metres. Default: feet where the rule set is a US one,
    /// else metres.
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Output folder, new or empty. Default: results/<file>-<seed>, numbered if it exists.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
    /// What to print.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
    /// Say what would be played and where it would be written; play and write nothing. With --resume: show what a stopped
    /// run has come to so far.
    #[arg(long)]
    pub dry_run: bool,
    /// Go on with what a stopped run has kept in its folder, if it has; the result is that of a run that was never stopped.
    #[arg(long)]
    pub resume: bool,
    /// Play only the I-th of N parts, for `merge` to put together.
    #[arg(long, value_name = "I/N", conflicts_with = "dry_run")]
    pub shard: Option<Shard>,
    /// Write a row a possession and variant, too, or these and a row an event, as Parquet files.
    #[arg(long, value_name = "WHAT", value_enum)]
    pub records: Option<Records>,
}

#[derive(ClapArgs, Debug)]
pub struct MergeFlags {
    /// Worker threads for what is played besides; they change the speed only. Default: all processors.
    #[arg(long, value_name = "T", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::threads(text))]
    pub threads: Option<u64>,
    /// Output folder, new or empty. Default: results/<file>-<seed>, numbered if it exists.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
    /// What to print.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
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
    /// What lengths are told in. Default: feet where the rule set is a US one, else metres.
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Folder for what is written and the trace, new or empty.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
}

#[derive(ClapArgs, Debug)]
pub struct FindFlags {
    /// Tell of so many at most, and film them.
    #[arg(long, value_name = "N", default_value_t = 10, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 1, 1_000_000))]
    pub limit: u64,
    /// List them; film none.
    #[arg(long, conflicts_with = "out")]
    pub list: bool,
    /// What to print.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
    /// Folder for the films, new or empty. Default: results/found-<file>-<seed>, numbered if it exists.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
}

impl FindFlags {
    pub fn checked(self, results: PathBuf, filter: String, quiet: bool) -> FindOptions {
        let Self { limit, list, format, out } = self;
        FindOptions { results, filter, limit, list, format, out, quiet }
    }
}

/// How possessions are played that a command needs for itself.
#[derive(ClapArgs, Debug)]
pub struct PlayedFlags {
    /// Master seed.
    #[arg(long, value_name = "S", default_value_t = 1, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 0, u64::MAX))]
    pub seed: u64,
    /// Worker threads; they change the speed only. Default: all processors.
    #[arg(long, value_name = "T", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::threads(text))]
    pub threads: Option<u64>,
}

#[derive(ClapArgs, Debug)]
pub struct PowerFlags {
    /// Possessions of each variant in the pilot.
    #[arg(long, value_name = "N", default_value_t = 1024, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 1, LARGEST_POSSESSIONS))]
    pub possessions: u64,
    #[command(flatten)]
    pub played: PlayedFlags,
    /// Column that is compared, any of comparison.csv. Default: the experiment's.
    #[arg(long, value_name = "COLUMN", value_parser = column::named)]
    pub rank_by: Option<String>,
    /// Difference that would matter, in the column's unit (`keys columns`): 0.02 is two percentage points of a rate.
    /// Default: what the pilot finds.
    #[arg(long, value_name = "D", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::between(text, SMALLEST_DIFFERENCE, LARGEST_DIFFERENCE))]
    pub difference: Option<f64>,
    /// Chance that so many possessions show it.
    #[arg(long, value_name = "P", default_value_t = 0.8, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::between(text, 0.5, 0.999))]
    pub power: f64,
    /// Two shares that are to be told from one another without pairing; nothing is played.
    #[arg(long, num_args = 2, value_names = ["A", "B"], allow_negative_numbers = true)]
    #[arg(conflicts_with_all = ["file", "possessions", "seed", "threads", "rank_by", "difference"])]
    #[arg(value_parser = |text: &str| number::between(text, 0.0, 1.0))]
    pub shares: Vec<f64>,
    /// What to print.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// What `power` may be asked for: no column is told more finely, and none of them has larger values. (a choice)
const SMALLEST_DIFFERENCE: f64 = 1e-6;
pub(super) const LARGEST_DIFFERENCE: f64 = 1e6;

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
    #[command(flatten)]
    pub played: PlayedFlags,
}

#[derive(ClapArgs, Debug)]
pub struct ScoutFlags {
    /// Scenario file (TOML) or the name of a bundled one: their zone's shape, and the attack that it is watched against.
    #[arg(long, value_name = "SCENARIO", default_value = "sunken-122", value_hint = ValueHint::FilePath)]
    pub scenario: PathBuf,
    /// Possessions under each value of each rule and dial.
    #[arg(long, value_name = "N", default_value_t = 256, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 16, LARGEST_POSSESSIONS))]
    pub possessions: u64,
    #[command(flatten)]
    pub played: PlayedFlags,
    /// Folder for the estimates and a question drawn from them, or for the blank form; new or empty.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
}

#[derive(ClapArgs, Debug)]
pub struct ChartFlags {
    /// Folder that `compare` or `simulate` has written: what was predicted.
    #[arg(long, value_name = "RESULT_DIR", value_hint = ValueHint::DirPath)]
    pub against: Option<PathBuf>,
    /// Variant that was planned. Default: the one that the result's sheet tells to play.
    #[arg(long, value_name = "V")]
    pub variant: Option<String>,
    /// Judge practice and game as one; otherwise each by itself, and only shots of games count for the players.
    #[arg(long)]
    pub together: bool,
    /// Roster (CSV) that the shots are added to, in a new file. Default: the players of the result.
    #[arg(long, value_name = "PLAYERS.csv", value_hint = ValueHint::FilePath)]
    pub players: Option<PathBuf>,
    /// Scenario of the result (TOML): play it with changes of the zone, and say which would explain what was seen.
    #[arg(long, value_name = "SCENARIO.toml", value_hint = ValueHint::FilePath)]
    pub scenario: Option<PathBuf>,
    /// Possessions under each change.
    #[arg(long, value_name = "N", default_value_t = 2048, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 16, LARGEST_POSSESSIONS))]
    pub possessions: u64,
    #[command(flatten)]
    pub played: PlayedFlags,
    /// Folder for the check, the players and the next question, or for the blank form; new or empty.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
}

impl ChartFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> ChartOptions {
        let Self { against, variant, together, players, scenario, possessions, played, out } = self;
        let PlayedFlags { seed, threads } = played;
        let threads = processors(threads);
        ChartOptions {
            file,
            against,
            variant,
            together,
            players,
            scenario,
            possessions,
            seed,
            threads,
            out,
            quiet,
        }
    }
}

impl ScoutFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> ScoutOptions {
        let Self { scenario, possessions, played: PlayedFlags { seed, threads }, out } = self;
        ScoutOptions { file, scenario, possessions, seed, threads: processors(threads), out, quiet }
    }
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
        let until_sure = self.sure.checked();
        let run = self.run.checked(file, quiet);
        RunOptions { rank_by: self.rank_by, bootstrap: self.bootstrap, until_sure, ..run }
    }
}

impl MergeFlags {
    pub fn checked(self, folders: Vec<PathBuf>, quiet: bool) -> MergeOptions {
        let Self { threads, out, format } = self;
        MergeOptions { folders, threads: processors(threads), out, format, quiet }
    }
}

impl PowerFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> PowerOptions {
        let Self { possessions, played: PlayedFlags { seed, threads }, rank_by, .. } = self;
        let run = RunOptions {
            file,
            possessions: Some(possessions),
            seed,
            threads: processors(threads),
            batch: None,
            rank_by,
            bootstrap: None,
            units: None,
            out: None,
            format: self.format,
            dry_run: false,
            resume: false,
            shard: None,
            until_sure: None,
            records: None,
            quiet,
        };
        let shares = <[f64; 2]>::try_from(self.shares).ok().map(Into::into);
        PowerOptions { run, power: self.power, difference: self.difference, shares }
    }
}

impl WorthFlags {
    pub fn checked(self, file: PathBuf, quiet: bool) -> WorthOptions {
        let Self { level, sweeps, possessions, played: PlayedFlags { seed, threads } } = self;
        WorthOptions { file, level, sweeps, possessions, seed, threads: processors(threads), quiet }
    }
}

/// Threads asked for, or as many as the machine has.
pub fn processors(asked: Option<u64>) -> usize {
    let all = || std::thread::available_parallelism().map_or(1, usize::from);
    asked.map_or_else(all, |threads| threads as usize)
}

impl RunFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> RunOptions {
        let Self { possessions, seed, threads, batch, units, out, format, dry_run, resume, shard, records } =
            self;
        let threads = processors(threads);
        RunOptions {
            file,
            possessions,
            seed,
            threads,
            batch,
            rank_by: None,
            bootstrap: None,
            units,
            out,
            format,
            dry_run,
            resume,
            shard,
            until_sure: None,
            records,
            quiet,
        }
    }
}
