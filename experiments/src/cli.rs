//! The command line: as typed (`Args`, by clap) and as meant ([`Options`]). No clap type leaves this module.

mod column;
mod game;
mod help;
mod manual;
mod number;
mod shells;
mod sure;
mod typed;

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use scenarios::shown_path;

use crate::kept::Shard;
use crate::records::Records;
use crate::sheet::{Game, Paper};
use crate::stats::UntilSure;
use crate::units::Units;

use typed::{Args, Command, FilmFlags, Manners, processors};

pub use typed::COLUMNS;

pub use manual::{manual, manuals};
pub use shells::completions;

/// What was asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Options {
    /// All variants of an experiment, ranked; without a file the bundled question.
    Compare(RunOptions),
    /// One matchup.
    Simulate(RunOptions),
    /// One possession again.
    Film(FilmOptions),
    /// Possessions of a result picked by what happened in them.
    Find(FindOptions),
    /// How many possessions a question needs.
    Power(PowerOptions),
    /// Continuation values, computed.
    Worth(WorthOptions),
    /// An opponent's zone from sightings.
    Scout(ScoutOptions),
    /// A chart held against a result.
    Chart(ChartOptions),
    /// Who of a squad should play where.
    Who(WhoOptions),
    /// The coach's page of a result.
    Sheet(SheetOptions),
    /// Whether a result is as it was written.
    Verify {
        /// Its folder.
        results: PathBuf,
        /// No word about one that is.
        quiet: bool,
    },
    /// A result made again from its folder.
    Again {
        /// Its folder.
        results: PathBuf,
        /// Worker threads.
        threads: usize,
        /// No progress, no word about one that is the same.
        quiet: bool,
    },
    /// Shards put together.
    Merge(MergeOptions),
    /// The page in a browser.
    Open(OpenOptions),
    /// Judge files.
    Check(CheckOptions),
    /// List what is bundled.
    Catalog(Format),
    /// The text of a bundled file.
    Show(String),
    /// The key reference, of one kind of file or of all.
    Keys(Option<String>),
    /// The JSON Schema of a kind of file.
    Schema(String),
    /// The completion script of a shell.
    Completions(Shell),
    /// The manual.
    Man {
        /// Folder for a page a command; without it the main page is printed.
        out: Option<PathBuf>,
        /// No word about files written.
        quiet: bool,
    },
}

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
    /// Put each possession on record, too.
    pub records: Option<Records>,
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

/// What a film is written as.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Form {
    /// A page that plays it (film.html).
    #[default]
    Page,
    /// A moving picture for a message (film.gif).
    Gif,
    /// Its frames, ten a second, as PNG files (frames/).
    Frames,
    /// The four to six moments that decide, in one picture (storyboard.svg).
    Storyboard,
}

/// What is made of sightings, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScoutOptions {
    /// Table of sightings; without it the blank form is written.
    pub file: Option<PathBuf>,
    /// Scenario: the zone and the attack that are played to see what its rules and dials look like.
    pub scenario: PathBuf,
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

/// What goes to standard output.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table and sentences, to be read.
    #[default]
    Table,
    /// The same rows for a spreadsheet.
    Csv,
    /// Everything, for other programs.
    Json,
}

/// How files are judged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Verdict {
    /// A line a file; faults with the lines they stand in.
    #[default]
    Table,
    /// One document for other programs.
    Json,
}

/// Whether messages are coloured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal, unless the environment says otherwise.
    #[default]
    Auto,
    /// Wherever they go.
    Always,
    /// Nowhere.
    Never,
}

/// A shell that is offered completions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Shell {
    /// Bash.
    Bash,
    /// Z shell.
    Zsh,
    /// Fish.
    Fish,
    /// Elvish.
    Elvish,
    /// PowerShell.
    Powershell,
}

/// Where parsing ends without options: help, the version, or an error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Usage {
    /// What to show.
    pub text: String,
    /// The same for a terminal that wants colour.
    pub coloured: String,
    /// Whether it is an error (exit 2, standard error).
    pub is_error: bool,
}

impl Options {
    /// Reads the command line, the program's name first.
    pub fn parse(args: impl IntoIterator<Item = OsString>) -> Result<(Self, Colour), Usage> {
        let args: Vec<OsString> = args.into_iter().collect();
        let args = Args::read(args.clone()).map_err(|error| refused(&args, error))?;
        let Manners { quiet, color } = args.manners;
        let options = match args.command {
            None => Self::Compare(args.compare.checked(None, quiet)),
            Some(Command::Compare { file, compare }) => Self::Compare(compare.checked(file, quiet)),
            Some(Command::Simulate { file, run }) => Self::Simulate(run.checked(Some(file), quiet)),
            Some(Command::Film { file, film }) => {
                let FilmFlags { seed, possession, variant, beside, form, units, out } = film;
                Self::Film(FilmOptions { file, variant, beside, seed, possession, units, form, out, quiet })
            }
            Some(Command::Find { results, filter, find }) => Self::Find(find.checked(results, filter, quiet)),
            Some(Command::Power { file, power }) => Self::Power(power.checked(file, quiet)),
            Some(Command::Worth { file, worth }) => Self::Worth(worth.checked(file, quiet)),
            Some(Command::Scout { file, scout }) => Self::Scout(scout.checked(file, quiet)),
            Some(Command::Chart { file, chart }) => Self::Chart(chart.checked(file, quiet)),
            Some(Command::Who { file, who }) => Self::Who(who.checked(file, quiet)),
            Some(Command::Sheet { results, paper, units, opponent, date, out }) => {
                Self::Sheet(SheetOptions { results, paper, units, game: Game { opponent, date }, out, quiet })
            }
            Some(Command::Verify { results }) => Self::Verify { results, quiet },
            Some(Command::Again { results, threads }) => {
                Self::Again { results, threads: processors(threads), quiet }
            }
            Some(Command::Merge { folders, merge }) => Self::Merge(merge.checked(folders, quiet)),
            Some(Command::Open { threads, no_browser }) => {
                Self::Open(OpenOptions { threads: processors(threads), no_browser, quiet })
            }
            Some(Command::Check { files, format }) => Self::Check(CheckOptions { files, format, quiet }),
            Some(Command::Catalog { format }) => Self::Catalog(format),
            Some(Command::Show { name }) => Self::Show(name),
            Some(Command::Keys { kind }) => Self::Keys(kind),
            Some(Command::Schema { kind }) => Self::Schema(kind),
            Some(Command::Completions { shell }) => Self::Completions(shell),
            Some(Command::Man { out }) => Self::Man { out, quiet },
        };
        Ok((options, color))
    }
}

/// What is said of a line that cannot be read. It is read again as it is shown, for what is told of it holds words of
/// the line; whether coloured or not, none of them is obeyed.
fn refused(typed: &[OsString], error: clap::Error) -> Usage {
    let shown = typed.iter().map(|word| shown_path(Path::new(word)).into());
    let error = Args::read(shown).err().unwrap_or(error);
    let text = error.render();
    let (text, coloured) = (text.to_string(), text.ansi().to_string());
    Usage { text, coloured, is_error: error.use_stderr() }
}

impl Colour {
    /// What `--color` says where the rest of the command line could not be read.
    pub fn typed(args: &[OsString]) -> Self {
        let words: Vec<&str> = args.iter().filter_map(|arg| arg.to_str()).collect();
        let after = |at: usize| words.get(at + 1).copied();
        let said = words.iter().enumerate().find_map(|(at, word)| match *word {
            "--color" => after(at),
            word => word.strip_prefix("--color="),
        });
        said.and_then(|said| Self::from_str(said, false).ok()).unwrap_or_default()
    }

    /// Whether there is colour, given what the stream and the environment say.
    pub fn wanted(self, by_itself: bool) -> bool {
        match self {
            Self::Auto => by_itself,
            Self::Always => true,
            Self::Never => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(line: &str) -> Result<Options, Usage> {
        Options::parse(line.split(' ').map(OsString::from)).map(|(options, _)| options)
    }

    fn words(line: &str) -> Vec<OsString> {
        line.split(' ').map(OsString::from).collect()
    }

    #[test]
    fn no_command_is_compare_with_the_bundled_question() {
        let bare = parse("zoneprobe --possessions 64 --seed 9 --rank-by drives --dry-run").unwrap();
        assert_eq!(
            bare,
            parse("zoneprobe compare --possessions 64 --seed 9 --rank-by drives --dry-run").unwrap()
        );
        let Options::Compare(run) = parse("zoneprobe").unwrap() else { panic!("not a comparison") };
        assert_eq!((run.file, run.seed, run.possessions, run.format), (None, 1, None, Format::Table));
        assert!(run.threads >= 1 && !run.quiet && !run.dry_run);
    }

    #[test]
    fn nonsense_is_refused() {
        for line in [
            "zoneprobe conpare",
            "zoneprobe compare --format xml",
            "zoneprobe simulate",
            "zoneprobe simulate sunken-122 --rank-by drives",
            "zoneprobe film",
            "zoneprobe check",
            "zoneprobe verify",
            "zoneprobe check a.toml --format csv",
            "zoneprobe catalog --possessions 5",
            "zoneprobe completions",
            "zoneprobe completions tcsh",
            "zoneprobe --seed 2 catalog",
        ] {
            assert!(parse(line).unwrap_err().is_error, "{line}");
        }
        let said = parse("zoneprobe --dry-run compare").unwrap_err().text;
        assert!(said.contains("--dry-run stands before the command; write it behind `compare`"), "{said}");
        assert!(!parse("zoneprobe --help").unwrap_err().is_error);
        assert!(!parse("zoneprobe --version").unwrap_err().is_error);
    }

    #[test]
    fn a_film_needs_its_possession_only() {
        let Options::Film(film) = parse("zoneprobe film --possession 41873").unwrap() else { panic!() };
        let expected = FilmOptions {
            file: None,
            variant: None,
            beside: None,
            seed: 1,
            possession: 41873,
            units: None,
            form: Form::Page,
            out: None,
            quiet: false,
        };
        assert_eq!(film, expected);
    }

    #[test]
    fn manners_may_stand_before_and_behind_any_command() {
        for line in ["zoneprobe --quiet film --possession 1", "zoneprobe film --possession 1 --quiet"] {
            let Options::Film(film) = parse(line).unwrap() else { panic!("{line}") };
            assert!(film.quiet, "{line}");
        }
        for line in ["zoneprobe --color always catalog", "zoneprobe catalog --color=always"] {
            assert_eq!(Options::parse(words(line)).unwrap().1, Colour::Always, "{line}");
        }
    }

    #[test]
    fn colour_is_found_in_a_line_that_cannot_be_read() {
        assert_eq!(Colour::typed(&words("zoneprobe conpare --color never")), Colour::Never);
        assert_eq!(Colour::typed(&words("zoneprobe --color=always conpare")), Colour::Always);
        for line in ["zoneprobe conpare", "zoneprobe --color", "zoneprobe --color puce"] {
            assert_eq!(Colour::typed(&words(line)), Colour::Auto, "{line}");
        }
        for by_itself in [false, true] {
            assert!(Colour::Always.wanted(by_itself) && !Colour::Never.wanted(by_itself));
            assert_eq!(Colour::Auto.wanted(by_itself), by_itself);
        }
    }
}
