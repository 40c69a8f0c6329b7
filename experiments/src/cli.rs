//! The command line: as typed (`Args`, by clap) and as meant ([`Options`]). No clap type leaves this file.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum, value_parser};

use crate::stats::LARGEST_POSSESSIONS;

/// What was asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Options {
    /// All variants of an experiment, ranked; without a file the bundled question.
    Compare(RunOptions),
    /// One matchup.
    Simulate(RunOptions),
    /// One possession again.
    Film(FilmOptions),
    /// Judge files.
    Check {
        /// Which.
        files: Vec<PathBuf>,
        /// No word about those that are fine.
        quiet: bool,
    },
    /// List what is bundled.
    Catalog(Format),
}

/// How a run is made and shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RunOptions {
    /// Experiment or scenario file.
    pub file: Option<PathBuf>,
    /// Possessions for each variant, where they differ from the file's.
    pub possessions: Option<u64>,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
    /// Possessions in a batch.
    pub batch: Option<u64>,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// What goes to standard output.
    pub format: Format,
    /// No progress, no word about files written.
    pub quiet: bool,
}

/// Which possession is filmed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FilmOptions {
    /// Experiment or scenario file.
    pub file: Option<PathBuf>,
    /// Variant, for experiments.
    pub variant: Option<String>,
    /// Master seed.
    pub seed: u64,
    /// Possession number.
    pub possession: u64,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// No word about files written.
    pub quiet: bool,
}

/// What goes to standard output.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table and sentences, to be read.
    #[default]
    Table,
    /// The rows of comparison.csv.
    Csv,
    /// Everything, for other programs.
    Json,
}

/// Where parsing ends without options: help, the version, or an error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Usage {
    /// What to show.
    pub text: String,
    /// Whether it is an error (exit 2, standard error).
    pub is_error: bool,
}

/// Compares what attacks do to zone defences, by simulating many possessions of a stated model.
#[derive(Debug, Parser)]
#[command(name = "zoneprobe", version, args_conflicts_with_subcommands = true)]
#[command(after_help = "Without a command: `compare` with the bundled question.")]
struct Args {
    #[command(subcommand)]
    command: Option<Command>,
    #[command(flatten)]
    run: RunFlags,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Play all variants of an experiment and rank them.
    Compare {
        /// Experiment file (TOML) or the name of a bundled one; without it the bundled question.
        #[arg(value_name = "EXPERIMENT.toml")]
        file: Option<PathBuf>,
        #[command(flatten)]
        run: RunFlags,
    },
    /// Play one matchup and show its rates.
    Simulate {
        /// Scenario file (TOML) or the name of a bundled one.
        #[arg(value_name = "SCENARIO.toml")]
        file: PathBuf,
        #[command(flatten)]
        run: RunFlags,
    },
    /// Tell one possession again, move for move.
    Film {
        /// Scenario or experiment file (TOML) or the name of a bundled one; without it the bundled question.
        file: Option<PathBuf>,
        #[command(flatten)]
        film: FilmFlags,
    },
    /// Judge scenario and experiment files; change nothing.
    Check {
        /// Files (TOML).
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Say nothing about files that are fine.
        #[arg(long)]
        quiet: bool,
    },
    /// List the bundled zones, attacks, routes, options, levels and files.
    Catalog {
        /// What to print.
        #[arg(long, value_enum, default_value_t)]
        format: Format,
    },
}

#[derive(ClapArgs, Debug)]
struct RunFlags {
    /// Possessions for each variant.
    #[arg(long, value_name = "N", value_parser = value_parser!(u64).range(1..=LARGEST_POSSESSIONS))]
    possessions: Option<u64>,
    /// Master seed: the same seed gives the same result on any machine.
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// Worker threads; they change the speed only. Default: all processors.
    #[arg(long, value_name = "T", value_parser = value_parser!(u16).range(1..=1024))]
    threads: Option<u16>,
    /// Possessions that a worker takes at a time; changes the speed only.
    #[arg(long, value_name = "N", hide_short_help = true, value_parser = value_parser!(u64).range(1..=65_536))]
    batch: Option<u64>,
    /// Output folder, new or empty. Default: results/<experiment>-<seed>.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// What to print.
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// No progress bar, no word about files written.
    #[arg(long)]
    quiet: bool,
}

#[derive(ClapArgs, Debug)]
struct FilmFlags {
    /// Master seed of the run.
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// Number of the possession.
    #[arg(long, value_name = "K")]
    possession: u64,
    /// Variant of the experiment. Default: its baseline.
    #[arg(long, value_name = "V")]
    variant: Option<String>,
    /// Folder for a page that plays it (film.html) and the trace, new or empty.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// No word about files written.
    #[arg(long)]
    quiet: bool,
}

impl Options {
    /// Reads the command line, the program's name first.
    pub fn parse(args: impl IntoIterator<Item = OsString>) -> Result<Self, Usage> {
        let args = Args::try_parse_from(args)
            .map_err(|error| Usage { text: error.to_string(), is_error: error.use_stderr() })?;
        Ok(match args.command {
            None => Self::Compare(args.run.checked(None)),
            Some(Command::Compare { file, run }) => Self::Compare(run.checked(file)),
            Some(Command::Simulate { file, run }) => Self::Simulate(run.checked(Some(file))),
            Some(Command::Film { file, film }) => {
                let FilmFlags { seed, possession, variant, out, quiet } = film;
                Self::Film(FilmOptions { file, variant, seed, possession, out, quiet })
            }
            Some(Command::Check { files, quiet }) => Self::Check { files, quiet },
            Some(Command::Catalog { format }) => Self::Catalog(format),
        })
    }
}

impl RunFlags {
    fn checked(self, file: Option<PathBuf>) -> RunOptions {
        let Self { possessions, seed, threads, batch, out, format, quiet } = self;
        let all = || std::thread::available_parallelism().map_or(1, usize::from);
        let threads = threads.map_or_else(all, usize::from);
        RunOptions { file, possessions, seed, threads, batch, out, format, quiet }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(line: &str) -> Result<Options, Usage> {
        Options::parse(line.split(' ').map(OsString::from))
    }

    #[test]
    fn no_command_is_compare_with_the_bundled_question() {
        let bare = parse("zoneprobe --possessions 64 --seed 9").unwrap();
        assert_eq!(bare, parse("zoneprobe compare --possessions 64 --seed 9").unwrap());
        let Options::Compare(run) = parse("zoneprobe").unwrap() else { panic!("not a comparison") };
        assert_eq!((run.file, run.seed, run.possessions, run.format), (None, 1, None, Format::Table));
        assert!(run.threads >= 1);
    }

    #[test]
    fn nonsense_is_refused() {
        for line in [
            "zoneprobe conpare",
            "zoneprobe compare --possessions 0",
            "zoneprobe compare --possessions 1073741825",
            "zoneprobe compare --threads 0",
            "zoneprobe compare --format xml",
            "zoneprobe simulate",
            "zoneprobe film",
            "zoneprobe check",
            "zoneprobe catalog --possessions 5",
            "zoneprobe --seed 2 catalog",
        ] {
            assert!(parse(line).unwrap_err().is_error, "{line}");
        }
        assert!(!parse("zoneprobe --help").unwrap_err().is_error);
        assert!(!parse("zoneprobe --version").unwrap_err().is_error);
    }

    #[test]
    fn a_film_needs_its_possession_only() {
        let Options::Film(film) = parse("zoneprobe film --possession 41873").unwrap() else { panic!() };
        let expected =
            FilmOptions { file: None, variant: None, seed: 1, possession: 41873, out: None, quiet: false };
        assert_eq!(film, expected);
    }
}
