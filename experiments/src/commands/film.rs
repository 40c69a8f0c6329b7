//! `film`: one possession again, told move for move, with a page that plays it where a folder is named.

use std::path::Path;

use scenarios::{Experiment, Variant};

use super::compare::quoted;
use crate::breakdown::caught;
use crate::cli::FilmOptions;
use crate::console::Console;
use crate::error::Error;
use crate::film::{Caption, SetupWords, narrate, page};
use crate::note::wrapped;
use crate::output::{claim_named, relative};
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
    let named = |file: &Path| relative(&file.to_string_lossy()).to_owned();
    let again = Again {
        file: options.file.as_deref().map(named),
        variant: options.variant.as_deref(),
        seed: options.seed,
        possession: options.possession,
    };
    let is_scenario = experiment.baseline == "as-given";
    let caption = Caption {
        name: if is_scenario {
            experiment.question.clone()
        } else {
            format!("{}, {}", experiment.key, variant.name)
        },
        question: if is_scenario { String::new() } else { experiment.question.clone() },
        seed: options.seed,
        command: again.command(),
    };
    let text = format!(
        "{}\nvariant {}, seed {}, possession {}\n\n{}",
        wrapped(&experiment.question, 100),
        variant.name,
        options.seed,
        options.possession,
        narrate(&film, &SetupWords::new(&variant.setup, &film))
    );
    let written = destination
        .map(|to| {
            let page = page(&film, &variant.setup, &caption).into_bytes();
            to.write(&[("film.html", page), ("trace.txt", text.clone().into_bytes())])
        })
        .transpose()?;
    console.print(&text)?;
    if let Some(folder) = written.filter(|_| !options.quiet) {
        console.say(&format!("written to {}\n", folder.display()));
    }
    Ok(())
}

/// What has to be typed to see a film again.
struct Again<'a> {
    file: Option<String>,
    variant: Option<&'a str>,
    seed: u64,
    possession: u64,
}

impl Again<'_> {
    fn command(&self) -> String {
        let mut text = String::from("zoneprobe film");
        if let Some(file) = &self.file {
            text.push_str(&format!(" {}", quoted(file)));
        }
        text.push_str(&format!(" --seed {} --possession {}", self.seed, self.possession));
        if let Some(variant) = self.variant {
            text.push_str(&format!(" --variant {}", quoted(variant)));
        }
        text + " --out film"
    }
}

/// The variant asked for; without a word the baseline.
fn chosen<'a>(experiment: &'a Experiment, asked: Option<&str>) -> Result<&'a Variant, Error> {
    let name = asked.unwrap_or(&experiment.baseline);
    experiment.variants.iter().find(|variant| variant.name == name).ok_or_else(|| {
        let names: Vec<&str> = experiment.variants.iter().map(|variant| variant.name.as_str()).collect();
        Error::Option(format!("no variant is called {name}; there are {}", listed(&names)))
    })
}
