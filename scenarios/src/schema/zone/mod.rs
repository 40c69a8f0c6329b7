//! Zones: positions, anchors by ball place, on-ball defenders and rules; sink, extension and the floor worked in.

mod marks;
mod place;
mod positions;
mod post;
mod rows;
mod rules;
mod traps;

pub(crate) use positions::Positions;

use engine::setup::{OverloadRule, Zone, ZoneShape};

use crate::declared::{Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::level::Layers;
use crate::source::{Desk, Named};
use crate::tree::{Data, Node};
use place::{Lines, Work};
use rules::Rules;

/// Share of its sink that a zone keeps when it adjusts. (assumed)
const SINK_KEPT: f32 = 0.5;

/// What a defender does with two attackers in his area, by name.
const OVERLOADS: [(&str, OverloadRule); 4] = [
    ("danger", OverloadRule::Danger),
    ("nearest-rim", OverloadRule::NearestRim),
    ("nearest-ball", OverloadRule::NearestBall),
    ("between", OverloadRule::Between),
];

/// A zone's file.
pub(crate) static ZONE: Table = Table::of(&[
    Part::Fields(&[positions::FIELD, marks::FIELD, rows::FIELD]),
    rules::FIELDS,
    Part::Fields(&[post::FIELD, traps::FIELD, traps::CALLED]),
]);

/// A scenario's choice of a zone, and how it is played.
pub(crate) static CHOICE: Table = Table::of(&[
    Part::Fields(&[Field::other("use", Kind::File("zones"), "The zone's shape.").needed()]),
    place::LINES,
    Part::Fields(&[rows::CHOSEN]),
    rules::CHOSEN,
    Part::Fields(&[
        traps::CALLED,
        Field::other(
            "overload_rule",
            Kind::Word(&OVERLOADS),
            "What a defender does with two attackers in his area.",
        )
        .or(Need::Word("danger")),
        Field::other(
            "high_post_on_ball",
            Kind::Position,
            "The position that steps up to a ball at the high post.",
        ),
        Field::number("adjust_after", "burns", (1.0, 50.0), "Uncontested catches until the zone adjusts.")
            .as_kind(Kind::Whole),
    ]),
    Part::Parameters(Zone::PARAMETERS),
]);

/// Reads a zone's file, the scenario's `[zone]` table and the defending level's `[defence]` table.
pub(crate) fn read(
    desk: &Desk,
    file: &Named,
    choice: Option<Reader<'_>>,
    level: Option<Reader<'_>>,
    fit: Fit,
) -> (Zone, Positions) {
    let root = Reader::root(desk, &file.root, &ZONE);
    let positions = positions::read(&root);
    let empty = Node { origin: file.root.origin, data: Data::Table(Vec::new()) };
    let choice = choice.unwrap_or_else(|| Reader::over(desk, &empty, &CHOICE, "zone".into()));
    let lines = Lines::read(&choice);
    let weights = marks::weights(&root);
    let mut rows = rows::read(&root, &choice, (&positions, weights.is_some()), fit);
    let rules = Rules::read(&root, &choice, (&positions, fit), &mut rows);
    let on_post = post::read(&root, (&positions, fit));
    let traps = traps::read(&root, &choice, (&positions, fit));
    let overload = choice.word("overload_rule", &OVERLOADS);
    let high_post = "high_post_on_ball";
    let high_post = choice.find(high_post).map(|node| positions.read(&choice, high_post, node));
    let adjust_after = choice.maybe_whole("adjust_after").and_then(|many| u8::try_from(many).ok());

    let work = Work { positions: &positions, rows: &rows, rules: &rules, traps: &traps, high_post, fit };
    let table = work.table(rules.corner, &lines);
    // The next corner rule of the file, after the last one the first.
    let next = rules.corner.map(|rule| (rule + 1) % rules.corners.len());
    let adjusted = adjust_after.map(|_| work.table(next, &lines.sunk_by(SINK_KEPT)));
    let marks = weights.map(|weights| marks::read(weights, &positions, &lines));

    let defence = Layers::new(Some(choice), level);
    let shape = ZoneShape {
        name: file.name.clone(),
        positions: positions.all.clone(),
        ball_places: rows.ball_places,
        table,
        adjusted,
        adjust_after: adjust_after.unwrap_or(u8::MAX),
        marks,
        helper: rules.helper,
        overload,
        high_post_named: high_post.is_some(),
        on_post: on_post.map(|on| on.placed(&rows)),
        post_stance: rows.post_stance,
    };
    (Zone::stated(|parameter| defence.number(parameter), shape), positions)
}
