//! How likely each answer is under each value of a rule or dial, by playing possessions under it.

use scenarios::watching::{SHOWS_CORNERS, SHOWS_THE_REST};
use std::path::Path;
use std::sync::Arc;

use engine::setup::Setup;
use scenarios::{ASKED, ZoneRule, ZoneRules, shown};

use super::seen::sightings;
use crate::error::Error;
use crate::places::watched;

/// What a question tells of: a path of the scenario and its values.
#[derive(Clone, Debug)]
pub struct Dial {
    /// Dotted path in a scenario.
    pub path: &'static str,
    /// In words.
    pub words: &'static str,
    /// What is tried.
    pub values: Values,
}

/// Values of a rule or a dial.
#[derive(Clone, Debug)]
pub enum Values {
    /// The rules that the zone knows: with fewer than two there is nothing to tell.
    Rules(Vec<ZoneRule>),
    /// Numbers from the lowest to the highest, and their unit; between them answers are interpolated.
    Numbers(&'static [f64], &'static str),
}

impl Dial {
    /// Whether sightings can tell anything of it.
    pub fn is_open(&self) -> bool {
        !matches!(&self.values, Values::Rules(rules) if rules.len() < 2)
    }
}

/// What is changed in the scenario's attack so that there is something to be seen: of corners a rover who drops there in an
/// attack that has been taught nothing, else guards who fake twice.
pub fn watched_for(asked: usize) -> Vec<(&'static str, &'static str)> {
    if matches!(ASKED[asked].key, "corner" | "low-post") {
        SHOWS_CORNERS.to_vec()
    } else {
        SHOWS_THE_REST.to_vec()
    }
}

/// The rule or dial of each question for a zone with these rules, in the order of [`ASKED`]. Ranges: as far as the keys go, and
/// for the last two the high-school level's plausible range.
pub fn dials(rules: &ZoneRules) -> [Dial; ASKED.len()] {
    let dial = |path, words, values| Dial { path, words, values };
    [
        dial("zone.corner_rule", "corner rule", Values::Rules(rules.corner.clone())),
        dial("zone.post_help_rule", "post help rule", Values::Rules(rules.post_help.clone())),
        dial(
            "zone.sink_back_m",
            "sink of the back line",
            Values::Numbers(&[0.0, 0.3, 0.6, 0.9, 1.2, 1.5], "m"),
        ),
        dial(
            "zone.extension_m",
            "extension of the front line",
            Values::Numbers(&[0.0, 0.4, 0.8, 1.2, 1.6, 2.0], "m"),
        ),
        dial(
            "zone.closeout_stop_m",
            "how near closeouts stop",
            Values::Numbers(&[0.6, 0.8, 1.0, 1.2, 1.4], "m"),
        ),
        dial(
            "players.defence.head.bite_chance",
            "chance of biting on the first fake",
            Values::Numbers(&[0.1, 0.25, 0.4, 0.55, 0.7], ""),
        ),
    ]
}

/// The rules of a scenario's zone.
///
/// # Errors
/// The scenario cannot be used, or everybody follows his man in it.
pub fn rules(scenario: &str) -> Result<ZoneRules, Error> {
    let rules = scenarios::zone_rules(Path::new(scenario)).map_err(Error::Faults)?;
    if rules.follows_men {
        let problem = format!(
            "{}: the sheet asks how a zone moves, and in {} everybody follows his man: it has no lines and no rules to tell. \
             Name a scenario with their zone, such as zone = {{ use = \"2-3\" }}",
            shown(scenario),
            rules.zone
        );
        return Err(Error::Option(problem));
    }
    Ok(rules)
}

/// How often each answer to a question was given under each value.
#[derive(Clone, Debug, PartialEq)]
pub struct Likely {
    /// Values as they stand in a file, those that the zone knows.
    pub values: Vec<String>,
    /// `[value][answer]`: counts.
    pub counts: Vec<Vec<f64>>,
    /// In how many of the possessions there was an answer, as a share.
    pub comes_up: f64,
}

/// How a table of likelihoods is made.
#[derive(Clone, Copy, Debug)]
pub struct Played<'a> {
    /// The scenario, a file or a bundled name.
    pub scenario: &'a str,
    /// Possessions under each value.
    pub possessions: u64,
    /// Master seed.
    pub seed: u64,
    /// Worker threads.
    pub threads: usize,
}

/// The likelihoods of every question, in the order of [`ASKED`].
///
/// # Errors
/// The scenario cannot be used, or no threads could be started.
pub fn likely(played: &Played<'_>, dials: &[Dial]) -> Result<Vec<Likely>, Error> {
    (0..ASKED.len()).map(|asked| likely_of(played, asked, &dials[asked])).collect()
}

/// The likelihoods of one question; of one that tells nothing of the zone there are none.
///
/// # Errors
/// A value cannot be put into the scenario, or no threads could be started.
pub fn likely_of(played: &Played<'_>, asked: usize, dial: &Dial) -> Result<Likely, Error> {
    let values: Vec<String> = match &dial.values {
        Values::Rules(_) if !dial.is_open() => Vec::new(),
        Values::Rules(rules) => rules.iter().map(|rule| format!("\"{}\"", rule.name)).collect(),
        Values::Numbers(numbers, _) => numbers.iter().map(|number| format!("{number:?}")).collect(),
    };
    let mut counts = Vec::new();
    for value in &values {
        let set = [watched_for(asked).as_slice(), &[(dial.path, value)]].concat();
        counts.push(seen_under(&setup(played.scenario, &set)?, asked, played)?);
    }
    let seen: f64 = counts.iter().flatten().sum();
    let comes_up = seen / (played.possessions as f64 * values.len().max(1) as f64);
    Ok(Likely { values, counts, comes_up })
}

/// How often each answer to a question was given in possessions of a setup.
///
/// # Errors
/// No threads could be started.
fn seen_under(setup: &Arc<Setup>, asked: usize, played: &Played<'_>) -> Result<Vec<f64>, Error> {
    let look = |film: &engine::film::Film| sightings(film, setup)[asked];
    let answers = watched(setup, (played.seed, played.possessions), played.threads, look)?;
    let mut counts = vec![0.0; ASKED[asked].answers.len()];
    answers.into_iter().flatten().for_each(|answer| counts[answer] += 1.0);
    Ok(counts)
}

/// A scenario with values at some paths.
///
/// # Errors
/// The scenario, or a value, cannot be used.
pub fn setup(scenario: &str, set: &[(&str, &str)]) -> Result<Arc<Setup>, Error> {
    let set: Vec<String> = set.iter().map(|(path, value)| format!("\"{path}\" = {value}")).collect();
    let (folder, name) = if scenario.ends_with(".toml") {
        let path = Path::new(scenario);
        let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        (path.parent().unwrap_or(Path::new("")), name)
    } else {
        (Path::new(""), scenario.to_owned())
    };
    let text = format!(
        "scenario = {}\n[[variant]]\nname = \"scouted\"\nset = {{ {} }}\n",
        toml::Value::String(name),
        set.join(", ")
    );
    let experiment = scenarios::experiment_of(text, &folder.join("scouting.toml")).map_err(Error::Faults)?;
    Ok(experiment.variants[0].setup.clone())
}
