//! The films that a report plays: a page each of the possessions that were chosen by rule, and of the best one's the same
//! possession of the one that it is compared with beside it.

use engine::film::Film;
use scenarios::Experiment;

use super::film::caption;
use crate::cli::{FilmOptions, Form, RunOptions};
use crate::crash::caught;
use crate::film::{Side, never_part, page, page_beside};
use crate::places::Tables;
use crate::report::FilmPage;
use crate::units::Units;

/// A page for each still of the leaders, in their order; those of the first leader, the best by the question, are followed by
/// a page beside the baseline.
pub(super) fn films(experiment: &Experiment, tables: &Tables, options: &RunOptions) -> Vec<FilmPage> {
    let mut pages = Vec::new();
    for ((&variant, stills), films) in tables.leaders.iter().zip(&tables.stills).zip(&tables.films) {
        let (setup, name) = (&tables.setups[variant], &experiment.variants[variant].name);
        let is_best = tables.leaders.first() == Some(&variant);
        for (still, film) in stills.iter().zip(films) {
            let asked = asked(options, name, still.possession);
            let side = Side { name, film, setup, units: Units::of(options.units, &setup.court) };
            let own = page(&side, &caption(experiment, name, &asked));
            pages.push(FilmPage { variant, choice: still.choice, beside: None, page: own });
            if is_best && *name != experiment.baseline {
                let page = beside_baseline(experiment, tables, side, asked);
                let beside = Some(experiment.baseline.clone());
                pages.extend(page.map(|page| FilmPage { variant, choice: still.choice, beside, page }));
            }
        }
    }
    pages
}

/// What was asked of a film that was not asked for by itself.
fn asked(options: &RunOptions, variant: &str, possession: u64) -> FilmOptions {
    FilmOptions {
        file: options.file.clone(),
        variant: Some(variant.into()),
        beside: None,
        seed: options.seed,
        possession,
        units: options.units,
        form: Form::Page,
        out: None,
        quiet: false,
    }
}

/// The page of a film beside the same possession of the baseline; an empty one where the two are the same, none where that
/// cannot be played.
fn beside_baseline(
    experiment: &Experiment,
    tables: &Tables,
    one: Side<'_>,
    asked: FilmOptions,
) -> Option<String> {
    let names = experiment.variants.iter().map(|variant| &variant.name);
    let setup = &tables.setups[names.clone().position(|name| *name == experiment.baseline)?];
    let film: Film = caught(|| engine::film_possession(setup, asked.seed, asked.possession)).ok()?;
    let other = Side { name: &experiment.baseline, film: &film, setup, units: one.units };
    if never_part(&[one, other]) {
        return Some(String::new());
    }
    let asked = FilmOptions { beside: Some(experiment.baseline.clone()), ..asked };
    Some(page_beside(&[one, other], &caption(experiment, one.name, &asked)))
}
