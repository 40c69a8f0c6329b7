//! The rover's routes, one file each.

use engine::math::Vec2;
use engine::setup::{Choice, Program, ProgramKind, Then};

use crate::key::Key;
use crate::read::Reader;
use crate::schema::program::{self, Ground, ROVER};
use crate::source::{Desk, Named};

const CHOICE: Key = Key::other("choice", "A route to choose among others.");

/// A route: its programs, and where the rover starts if not at his place in the formation.
pub(crate) struct Route {
    /// Fitted to the floor.
    pub home: Option<Vec2>,
    pub programs: Vec<Program>,
    pub choice: Choice,
}

/// Reads a route: its own programs, then those of the routes that it chooses among.
pub(crate) fn read(desk: &Desk, file: &Named, ground: &Ground<'_>) -> Route {
    let root = Reader::root(desk, &file.root);
    let mut route = own(&root, file, ground);
    for (nth, node) in root.list(CHOICE).iter().enumerate() {
        if let Some(table) = root.table_in(CHOICE, node, format!("choice.{}", nth + 1)) {
            route.programs.extend(chosen(desk, &table, ground));
        }
    }
    route
}

/// What a route has of its own.
fn own(root: &Reader<'_>, file: &Named, ground: &Ground<'_>) -> Route {
    let from = program::From { file, kind: ProgramKind::Route, who: ROVER, weight: 1.0 };
    let home = Key::place("home", "Where the rover starts, his side being +x.");
    Route {
        home: root.maybe_place(home).map(|at| ground.fit.on_floor(root, home, ground.fit.attacker(at))),
        programs: program::read_all(root, &from, ground),
        choice: root.word_or(
            Key::other("choose", "Which of several programs that could start is run."),
            &[("first", Choice::First), ("most-open", Choice::MostOpen)],
            Choice::First,
        ),
    }
}

/// The programs of a route that another one may choose, under that one's own conditions too.
fn chosen(desk: &Desk, table: &Reader<'_>, ground: &Ground<'_>) -> Vec<Program> {
    let key = Key::other("route", "A route by name.");
    let when = Key::other("when", "Conditions that must hold besides the route's own.");
    let further = program::conditions(table, when, ground);
    let then = table.find("then").is_some().then(|| {
        let key = Key::other("then", "What follows the last step, in place of the route's own.");
        table.word_or(key, &[("stay", Then::Stay), ("go-home", Then::GoHome)], Then::GoHome)
    });
    let Some(file) = table.file(key, "routes") else { return Vec::new() };
    let root = Reader::root(desk, &file.root);
    if let Some(nested) = root.find(CHOICE.name) {
        root.refuse(CHOICE, nested, "no choice in a route that is itself chosen".into(), None);
    }
    let mut programs = own(&root, &file, ground).programs;
    for program in &mut programs {
        program.when.extend(further.iter().copied());
        program.then = then.unwrap_or(program.then);
    }
    programs
}
