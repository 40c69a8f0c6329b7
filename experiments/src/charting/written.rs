//! What is written of a chart: the check as a table, and the question for the next plan.

use scenarios::{SESSIONS, Session};
use serde::Serialize;

use super::best_fit::Change;
use super::judged::{Judged, needed};
use crate::output::{Decimal, FileLine};

/// One row of `charted.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ChartedLine {
    session: &'static str,
    rate: String,
    words: String,
    seen: u32,
    of: u32,
    seen_share: Decimal,
    predicted_share: Decimal,
    predicted_mean: Decimal,
    predicted_low: u32,
    predicted_high: u32,
    p: Decimal,
    adjusted_p: Decimal,
    outside: bool,
    needed: Option<u64>,
}

impl FileLine for ChartedLine {
    const FILE: &'static str = "charted.csv";
}

/// A row for each rate of which any was seen in a session.
pub fn charted_lines(session: Option<Session>, judged: &[Judged]) -> impl Iterator<Item = ChartedLine> {
    let session =
        session.map_or("", |session| SESSIONS.iter().find(|own| own.1 == session).map_or("", |own| own.0));
    judged.iter().map(move |own| ChartedLine {
        session,
        rate: own.rate.key(),
        words: own.rate.words(),
        seen: own.seen,
        of: own.of,
        seen_share: (f64::from(own.seen) / f64::from(own.of.max(1))).into(),
        predicted_share: own.predicted_share().into(),
        predicted_mean: own.mean.into(),
        predicted_low: own.between.0,
        predicted_high: own.between.1,
        p: own.p.into(),
        adjusted_p: own.adjusted_p.into(),
        outside: own.is_outside(),
        needed: needed(own, judged.len()).map(|more| more.ceil() as u64),
    })
}

/// A question over the scenario of the plan: as planned, and with each change that is still believed.
pub fn question(
    scenario: &str,
    settings: &[(String, String)],
    believed: &[(&Change, f64)],
    roster: Option<&str>,
) -> String {
    let mut text = format!(
        "# Made of a chart by `zoneprobe chart`: the plan, and what would explain what was seen, likeliest first.\n\
         question = \"Their zone as charted: does the plan still hold?\"\n\
         scenario = {}\nbaseline = \"as-planned\"\n\n",
        toml::Value::String(scenario.to_owned())
    );
    let own: Vec<(String, String)> = roster
        .map(|file| ("roster".to_owned(), toml::Value::String(file.to_owned()).to_string()))
        .into_iter()
        .chain(settings.iter().filter(|pair| roster.is_none() || pair.0 != "roster").cloned())
        .collect();
    variant(&mut text, "as-planned", &own);
    for (nth, (change, chance)) in believed.iter().enumerate() {
        text.push_str(&format!("# {}: {:.0} %\n", change.words, 100.0 * chance));
        let mut set: Vec<(String, String)> =
            own.iter().filter(|pair| pair.0 != change.set.0).cloned().collect();
        set.push(change.set.clone());
        variant(&mut text, &format!("as-charted-{}", nth + 1), &set);
    }
    text
}

fn variant(text: &mut String, name: &str, set: &[(String, String)]) {
    let set: Vec<String> = set.iter().map(|(path, value)| format!("\"{path}\" = {value}")).collect();
    text.push_str(&format!("[[variant]]\nname = \"{name}\"\nset = {{ {} }}\n\n", set.join(", ")));
}
