//! The one thing to teach first: who takes the good looks and where they come from, by the figures that the sheet prints.

use super::costs::is;
use super::results::Results;
use super::told::good_by_position;
use crate::verdict::Differ;
use crate::wording::TWENTY;

/// Regions of either side are told together.
const SIDES: [&str; 2] = ["left-", "right-"];
/// Less than this share of them is no reason to teach it first. (a choice)
const MUCH: f64 = 0.25;

/// `Teach first: the ball to the rover (3), who takes 2.3 of the 5.1 good looks; by place, most are shot near the low posts.` Empty
/// where nothing is taught, or where they come from everywhere.
pub(super) fn teach_first(results: &Results, leader: &str) -> String {
    let told = || {
        let (by, all) = good_by_position(results, leader)?;
        let (who, his) = by.first().filter(|(_, his)| *his >= MUCH * all)?;
        let from = most_of(results, leader).filter(|(_, often)| *often >= MUCH * all);
        let from = from.map_or_else(String::new, |(place, often)| {
            format!(" By place, most are shot near {place}: {often:.1} of them, whoever shoots.")
        });
        Some(format!(
            "Teach first: get the ball to the {who}, who takes {his:.1} of the {all:.1} good looks in 20 possessions.{from}"
        ))
    };
    let is_taught = results.verdict.differ == Differ::Choices;
    is_taught.then(told).flatten().unwrap_or_default()
}

/// From where most good looks come, both sides together, and how many in 20 possessions: `the low posts`.
fn most_of(results: &Results, leader: &str) -> Option<(String, f64)> {
    let mut all: Vec<(String, f64)> = Vec::new();
    let own = results.regions.iter().filter(|row| is(row, "variant", leader));
    for row in own.filter(|row| row.get("measure").is_some_and(|own| own == "good_look")) {
        let (region, per_100) = (row.get("region")?, row.get("per_100_possessions")?.parse::<f64>().ok()?);
        let plain = SIDES.iter().fold(region.clone(), |name, side| name.replace(side, "")).replace('-', " ");
        let name = if plain == *region || plain.contains("top") || plain.contains("high") {
            format!("the {plain}")
        } else {
            format!("the {plain}s")
        };
        // Tenths, as the map has them: who adds up the two sides finds this.
        let told = (10.0 * TWENTY / 100.0 * per_100).round() / 10.0;
        match all.iter_mut().find(|(known, _)| *known == name) {
            Some((_, often)) => *often += told,
            None => all.push((name, told)),
        }
    }
    all.into_iter().max_by(|a, b| a.1.total_cmp(&b.1))
}
