//! What is to be done, command by command, as checked.

use std::path::PathBuf;

use super::{Form, Format, Verdict};
use crate::kept::Shard;
use crate::records::Records;
use crate::sheet::{Game, Paper};
use crate::stats::{Correction, UntilSure};
use crate::units::Units;

/// How a run is made and shown.
#[derive(Clone, Debug, PartialEq)]
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
    /// Ranking column, where it differs from the file's.
    pub rank_by: Option<String>,
    /// Column whose intervals are made by drawing possessions again, too.
    pub bootstrap: Option<String>,
    /// What lengths are told in, where it was said.
    pub units: Option<Units>,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// What goes to standard output.
    pub format: Format,
    /// Say what would be run, and run nothing.
    pub dry_run: bool,
    /// Go on with what a stopped run has kept.
    pub resume: bool,
    /// Play this part only.
    pub shard: Option<Shard>,
    /// Choose until it is sure, before anything is measured.
    pub until_sure: Option<UntilSure>,
    /// Stop the choice at the look after so many possessions of each, though it is not sure.
    pub stop_at: Option<u64>,
    /// Which correction marks and lists go by.
    pub correction: Correction,
    /// Put each possession on record, too.
    pub records: Option<Records>,
    /// Give the records of each variant a folder of its own, however few they are.
    pub divide_records: bool,
    /// No progress, no word about files written.
    pub quiet: bool,
}

/// How the page is served.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenOptions {
    /// Worker threads of each run.
    pub threads: usize,
    /// Print the address, and start no browser.
    pub no_browser: bool,
    /// No word but the address.
    pub quiet: bool,
}

/// Which shards are put together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MergeOptions {
    /// Their folders.
    pub folders: Vec<PathBuf>,
    /// Worker threads.
    pub threads: usize,
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
    /// Variant to be shown beside it, where one was named.
    pub beside: Option<String>,
    /// Master seed.
    pub seed: u64,
    /// Possession number.
    pub possession: u64,
    /// What lengths are told in, where it was said.
    pub units: Option<Units>,
    /// What is written.
    pub form: Form,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// No word about files written.
    pub quiet: bool,
}

/// Which possessions of a result are picked, and what becomes of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FindOptions {
    /// Folder of the result.
    pub results: PathBuf,
    /// What is asked of each possession.
    pub filter: String,
    /// Tell of so many at most, and film them.
    pub limit: u64,
    /// List them only.
    pub list: bool,
    /// What goes to standard output.
    pub format: Format,
    /// Folder for the films, where one was named.
    pub out: Option<PathBuf>,
    /// No word about files written.
    pub quiet: bool,
}

/// What is made of sightings, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScoutOptions {
    /// Table of sightings; without it the blank form is written.
    pub file: Option<PathBuf>,
    /// Scenario: the zone and the attack that are played to see what its rules and dials look like.
    pub scenario: PathBuf,
    /// Question whose attacks are to meet the zones that are believed.
    pub question: Option<PathBuf>,
    /// Possessions under each value.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// No word about files written.
    pub quiet: bool,
}

/// What a chart is held against, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChartOptions {
    /// The chart; without it the blank form is written.
    pub file: Option<PathBuf>,
    /// Folder of the result.
    pub against: Option<PathBuf>,
    /// The variant that was planned, where it is not the one that the sheet tells to play.
    pub variant: Option<String>,
    /// Practice and game as one.
    pub together: bool,
    /// Roster that the shots are added to.
    pub players: Option<PathBuf>,
    /// Every shot was charted.
    pub every_shot: bool,
    /// Scenario of the result, to be played with changes of the zone.
    pub scenario: Option<PathBuf>,
    /// Possessions under each change.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// No word about files written.
    pub quiet: bool,
}

/// Which squad plays what, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct WhoOptions {
    /// Scenario: the attack, and the zone that it meets.
    pub scenario: PathBuf,
    /// Table of players (CSV), each with the places that he may play.
    pub squad: PathBuf,
    /// Ranking column, where it was named.
    pub rank_by: Option<String>,
    /// How long line-ups are raced.
    pub until: UntilSure,
    /// Possessions of each line-up that is left, to measure.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// No progress, no word about files written.
    pub quiet: bool,
}

/// What is to be shown, and by which pilot.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerOptions {
    /// The pilot; its folder, shard and batch are not used.
    pub run: RunOptions,
    /// Chance (0-1) that so many possessions show it.
    pub power: f64,
    /// The difference to be shown, in the ranking column's unit; None: what the pilot finds.
    pub difference: Option<f64>,
    /// Two shares (0-1) that are to be told from one another, instead of a pilot.
    pub shares: Option<(f64, f64)>,
}

/// How continuation values are computed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorthOptions {
    /// Experiment or scenario file.
    pub file: PathBuf,
    /// Level of both teams, where it differs from the file's.
    pub level: Option<String>,
    /// Sweeps.
    pub sweeps: u64,
    /// Possessions of each variant in each.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
    /// No progress.
    pub quiet: bool,
}

/// Which result is made a sheet of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetOptions {
    /// Folder that `compare` wrote.
    pub results: PathBuf,
    /// Paper.
    pub paper: Paper,
    /// What lengths are told in, where it was said.
    pub units: Option<Units>,
    /// The game that it is for.
    pub game: Game,
    /// Output folder, where one was named.
    pub out: Option<PathBuf>,
    /// No word about files written.
    pub quiet: bool,
}

/// Which files are judged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckOptions {
    /// Which.
    pub files: Vec<PathBuf>,
    /// What goes to standard output.
    pub format: Verdict,
    /// No word about those that are fine.
    pub quiet: bool,
}
