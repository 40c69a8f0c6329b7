//! What a route, an option or an attack is, at a glance: the way its runners take, on a small floor, with an arrow's head
//! at each end.

use engine::setup::{ProgramKind, Setup};
use engine::starting_places;
use maud::{Markup, PreEscaped, html};

use super::drawing::{HEAD, Picture, joined, n};
use super::floor::{Floor, named_place};
use crate::marks::{self, At};
use crate::places::{ATTACKERS, Runs, Way, braces, position_words};
use crate::wording::listed;

/// Ways that are drawn at most.
const MOST: usize = 4;
/// A way that is begun less often than this share of the commonest is left out.
const LEAST_SHARE: f64 = 0.1;
/// Slots of those who might run something of a kind, where nothing is run.
const fn stays(kind: ProgramKind) -> &'static [usize] {
    match kind {
        ProgramKind::PostOption => &[3, 4],
        ProgramKind::GuardOption => &[0, 1],
        _ => &[2],
    }
}

/// -1 where a way is drawn mirrored: on the side on which its runner starts.
fn side(setup: &Setup, way: &Way) -> f64 {
    if starting_places(setup)[way.runner].x < 0.0 { -1.0 } else { 1.0 }
}

/// How much larger ways are drawn, so that they are seen at an inch, and how much larger a runner, so that his number is read
/// there.
const LARGER: f64 = 1.7;
const RUNNER: f64 = 2.6;

/// What a variant runs of this kind; where it runs nothing, where its rover stays.
pub fn play((id, name): (&str, &str), setup: &Setup, runs: &Runs, kind: ProgramKind) -> Picture {
    let floor = Floor::holding(&setup.court, []);
    let own: Vec<&Way> =
        runs.ways.iter().filter(|way| setup.attack.programs[way.program].kind == kind).collect();
    let most = own.first().map_or(0, |way| way.runs);
    let enough = |way: &&&Way| way.runs as f64 >= LEAST_SHARE * most as f64;
    let own: Vec<&Way> = own.iter().filter(enough).take(MOST).copied().collect();
    let starts = starting_places(setup);
    let body = html! {
        @if own.is_empty() { (joined(stays(kind).iter().map(|slot| runner(floor.of(starts[*slot]), *slot)))) }
        (joined(own.iter().map(|way| arrow(&floor, setup, way))))
        (joined(runners(&floor, setup, &own).into_iter().map(|(at, slot)| runner(at, slot))))
    };
    let height = floor.bottom() - HEAD;
    Picture {
        id: id.to_owned(),
        title: format!("{name}: the way it goes"),
        caption: caption(setup, &own),
        desc: "A small floor, the rim at the top, each way on the side on which its runner starts.".into(),
        width: floor.width(),
        height,
        body: html! { g transform=(format!("translate(0 -{})", n(HEAD))) { (floor.bare()) (body) } },
        key: None,
    }
}

fn at(floor: &Floor<'_>, side: f64, place: &(f64, f64)) -> (f64, f64) {
    floor.at(side * place.0, place.1)
}

/// The way as a line with an arrow's head, from the edge of its runner's mark.
fn arrow(floor: &Floor<'_>, setup: &Setup, way: &Way) -> Markup {
    let side = side(setup, way);
    let places: Vec<At> = way.led().iter().map(|place| at(floor, side, place)).collect();
    larger(
        ((0.0, 0.0), LARGER),
        &as_run(
            setup,
            way,
            &places.iter().map(|at| (at.0 / LARGER, at.1 / LARGER)).collect::<Vec<_>>(),
            side,
        ),
    )
}

/// A way with a bar at its end where it ends in a seal or a screen, turned to whom that holds; `side` is -1 where the places are
/// mirrored.
pub(super) fn as_run(setup: &Setup, way: &Way, places: &[At], side: f64) -> String {
    match &way.held {
        _ if !braces(&setup.attack.programs[way.program]) => marks::cut(places),
        Some(held) => {
            let (dx, dy) = (side * (held.at.0 - held.from.0), held.at.1 - held.from.1);
            marks::held(places, libm::atan2(dy, dx).to_degrees())
        }
        None => marks::screened(places),
    }
}

/// Marks drawn larger about a place.
fn larger(((x, y), by): (At, f64), svg: &str) -> Markup {
    html! { g transform=(format!("translate({} {}) scale({by})", n(x), n(y))) { (PreEscaped(svg)) } }
}

/// Where runners begin: once where two ways of one runner begin at about the same place.
fn runners(floor: &Floor<'_>, setup: &Setup, own: &[&Way]) -> Vec<(At, usize)> {
    let mut all: Vec<(At, usize)> = Vec::new();
    for way in own {
        let Some(first) = way.places.first() else { continue };
        let here = at(floor, side(setup, way), first);
        let touches = |other: At| marks::gap(other, here) < 2.0 * RUNNER * marks::DISC;
        if !all.iter().any(|(other, slot)| *slot == way.runner && touches(*other)) {
            all.push((here, way.runner));
        }
    }
    all
}

/// A runner where he begins.
fn runner(at: At, slot: usize) -> Markup {
    larger((at, RUNNER), &marks::attacker((0.0, 0.0), &(slot + 1).to_string()))
}

fn caption(setup: &Setup, own: &[&Way]) -> String {
    let from = |way: &&Way| {
        let (first, last) = (way.places.first()?, way.led().last()?);
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
