//! What is written of an opponent: the estimates as a table, and a question: attacks against the zone as scouted, and against
//! zones drawn from what is believed.

use serde::Serialize;

use super::crossed::{Row, Words, crossed};
use super::likely::{Dial, Values};
use super::posterior::{Posterior, Value};
use super::told::name;
use crate::output::{Decimal, FileLine};
use crate::stats::Generator;

/// Zones that are drawn, if there is room for them.
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
    comes_up: Decimal,
    next_look_bits: Decimal,
}

impl FileLine for EstimateLine {
    const FILE: &'static str = "scouting.csv";
}

/// A row for each rule with its chance, and one for each dial with its interval.
pub fn estimate_lines(dials: &[Dial], beliefs: &[Posterior]) -> Vec<EstimateLine> {
    let mut lines = Vec::new();
    for (dial, belief) in dials.iter().zip(beliefs) {
        let line = EstimateLine {
            what: dial.words,
            path: dial.path,
            sightings: belief.sightings,
            comes_up: belief.comes_up.into(),
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

/// A question over the scenario: each attack against the zone as scouted, which sets what was seen and nothing else, and
/// against zones drawn from what is believed.
pub fn scouted(
    scenario: &str,
    seed: u64,
    attacks: &[Row],
    (dials, beliefs): (&[Dial], &[Posterior]),
) -> String {
    let mut random = Generator::new(seed);
    let row = |name: String, values: Vec<Option<Value>>| {
        let set = dials.iter().zip(values).filter_map(|(dial, value)| Some((dial, value?)));
        let settings = set.map(|(dial, value)| (dial.path.to_owned(), typed(dial, &value)));
        Row { name, settings: settings.collect(), note: None }
    };
    let own: Vec<Option<Value>> =
        dials.iter().zip(beliefs).map(|(dial, own)| own.likeliest().filter(|_| dial.is_open())).collect();
    let mut zones = vec![row("as-scouted".into(), own)];
    let drawn = DRAWN.min((super::crossed::MOST / attacks.len().max(1)).saturating_sub(1));
    for nth in 1..=drawn {
        let values = beliefs.iter().map(|belief| belief.drawn(&mut random).cloned()).collect();
        zones.push(row(format!("drawn-{nth}"), values));
    }
    let words = Words {
        head: "# Made of sightings by `zoneprobe scout`. Each attack is played against their zone as scouted (what was seen is set,\n\
               # the rest is the scenario's) and against zones drawn from what is believed, in which what was never seen may be\n\
               # anything. Where the best attack is not the same for all of them, more has to be seen.\n",
        question: "Which attack against their zone as scouted, and does what is not known of it matter?",
    };
    crossed(&words, scenario, attacks, &zones)
}

/// A value as it stands in a file.
fn typed(dial: &Dial, value: &Value) -> String {
    match (&dial.values, value) {
        (Values::Numbers(..), Value::Number(number)) => format!("{number:.3}"),
        (_, value) => format!("\"{}\"", name(value)),
    }
}
