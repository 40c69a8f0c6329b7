//! What is believed of an opponent, in words: how sure it is, how little that may be, and what to watch next.

use scenarios::ASKED;

use super::likely::{Dial, Values, dials};
use super::posterior::{CONFIDENCE, Posterior, Value};

/// Fewer sightings of a question than this are called few. (a choice)
const FEW: u32 = 10;
/// A rule that is believed no more than this is not called known. (a choice)
const KNOWN: f64 = 0.9;

/// Everything that is believed, a paragraph each.
pub fn told(beliefs: &[Posterior]) -> Vec<String> {
    let all: u32 = beliefs.iter().map(|belief| belief.sightings).sum();
    let mut lines: Vec<String> =
        dials().iter().zip(beliefs).map(|(dial, belief)| of(*dial, belief)).collect();
    lines.push(how_little(all, beliefs));
    lines.push(next(beliefs));
    lines
}

fn of(dial: Dial, belief: &Posterior) -> String {
    let times = match belief.sightings {
        0 => "never seen".to_owned(),
        1 => "seen once".to_owned(),
        many => format!("seen {many} times"),
    };
    let said = match (dial.values, belief.interval()) {
        (Values::Numbers(_, unit), Some(interval)) => {
            let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
            format!("{:.2}{unit} ({:.2} to {:.2})", interval.estimate, interval.low, interval.high)
        }
        _ => {
            let mut rules = belief.values.clone();
            rules.sort_by(|a, b| b.1.total_cmp(&a.1));
            let told = rules.iter().map(|(value, chance)| format!("{} {:.0} %", name(value), 100.0 * chance));
            told.collect::<Vec<_>>().join(", ")
        }
    };
    format!("{}: {said}; {times}.", dial.words)
}

/// A value as a reader sees it.
pub(super) fn name(value: &Value) -> String {
    match value {
        Value::Rule(name) => name.clone(),
        Value::Number(number) => format!("{number:.2}"),
    }
}

/// How little is known.
fn how_little(all: u32, beliefs: &[Posterior]) -> String {
    let open = |belief: &&Posterior| match belief.interval() {
        Some(_) => belief.sightings < FEW,
        None => belief.values.iter().all(|(_, chance)| *chance < KNOWN),
    };
    let few = beliefs.iter().filter(open).count();
    let confidence = 100.0 * CONFIDENCE;
    let so = match (all, few) {
        (0, _) => "Nothing was seen: what stands here is what is possible, and no more.".to_owned(),
        (_, 0) => format!("{all} sightings."),
        (1, _) => "One sighting: that is next to nothing.".to_owned(),
        (all, few) if all < FEW => {
            format!(
                "{all} sightings in all: that is little. Of {few} of {} questions hardly anything is known.",
                beliefs.len()
            )
        }
        (all, few) => {
            format!("{all} sightings; of {few} of {} questions too little is known.", beliefs.len())
        }
    };
    format!(
        "{so} In brackets: where it lies with a chance of {confidence:.0} %, if they play as the model does."
    )
}

/// Which question is worth looking for most.
fn next(beliefs: &[Posterior]) -> String {
    let mut order: Vec<(usize, f64)> = beliefs.iter().map(Posterior::information_bits).enumerate().collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let told = order.iter().take(2).map(|(asked, bits)| format!("{} ({bits:.2} bits)", ASKED[*asked].words));
    let told: Vec<String> = told.collect();
    format!(
        "Watch next, by what one look more is expected to tell: {}. A bit halves the doubt between two that are as likely.",
        told.join(" Then: ")
    )
}
