//! The films that a report plays: a page each of the possessions that were chosen by rule.

use scenarios::Experiment;

use super::film::caption;
use crate::cli::{FilmOptions, RunOptions};
use crate::film::page;
use crate::places::Tables;
use crate::report::FilmPage;

/// A page for each still of the leaders, in their order.
pub(super) fn films(experiment: &Experiment, tables: &Tables, options: &RunOptions) -> Vec<FilmPage> {
    let mut pages = Vec::new();
    for ((&variant, stills), films) in tables.leaders.iter().zip(&tables.stills).zip(&tables.films) {
        let (setup, name) = (&tables.setups[variant], &experiment.variants[variant].name);
        for (still, film) in stills.iter().zip(films) {
            let asked = FilmOptions {
                file: options.file.clone(),
                variant: Some(name.clone()),
                beside: None,
                seed: options.seed,
                possession: still.possession,
                out: None,
                quiet: false,
            };
            let page = page(film, setup, &caption(experiment, name, &asked));
            pages.push(FilmPage { variant, choice: still.choice, page });
        }
    }
    pages
}
