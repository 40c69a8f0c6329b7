//! What a chart comes to, in words: where the model was wrong, how little so few possessions say, what would explain it.

use scenarios::Session;

use super::best_fit::{Change, Fits};
use super::judged::{ERROR, Judged, needed};

/// Fewer possessions than this are called few. (a choice)
const FEW: usize = 30;
/// Rates that are named as those that are nearest to being told. (a choice)
const NAMED: usize = 3;
/// Who is believed no more than this is not called known, as `scout` has it. (a choice)
const KNOWN: f64 = 0.9;
/// What is believed less than this is not named. (a choice)
pub const NAMELESS: f64 = 0.05;

/// What the possessions of a session come to, a paragraph each.
pub fn told(session: Option<Session>, possessions: usize, judged: &[Judged]) -> Vec<String> {
    let whose = match session {
        Some(Session::Game) => "Game",
        Some(Session::Practice) => "Practice",
        None => "Charted",
    };
    let noun = if possessions == 1 { "possession" } else { "possessions" };
    let little = if possessions < FEW { " That is little." } else { "" };
    let mut lines = vec![format!("{whose}: {possessions} {noun}, {} rates.{little}", judged.len())];
    let mut outside: Vec<&Judged> = judged.iter().filter(|own| own.is_outside()).collect();
    outside.sort_by(|a, b| a.p.total_cmp(&b.p));
    for own in &outside {
        lines.push(format!("The model was wrong here, by more than chance: {}.", counted(own)));
    }
    if outside.is_empty() {
        lines.push(format!(
            "Nothing is outside what chance allows, which so many possessions need not show. Of charts for which the model is right \
             at most {:.0} in 100 are told off anywhere.",
            100.0 * ERROR
        ));
    }
    lines.push(nearest(judged));
    lines
}

/// `9 turnovers of 40, where 2 to 8 were to be expected (4.8 on average)`.
fn counted(own: &Judged) -> String {
    let (low, high) = own.between;
    let more = if f64::from(own.seen) > own.mean { "more" } else { "fewer" };
    format!(
        "{}: {} of {} seen, {more} than the {low} to {high} that were to be expected ({:.1} on average)",
        own.rate.words(),
        own.seen,
        own.of,
        own.mean
    )
}

/// Which rates are nearest to being told from their predictions.
fn nearest(judged: &[Judged]) -> String {
    let mut open: Vec<(&Judged, f64)> =
        judged.iter().filter_map(|own| Some((own, f64::from(needed(own, judged.len())?)))).collect();
    open.sort_by(|a, b| (a.1 / f64::from(a.0.of)).total_cmp(&(b.1 / f64::from(b.0.of))));
    let named = open.iter().take(NAMED).map(|(own, more)| {
        format!(
            "{}, {} of {} where {:.1} were predicted: about {more:.0}",
            own.rate.words(),
            own.seen,
            own.of,
            own.mean
        )
    });
    let named: Vec<String> = named.collect();
    if named.is_empty() {
        return "No other rate is near to being told from its prediction.".into();
    }
    format!(
        "If a rate really went on just as it was seen, so many possessions or shots would tell it from its prediction: {}. Of {} \
         rates the farthest off are named, and those mostly do not go on so.",
        named.join("; "),
        judged.len()
    )
}

/// What would explain a chart: the changes that are believed, with their chances.
pub fn told_fits(changes: &[Change], fits: &Fits) -> (String, Vec<(Change, f64)>) {
    let mut order: Vec<(Change, f64)> =
        changes.iter().cloned().zip(fits.chances[1..].iter().copied()).collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    order.retain(|(_, chance)| *chance >= NAMELESS);
    let percent = |chance: f64| format!("{:.0} %", 100.0 * chance);
    let named = order.iter().map(|(change, chance)| format!("{} {}", change.words, percent(*chance)));
    let named: Vec<String> = named.collect();
    let planned = percent(fits.chances[0]);
    let text = match (fits.chances[0], order.first()) {
        (_, None) => format!(
            "What fits best is the plan ({planned}); of all that was tried nothing else has a chance of 5 %."
        ),
        (plan, Some(_)) if plan >= KNOWN => {
            format!("What fits best is the plan ({planned}); after it: {}.", named.join("; "))
        }
        (_, Some((change, chance))) if *chance >= KNOWN => format!(
            "What fits best: {} ({}). Put {} = {} into the next plan, and look again.",
            change.words,
            percent(*chance),
            change.set.0,
            change.set.1
        ),
        _ => format!(
            "What would explain it, by its chance: the plan {planned}; {}. Too close to call.",
            named.join("; ")
        ),
    };
    (text, order)
}
