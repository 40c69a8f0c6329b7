//! The rows of a zone's file: for each ball place where the zone stands, who takes the ball, how posts are played.

use engine::math::Vec2;
use engine::setup::{BallPlace, Line, PostStance};

use super::Columns;
use crate::declared::{Count, Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;

/// Post stances by name.
const STANCES: [(&str, PostStance); 3] = [
    ("behind", PostStance::Behind),
    ("three-quarter", PostStance::ThreeQuarter),
    ("front", PostStance::Front),
];

/// Place of each column, and of each column of the back line at full sink.
pub const ANCHORS: Field = Field::place("anchors", "Place of each column, in the columns' order.")
    .list(&Kind::Place, Count::Within(5, 5));
pub const SUNK: Field = Field::place("sunk", "Place of each column of the back line at a sink of 1.2 m.")
    .list(&Kind::Place, Count::Within(0, 5))
    .with("anchors");

/// How a post is played.
const STANCE: Field =
    Field::other("post_stance", Kind::Word(&STANCES), "How a post is played with the ball here.");

static ROW: Table = Table::of(&[Part::Fields(&[
    Field::place("ball", "Where the ball is, on the right.").needed(),
    ANCHORS.needed().not_with("marks"),
    SUNK.not_with("marks"),
    Field::other(
        "takers",
        Kind::List(&Kind::Column, Count::Within(1, 2)),
        "Columns that may take the ball here, likeliest first.",
    )
    .needed()
    .not_with("marks"),
    STANCE.or(Need::Word("behind")),
])]);
static ROWS: Table = Table::of(&[Part::Each(
    &BallPlace::NAMES,
    Field::table(
        "",
        &ROW,
        "Where the zone stands with the ball here: a table [rows.NAME] for each ball place (a bundled zone has one to \
         copy).",
    )
    .needed(),
)]);
/// The rows of a zone's file.
pub const FIELD: Field = Field::table("rows", &ROWS, "One row for each ball place.").needed();

static STANCES_CHOSEN: Table = Table::of(&[Part::Each(&BallPlace::NAMES, STANCE.or(Need::Below))]);
/// Post stances in a scenario's `[zone]`.
pub const CHOSEN: Field = Field::table("post_stance", &STANCES_CHOSEN, "Post stance by ball place.");

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
    if let Some(table) = root.table("rows") {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let Some(row) = table.table(name) else { continue };
            all.ball_places[place] = fit.on_floor(&row, "ball", fit.attacker(row.place("ball")));
            if !marks {
                all.rows[place] = row_of(&row, columns);
                all.takers[place] = two_takers(&row, columns);
            }
            all.post_stance[place] = row.word("post_stance", &STANCES);
        }
    }
    if let Some(stances) = choice.table("post_stance") {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            all.post_stance[place] = stances.maybe_word(name, &STANCES).unwrap_or(all.post_stance[place]);
        }
    }
    all
}

/// Reads `anchors` and `sunk`.
pub fn row_of(reader: &Reader<'_>, columns: &Columns) -> Row {
    let mut row = Row::empty();
    let allowed = "five places [x, y], one for each column";
    match reader.places("anchors", 5, allowed.into()) {
        Some(places) => row.anchors.iter_mut().zip(places).for_each(|(to, place)| *to = place),
        None if !reader.has("anchors") => reader.missing("anchors", allowed.into()),
        None => {}
    }
    row.sunk = row.anchors;
    let back: Vec<usize> = (0..5).filter(|&c| columns.columns[c].line == Line::Back).collect();
    let allowed = format!("{} places [x, y], one for each column of the back line", back.len());
    for (&column, place) in back.iter().zip(reader.places("sunk", back.len(), allowed).unwrap_or_default()) {
        row.sunk[column] = place;
    }
    row
}

/// Reads `takers`: one or two columns, likeliest first.
fn two_takers(reader: &Reader<'_>, columns: &Columns) -> [u8; 2] {
    let nodes = reader.list("takers").iter();
    let named: Vec<u8> = nodes.map(|node| columns.read(reader, "takers", node)).collect();
    match named.as_slice() {
        [only] => [*only; 2],
        [first, second] => [*first, *second],
        _ => {
            reader.missing("takers", "one or two columns, such as [\"near back\"]".into());
            [0; 2]
        }
    }
}
