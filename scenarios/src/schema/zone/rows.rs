//! The rows of a zone's file: for each ball place where the zone stands, who takes the ball, how posts are played.

use engine::math::Vec2;
use engine::setup::{BallPlace, Line, PostStance};

use super::Columns;
use crate::key::Key;
use crate::read::Reader;

/// Post stances by name.
const STANCES: [(&str, PostStance); 3] = [
    ("behind", PostStance::Behind),
    ("three-quarter", PostStance::ThreeQuarter),
    ("front", PostStance::Front),
];

/// One row of a zone's table as written.
#[derive(Clone)]
pub struct Row {
    pub anchors: [Vec2; 5],
    /// The back line's places at full sink.
    pub sunk: [Vec2; 5],
}

/// All rows as written.
pub struct Rows {
    pub rows: [Row; BallPlace::COUNT],
    pub ball_places: [Vec2; BallPlace::COUNT],
    pub takers: [[u8; 2]; BallPlace::COUNT],
    pub post_stance: [PostStance; BallPlace::COUNT],
}

impl Row {
    fn empty() -> Row {
        Row { anchors: [Vec2::RIM; 5], sunk: [Vec2::RIM; 5] }
    }
}

/// Reads the rows; a man-to-man has no anchors and no takers of its own.
pub fn read(root: &Reader<'_>, choice: &Reader<'_>, columns: &Columns, marks: bool) -> Rows {
    let mut all = Rows {
        rows: std::array::from_fn(|_| Row::empty()),
        ball_places: [Vec2::RIM; BallPlace::COUNT],
        takers: [[0; 2]; BallPlace::COUNT],
        post_stance: [PostStance::Behind; BallPlace::COUNT],
    };
    if let Some(table) = root.table(Key::other("rows", "One row for each ball place.")) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let Some(row) = table.table(Key::other(name, "Where the zone stands with the ball here.")) else {
                continue;
            };
            all.ball_places[place] = row.place(Key::place("ball", "Where the ball is, on the right."));
            if !marks {
                all.rows[place] = row_of(&row, columns);
                all.takers[place] = two_takers(&row, columns);
            }
            let stance = Key::other("post_stance", "How a post is played with the ball here.");
            all.post_stance[place] = row.word_or(stance, &STANCES, PostStance::Behind);
        }
    }
    if let Some(stances) = choice.maybe_table(Key::other("post_stance", "Post stance by ball place.")) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let key = Key::other(name, "How a post is played with the ball here.");
            all.post_stance[place] = stances.word_or(key, &STANCES, all.post_stance[place]);
        }
    }
    all
}

/// Reads `anchors` and `sunk`.
pub fn row_of(reader: &Reader<'_>, columns: &Columns) -> Row {
    let mut row = Row::empty();
    let key = Key::place("anchors", "Place of each column, in the columns' order.");
    let anchors = reader.list(key);
    if anchors.len() == 5 {
        for (to, node) in row.anchors.iter_mut().zip(anchors) {
            *to = reader.place_in(key, node);
        }
    } else {
        match reader.find(key.name) {
            Some(node) => reader.refuse(key, node, "five places [x, y]".into(), None),
            None => reader.missing(key, "five places [x, y]".into()),
        }
    }
    row.sunk = row.anchors;
    let key = Key::place("sunk", "Place of each column of the back line at a sink of 1.2 m.");
    let back: Vec<usize> = (0..5).filter(|&c| columns.columns[c].line == Line::Back).collect();
    let sunk = reader.list(key);
    if sunk.len() == back.len() {
        for (&column, node) in back.iter().zip(sunk) {
            row.sunk[column] = reader.place_in(key, node);
        }
    } else if let Some(node) = reader.find(key.name) {
        reader.refuse(key, node, format!("{} places [x, y]", back.len()), None);
    }
    row
}

/// Reads `takers`: one or two columns, likeliest first.
fn two_takers(reader: &Reader<'_>, columns: &Columns) -> [u8; 2] {
    let key = Key::other("takers", "Columns that may take the ball here, likeliest first.");
    let named: Vec<u8> = reader.list(key).iter().map(|node| columns.read(reader, key, node)).collect();
    match named.as_slice() {
        [only] => [*only; 2],
        [first, second] => [*first, *second],
        _ => {
            match reader.find(key.name) {
                Some(node) => reader.refuse(key, node, "one or two columns".into(), None),
                None => reader.missing(key, "one or two columns".into()),
            }
            [0; 2]
        }
    }
}
