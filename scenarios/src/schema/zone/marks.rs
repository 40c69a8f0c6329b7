//! Man-to-man: the weights of man, ball and rim in the place of a defender off the ball.

use engine::setup::{Line, Marks, Sag};

use super::Positions;
use super::place::Lines;
use crate::declared::{Field, Part, Table};
use crate::read::Reader;

static MARKS: Table = Table::of(&[Part::Parameters(Marks::PARAMETERS)]);
/// The weights of a man-to-man.
pub const FIELD: Field =
    Field::table("marks", &MARKS, "Man-to-man: position i guards the attacker of role i.");

/// The `[marks]` table, if the zone's file has one: then it is a man-to-man.
pub fn weights<'d>(root: &Reader<'d>) -> Option<Reader<'d>> {
    root.table("marks")
}

/// Reads the weights; a line that sinks sags toward the rim.
pub fn read(table: Reader<'_>, positions: &Positions, lines: &Lines) -> Marks {
    let sag_m = std::array::from_fn(|c| match positions.all[c].line {
        Line::Front => lines.sink_front,
        Line::Back => lines.sink_back,
    });
    Marks::stated(|parameter| Some(table.sourced(parameter.name)), Sag { sag_m })
}
