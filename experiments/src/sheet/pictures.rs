//! The pictures of a sheet, drawn while the result is at hand; the sheet itself only puts them in their place.

use engine::setup::Setup;
use engine::starting_places;

use super::ball::told;
use crate::compare::Comparison;
use crate::picture::{self, OnCard, Picture, can_set_out};
use crate::places::{ATTACKERS, BallChoice as Choice, Doing, Moment, Runs, Scene, Tables, Way, top};

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
        let way = own_way(setup, &tables.beside.runs[main].ways, role);
        // One moment: that of what he runs, if everyone can be drawn as it was; or else that of his passes. The words have both.
        let is_whole = |(own, is_mirrored): &(&Way, bool)| can_set_out(own, *is_mirrored, role);
        let passing = passes.map(|(scene, to)| OnCard::Passes(scene, to));
        let starts = sets_off(setup, &tables.beside.runs[main], role);
        let starts = starts.map(|(scene, runner, to)| OnCard::SetsOff(scene, runner, to));
        let shown = way.filter(is_whole).map(OnCard::Way).or(starts).or(passing).or(way.map(OnCard::Way));
        picture::card(&format!("sheet-card-{}", role + 1), setup, role, shown)
    }));
    pictures
}

/// The movement of a position that its card draws, and whether it is mirrored, to the side on which he starts: the one that is run
/// most, but one that can be drawn with everyone in his place first.
fn own_way<'w>(setup: &Setup, ways: &'w [Way], role: usize) -> Option<(&'w Way, bool)> {
    let starts_left = starting_places(setup)[role].x < 0.0;
    let own = ways.iter().filter(|way| setup.attack.programs[way.program].who.has(role));
    let turned = |way: &'w Way| {
        let begins_left = way.places.first().is_some_and(|at| at.0 < 0.0);
        (way, begins_left != starts_left)
    };
    let own: Vec<(&Way, bool)> = own.map(turned).collect();
    own.iter().find(|(way, is_mirrored)| can_set_out(way, *is_mirrored, role)).or(own.first()).copied()
}

/// The moment in which a pass of this position sets off the run of another: whose, and to whom it is; none where it cannot be drawn with
/// everyone in his place.
fn sets_off<'r>(setup: &'r Setup, runs: &'r Runs, role: usize) -> Option<(&'r Scene, usize, usize)> {
    let way = runs.set_off(setup).find(|way| way.set_off.is_some_and(|(from, ..)| from == role))?;
    let drawn = |scene: &&Scene| way.is_set_off && scene.moment == Moment::SetsOut && scene.side > 0.0;
    Some((way.scene.as_ref().filter(drawn)?, way.runner, way.set_off?.1))
}

/// A moment in which a position makes the passes that are worth most, and to whom: of the places where he has the ball most the first at
/// which any is told; no pass is drawn that the card's words do not have.
fn best_passes(choices: &[Choice], role: usize) -> Option<(&Scene, [Option<usize>; 2])> {
    let own: Vec<(&Choice, String)> =
        choices.iter().filter(|own| own.role == role).map(|own| (own, own.doing.key())).collect();
    let places = told(own.iter().map(|(own, key)| (own.place.as_str(), key.as_str(), own.told)), &[]);
    let to = |place: &str, key: &str| {
        let (own, _) = own.iter().find(|(own, known)| own.place == place && known == key)?;
        if let Doing::Pass(to) = own.doing { Some(to) } else { None }
    };
    let of = |(place, keys): (_, Vec<&str>)| {
        let to: Vec<usize> = keys.into_iter().filter_map(|key| to(place, key)).collect();
        (!to.is_empty()).then_some((place, to))
    };
    let (place, to) = places.into_iter().find_map(of)?;
    let first = Doing::Pass(*to.first()?);
    let best = choices.iter().find(|own| own.role == role && own.place == place && own.doing == first)?;
    Some((best.scene.as_ref()?, [to.first().copied(), to.get(1).copied()]))
}

/// The shots that are shown by place.
const GOOD: &str = "good_look";

/// Way or passes, the decisive moment, and the good looks of a leader by place.
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
    // Of every question the same, on the report's scale: sheets can be laid side by side.
    if let Some(counted) = tables.regions[variant].of(GOOD) {
        let top = top(&tables.regions, GOOD, possessions);
        let names = (&*id("looks"), name, "good looks");
        pictures.push(picture::regions(names, setup, counted, possessions, top));
    }
    pictures
}
