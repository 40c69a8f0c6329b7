//! Who plays a post on the near block before he has the ball, and where he stands by the post stance.

use engine::math::Vec2;
use engine::setup::{BallPlace, OnPost, PostStance};

use super::Positions;
use super::rows::Rows;
use crate::declared::{Field, Kind, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::program::{places, places_under};

const fn stands(name: &'static str) -> Field {
    Field::place(name, "Where he stands with this post stance, the ball on the right.").needed()
}

static ON_POST: Table = Table::of(&[Part::Fields(&[
    Field::other("position", Kind::Position, "Who plays him, unless the ball is his.").needed(),
    places_under("at", "Where the ball is then.").needed(),
    stands("behind"),
    stands("three-quarter"),
    stands("front"),
])]);
/// The table of a zone's file.
pub const FIELD: Field = Field::table(
    "on_post",
    &ON_POST,
    "Who plays a post on the near block, and where; without it his anchor holds.",
);

/// A zone's `[on_post]` as written.
pub struct Written {
    position: u8,
    at: [bool; BallPlace::COUNT],
    stances: [Vec2; 3],
}

/// Reads it.
pub fn read(root: &Reader<'_>, (positions, fit): (&Positions, Fit)) -> Option<Written> {
    let t = root.table("on_post")?;
    let position = t.find("position").map(|node| positions.read(&t, "position", node));
    if position.is_none() {
        t.missing("position", "a position, such as \"near back\"".into());
    }
    let at = t.find("at").map(|node| places(&t, "at", node));
    if at.is_none() {
        t.missing("at", "at least one place".into());
    }
    let stances = ["behind", "three-quarter", "front"].map(|name| fit.on_floor(&t, name, t.place(name)));
    let (position, at) = (position?, at?);
    Some(Written { position, at: std::array::from_fn(|place| at.has(place)), stances })
}

impl Written {
    /// With the stances worked in. Sink does not move him: a back who has a post on his block plays him in touch, however
    /// deep his line.
    pub fn placed(&self, rows: &Rows) -> OnPost {
        let places = BallPlace::ALL.map(|place| {
            let at = place as usize;
            let stance = match rows.post_stance[at] {
                PostStance::Behind => self.stances[0],
                PostStance::ThreeQuarter => self.stances[1],
                PostStance::Front => self.stances[2],
            };
            self.at[at].then_some(stance)
        });
        OnPost { position: self.position, places }
    }
}
