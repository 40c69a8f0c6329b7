//! What is written of an opponent: the estimates as a table, and a question whose variants are zones drawn from what is
//! believed.

use serde::Serialize;

use super::likely::{Dial, Values, dials};
use super::posterior::{Posterior, Value};
use super::told::name;
use crate::output::{Decimal, FileLine};
use crate::stats::Generator;

/// Zones that are drawn.
const DRAWN: usize = 8;

/// One row of `scouting.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct EstimateLine {
    what: &'static str,
    path: &'static str,
    value: String,
    chance: Decimal,
    low: Decimal,
    high: Decimal,
    sightings: u32,
    next_look_bits: Decimal,
}

impl FileLine for EstimateLine {
    const FILE: &'static str = "scouting.csv";
}

/// A row for each rule with its chance, and one for each dial with its interval.
pub fn estimate_lines(beliefs: &[Posterior]) -> Vec<EstimateLine> {
    let mut lines = Vec::new();
    for (dial, belief) in dials().iter().zip(beliefs) {
        let line = EstimateLine {
            what: dial.words,
            path: dial.path,
            sightings: belief.sightings,
            next_look_bits: belief.information_bits().into(),
            ..EstimateLine::default()
        };
        match belief.interval() {
            Some(interval) => lines.push(EstimateLine {
                value: format!("{:.3}", interval.estimate),
                low: interval.low.into(),
                high: interval.high.into(),
                ..line
            }),
            None => lines.extend(belief.values.iter().map(|(value, chance)| EstimateLine {
                value: name(value),
                chance: (*chance).into(),
                ..line.clone()
            })),
        }
    }
    lines
}

/// A question over the scenario: the zone as it is most likely, and zones drawn from what is believed.
pub fn scouted(scenario: &str, seed: u64, beliefs: &[Posterior]) -> String {
    let mut random = Generator::new(seed);
    let mut text = format!(
        "# Made of sightings by `zoneprobe scout`. The first variant is their zone as it is most likely; the others are drawn\n\
         # from what is believed: where they differ in what is best against them, more has to be seen.\n\
         question = \"Their zone as scouted: how much does what is not known of it matter?\"\n\
         scenario = {}\nbaseline = \"as-scouted\"\n\n",
        toml::Value::String(scenario.to_owned())
    );
    let likeliest = |belief: &Posterior| match belief.interval() {
        Some(interval) => Value::Number(interval.estimate),
        None => belief.likeliest().clone(),
    };
    variant(&mut text, "as-scouted", beliefs.iter().map(likeliest));
    for nth in 1..=DRAWN {
        variant(
            &mut text,
            &format!("drawn-{nth}"),
            beliefs.iter().map(|belief| belief.drawn(&mut random).clone()),
        );
    }
    text
}

fn variant(text: &mut String, name: &str, values: impl Iterator<Item = Value>) {
    let set = dials()
        .into_iter()
        .zip(values)
        .map(|(dial, value)| format!("\"{}\" = {}", dial.path, typed(dial, &value)));
    let set: Vec<String> = set.collect();
    text.push_str(&format!("[[variant]]\nname = \"{name}\"\nset = {{ {} }}\n\n", set.join(", ")));
}

/// A value as it stands in a file.
fn typed(dial: Dial, value: &Value) -> String {
    match (dial.values, value) {
        (Values::Numbers(..), Value::Number(number)) => format!("{number:.3}"),
        (_, value) => format!("\"{}\"", name(value)),
    }
}
