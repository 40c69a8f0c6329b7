//! Options of what films, as typed.

use std::path::PathBuf;

use clap::{Args as ClapArgs, ValueHint};

use super::{FindOptions, Form, Format, number};
use crate::units::Units;

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
