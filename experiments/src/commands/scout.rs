//! `scout`: an opponent's zone from what was seen of it, or the blank form to write that down.

use std::path::Path;

use scenarios::watching::COMPARED;

use super::handed::{Answer, Blank, WIDTH, blank_or_answered};
use super::input::{beside, name_from, whole_name};
use crate::cli::ScoutOptions;
use crate::console::Console;
use crate::error::Error;
use crate::note::NOTE;
use crate::output::file;
use crate::scouting::{
    MOST, Played, Posterior, Row, attacks, blank_csv, blank_page, dials, estimate_lines, likely, rules,
    scouted, setup, told,
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
    let dials = dials(&rules(&scenario)?);
    let attacks = attacked(options, &scenario)?;
    let played = Played {
        scenario: &scenario,
        possessions: options.possessions,
        seed: options.seed,
        threads: options.threads,
    };
    let likely = likely(&played, &dials)?;
    let beliefs: Vec<Posterior> = dials
        .iter()
        .zip(likely.iter().zip(&seen))
        .map(|(dial, (likely, seen))| Posterior::new(dial, likely, seen))
        .collect();
    let mut text = String::new();
    told(&dials, &beliefs).iter().for_each(|line| text.push_str(&format!("{}\n", wrapped(line, WIDTH))));
    text.push_str(&format!("\n{}\n", wrapped(NOTE, WIDTH)));
    let scenario = match &options.out {
        Some(folder) => name_from(folder, &options.scenario)?,
        None => scenario,
    };
    let question = scouted(&scenario, options.seed, &attacks, (&dials, &beliefs));
    Ok((text, vec![file(estimate_lines(&dials, &beliefs)), (QUESTION.into(), question.into_bytes())]))
}

/// The attacks that are to meet the zones: those of the question that was named, or the rover on some routes, where the scenario
/// has a rover to send; else the scenario's attack alone.
fn attacked(options: &ScoutOptions, scenario: &str) -> Result<Vec<Row>, Error> {
    let Some(question) = &options.question else {
        let route = |name: &&str| Row {
            name: (*name).to_owned(),
            settings: vec![("attack.rover.route".into(), format!("\"{name}\""))],
            note: None,
        };
        let rows: Vec<Row> = COMPARED.iter().map(route).collect();
        let can_be_played =
            |row: &Row| setup(scenario, &[(row.settings[0].0.as_str(), row.settings[0].1.as_str())]).is_ok();
        return Ok(if rows.iter().all(can_be_played) {
            rows
        } else {
            vec![Row { name: "as-given".into(), settings: Vec::new(), note: None }]
        });
    };
    let experiment = scenarios::experiment(question).map_err(Error::Faults)?;
    let folder = question.parent().unwrap_or(Path::new(""));
    let variants = experiment.variants.iter().map(|variant| {
        let settings = beside(folder, options.out.as_deref(), &variant.settings)?;
        Ok((variant.name.clone(), settings))
    });
    let rows = attacks(&variants.collect::<Result<Vec<_>, Error>>()?, 0);
    // Against their zone as scouted, and at least one that is drawn.
    if rows.len() > MOST / 2 {
        let problem =
            format!("the question has {} attacks, at most {} can meet several zones", rows.len(), MOST / 2);
        return Err(Error::Option(problem));
    }
    Ok(rows)
}
