//! Tables of what going on with the possession is worth, as `zoneprobe worth` writes them.

use engine::setup::{BallPlace, CLOCK_S, ENTRIES, GoingOn, HELD_S, MISSES, Moved, entry};

use crate::key::Key;
use crate::read::Reader;
use crate::source::{Desk, Named};
use crate::tree::Node;

const MADE_BY: Key = Key::other("made_by", "The command that made it.");
const AFTER: Key = Key::other("after", "Net points that follow the end of a chance.");
const POINTS: Key = Key::other(
    "points",
    "Net points from a state on: a table for each ball place, in it a list for each move of the ball.",
);
/// Net points, in a list.
const ENTRY: Key = Key::number("points", "points", -2.0, 3.0, "Net points from a state on.");
const MISS: Key = Key::number(
    "miss",
    "points",
    -2.0,
    3.0,
    "Net points that follow a missed shot: a two from within 3.05 m, from beyond, a three.",
);
const LOSS: Key =
    Key::number("loss", "points", -2.0, 0.0, "Net points that follow a pass taken by the zone.");
const ROWS: &str = "Four rows (the ball held for 0.25, 0.75, 1.5 and 3 s), each of nine net points (0.5, 1.5, 3, 5, 8, 12, \
     17, 23 and 30 s left on the shot clock).";

/// Reads a table; the impatience is the level's.
pub(crate) fn read(desk: &Desk, file: &Named, impatience_per_s: f32) -> GoingOn {
    let root = Reader::root(desk, &file.root);
    root.maybe_text(MADE_BY);
    let mut table = GoingOn { impatience_per_s, ..GoingOn::flat(0.0) };
    if let Some(after) = root.table(AFTER) {
        numbers(&after, MISS, after.list(MISS), &mut table.after_miss);
        if after.node().get(MISS.name).is_none() {
            after.missing(MISS, format!("a list of {MISSES} numbers"));
        }
        table.after_loss = after.number(LOSS);
    }
    if let Some(points) = root.table(POINTS) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            if let Some(of_place) = points.table(Key::other(name, "Net points with the ball here.")) {
                for (moved, name) in Moved::NAMES.into_iter().enumerate() {
                    rows(&of_place, Key { name, doc: ROWS, ..ENTRY }, &mut table.points, (place, moved));
                }
            }
        }
    }
    table
}

fn rows(reader: &Reader<'_>, key: Key, points: &mut [f32; ENTRIES], (place, moved): (usize, usize)) {
    let rows = reader.list(key);
    if rows.len() != HELD_S.len() {
        let allowed = format!("{} rows of {} numbers", HELD_S.len(), CLOCK_S.len());
        reader.missing(key, allowed);
        return;
    }
    for (held, row) in rows.iter().enumerate() {
        let first = entry(place, moved, held, 0);
        numbers(reader, key, reader.list_in(key, row), &mut points[first..first + CLOCK_S.len()]);
    }
}

/// The numbers of a list, as many as there is room for.
fn numbers(reader: &Reader<'_>, key: Key, list: &[Node], into: &mut [f32]) {
    if !list.is_empty() && list.len() != into.len() {
        reader.refuse(key, &list[0], format!("a list of {} numbers", into.len()), None);
        return;
    }
    for (node, number) in list.iter().zip(into) {
        if let Some(read) = reader.number_in(key, node, reader.path_of(key.name)) {
            *number = read;
        }
    }
}
