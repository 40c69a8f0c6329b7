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
    let mut lines = vec![format!("{whose}: {possessions} {noun}, {} rates.", judged.len())];
    let mut outside: Vec<&Judged> = judged.iter().filter(|own| own.is_outside()).collect();
    outside.sort_by(|a, b| a.p.total_cmp(&b.p));
    for own in &outside {
        lines.push(format!("More than chance: {}.", counted(own)));
    }
    if outside.is_empty() {
        lines.push(format!(
            "Nothing outside what chance allows: if the model is right, a chart like this has any such word in at most {:.0} of \
             100.",
            100.0 * ERROR
        ));
    }
    lines.push(how_little(possessions, judged));
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

/// How little so many possessions say, and which rates are nearest to being told.
fn how_little(possessions: usize, judged: &[Judged]) -> String {
    let little = if possessions < FEW { "That is little. " } else { "" };
    let mut open: Vec<(&Judged, f64)> = judged
        .iter()
        .filter(|own| !own.is_outside())
        .filter_map(|own| Some((own, needed(own, judged.len())?)))
        .filter(|(own, more)| *more > f64::from(own.of))
        .collect();
    open.sort_by(|a, b| (a.1 / f64::from(a.0.of)).total_cmp(&(b.1 / f64::from(b.0.of))));
    let named = open.iter().take(NAMED).map(|(own, more)| {
        format!(
            "{}, {} of {} where {:.1} were predicted: {:.0}",
            own.rate.words(),
            own.seen,
            own.of,
            own.mean,
            more.ceil()
        )
    });
    let named: Vec<String> = named.collect();
    if named.is_empty() {
        return format!("{little}No other rate is near to being told from its prediction.");
    }
    format!(
        "{little}If it goes on as it was seen, so many possessions or shots would have to be charted to be sure: {}.",
        named.join("; ")
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
