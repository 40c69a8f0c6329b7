//! Man-to-man: the weights of man, ball and rim in the place of a defender off the ball.

use engine::setup::{Line, Marks};

use super::Columns;
use super::place::Lines;
use crate::key::Key;
use crate::read::Reader;

/// The `[marks]` table, if the zone's file has one: then it is a man-to-man.
pub fn weights<'d>(root: &Reader<'d>) -> Option<Reader<'d>> {
    root.maybe_table(Key::other("marks", "Man-to-man: column i guards the attacker of role i."))
}

/// Reads the weights; a line that sinks sags toward the rim.
pub fn read(table: Reader<'_>, columns: &Columns, lines: &Lines) -> Marks {
    let weight = |name, doc| table.sourced(Key::share(name, doc));
    Marks {
        man: weight("man", "Weight of the man; the rim has what man and ball leave."),
        ball: weight("ball", "Weight of the ball."),
        sag_m: std::array::from_fn(|c| match columns.columns[c].line {
            Line::Front => lines.sink_front,
            Line::Back => lines.sink_back,
        }),
    }
}
