//! What is believed of an opponent, in words: how sure it is, how little that may be, and what to watch next.

use scenarios::ASKED;

use super::likely::{Dial, Values};
use super::posterior::{CONFIDENCE, Posterior, Value};

/// Fewer sightings of a question than this are called few. (a choice)
const FEW: u32 = 10;
/// A rule that is believed no more than this is not called known. (a choice)
const KNOWN: f64 = 0.9;

/// Everything that is believed, a paragraph each.
pub fn told(dials: &[Dial], beliefs: &[Posterior]) -> Vec<String> {
    let all: u32 = beliefs.iter().map(|belief| belief.sightings).sum();
    let mut lines: Vec<String> = dials.iter().zip(beliefs).map(|(dial, belief)| of(dial, belief)).collect();
    lines.push(how_little(all, dials, beliefs));
    lines.extend(next(dials, beliefs));
    lines
}

fn of(dial: &Dial, belief: &Posterior) -> String {
    if let Values::Rules(rules) = &dial.values
        && !dial.is_open()
    {
        let only = rules.first().map(|rule| format!("{}, the only one that their zone knows", rule.name));
        return format!("{}: {}.", dial.words, only.unwrap_or_else(|| "their zone knows none".into()));
    }
    let times = match belief.sightings {
        0 => "never seen, so it stays as the scenario has it".to_owned(),
        1 => "seen once".to_owned(),
        many => format!("seen {many} times"),
    };
    let said = match (&dial.values, belief.interval()) {
        (Values::Numbers(_, unit), Some(interval)) => {
            let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
            if belief.sightings == 0 {
                format!("anything from {:.2} to {:.2}{unit}", interval.low, interval.high)
            } else {
                format!("{:.2}{unit} ({:.2} to {:.2})", interval.estimate, interval.low, interval.high)
            }
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
fn how_little(all: u32, dials: &[Dial], beliefs: &[Posterior]) -> String {
    let beliefs: Vec<&Posterior> =
        dials.iter().zip(beliefs).filter(|(dial, _)| dial.is_open()).map(|(_, belief)| belief).collect();
    let open = |belief: &&&Posterior| match belief.interval() {
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

/// Which questions tell most of the zone in so many possessions: by what one look is expected to tell, and how often there is
/// something to look at. That is not yet what changes the advice, and it is said so.
fn next(dials: &[Dial], beliefs: &[Posterior]) -> Option<String> {
    let open = |asked: &usize| dials[*asked].is_open() && beliefs[*asked].comes_up > 0.0;
    let worth = |asked: usize| beliefs[asked].information_bits() * beliefs[asked].comes_up;
    let mut order: Vec<(usize, f64)> =
        (0..beliefs.len()).filter(open).map(|asked| (asked, worth(asked))).collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let told = order.iter().take(2).map(|(asked, _)| {
        let often = (10.0 * beliefs[*asked].comes_up).round().max(1.0);
        format!("{} (there is something to see in about {often:.0} of 10 possessions)", ASKED[*asked].words)
    });
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| {
        format!(
            "Watch next what would tell most about their zone: {}. Whether that would change what to play is another question: \
             scouted.toml asks it.",
            told.join(" Then: ")
        )
    })
}
