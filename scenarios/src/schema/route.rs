//! The rover's routes, one file each.

use engine::math::Vec2;
use engine::setup::{Choice, Program, ProgramKind};

use crate::declared::{Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::program::{self, Ground, PROGRAMS, ROVER, THENS};
use crate::source::{Desk, Named};

const CHOOSE: [(&str, Choice); 2] = [("first", Choice::First), ("most-open", Choice::MostOpen)];

static CHOSEN: Table = Table::of(&[Part::Fields(&[
    program::conditions_under("when", "Conditions that must hold besides the route's own."),
    Field::other("then", Kind::Word(&THENS), "What follows the last step, in place of the route's own.")
        .or(Need::Below),
    Field::other("route", Kind::File("routes"), "A route by name.").needed(),
])]);

/// A route's file.
pub(crate) static ROUTE: Table = Table::of(&[Part::Fields(&[
    Field::place("home", "Where the rover starts, his side being +x."),
    PROGRAMS,
    Field::other("choose", Kind::Word(&CHOOSE), "Which of several programs that could start is run.")
        .or(Need::Word("first")),
    Field::tables("choice", &CHOSEN, "A route to choose among others."),
])]);

/// A route: its programs, and where the rover starts if not at his place in the formation.
pub(crate) struct Route {
    /// Fitted to the floor.
    pub home: Option<Vec2>,
    pub programs: Vec<Program>,
    pub choice: Choice,
}

/// Reads a route: its own programs, then those of the routes that it chooses among.
pub(crate) fn read(desk: &Desk, file: &Named, ground: &Ground<'_>) -> Route {
    let root = Reader::root(desk, &file.root, &ROUTE);
    let mut route = own(&root, file, ground);
    for table in root.tables("choice") {
        route.programs.extend(chosen(desk, &table, ground));
    }
    route
}

/// What a route has of its own.
fn own(root: &Reader<'_>, file: &Named, ground: &Ground<'_>) -> Route {
    let from = program::From { file, kind: ProgramKind::Route, who: ROVER, weight: 1.0 };
    Route {
        home: root.maybe_place("home").map(|at| ground.fit.on_floor(root, "home", ground.fit.attacker(at))),
        programs: program::read_all(root, &from, ground),
        choice: root.word("choose", &CHOOSE),
    }
}

/// The programs of a route that another one may choose, under that one's own conditions too.
fn chosen(desk: &Desk, table: &Reader<'_>, ground: &Ground<'_>) -> Vec<Program> {
    let further = program::conditions(table, "when", ground);
    let then = table.maybe_word("then", &THENS);
    let Some(file) = table.file("route") else { return Vec::new() };
    let root = Reader::root(desk, &file.root, &ROUTE);
    if let Some(nested) = root.find("choice") {
        root.refuse("choice", nested, "no choice in a route that is itself chosen".into(), None);
    }
    let mut programs = own(&root, &file, ground).programs;
    for program in &mut programs {
        program.when.extend(further.iter().copied());
        program.then = then.unwrap_or(program.then);
    }
    programs
}
