//! Tables of continuation values, as `zoneprobe worth` writes them.

use engine::setup::{BallPlace, CLOCK_S, Continuation, ENTRIES, HELD_S, MISSES, Moved, entry};

use crate::declared::{Count, Field, Kind, Part, Table};
use crate::read::Reader;
use crate::source::{Desk, Named};
use crate::text::Text;
use crate::tree::Node;

/// Net points from a state on, as every entry holds them.
const NET: Field = Field::number(
    "",
    "points",
    (-2.0, 3.0),
    "Four rows (the ball held for 0.25, 0.75, 1.5 and 3 s), each of nine net points (0.5, 1.5, 3, 5, 8, 12, 17, 23 and \
     30 s left on the shot clock).",
);
const ROW: Kind = Kind::List(&Kind::Number, Count::Within(CLOCK_S.len(), CLOCK_S.len()));

static AFTER: Table = Table::of(&[Part::Fields(&[
    Field::number(
        "miss",
        "points",
        (-2.0, 3.0),
        "Net points that follow a missed shot: a two from within 3.05 m, from beyond, a three.",
    )
    .list(&Kind::Number, Count::Within(MISSES, MISSES))
    .needed(),
    Field::number("loss", "points", (-2.0, 0.0), "Net points that follow a pass taken by the zone.").needed(),
])]);

static PLACE: Table = Table::of(&[Part::Each(
    &Moved::NAMES,
    NET.list(&ROW, Count::Within(HELD_S.len(), HELD_S.len())).needed(),
)]);

static POINTS: Table = Table::of(&[Part::Each(
    &BallPlace::NAMES,
    Field::table("", &PLACE, "Net points with the ball here.").needed(),
)]);

/// A table of worth.
pub(crate) static WORTH: Table = Table::of(&[Part::Fields(&[
    Field::text("made_by", Text::Prose, "The command that made it."),
    Field::table("after", &AFTER, "Net points that follow the end of a chance.").needed(),
    Field::table(
        "points",
        &POINTS,
        "Net points from a state on: a table for each ball place, in it a list for each move of the ball.",
    )
    .needed(),
])]);

/// Reads a table; the impatience is the level's.
pub(crate) fn read(desk: &Desk, file: &Named, impatience_per_s: f32) -> Continuation {
    let root = Reader::root(desk, &file.root, &WORTH);
    root.maybe_text("made_by");
    let mut table = Continuation { impatience_per_s, ..Continuation::flat(0.0) };
    if let Some(after) = root.table("after") {
        match after.find("miss") {
            Some(node) => numbers(&after, "miss", node, &mut table.after_miss),
            None => after.missing("miss", format!("a list of {MISSES} numbers")),
        }
        table.after_loss = after.number("loss");
    }
    if let Some(points) = root.table("points") {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            if let Some(of_place) = points.table(name) {
                for (moved, name) in Moved::NAMES.into_iter().enumerate() {
                    rows(&of_place, name, &mut table.points, (place, moved));
                }
            }
        }
    }
    table
}

fn rows(reader: &Reader<'_>, name: &str, points: &mut [f32; ENTRIES], (place, moved): (usize, usize)) {
    let rows = reader.list(name);
    if rows.len() != HELD_S.len() {
        let allowed = format!("{} rows of {} numbers", HELD_S.len(), CLOCK_S.len());
        reader.missing(name, allowed);
        return;
    }
    for (held, row) in rows.iter().enumerate() {
        let first = entry(place, moved, held, 0);
        numbers(reader, name, row, &mut points[first..first + CLOCK_S.len()]);
    }
}

/// The numbers of a list, just as many as there is room for.
fn numbers(reader: &Reader<'_>, name: &str, list: &Node, into: &mut [f32]) {
    let members = reader.list_in(name, list);
    if members.len() != into.len() {
        let at = members.first().unwrap_or(list);
        reader.refuse(name, at, format!("a list of {} numbers", into.len()), None);
        return;
    }
    for (node, number) in members.iter().zip(into) {
        if let Some(read) = reader.number_in(name, node) {
            *number = read;
        }
    }
}
