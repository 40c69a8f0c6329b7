//! `film`: one possession again, told move for move.

use scenarios::{Experiment, Variant};

use crate::breakdown::caught;
use crate::cli::FilmOptions;
use crate::console::Console;
use crate::error::Error;
use crate::film::{SetupWords, narrate};
use crate::note::wrapped;
use crate::output::claim_named;
use crate::wording::listed;

/// Plays one possession of one variant again and tells it.
pub fn film(options: &FilmOptions, console: &mut Console) -> Result<(), Error> {
    let experiment = match &options.file {
        Some(file) => scenarios::experiment(file),
        None => scenarios::bundled_question(),
    }
    .map_err(Error::Faults)?;
    let variant = chosen(&experiment, options.variant.as_deref())?;
    let destination = options.out.as_deref().map(claim_named).transpose()?;
    let film = caught(|| engine::film_possession(&variant.setup, options.seed, options.possession))
        .map_err(|message| Error::Breakdowns(format!("the possession broke down: {message}")))?;
    let text = format!(
        "{}\nvariant {}, seed {}, possession {}\n\n{}",
        wrapped(&experiment.question, 100),
        variant.name,
        options.seed,
        options.possession,
        narrate(&film, &SetupWords::new(&variant.setup, &film))
    );
    let written = destination.map(|to| to.write(&[("trace.txt", text.clone().into_bytes())])).transpose()?;
    console.print(&text)?;
    if let Some(folder) = written.filter(|_| !options.quiet) {
        console.say(&format!("written to {}\n", folder.display()));
    }
    Ok(())
}

/// The variant asked for; without a word the baseline.
fn chosen<'a>(experiment: &'a Experiment, asked: Option<&str>) -> Result<&'a Variant, Error> {
    let name = asked.unwrap_or(&experiment.baseline);
    experiment.variants.iter().find(|variant| variant.name == name).ok_or_else(|| {
        let names: Vec<&str> = experiment.variants.iter().map(|variant| variant.name.as_str()).collect();
        Error::Option(format!("no variant is called {name}; there are {}", listed(&names)))
    })
}
