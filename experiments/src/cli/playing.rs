//! Options of what plays, as typed.

use std::path::PathBuf;

use clap::{Args as ClapArgs, ValueHint};

use super::sure::SureFlags;
use super::{Format, MergeOptions, PowerOptions, RunOptions, WorthOptions, column, number};
use crate::kept::Shard;
use crate::records::Records;
use crate::stats::{Correction, LARGEST_POSSESSIONS};
use crate::units::Units;

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
    /// Correction for many comparisons that marks of effects go by, and a list of what differs from the one that all are
    /// compared with. It changes what is printed; verdicts are safe for all at once in any case.
    #[arg(long = "correct", value_name = "HOW", value_enum, default_value_t)]
    pub correction: Correction,
    #[command(flatten)]
    pub sure: SureFlags,
}

impl CompareFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> RunOptions {
        let Self { run, rank_by, bootstrap, correction, sure } = self;
        let (until_sure, stop_at) = (sure.checked(), sure.stop_at);
        RunOptions { rank_by, bootstrap, correction, until_sure, stop_at, ..run.checked(file, quiet) }
    }
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
    #[arg(long, value_name = "I/N")]
    pub shard: Option<Shard>,
    /// Write a row a possession and variant, too, or these and a row an event, as Parquet files.
    #[arg(long, value_name = "WHAT", value_enum)]
    pub records: Option<Records>,
    /// Give the records of each variant a folder of its own (Hive partitioning), as is done anyway from 100,000 possessions on.
    #[arg(long, requires = "records")]
    pub divide_records: bool,
}

impl RunFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> RunOptions {
        let Self { possessions, seed, threads, batch, units, out, format, .. } = self;
        let Self { dry_run, resume, shard, records, divide_records, .. } = self;
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
            stop_at: None,
            correction: Correction::Holm,
            records,
            divide_records,
            quiet,
        }
    }
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

impl MergeFlags {
    pub fn checked(self, folders: Vec<PathBuf>, quiet: bool) -> MergeOptions {
        let Self { threads, out, format } = self;
        MergeOptions { folders, threads: processors(threads), out, format, quiet }
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

/// Threads asked for, or as many as the machine has.
pub fn processors(asked: Option<u64>) -> usize {
    let all = || std::thread::available_parallelism().map_or(1, usize::from);
    asked.map_or_else(all, |threads| threads as usize)
}

/// What `power` may be asked for: no column is told more finely, and none of them has larger values. (a choice)
const SMALLEST_DIFFERENCE: f64 = 1e-6;

pub(super) const LARGEST_DIFFERENCE: f64 = 1e6;

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
            stop_at: None,
            correction: Correction::Holm,
            records: None,
            divide_records: false,
            quiet,
        };
        let shares = <[f64; 2]>::try_from(self.shares).ok().map(Into::into);
        PowerOptions { run, power: self.power, difference: self.difference, shares }
    }
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
    #[command(flatten)]
    pub played: PlayedFlags,
}

impl WorthFlags {
    pub fn checked(self, file: PathBuf, quiet: bool) -> WorthOptions {
        let Self { level, sweeps, possessions, played: PlayedFlags { seed, threads } } = self;
        WorthOptions { file, level, sweeps, possessions, seed, threads: processors(threads), quiet }
    }
}
