//! The rows of a zone's file: for each ball place where the zone stands, who takes the ball, how posts are played.

use engine::math::Vec2;
use engine::setup::{BallPlace, Line, PostStance};

use super::Positions;
use crate::declared::{Count, Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;

/// Post stances by name.
const STANCES: [(&str, PostStance); 3] = [
    ("behind", PostStance::Behind),
    ("three-quarter", PostStance::ThreeQuarter),
    ("front", PostStance::Front),
];

/// Place of each position, and of each position of the back line at full sink.
pub const ANCHORS: Field =
    Field::place("anchors", "Place of each position on the floor, in the positions' order.")
        .list(&Kind::Place, Count::Within(5, 5));
pub const SUNK: Field =
    Field::place("sunk", "Place on the floor of each position of the back line at a sink of 1.2 m.")
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
        "on_ball",
        Kind::List(&Kind::Position, Count::Within(1, 2)),
        "Who may be the on-ball defender here, the likeliest first.",
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
    pub on_ball: [[u8; 2]; BallPlace::COUNT],
    pub post_stance: [PostStance; BallPlace::COUNT],
}

impl Row {
    fn empty() -> Row {
        Row { anchors: [Vec2::RIM; 5], sunk: [Vec2::RIM; 5] }
    }
}

/// Reads the rows; a man-to-man has no anchors and no on-ball defenders of its own.
pub fn read(
    root: &Reader<'_>,
    choice: &Reader<'_>,
    (positions, marks): (&Positions, bool),
    fit: Fit,
) -> Rows {
    let mut all = Rows {
        rows: std::array::from_fn(|_| Row::empty()),
        ball_places: [Vec2::RIM; BallPlace::COUNT],
        on_ball: [[0; 2]; BallPlace::COUNT],
        post_stance: [PostStance::Behind; BallPlace::COUNT],
    };
    if let Some(table) = root.table("rows") {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let Some(row) = table.table(name) else { continue };
            all.ball_places[place] = fit.on_floor(&row, "ball", fit.attacker(row.place("ball")));
            if !marks {
                all.rows[place] = row_of(&row, (positions, fit));
                all.on_ball[place] = one_or_two(&row, positions);
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

/// Reads `anchors` and `sunk`, which lie on the floor.
pub fn row_of(reader: &Reader<'_>, (positions, fit): (&Positions, Fit)) -> Row {
    let mut row = Row::empty();
    let allowed = "five places [x, y], one for each position";
    match reader.places("anchors", 5, allowed.into()) {
        Some(places) => {
            fit.defenders_on_floor(reader, "anchors", &places);
            row.anchors.iter_mut().zip(places).for_each(|(to, place)| *to = place);
        }
        None if !reader.has("anchors") => reader.missing("anchors", allowed.into()),
        None => {}
    }
    row.sunk = row.anchors;
    let back: Vec<usize> = (0..5).filter(|&c| positions.all[c].line == Line::Back).collect();
    let allowed = format!("{} places [x, y], one for each position of the back line", back.len());
    let sunk = reader.places("sunk", back.len(), allowed).unwrap_or_default();
    fit.defenders_on_floor(reader, "sunk", &sunk);
    for (&position, place) in back.iter().zip(sunk) {
        row.sunk[position] = place;
    }
    row
}

/// Reads `on_ball`: one or two positions, likeliest first.
fn one_or_two(reader: &Reader<'_>, positions: &Positions) -> [u8; 2] {
    let nodes = reader.list("on_ball").iter();
    let named: Vec<u8> = nodes.map(|node| positions.read(reader, "on_ball", node)).collect();
    match named.as_slice() {
        [only] => [*only; 2],
        [first, second] => [*first, *second],
        _ => {
            reader.missing("on_ball", "one or two positions, such as [\"near back\"]".into());
            [0; 2]
        }
    }
}
