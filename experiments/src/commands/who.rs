//! `who`: which of a squad should be rover, guards and posts of an attack.

use std::ops::Range;
use std::path::Path;
use std::sync::Arc;

use engine::setup::Setup;
use scenarios::{Squad, shown_path};

use super::handed::{Answer, WIDTH, say_where};
use super::input::{name_from, whole_name};
use crate::arena::EnginePlayer;
use crate::cli::WhoOptions;
use crate::columns::{CONFIDENCE, Column, ratios};
use crate::console::Console;
use crate::error::Error;
use crate::lineups::{
    Lineup, MOST, QUESTION, TRIED_POSSESSIONS, Told, best, lacking, lineups, question, to_try, told,
    who_lines,
};
use crate::note::NOTE;
use crate::output::{Reservation, file};
use crate::progress::Progress;
use crate::run::{Plan, Played, run};
use crate::selection::{FROM, Selected};
use crate::stats::normal::two_sided_z;
use crate::wrapping::wrapped;

/// Players of a squad.
const FEWEST: usize = 6;
const MOST_PLAYERS: usize = 10;
/// What is ranked by where nothing is said.
const RANK_BY: &str = crate::verdict::NET;

/// Says who should play where.
pub fn who(options: &WhoOptions, console: &mut Console) -> Result<(), Error> {
    let squad = scenarios::squad(&options.squad).map_err(Error::Faults)?;
    let (players, shown) = (squad.candidates.len(), shown_path(&options.squad));
    if !(FEWEST..=MOST_PLAYERS).contains(&players) {
        let allowed = format!("allowed are {FEWEST} to {MOST_PLAYERS}");
        return Err(Error::Option(format!(
            "{shown} has {players} players, {allowed}; a roster of five needs no choice"
        )));
    }
    if let Some(lacking) = lacking(&squad.candidates) {
        return Err(Error::Option(format!("{shown}: {lacking}; say more in `plays`")));
    }
    let place = options.out.as_deref().map(Reservation::named).transpose()?;
    let (text, files) = Asked::new(options, &squad)?.answered()?;
    let written = place.map(|place| place.write(&files)).transpose()?;
    let printed = console.print(&text);
    if let Some(written) = &written {
        say_where(written, options.quiet, console);
    }
    Ok(printed?)
}

/// What is asked.
struct Asked<'a> {
    options: &'a WhoOptions,
    squad: &'a Squad,
    scenario: String,
    column: &'static Column,
    /// Every line-up that can be made.
    all: Vec<Lineup>,
}

impl<'a> Asked<'a> {
    fn new(options: &'a WhoOptions, squad: &'a Squad) -> Result<Self, Error> {
        let all = lineups(&squad.candidates);
        if all.len() < 2 {
            return Err(Error::Option(format!(
                "{} makes one line-up only, so there is nothing to choose; say more in `plays`",
                shown_path(&options.squad)
            )));
        }
        let column = Column::named(options.rank_by.as_deref().unwrap_or(RANK_BY))
            .ok_or_else(|| Error::Option("no such column".into()))?;
        Ok(Self { options, squad, scenario: whole_name(&options.scenario)?, column, all })
    }

    fn answered(&self) -> Result<Answer, Error> {
        let (tried, raced) = self.to_race()?;
        let setups = self.setups(&raced)?;
        let names: Vec<String> = raced.iter().map(|(number, _)| format!("line-up {number}")).collect();
        let selected = Selected::race(&names, self.column, self.options.until, |left, possessions| {
            let own = left.iter().map(|nth| setups[*nth].clone()).collect();
            self.play(own, possessions, "possessions to choose")
        })?;
        let own = selected.to_measure(0);
        let chosen: Vec<_> = own.iter().map(|nth| setups[*nth].clone()).collect();
        let played = self.play(chosen, 0..self.options.possessions, "possessions to measure")?;
        let z = two_sided_z(CONFIDENCE);
        let figures = own.iter().enumerate();
        let measured: Vec<_> = figures
            .filter_map(|(at, nth)| Some((*nth, self.column.interval(&played.totals, at, z)?)))
            .collect();
        let measured = (self.options.possessions, measured.as_slice());
        let (squad, left) = (&self.squad.candidates, selected.left());
        let (all, column) = (self.all.len(), self.column);
        let found = Told {
            squad,
            all,
            tried,
            raced: &raced,
            setups: &setups,
            selected: &selected,
            left,
            measured,
            column,
        };
        let (table, words) = told(&found);
        let words: Vec<String> = words.iter().map(|line| wrapped(line, WIDTH)).collect();
        let text = format!("{table}\n\n{}\n\n{}\n", words.join("\n"), wrapped(NOTE, WIDTH));
        let mut files = vec![file(who_lines(squad, &raced, &selected, measured))];
        let kept: Vec<(usize, Lineup)> = own.iter().map(|nth| raced[*nth]).collect();
        let scenario = match &self.options.out {
            Some(folder) => name_from(folder, &self.options.scenario)?,
            None => self.scenario.clone(),
        };
        let (question, rosters) = question(&scenario, self.squad, &kept, Path::new(""));
        files.push((QUESTION.into(), question.into_bytes()));
        files.extend(rosters.into_iter().map(|(name, source)| (name, source.text.into_bytes())));
        Ok((text, files))
    }

    /// How many line-ups were tried to find those that are raced, if they had to be; and these, with their numbers.
    fn to_race(&self) -> Result<(Option<usize>, Vec<(usize, Lineup)>), Error> {
        let numbered = |places: &[usize]| places.iter().map(|nth| (nth + 1, self.all[*nth])).collect();
        if self.all.len() <= MOST {
            return Ok((None, numbered(&(0..self.all.len()).collect::<Vec<_>>())));
        }
        let tried = to_try(self.all.len(), self.options.seed);
        let setups = self.setups(&numbered(&tried))?;
        // Neither those that choose nor those that measure.
        let possessions = 2 * FROM..2 * FROM + TRIED_POSSESSIONS;
        let totals = self.play(setups, possessions, "possessions to find the most promising")?.totals;
        let worth = |(at, nth): (usize, &usize)| {
            let estimate = self.column.interval(&totals, at, 0.0)?.estimate;
            Some((*nth, self.column.better.turned(estimate)))
        };
        let worth: Vec<(usize, f64)> = tried.iter().enumerate().filter_map(worth).collect();
        let kept = best(&self.all, self.squad.candidates.len(), &worth, MOST);
        Ok((Some(tried.len()), numbered(&kept)))
    }

    /// The setups of line-ups.
    fn setups(&self, lineups: &[(usize, Lineup)]) -> Result<Vec<Arc<Setup>>, Error> {
        // The folder is that of the squad, so that a fault's name leads there.
        let folder = self.options.squad.parent().unwrap_or(Path::new(""));
        let (text, rosters) = question(&self.scenario, self.squad, lineups, folder);
        let beside = rosters.into_iter().map(|(_, source)| source).collect();
        let experiment =
            scenarios::experiment_beside(text, &folder.join(QUESTION), beside).map_err(Error::Faults)?;
        let has_players =
            |text: &str| toml::from_str::<toml::Table>(text).is_ok_and(|file| file.contains_key("player"));
        if experiment.inputs.iter().any(|source| has_players(&source.text)) {
            return Err(Error::Option(format!(
                "{} has players of its own ([[player]]), which would lie over those of the squad; leave them out",
                shown_path(&self.options.scenario)
            )));
        }
        Ok(experiment.variants.into_iter().map(|variant| variant.setup).collect())
    }

    fn play(
        &self,
        setups: Vec<Arc<Setup>>,
        possessions: Range<u64>,
        what: &'static str,
    ) -> Result<Played, Error> {
        let ratios = ratios();
        let many = (possessions.end - possessions.start) * setups.len() as u64;
        let variants = (1..=setups.len()).map(|nth| nth.to_string()).collect();
        let plan =
            Plan { variants, possessions, batch: None, threads: self.options.threads, ratios: &ratios };
        let progress = Progress::new(many, what, self.options.quiet);
        let played = run(&plan, &EnginePlayer::new(setups, self.options.seed), &progress)?;
        match played.crashes.first() {
            None => Ok(played),
            Some(crash) => Err(Error::Crashes(format!(
                "possession {} broke down with seed {}: {}; that is a fault of the program, not of your files. Please report \
                 it to its developers, with your files and this message",
                crash.possession, self.options.seed, crash.message
            ))),
        }
    }
}
