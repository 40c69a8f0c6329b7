//! The rows of a zone's file: for each ball place where the zone stands, who takes the ball, how posts are played.

use engine::math::Vec2;
use engine::setup::{BallPlace, Line, PostStance};

use super::Columns;
use crate::asked::Default;
use crate::key::Key;
use crate::read::Reader;
use crate::schema::fit::Fit;

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
pub fn read(root: &Reader<'_>, choice: &Reader<'_>, (columns, marks): (&Columns, bool), fit: Fit) -> Rows {
    let mut all = Rows {
        rows: std::array::from_fn(|_| Row::empty()),
        ball_places: [Vec2::RIM; BallPlace::COUNT],
        takers: [[0; 2]; BallPlace::COUNT],
        post_stance: [PostStance::Behind; BallPlace::COUNT],
    };
    if let Some(table) = root.table(Key::other("rows", "One row for each ball place.")) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let Some(row) = table.table(Key::other(name, "Where the zone stands with the ball here: a table [rows.NAME] for each ball place (a bundled zone has one to copy).")) else {
                continue;
            };
            let ball = Key::place("ball", "Where the ball is, on the right.");
            all.ball_places[place] = fit.on_floor(&row, ball, fit.attacker(row.place(ball)));
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
            all.post_stance[place] =
                stances.word_over(key, &STANCES, (all.post_stance[place], Default::FileBelow));
        }
    }
    all
}

/// Reads `anchors` and `sunk`.
pub fn row_of(reader: &Reader<'_>, columns: &Columns) -> Row {
    let mut row = Row::empty();
    let key = Key::place("anchors", "Place of each column, in the columns' order.");
    let allowed = "five places [x, y], one for each column";
    match reader.places(key, (5, true), allowed.into()) {
        Some(places) => row.anchors.iter_mut().zip(places).for_each(|(to, place)| *to = place),
        None if reader.node().get(key.name).is_none() => reader.missing(key, allowed.into()),
        None => {}
    }
    row.sunk = row.anchors;
    let key = Key::place("sunk", "Place of each column of the back line at a sink of 1.2 m.");
    let back: Vec<usize> = (0..5).filter(|&c| columns.columns[c].line == Line::Back).collect();
    let allowed = format!("{} places [x, y], one for each column of the back line", back.len());
    for (&column, place) in
        back.iter().zip(reader.places(key, (back.len(), false), allowed).unwrap_or_default())
    {
        row.sunk[column] = place;
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
            reader.missing(key, "one or two columns, such as [\"near back\"]".into());
            [0; 2]
        }
    }
}
