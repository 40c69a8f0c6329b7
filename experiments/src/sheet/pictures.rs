//! The pictures of a sheet, drawn while the result is at hand; the sheet itself only puts them in their place.

use crate::compare::Comparison;
use crate::picture::{self, Picture};
use crate::places::{ATTACKERS, BallChoice as Choice, Doing, RoutePath, Tables};

/// Where everyone starts, the leaders as they were played, and one for each card. A variant without a route has its
/// passes in the place of the route.
pub fn pictures(comparison: &Comparison, tables: &Tables) -> Vec<Picture> {
    let verdict = &tables.beside.verdict;
    let place = |name: &str| comparison.question.variants.iter().position(|own| own == name);
    let main = verdict.main().and_then(place).unwrap_or(comparison.leader());
    let (setup, name) = (&*tables.setups[main], comparison.question.variants[main].as_str());
    let mut pictures = vec![picture::start(("sheet-start", name), setup)];
    pictures.extend(stills("sheet", main, comparison, tables));
    let others = verdict.headlines.iter().filter_map(|own| place(&own.variant)).filter(|v| *v != main);
    pictures.extend(others.take(1).flat_map(|other| stills("sheet-other", other, comparison, tables)));
    let path = path(tables, main);
    let choices = tables.beside.choices.iter().find(|(v, _)| *v == main);
    pictures.extend((0..ATTACKERS.len()).map(|role| {
        let passes = best_passes(choices.map_or(&[][..], |(_, choices)| choices), role);
        picture::card(&format!("sheet-card-{}", role + 1), setup, role, passes, path)
    }));
    pictures
}

/// The two team-mates to whom a position passes with most worth, where he has the ball most.
fn best_passes(choices: &[Choice], role: usize) -> [Option<usize>; 2] {
    let mut found: Vec<usize> = Vec::new();
    for own in choices.iter().filter(|own| own.role == role && own.told) {
        match own.doing {
            Doing::Pass(to) if !found.contains(&to) => found.push(to),
            _ => {}
        }
    }
    [found.first().copied(), found.get(1).copied()]
}

/// The program of the route that was run most.
fn path(tables: &Tables, variant: usize) -> Option<&RoutePath> {
    tables.paths[variant].iter().max_by_key(|path| path.bins.first().map_or(0, |bin| bin.count))
}

/// Route or passes, the decisive moment, and open looks of a leader.
fn stills(prefix: &str, variant: usize, comparison: &Comparison, tables: &Tables) -> Vec<Picture> {
    let name = comparison.question.variants[variant].as_str();
    let (setup, possessions) = (&*tables.setups[variant], comparison.possessions);
    let id = |part: &str| format!("{prefix}-{part}");
    let mut pictures = vec![match path(tables, variant) {
        Some(path) => picture::route((&id("route"), name), setup, path),
        None => picture::network((&id("route"), name), setup, &tables.passes[variant], possessions),
    }];
    if let Some(moment) = tables.typical(variant) {
        pictures.push(picture::still((&id("moment"), name), setup, moment));
    }
    if let Some(grid) = tables.floor[variant].grid("open_look") {
        let top = picture::top_of([grid], possessions);
        pictures.push(picture::heat(
            (&id("looks"), name, "open looks taken"),
            &setup.court,
            grid,
            possessions,
            top,
        ));
    }
    pictures
}
