//! What a route, an option or an attack is, at a glance: the way its runners take, on a small floor, with an arrow's head
//! at each end.

use engine::setup::{ProgramKind, Setup};
use engine::starting_places;
use maud::{Markup, html};

use super::drawing::{HEAD, Picture, joined, n, tip};
use super::floor::{Floor, named_place};
use crate::places::{ATTACKERS, Runs, Way, position_words};
use crate::wording::listed;

/// The floor is drawn as far as this from the rim, m.
const DEEP_M: f64 = 9.4;
/// Ways that are drawn at most.
const MOST: usize = 4;
/// A way that is begun less often than this share of the commonest is left out.
const LEAST_SHARE: f64 = 0.1;
/// Slot of the rover.
const ROVER: usize = 2;
/// Length of an arrow's head and radius of a runner, so large that they are seen at an inch.
const TIP: f64 = 110.0;
const RUNNER: f64 = 92.0;

/// What a variant runs of this kind; where it runs nothing, where its rover stays.
pub fn play((id, name): (&str, &str), setup: &Setup, runs: &Runs, kind: ProgramKind) -> Picture {
    let floor = Floor::new(&setup.court);
    let own: Vec<&Way> =
        runs.ways.iter().filter(|way| setup.attack.programs[way.program].kind == kind).collect();
    let most = own.first().map_or(0, |way| way.runs);
    let enough = |way: &&&Way| way.runs as f64 >= LEAST_SHARE * most as f64;
    let own: Vec<&Way> = own.iter().filter(enough).take(MOST).copied().collect();
    let stays = starting_places(setup)[ROVER];
    let body = html! {
        @if own.is_empty() { (runner(floor.of(stays), ROVER)) }
        (joined(own.iter().map(|way| arrow(&floor, way))))
        (joined(own.iter().filter_map(|way| Some(runner(at(&floor, way.places.first()?), way.runner)))))
    };
    let height = floor.at(0.0, DEEP_M).1 - HEAD;
    Picture {
        id: id.to_owned(),
        title: format!("{name}: the way it goes"),
        caption: caption(setup, &own),
        desc: "A small floor, the rim at the top, each way turned to the side on which it begins.".into(),
        width: floor.width(),
        height,
        body: html! { g transform=(format!("translate(0 -{})", n(HEAD))) { (floor.bare()) (body) } },
    }
}

fn at(floor: &Floor<'_>, place: &(f64, f64)) -> (f64, f64) {
    floor.at(place.0, place.1)
}

/// The way as a line with an arrow's head.
fn arrow(floor: &Floor<'_>, way: &Way) -> Markup {
    let places: Vec<(f64, f64)> = way.places.iter().map(|place| at(floor, place)).collect();
    let points: Vec<String> = places.iter().map(|(x, y)| format!("{} {}", n(*x), n(*y))).collect();
    html! {
        polyline class="way" points=(points.join(" ")) {}
        (tip("way", TIP, &places))
    }
}

/// A runner where he begins.
fn runner((x, y): (f64, f64), slot: usize) -> Markup {
    html! {
        circle class="attacker" cx=(n(x)) cy=(n(y)) r=(n(RUNNER)) {}
        text class="large" x=(n(x)) y=(n(y + 0.42 * RUNNER)) { (slot + 1) }
    }
}

fn caption(setup: &Setup, own: &[&Way]) -> String {
    let from = |way: &&Way| {
        let (first, last) = (way.places.first()?, way.places.last()?);
        let place = |at: &(f64, f64)| named_place(setup, at.0, at.1);
        Some(format!(
            "the {} from {} to {}",
            position_words(ATTACKERS[way.runner]),
            place(first),
            place(last)
        ))
    };
    let ways: Vec<String> = own.iter().filter_map(from).collect();
    if ways.is_empty() { "Nobody has a way to go.".into() } else { format!("Goes: {}.", listed(&ways)) }
}
