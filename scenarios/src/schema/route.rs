//! The rover's routes, one file each.

use engine::math::Vec2;
use engine::setup::{Program, ProgramKind};

use crate::key::Key;
use crate::read::Reader;
use crate::schema::program::{self, Ground, ROVER};
use crate::source::{Desk, Named};

/// A route: its programs, and where the rover starts if not at his place in the formation.
pub(crate) struct Route {
    /// Fitted to the floor.
    pub home: Option<Vec2>,
    pub programs: Vec<Program>,
}

/// Reads a route.
pub(crate) fn read(desk: &Desk, file: &Named, ground: &Ground<'_>) -> Route {
    let root = Reader::root(desk, &file.root);
    let from = program::From { file, kind: ProgramKind::Route, who: ROVER, weight: 1.0 };
    let home = Key::place("home", "Where the rover starts, his side being +x.");
    Route {
        home: root.maybe_place(home).map(|at| ground.fit.on_floor(&root, home, ground.fit.attacker(at))),
        programs: program::read_all(&root, &from, ground),
    }
}
