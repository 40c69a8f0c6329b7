//! The small pictures of the form: zones and their rules as their files have them, routes and options as they were run in some
//! possessions against a 1-2-2.

use std::sync::Arc;

use engine::setup::{Court, ProgramKind, Setup};
use engine::starting_places;

use super::app::{App, held};
use super::choices::KINDS;
use super::fields::Fields;
use super::form::is_drawn;
use super::usual::routes;
use super::zones::{Shape, ZONES};
use crate::film::floor_painted;
use crate::marks::DARK;
use crate::picture::{Picture, play, zone};
use crate::places::runs;

/// Possessions that are looked at to see how a route is run.
const WATCHED: u64 = 48;

/// The picture at an address, as a file; None where there is none.
pub fn picture(app: &App, address: &str) -> Option<Arc<Vec<u8>>> {
    if let Some(drawn) = held(&app.pictures).get(address) {
        return Some(Arc::clone(drawn));
    }
    let words: Vec<&str> = address.split('/').collect();
    let picture = match words[..] {
        ["zone", zone] => of_zone(app, zone),
        ["rule", zone, key, rule] => of_rule(app, (zone, key, rule)),
        [kind, name] => of_way(app, kind, name),
        _ => None,
    }?;
    let drawn = Arc::new(picture.file());
    held(&app.pictures).insert(address.to_owned(), Arc::clone(&drawn));
    Some(drawn)
}

/// The bare floor that is seen under defenders who are moved by hand; see `FLOOR` in the script.
pub fn floor(court: &Court) -> String {
    let lines = floor_painted(court);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"-790 -200 1580 1150\"><style>{DARK}</style>{lines}</svg>"
    )
}

/// The setup of a question with these fields.
fn setup(app: &App, fields: &[(&str, &str)]) -> Option<Arc<Setup>> {
    let experiment = app.loaded(&Fields::of(fields)).ok()?;
    experiment.variants.last().map(|variant| Arc::clone(&variant.setup))
}

/// Two routes, so that there is something to compare: zones and rules are the same under any.
fn any_two() -> [(&'static str, &'static str); 2] {
    [0, 1].map(|nth| ("route", routes()[nth].as_str()))
}

fn of_zone(app: &App, name: &str) -> Option<Picture> {
    let name = ZONES.into_iter().find(|own| *own == name)?;
    let [one, other] = any_two();
    let setup = setup(app, &[one, other, ("zone", name)])?;
    let shape = Shape::of(name);
    let (ball, places) = match shape.row("top") {
        Some(row) => (row.ball, row.anchors.clone()),
        None => {
            let starts = starting_places(&setup).map(|at| [f64::from(at.x), f64::from(at.y)]);
            (starts[usize::from(setup.attack.ball_starts_with)], starts[5..].to_vec())
        }
    };
    Some(zone(("zone", name), &setup, ball, &places.try_into().ok()?, None))
}

fn of_rule(app: &App, (name, key, rule): (&str, &str, &str)) -> Option<Picture> {
    let name = ZONES.into_iter().find(|own| *own == name)?;
    let [one, other] = any_two();
    let setup = setup(app, &[one, other, ("zone", name)])?;
    let shape = Shape::of(name);
    let corner = shape.row("corner")?;
    let rules = &shape.rules.iter().find(|own| own.0 == key)?.1;
    let rule = rules.iter().find(|own| own.name == rule)?;
    let places = rule.anchors.as_ref().unwrap_or(&corner.anchors).clone();
    Some(zone(("rule", &rule.line), &setup, corner.ball, &places.try_into().ok()?, rule.who))
}

fn of_way(app: &App, kind: &str, name: &str) -> Option<Picture> {
    let own = KINDS.iter().find(|own| own.key == kind)?;
    let is_there = scenarios::catalog().iter().any(|entry| entry.kind == own.catalog && entry.name == name);
    if !is_there || !is_drawn(own, name) {
        return None;
    }
    // Two are compared at least: one that stands still, and the one that is drawn last.
    let [(_, still), (_, second)] = any_two();
    let beside = (kind == "route" && name != still).then_some((kind, still));
    let other = (kind == "route" && name == still).then_some((kind, second));
    let fields: Vec<(&str, &str)> =
        [Some(("compare", kind)), beside, Some((kind, name)), other].into_iter().flatten().collect();
    let experiment = app.loaded(&Fields::of(&fields)).ok()?;
    let setup = &experiment.variants.iter().find(|variant| variant.name == name)?.setup;
    let runs = runs(std::slice::from_ref(setup), 1, WATCHED, app.threads).ok()?;
    let kind = match kind {
        "route" => ProgramKind::Route,
        "posts" => ProgramKind::PostOption,
        _ => ProgramKind::GuardOption,
    };
    Some(play(("way", name), setup, runs.first()?, kind))
}
