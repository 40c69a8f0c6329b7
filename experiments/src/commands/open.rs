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
use super::{again, input, until_sure};
use crate::arena::EnginePlayer;
use crate::cli::{FilmOptions, Form, OpenOptions, Options, RunOptions};
use crate::columns::ratios;
use crate::compare::{Comparison, Question};
use crate::console::Console;
use crate::crash::caught;
use crate::error::Error;
use crate::film::{Side, never_part, page, page_beside};
use crate::kept::{Parts, RunOf};
use crate::open::Stage;
use crate::output::Reservation;
use crate::places::MOST_WATCHED;
use crate::run::{FIRST, Keeper, Plan, Played, Watch, run};
use crate::selection::{Racing, Selected, Selection};
use crate::sheet;
use crate::stats::{Totals, UntilSure};
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
    /// What chose these variants, where they are what a choice has left.
    selection: Option<Selection>,
}

/// How much of a question is played, and how.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Size {
    /// Possessions of each variant; where it is chosen before, of each that is left.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
    /// Until when it is chosen before.
    pub until: Option<UntilSure>,
}

/// The words of the command line of `compare`, but for the program.
fn line(file: Option<&str>, size: Size, stop_at: Option<u64>) -> Vec<String> {
    let Size { possessions, seed, threads, until } = size;
    let numbers = [("--possessions", possessions), ("--seed", seed), ("--threads", threads as u64)];
    let mut words = vec!["compare".to_owned()];
    words.extend(file.map(str::to_owned));
    let mut add = |name: &str, value: String| words.extend([name.to_owned(), value]);
    numbers.into_iter().for_each(|(name, value)| add(name, value.to_string()));
    if let Some(UntilSure { margin, budget }) = until {
        add("--until-sure", margin.to_string());
        add("--budget", budget.to_string());
    }
    stop_at.into_iter().for_each(|look| add("--stop-at", look.to_string()));
    words
}

impl Asking {
    /// The question in a file of a folder, or the bundled one.
    ///
    /// # Errors
    /// It cannot be used.
    pub fn new(place: Option<(&Path, &str)>, size: Size) -> Result<Self, Error> {
        let experiment = input::experiment(place.map(|(folder, name)| folder.join(name)).as_deref())?;
        let words = line(place.map(|(_, name)| name), size, None);
        let words = std::iter::once("zoneprobe".to_owned()).chain(words).map(OsString::from);
        let options = match Options::parse(words) {
            Ok((Options::Compare(options), _)) => options,
            Ok(_) => return Err(Error::Bug("a comparison was asked for".into())),
            Err(usage) => return Err(Error::Option(usage.text)),
        };
        let question = question(&experiment, &options)?;
        until_sure::check(&question, &options)?;
        Ok(Self { experiment, question, options, ratios: ratios(), selection: None })
    }

    /// What is still asked once it was chosen; `stop_at` is the look at which the choice was stopped, if it was.
    ///
    /// # Errors
    /// None, as the question has been asked before.
    pub fn after(&self, selected: Selected, stop_at: Option<u64>) -> Result<Self, Error> {
        let experiment = self.experiment.only(&selected.to_measure(self.question.baseline));
        let options = RunOptions { stop_at, ..self.options.clone() };
        let question = question(&experiment, &options)?;
        let selection = Some(selected.selection);
        Ok(Self { experiment, question, options, ratios: self.ratios.clone(), selection })
    }

    /// The choice that is to be made before, where one is.
    pub fn racing(&self) -> Option<Racing> {
        let own = |until| Racing::new(&self.question.variants, self.question.rank_by, until);
        self.options.until_sure.map(own)
    }

    /// Until when it is chosen before.
    pub fn until(&self) -> Option<UntilSure> {
        self.options.until_sure
    }

    /// Places of all variants.
    pub fn all(&self) -> Vec<usize> {
        (0..self.question.variants.len()).collect()
    }

    /// Names of some variants.
    pub fn names(&self, some: &[usize]) -> Vec<String> {
        some.iter().map(|v| self.question.variants[*v].clone()).collect()
    }

    /// Plays possessions of some variants.
    ///
    /// # Errors
    /// Those of a run.
    pub fn play(&self, some: &[usize], possessions: Range<u64>, watch: &dyn Watch) -> Result<Played, Error> {
        let setups = some.iter().map(|v| self.experiment.variants[*v].setup.clone()).collect();
        run(&self.plan(some, possessions), &EnginePlayer::new(setups, self.options.seed), watch)
    }

    /// What no possession of some variants comes to.
    pub fn nothing(&self, some: &[usize]) -> Played {
        self.plan(some, 0..0).nothing()
    }

    fn plan(&self, some: &[usize], possessions: Range<u64>) -> Plan<'_> {
        Plan {
            variants: self.names(some),
            possessions,
            batch: self.options.batch,
            threads: self.options.threads,
            ratios: &self.ratios,
        }
    }

    /// What possessions come to, and what may be said of them.
    pub fn judged(&self, totals: &Totals) -> (Comparison, Verdict) {
        let comparison = Comparison::new(self.question.clone(), totals);
        let by_net = sheet::by_net(&self.question, totals);
        let mut verdict =
            Verdict::new(&comparison, &by_net).by_setting(&self.experiment, totals, self.question.rank_by);
        verdict.selection.clone_from(&self.selection);
        (comparison, verdict.told_in(self.units(&self.experiment.variants[self.question.baseline])))
    }

    /// Keeps what was played in a folder, as a run of just so many possessions that was stopped would have: the same command
    /// with `--resume` goes on with it. `whole` is what was asked before anything was chosen.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn keep(
        &self,
        folder: &Path,
        whole: &Self,
        (stages, possessions): (&[Stage], u64),
    ) -> Result<(), Error> {
        let options = RunOptions { possessions: Some(possessions), ..self.options.clone() };
        let whole_run = run_of(&Asked::new("compare", &whole.experiment, &options));
        let place = Reservation::named(folder)?;
        for (nth, stage) in stages.iter().enumerate() {
            let own = RunOf { variants: stage.variants.clone(), ..whole_run.clone() };
            let parts = match nth {
                0 => Parts::new(&place, &whole_run, &whole.experiment).of(&own),
                _ => Parts::resumed(&place, &own, 0),
            };
            stage.blocks.iter().try_for_each(|(block, played)| parts.keep(block, played))?;
        }
        Ok(())
    }

    /// The question as it is told to people.
    pub fn asked(&self) -> String {
        self.units(&self.experiment.variants[self.question.baseline]).retold(&self.question.text).into_owned()
    }

    /// Possessions that are played besides, to write the result of so many of each: about so many.
    pub fn besides(&self, possessions: u64) -> u64 {
        let again = again_at_most(&self.experiment, possessions).ok().flatten();
        let watched = possessions.min(FIRST) * self.experiment.variants.len() as u64;
        again.map_or(0, |again| again.answers * again.each) + 2 * (watched + MOST_WATCHED.min(possessions))
    }

    /// The words that have the program write the result of so many possessions, going on with what is kept.
    pub fn line(&self, possessions: u64, out: &str) -> Vec<String> {
        let RunOptions { file, seed, threads, until_sure: until, stop_at, .. } = &self.options;
        let file = file.as_deref().and_then(Path::to_str);
        let size = Size { possessions, seed: *seed, threads: *threads, until: *until };
        let more = ["--out", out, "--resume", "--quiet"].map(str::to_owned);
        line(file, size, *stop_at).into_iter().chain(more).collect()
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
