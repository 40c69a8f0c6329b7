//! Options of what is played until it is sure, as typed.

use std::path::PathBuf;

use clap::{Args as ClapArgs, ValueHint};

use super::playing::{LARGEST_DIFFERENCE, PlayedFlags, processors};
use super::{WhoOptions, column, number};
use crate::stats::{LARGEST_POSSESSIONS, SMALLEST_BUDGET, UntilSure};

/// How long it is played before somebody is chosen.
#[derive(ClapArgs, Debug)]
pub struct SureFlags {
    /// Before anything is measured, choose on possessions of their own: until one is clearly best by the ranking column, or
    /// none is better than it by more than MARGIN, a difference that does not matter, in the column's unit (`keys columns`):
    /// 0.01 is a percentage point of a rate.
    #[arg(long, value_name = "MARGIN", allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::between(text, 0.0, LARGEST_DIFFERENCE))]
    pub until_sure: Option<f64>,
    /// Possessions of each variant that may be spent on that, at most. Default: 524288.
    #[arg(long, value_name = "N", allow_negative_numbers = true, requires = "until_sure")]
    #[arg(value_parser = |text: &str| number::whole(text, SMALLEST_BUDGET, LARGEST_POSSESSIONS))]
    pub budget: Option<u64>,
    /// End the choice after so many possessions of each variant, one of the numbers at which it looks (1024, 2048, 4096 ...),
    /// though it is not sure. What is said still allows for all looks up to the budget.
    #[arg(
        long,
        value_name = "N",
        hide_short_help = true,
        allow_negative_numbers = true,
        requires = "until_sure"
    )]
    #[arg(value_parser = |text: &str| number::whole(text, SMALLEST_BUDGET, LARGEST_POSSESSIONS))]
    pub stop_at: Option<u64>,
}

/// Possessions of each variant that are spent on a choice at most, where nothing else is said. (a choice)
const BUDGET: u64 = 1 << 19;

impl SureFlags {
    pub fn checked(&self) -> Option<UntilSure> {
        let margin = self.until_sure?;
        Some(UntilSure { margin, budget: self.budget.unwrap_or(BUDGET) })
    }
}

#[derive(ClapArgs, Debug)]
pub struct WhoFlags {
    /// Players (CSV), six to ten of them: a roster with `plays` in the place of `role`.
    #[arg(long, value_name = "SQUAD.csv", value_hint = ValueHint::FilePath)]
    pub squad: PathBuf,
    /// Column that line-ups are compared by, any of comparison.csv. Default: expected_net_points.
    #[arg(long, value_name = "COLUMN", value_parser = column::named)]
    pub rank_by: Option<String>,
    /// A difference that does not matter, in the column's unit (`keys columns`): 0.02 is 0.4 points in 20 possessions.
    #[arg(long, value_name = "MARGIN", default_value_t = 0.02, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::between(text, 0.0, LARGEST_DIFFERENCE))]
    pub margin: f64,
    /// Possessions of each line-up that may be spent on the choice, at most.
    #[arg(long, value_name = "N", default_value_t = 32768, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, SMALLEST_BUDGET, LARGEST_POSSESSIONS))]
    pub budget: u64,
    /// Possessions of each line-up that is left, to measure it.
    #[arg(long, value_name = "N", default_value_t = 4096, allow_negative_numbers = true)]
    #[arg(value_parser = |text: &str| number::whole(text, 2, LARGEST_POSSESSIONS))]
    pub possessions: u64,
    #[command(flatten)]
    pub played: PlayedFlags,
    /// Folder for the line-ups, and a question and rosters of those left for `compare`; new or empty.
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,
}

impl WhoFlags {
    pub fn checked(self, scenario: PathBuf, quiet: bool) -> WhoOptions {
        let Self { squad, rank_by, margin, budget, possessions, played: PlayedFlags { seed, threads }, out } =
            self;
        let (until, threads) = (UntilSure { margin, budget }, processors(threads));
        WhoOptions { scenario, squad, rank_by, until, possessions, seed, threads, out, quiet }
    }
}
