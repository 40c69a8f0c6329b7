//! The pictures of a sheet, drawn while the result is at hand; the sheet itself only puts them in their place.

use engine::setup::Setup;
use engine::starting_places;

use super::ball::told;
use crate::compare::Comparison;
use crate::marks::gap;
use crate::picture::{self, Picture};
use crate::places::{ATTACKERS, BallChoice as Choice, Doing, Tables, Way, top};

/// Where everyone starts, what the places are called, the leaders as they were played, and one for each card. A variant that has nothing to run has its passes
/// in the place of its way.
pub fn pictures(comparison: &Comparison, tables: &Tables) -> Vec<Picture> {
    let verdict = &tables.beside.verdict;
    let place = |name: &str| comparison.question.variants.iter().position(|own| own == name);
    let main = verdict.main().and_then(place).unwrap_or(comparison.leader());
    let (setup, name) = (&*tables.setups[main], comparison.question.variants[main].as_str());
    let mut pictures =
        vec![picture::start(("sheet-start", name), setup), picture::named("sheet-places", setup)];
    pictures.extend(stills("sheet", main, comparison, tables));
    let others = verdict.headlines.iter().filter_map(|own| place(&own.variant)).filter(|v| *v != main);
    pictures.extend(others.take(1).flat_map(|other| stills("sheet-other", other, comparison, tables)));
    let choices = tables.beside.choices.iter().find(|(v, _)| *v == main);
    pictures.extend((0..ATTACKERS.len()).map(|role| {
        let passes = best_passes(choices.map_or(&[][..], |(_, choices)| choices), role);
        let ways = own_ways(setup, &tables.beside.runs[main].ways, role);
        let seen = (setup, &tables.regions[main]);
        picture::card(&format!("sheet-card-{}", role + 1), seen, role, passes, &ways)
    }));
    pictures
}

/// Movements that a card draws, at most.
const MOST_WAYS: usize = 2;

/// The movements of a position that are run most, turned to the side on which it starts.
fn own_ways<'w>(setup: &Setup, ways: &'w [Way], role: usize) -> Vec<(&'w Way, bool)> {
    let starts_left = starting_places(setup)[role].x < 0.0;
    let own = ways.iter().filter(|way| setup.attack.programs[way.program].who.has(role));
    let turned = |way: &'w Way| {
        let begins_left = way.places.first().is_some_and(|at| at.0 < 0.0);
        (way, begins_left != starts_left)
    };
    let mut taken: Vec<(&Way, bool)> = Vec::new();
    for (way, is_mirrored) in own.map(turned) {
        // Two that lie on each other cannot be told apart.
        if taken.len() < MOST_WAYS && !taken.iter().any(|other| alike(*other, (way, is_mirrored))) {
            taken.push((way, is_mirrored));
        }
    }
    taken
}

/// Whether two ways lead to about the same place by about the same way.
fn alike(one: (&Way, bool), other: (&Way, bool)) -> bool {
    let at = |(way, is_mirrored): (&Way, bool), nth: usize| {
        let turned = if is_mirrored { -1.0 } else { 1.0 };
        way.places.get(nth.min(way.places.len().saturating_sub(1))).map(|at| (turned * at.0, at.1))
    };
    let near = |nth: fn(&Way) -> usize| {
        let both = at(one, nth(one.0)).zip(at(other, nth(other.0)));
        both.is_some_and(|(a, b)| gap(a, b) < ALIKE_M)
    };
    near(|way| way.places.len()) && near(|way| way.places.len() / 2)
}

/// Ways that come within this of each other look like one, m. (assumed: an arrow's head is as long)
const ALIKE_M: f64 = 1.2;

/// Where a position makes the passes that are worth most, and to whom: of the places where he has the ball most the first at
/// which any is told; no pass is drawn that the card's words do not have.
fn best_passes(choices: &[Choice], role: usize) -> Option<(&str, [Option<usize>; 2])> {
    let own: Vec<(&Choice, String)> =
        choices.iter().filter(|own| own.role == role).map(|own| (own, own.doing.key())).collect();
    let places = told(own.iter().map(|(own, key)| (own.place.as_str(), key.as_str(), own.told)));
    let to = |place: &str, key: &str| {
        let (own, _) = own.iter().find(|(own, known)| own.place == place && known == key)?;
        if let Doing::Pass(to) = own.doing { Some(to) } else { None }
    };
    let of = |(place, keys): (_, Vec<&str>)| {
        let to: Vec<usize> = keys.into_iter().filter_map(|key| to(place, key)).collect();
        (!to.is_empty()).then_some((place, to))
    };
    let (place, to) = places.into_iter().find_map(of)?;
    let named = choices.iter().find(|own| own.place == place)?;
    Some((&named.place, [to.first().copied(), to.get(1).copied()]))
}

/// The shots that are shown by place: those by which the question ranks, where it ranks by any.
fn looked_for(comparison: &Comparison) -> (&'static str, &'static str) {
    match comparison.question.rank_by.key {
        "good_look_rate" => ("good_shot", "good shots"),
        _ => ("open_look", "open looks taken"),
    }
}

/// Way or passes, the decisive moment, and the shots of a leader by place.
fn stills(prefix: &str, variant: usize, comparison: &Comparison, tables: &Tables) -> Vec<Picture> {
    let name = comparison.question.variants[variant].as_str();
    let (setup, possessions) = (&*tables.setups[variant], comparison.possessions);
    let id = |part: &str| format!("{prefix}-{part}");
    let mut pictures = vec![match tables.ways(variant).first() {
        Some(way) => picture::route((&id("way"), name), setup, way),
        None => picture::network((&id("passes"), name), setup, &tables.passes[variant], possessions),
    }];
    if let Some(moment) = tables.typical(variant) {
        pictures.push(picture::still((&id("moment"), name), setup, &moment.turned()));
    }
    let (measure, words) = looked_for(comparison);
    if let Some(counted) = tables.regions[variant].of(measure) {
        // The report's scale.
        let top = top(&tables.regions, measure, possessions);
        let names = (&*id("looks"), name, words);
        pictures.push(picture::regions(names, setup, counted, possessions, top));
    }
    pictures
}
