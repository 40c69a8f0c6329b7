//! The films that a report plays: a page each of the possessions that were chosen by rule.

use engine::Arena;
use scenarios::Experiment;

use super::film::caption;
use crate::breakdown::caught;
use crate::cli::{FilmOptions, RunOptions};
use crate::film::page;
use crate::places::Tables;
use crate::report::FilmPage;

/// A page for each still of the leaders, in their order; a possession that cannot be played again is left out.
pub(super) fn films(experiment: &Experiment, tables: &Tables, options: &RunOptions) -> Vec<FilmPage> {
    let mut pages = Vec::new();
    for (&variant, stills) in tables.leaders.iter().zip(&tables.stills) {
        let (setup, name) = (&tables.setups[variant], &experiment.variants[variant].name);
        for still in stills {
            let film = caught(|| Arena::new(1).film(setup, options.seed, still.possession));
            let Ok(film) = film else { continue };
            let asked = FilmOptions {
                file: options.file.clone(),
                variant: Some(name.clone()),
                seed: options.seed,
                possession: still.possession,
                out: None,
                quiet: false,
            };
            let page = page(&film, setup, &caption(experiment, name, &asked));
            pages.push(FilmPage { variant, choice: still.choice, page });
        }
    }
    pages
}
