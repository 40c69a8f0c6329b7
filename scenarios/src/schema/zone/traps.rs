//! Traps: ball places where a second man comes, and who comes there.
//!
//! A zone's file may say who traps at a place and where the others stand then (`[traps.corner]`). Where it does
//! not, the second man is the column that stands second nearest to the ball, and the others keep the place's row.
//! The goalie is always the column of the row that stands nearest to the rim; the two left are interceptors.

use engine::math::Vec2;
use engine::setup::{BallPlace, Trap};

use super::Columns;
use super::rows::{Row, row_of};
use crate::key::Key;
use crate::read::Reader;
use crate::tree::Node;

const TRAP: Key = Key::other("trap", "Ball places where a second man comes.");

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
pub fn read(root: &Reader<'_>, choice: &Reader<'_>, columns: &Columns) -> Traps {
    let mut written: [Option<Written>; BallPlace::COUNT] = Default::default();
    if let Some(tables) = root.maybe_table(Key::other("traps", "Who traps at a ball place.")) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let key = Key::other(name, "Who comes as the second man here, and where the others stand then.");
            let Some(table) = tables.maybe_table(key) else { continue };
            let trapper = Key::other("trapper", "The column that comes as the second man.");
            let trapper = table.find(trapper.name).map(|node| columns.read(&table, trapper, node));
            let row = table.find("anchors").map(|_| row_of(&table, columns));
            written[place] = Some(Written { trapper, row });
        }
    }
    let usual = root.find(TRAP.name).map(|node| places(root, node));
    let own = choice.find(TRAP.name).map(|node| places(choice, node));
    Traps { written, called: own.or(usual).unwrap_or_default() }
}

fn places(reader: &Reader<'_>, node: &Node) -> [bool; BallPlace::COUNT] {
    let words: Vec<(&str, usize)> = BallPlace::NAMES.into_iter().zip(0..).collect();
    let mut called = [false; BallPlace::COUNT];
    for node in reader.list_in(TRAP, node) {
        if let Some(place) = reader.word_in(TRAP, node, &words) {
            called[place] = true;
        }
    }
    called
}

impl Traps {
    /// The trap of a place, if it is called there.
    pub fn of(
        &self,
        place: BallPlace,
        usual: &Row,
        (taker, ball): (u8, Vec2),
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
            written.and_then(|written| written.trapper).unwrap_or_else(|| least(&|c| c != taker, ball));
        let goalie = least(&|c| c != taker && c != trapper, Vec2::RIM);
        Some(Trap { row: placed(row, place, &[taker, trapper]), trapper, goalie })
    }
}
