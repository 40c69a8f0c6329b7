//! Traps: ball places where a second man comes, and who comes there.
//!
//! A zone's file may say who traps at a place and where the others stand then (`[traps.corner]`). Where it does
//! not, the second man is the position that stands second nearest to the ball, and the others keep the place's row.
//! The goalie is always the position of the row that stands nearest to the rim; the two left are interceptors.

use engine::math::Vec2;
use engine::setup::{BallPlace, Trap};

use super::Positions;
use super::rows::{ANCHORS, Row, SUNK, row_of};
use crate::declared::{Count, Field, Kind, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::tree::Node;

/// The ball places by name with their numbers.
const PLACES: [(&str, usize); BallPlace::COUNT] = {
    let mut places = [("", 0); BallPlace::COUNT];
    let mut at = 0;
    while at < BallPlace::COUNT {
        places[at] = (BallPlace::NAMES[at], at);
        at += 1;
    }
    places
};

static TRAP: Table = Table::of(&[Part::Fields(&[
    Field::other("trapper", Kind::Position, "The position that comes as the second man."),
    ANCHORS,
    SUNK,
])]);
static TRAPS: Table = Table::of(&[Part::Each(
    &BallPlace::NAMES,
    Field::table("", &TRAP, "Who comes as the second man here, and where the others stand then."),
)]);
/// The traps of a zone's file.
pub const FIELD: Field = Field::table("traps", &TRAPS, "Who traps at a ball place.");
/// The places where they are called, in a zone's file or a scenario's `[zone]`.
pub const CALLED: Field = Field::other(
    "trap",
    Kind::List(&Kind::Word(&PLACES), Count::Any),
    "Ball places where a second man comes.",
);

/// Who traps at a place, as written.
struct Written {
    trapper: Option<u8>,
    row: Option<Row>,
}

/// The zone's traps, and the places where they are called.
pub struct Traps {
    written: [Option<Written>; BallPlace::COUNT],
    called: [bool; BallPlace::COUNT],
}

/// Reads the zone's traps, and the places that the scenario calls, or else the zone's file.
pub fn read(root: &Reader<'_>, choice: &Reader<'_>, (positions, fit): (&Positions, Fit)) -> Traps {
    let mut written: [Option<Written>; BallPlace::COUNT] = Default::default();
    if let Some(tables) = root.table("traps") {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let Some(table) = tables.table(name) else { continue };
            let trapper = table.find("trapper").map(|node| positions.read(&table, "trapper", node));
            let row = table.find("anchors").map(|_| row_of(&table, (positions, fit)));
            written[place] = Some(Written { trapper, row });
        }
    }
    let usual = root.find("trap").map(|node| places(root, node));
    let own = choice.find("trap").map(|node| places(choice, node));
    Traps { written, called: own.or(usual).unwrap_or_default() }
}

fn places(reader: &Reader<'_>, node: &Node) -> [bool; BallPlace::COUNT] {
    let mut called = [false; BallPlace::COUNT];
    for place in reader.words("trap", node, &PLACES) {
        called[place] = true;
    }
    called
}

impl Traps {
    /// The trap of a place, if it is called there.
    pub fn of(
        &self,
        place: BallPlace,
        usual: &Row,
        (on_ball, ball): (u8, Vec2),
        placed: &dyn Fn(&Row, BallPlace, &[u8]) -> [Vec2; 5],
    ) -> Option<Trap> {
        if !self.called[place as usize] {
            return None;
        }
        let written = self.written[place as usize].as_ref();
        let row = written.and_then(|written| written.row.as_ref()).unwrap_or(usual);
        let least = |among: &dyn Fn(u8) -> bool, from: Vec2| {
            let far = |c: &u8| row.anchors[usize::from(*c)].distance(from);
            (0..5).filter(|c| among(*c)).min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(0)
        };
        let trapper =
            written.and_then(|written| written.trapper).unwrap_or_else(|| least(&|c| c != on_ball, ball));
        let goalie = least(&|c| c != on_ball && c != trapper, Vec2::RIM);
        Some(Trap { row: placed(row, place, &[on_ball, trapper]), trapper, goalie })
    }
}
