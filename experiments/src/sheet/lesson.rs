//! The one thing to practise first: the shots that are most of the good looks, by the figures that the sheet prints.

use super::ball::at;
use super::results::Results;
use super::told::good_by_position;
use crate::verdict::Differ;
use crate::wording::listed;

/// Less than this share of them is no reason to practise them first. (a choice)
const MUCH: f64 = 0.25;

/// `Practise first the shots of the rover (3): 2.3 of the 5.1 good looks are his.` Whom the ball is passed to first stands with the
/// jobs, and may be another. Empty where nothing is taught, or where they come from everywhere.
pub(super) fn teach_first(results: &Results, leader: &str) -> String {
    let told = || {
        let (by, all) = good_by_position(results, leader)?;
        let (who, his) = by.first().filter(|(_, his)| *his >= MUCH * all)?;
        let from = shoots_most(results, leader, who);
        let from =
            if from.is_empty() { String::new() } else { format!(" He shoots most {}.", listed(&from)) };
        Some(format!(
            "Practise first the shots of the {who}: {his:.1} of the {all:.1} good looks in 20 possessions are his.{from}"
        ))
    };
    let is_taught = results.verdict.differ == Differ::Choices;
    is_taught.then(told).flatten().unwrap_or_default()
}

/// Places that are named, at most, and the share of his shots from which on one is.
const PLACES: usize = 2;
const OFTEN: f64 = 0.2;

/// Where somebody shoots most: `on the wing`.
fn shoots_most(results: &Results, leader: &str, numbered: &str) -> Vec<String> {
    let own = results
        .choices
        .iter()
        .filter(|line| line.variant == leader && crate::places::numbered(&line.position) == numbered);
    let mut all: Vec<(&str, usize)> = Vec::new();
    for line in own.filter(|line| line.choice.starts_with("shoot")) {
        match all.iter_mut().find(|(place, _)| *place == line.place) {
            Some((_, times)) => *times += line.possessions,
            None => all.push((&line.place, line.possessions)),
        }
    }
    all.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    let whole: usize = all.iter().map(|(_, times)| times).sum();
    let often = all.into_iter().filter(|(_, times)| *times as f64 >= OFTEN * whole as f64);
    often.take(PLACES).map(|(place, _)| at(place)).collect()
}
