//! `scout`: an opponent's zone from what was seen of it, or the blank form to write that down.

use std::path::Path;

use super::handed::{Answer, Blank, WIDTH, blank_or_answered};
use super::input::whole_name;
use crate::cli::ScoutOptions;
use crate::console::Console;
use crate::error::Error;
use crate::note::NOTE;
use crate::output::file;
use crate::scouting::{
    Played, Posterior, blank_csv, blank_page, dials, estimate_lines, likely, scouted, told,
};
use crate::wrapping::wrapped;

/// Name of the question that is written.
const QUESTION: &str = "scouted.toml";

/// Writes the blank form, or says what sightings come to.
pub fn scout(options: &ScoutOptions, console: &mut Console) -> Result<(), Error> {
    let asked = (options.file.as_ref(), options.out.as_deref(), options.quiet);
    blank_or_answered(asked, console, blank, |file| answered(file, options))
}

fn blank() -> Blank {
    Blank {
        filled_in: "the table of sightings that you have filled in",
        page: ("sightings.html", blank_page()),
        table: blank_csv(),
        words: "Print sightings.html, make a stroke each time you see something, and type the sums into sightings.csv. Then: \
                zoneprobe scout sightings.csv\n",
    }
}

fn answered(file_of_sightings: &Path, options: &ScoutOptions) -> Result<Answer, Error> {
    let (seen, _) = scenarios::sightings(file_of_sightings).map_err(Error::Faults)?;
    let scenario = whole_name(&options.scenario)?;
    let played = Played {
        scenario: &scenario,
        possessions: options.possessions,
        seed: options.seed,
        threads: options.threads,
    };
    let likely = likely(&played)?;
    let beliefs: Vec<Posterior> = dials()
        .into_iter()
        .zip(likely.iter().zip(&seen))
        .map(|(dial, (likely, seen))| Posterior::new(dial, likely, seen))
        .collect();
    let mut text = String::new();
    told(&beliefs).iter().for_each(|line| text.push_str(&format!("{}\n", wrapped(line, WIDTH))));
    text.push_str(&format!("\n{}\n", wrapped(NOTE, WIDTH)));
    let question = scouted(&scenario, options.seed, &beliefs);
    Ok((text, vec![file(estimate_lines(&beliefs)), (QUESTION.into(), question.into_bytes())]))
}
