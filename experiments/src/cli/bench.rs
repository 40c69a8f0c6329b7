//! Options of what is written down on the bench, as typed.

use std::path::PathBuf;

use clap::{Args as ClapArgs, ValueHint};

use super::playing::{PlayedFlags, processors};
use super::{ChartOptions, ScoutOptions, number};
use crate::stats::LARGEST_POSSESSIONS;

#[derive(ClapArgs, Debug)]
pub struct ScoutFlags {
    /// Scenario file (TOML) or the name of a bundled one: their zone's shape, and the attack that it is watched against.
    #[arg(long, value_name = "SCENARIO", default_value = "sunken-122", value_hint = ValueHint::FilePath)]
    pub scenario: PathBuf,
    /// Experiment (TOML) whose attacks are compared in the question that is written. Default: the rover on three routes.
    #[arg(long, value_name = "EXPERIMENT.toml", value_hint = ValueHint::FilePath)]
    pub question: Option<PathBuf>,
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

impl ScoutFlags {
    pub fn checked(self, file: Option<PathBuf>, quiet: bool) -> ScoutOptions {
        let Self { scenario, question, possessions, played: PlayedFlags { seed, threads }, out } = self;
        ScoutOptions { file, scenario, question, possessions, seed, threads: processors(threads), out, quiet }
    }
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
    /// Roster (CSV) that what was charted is added to, in a new file. Without it no roster is written.
    #[arg(long, value_name = "PLAYERS.csv", value_hint = ValueHint::FilePath)]
    pub players: Option<PathBuf>,
    /// Every shot is charted, those that were rebounded in rows above of the same number: only then do shots count for players.
    #[arg(long)]
    pub every_shot: bool,
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
        let Self { against, variant, together, players, every_shot, scenario, possessions, played, out } =
            self;
        let PlayedFlags { seed, threads } = played;
        let threads = processors(threads);
        ChartOptions {
            file,
            against,
            variant,
            together,
            players,
            every_shot,
            scenario,
            possessions,
            seed,
            threads,
            out,
            quiet,
        }
    }
}
