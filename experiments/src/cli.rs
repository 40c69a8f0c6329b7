//! The command line: as typed (`Args`, by clap) and as meant ([`Options`]). No clap type leaves this module.

mod bench;
mod column;
mod filming;
mod game;
mod help;
mod manual;
mod number;
mod options;
mod playing;
mod shells;
mod sure;
mod typed;

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use scenarios::shown_path;

use crate::sheet::Game;

use filming::FilmFlags;
use playing::processors;
use typed::{Args, Command, Manners};

pub use typed::COLUMNS;

pub use manual::{manual, manuals};
pub use options::*;
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
