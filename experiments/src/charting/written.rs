//! What is written of a chart: the check as a table, and the question for the next plan.

use scenarios::{SESSIONS, Session};
use serde::Serialize;

use super::best_fit::Change;
use super::judged::{Judged, needed};
use crate::output::{Decimal, FileLine};
use crate::scouting::{MOST, Row, Words, crossed};
use crate::verdict::is_choice;

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
        needed: needed(own, judged.len()).map(u64::from),
    })
}

/// A question over the scenario of the plan: its attacks against the zone as planned, with what the plan sets of it, and with
/// each change that is still believed. The first attack is the planned one.
pub fn question(
    scenario: &str,
    planned: &[(String, String)],
    attacks: &[Row],
    believed: &[(&Change, f64)],
    roster: Option<&str>,
) -> String {
    let with_roster = |attack: &Row| {
        let Some(file) = roster else { return attack.clone() };
        let own = ("roster".to_owned(), toml::Value::String(file.to_owned()).to_string());
        let rest = attack.settings.iter().filter(|(path, _)| path != "roster").cloned();
        Row { settings: std::iter::once(own).chain(rest).collect(), ..attack.clone() }
    };
    let attacks: Vec<Row> = attacks.iter().map(with_roster).collect();
    let met: Vec<(String, String)> = planned.iter().filter(|(path, _)| !is_choice(path)).cloned().collect();
    let mut zones = vec![Row { name: "as-planned".into(), settings: met.clone(), note: None }];
    let room = (MOST / attacks.len().max(1)).saturating_sub(1);
    for (nth, (change, chance)) in believed.iter().enumerate().take(room) {
        let rest = met.iter().filter(|pair| pair.0 != change.set.0).cloned();
        zones.push(Row {
            name: format!("as-charted-{}", nth + 1),
            settings: rest.chain([change.set.clone()]).collect(),
            note: Some(format!("{}: {:.0} %", change.words, 100.0 * chance)),
        });
    }
    let words = Words {
        head: "# Made of a chart by `zoneprobe chart`: the attacks of the result against the zone as planned, and with each single\n\
               # change that would explain what was seen, likeliest first.\n",
        question: "Their zone as charted: which of our attacks is best now, and does the plan still hold?",
    };
    crossed(&words, scenario, &attacks, &zones)
}
