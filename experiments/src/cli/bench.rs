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
        let Self { scenario, possessions, played: PlayedFlags { seed, threads }, out } = self;
        ScoutOptions { file, scenario, possessions, seed, threads: processors(threads), out, quiet }
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
