//! `open`: the page, and what it takes of the other commands. Whatever the page plays, keeps, films and writes goes through
//! here, so that it is what the same command line would have come to.

use std::ffi::OsString;
use std::ops::Range;
use std::path::Path;

use engine::film::Film;
use scenarios::{Experiment, Variant};

use super::beside::again_at_most;
use super::compare::{question, run_of};
use super::film::caption;
use super::result::Asked;
use super::{again, input};
use crate::arena::EnginePlayer;
use crate::cli::{FilmOptions, Form, OpenOptions, Options, RunOptions};
use crate::columns::ratios;
use crate::compare::{Comparison, Question};
use crate::console::Console;
use crate::crash::caught;
use crate::error::Error;
use crate::film::{Side, never_part, page, page_beside};
use crate::kept::Parts;
use crate::output::Reservation;
use crate::places::MOST_WATCHED;
use crate::run::{FIRST, Keeper, Plan, Played, Watch, run};
use crate::sheet;
use crate::units::Units;
use crate::verdict::Verdict;

/// Serves the page until it is told to end.
pub fn open(options: &OpenOptions, console: &mut Console) -> Result<(), Error> {
    crate::open::serve(options, console)
}

/// A question as `compare` has it.
pub(crate) struct Asking {
    /// What is played.
    pub experiment: Experiment,
    /// What is asked.
    pub question: Question,
    /// How.
    options: RunOptions,
    /// The pairs of measures whose ratios the table needs.
    ratios: Vec<(usize, usize)>,
}

/// The words of the command line of `compare`, but for the program.
pub(crate) fn line(file: Option<&str>, possessions: u64, seed: u64, threads: usize) -> Vec<String> {
    let file = file.map(str::to_owned);
    let numbers = [("--possessions", possessions), ("--seed", seed), ("--threads", threads as u64)];
    let numbers = numbers.into_iter().flat_map(|(name, value)| [name.to_owned(), value.to_string()]);
    std::iter::once("compare".to_owned()).chain(file).chain(numbers).collect()
}

impl Asking {
    /// The question in a file of a folder, or the bundled one.
    ///
    /// # Errors
    /// It cannot be used.
    pub fn new(
        place: Option<(&Path, &str)>,
        (possessions, seed, threads): (u64, u64, usize),
    ) -> Result<Self, Error> {
        let experiment = input::experiment(place.map(|(folder, name)| folder.join(name)).as_deref())?;
        let words = line(place.map(|(_, name)| name), possessions, seed, threads);
        let words = std::iter::once("zoneprobe".to_owned()).chain(words).map(OsString::from);
        let options = match Options::parse(words) {
            Ok((Options::Compare(options), _)) => options,
            Ok(_) => return Err(Error::Bug("a comparison was asked for".into())),
            Err(usage) => return Err(Error::Option(usage.text)),
        };
        let question = question(&experiment, &options)?;
        Ok(Self { experiment, question, options, ratios: ratios() })
    }

    /// Plays possessions of each variant.
    ///
    /// # Errors
    /// Those of a run.
    pub fn play(&self, possessions: Range<u64>, watch: &dyn Watch) -> Result<Played, Error> {
        let setups = self.experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
        run(&self.plan(possessions), &EnginePlayer::new(setups, self.options.seed), watch)
    }

    /// What no possession comes to.
    pub fn nothing(&self) -> Played {
        self.plan(0..0).nothing()
    }

    fn plan(&self, possessions: Range<u64>) -> Plan<'_> {
        Plan {
            variants: self.question.variants.clone(),
            possessions,
            batch: self.options.batch,
            threads: self.options.threads,
            ratios: &self.ratios,
        }
    }

    /// What possessions come to, and what may be said of them.
    pub fn judged(&self, played: &Played) -> (Comparison, Verdict) {
        let comparison = Comparison::new(self.question.clone(), &played.totals);
        let by_net = sheet::by_net(&self.question, &played.totals);
        let verdict = Verdict::new(&comparison, &by_net)
            .by_setting(&self.experiment, &played.totals, self.question.rank_by)
            .told_in(self.units(&self.experiment.variants[self.question.baseline]));
        (comparison, verdict)
    }

    /// Keeps what was played in a folder, as a run of just so many possessions that was stopped would have: the same command
    /// with `--resume` goes on with it.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn keep(&self, folder: &Path, blocks: &[(Range<u64>, Played)]) -> Result<(), Error> {
        let possessions = blocks.last().map(|(block, _)| block.end);
        let options = RunOptions { possessions, ..self.options.clone() };
        let asked = Asked::new("compare", &self.experiment, &options);
        let place = Reservation::named(folder)?;
        let parts = Parts::new(&place, &run_of(&asked), &self.experiment);
        blocks.iter().try_for_each(|(block, played)| parts.keep(block, played))
    }

    /// The question as it is told to people.
    pub fn asked(&self) -> String {
        self.units(&self.experiment.variants[self.question.baseline]).retold(&self.question.text).into_owned()
    }

    /// Worker threads.
    pub fn threads(&self) -> usize {
        self.options.threads
    }

    /// Possessions that are played besides, to write the result of so many of each: about so many.
    pub fn besides(&self, possessions: u64) -> u64 {
        let again = again_at_most(&self.experiment, possessions).ok().flatten();
        let watched = possessions.min(FIRST) * self.experiment.variants.len() as u64;
        again.map_or(0, |again| again.answers * again.each) + 2 * (watched + MOST_WATCHED.min(possessions))
    }

    /// The command that makes the result of so many possessions again.
    pub fn command(&self, possessions: u64) -> String {
        again::run("compare", &self.options, &self.experiment, possessions)
    }

    /// The page of a possession of one variant, and of another beside it where one is named and does something else.
    ///
    /// # Errors
    /// The possession broke down.
    pub fn film(&self, variant: usize, beside: Option<usize>, possession: u64) -> Result<String, Error> {
        let variants = &self.experiment.variants;
        let one = &variants[variant];
        let film = self.filmed(one, possession)?;
        let side = self.side(one, &film);
        if let Some(other) = beside.map(|other| &variants[other]) {
            let beside = self.filmed(other, possession)?;
            let sides = [side, self.side(other, &beside)];
            if !never_part(&sides) {
                let caption =
                    caption(&self.experiment, &one.name, &self.film_options(Some(&other.name), possession));
                return Ok(page_beside(&sides, &caption));
            }
        }
        Ok(page(&side, &caption(&self.experiment, &one.name, &self.film_options(None, possession))))
    }

    /// Whether a possession goes another way with one of two variants than with the other.
    ///
    /// # Errors
    /// It broke down.
    pub fn part(&self, sides: [usize; 2], possession: u64) -> Result<bool, Error> {
        let [one, other] = sides.map(|side| &self.experiment.variants[side]);
        let (film, beside) = (self.filmed(one, possession)?, self.filmed(other, possession)?);
        Ok(!never_part(&[self.side(one, &film), self.side(other, &beside)]))
    }

    fn filmed(&self, variant: &Variant, possession: u64) -> Result<Film, Error> {
        caught(|| engine::film_possession(&variant.setup, self.options.seed, possession)).map_err(Error::Bug)
    }

    fn side<'a>(&self, variant: &'a Variant, film: &'a Film) -> Side<'a> {
        Side { name: &variant.name, film, setup: &variant.setup, units: self.units(variant) }
    }

    fn units(&self, variant: &Variant) -> Units {
        Units::of(self.options.units, &variant.setup.court)
    }

    fn film_options(&self, beside: Option<&str>, possession: u64) -> FilmOptions {
        FilmOptions {
            file: self.options.file.clone(),
            variant: None,
            beside: beside.map(str::to_owned),
            seed: self.options.seed,
            possession,
            units: self.options.units,
            form: Form::Page,
            out: None,
            quiet: true,
        }
    }
}
