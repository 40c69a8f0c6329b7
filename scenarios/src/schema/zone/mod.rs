//! Zones: columns, anchors by ball place, takers and rules; sink, extension and the floor worked in.

mod columns;
mod marks;
mod place;
mod rows;
mod rules;
mod traps;

pub(crate) use columns::Columns;

use engine::setup::{OverloadRule, Zone};

use crate::key::Key;
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

/// Reads a zone's file, the scenario's `[zone]` table and the defending level's `[defence]` table.
pub(crate) fn read(
    desk: &Desk,
    file: &Named,
    choice: Option<Reader<'_>>,
    level: Option<Reader<'_>>,
    fit: Fit,
) -> (Zone, Columns) {
    let root = Reader::root(desk, &file.root);
    let columns = columns::read(&root);
    let empty = Node { origin: file.root.origin, data: Data::Table(Vec::new()) };
    let choice = choice.unwrap_or_else(|| root.nested(&empty, "zone".into(), None));
    let lines = Lines::read(&choice);
    let weights = marks::weights(&root);
    let mut rows = rows::read(&root, &choice, (&columns, weights.is_some()), fit);
    let rules = Rules::read(&root, &choice, &columns, &mut rows);
    let traps = traps::read(&root, &choice, &columns);
    let overload = Key::other("overload_rule", "What a defender does with two attackers in his area.");
    let overload = choice.word_or(overload, &OVERLOADS, OverloadRule::Danger);
    let high_post = Key::other("high_post_taker", "The column that steps up to a ball at the high post.");
    let high_post = choice.find(high_post.name).map(|node| columns.read(&choice, high_post, node));
    let burns =
        Key::number("adjust_after", "burns", 1.0, 50.0, "Uncontested catches until the zone adjusts.");
    let adjust_after = choice.maybe_whole(burns).and_then(|many| u8::try_from(many).ok());

    let work = Work { columns: &columns, rows: &rows, rules: &rules, traps: &traps, high_post, fit };
    let table = work.table(rules.corner, &lines);
    // The next corner rule of the file, after the last one the first.
    let next = rules.corner.map(|rule| (rule + 1) % rules.corners.len());
    let adjusted = adjust_after.map(|_| work.table(next, &lines.sunk_by(SINK_KEPT)));
    let marks = weights.map(|weights| marks::read(weights, &columns, &lines));

    let defence = Layers::new(Some(choice), level);
    let share = |name, doc| defence.number(Key::share(name, doc));
    let number = |name, unit, high, doc| defence.number(Key::number(name, unit, 0.0, high, doc));
    let zone = Zone {
        name: file.name.clone(),
        columns: columns.columns.clone(),
        ball_places: rows.ball_places,
        table,
        adjusted,
        adjust_after: adjust_after.unwrap_or(u8::MAX),
        marks,
        helper: rules.helper,
        overload,
        high_post_named: high_post.is_some(),
        post_stance: rows.post_stance,
        bump_delay_s: number("bump_delay_s", "s", 5.0, "Delay of the bump after the wing could have come."),
        on_ball_m: number("on_ball_m", "m", 4.0, "Distance kept from the ball by its guard."),
        closeout_stop_m: number("closeout_stop_m", "m", 3.0, "Where a closeout stops short of the receiver."),
        carry_m: number("carry_m", "m", 12.0, "How far from his anchor a defender follows an attacker."),
        match_up: share("match_up", "0 pure zone, 1 man-to-man inside the shape."),
        denial: share("denial", "How far off-ball defenders step into the passing lane, as a share."),
        reversal_denial: share("reversal_denial", "How far a front defender steps into the reversal's lane."),
        stunt_m: number("stunt_m", "m", 3.0, "How far a neighbour steps at a driver before he recovers."),
        fly_by: share(
            "fly_by",
            "Who is late runs past the shooter: 0 nobody, 1 whoever would be late at all.",
        ),
        dig: share("dig", "How far the nearest front defender drops to a post with the ball."),
        respect: share("respect", "How far differences in shooting between attackers are honoured."),
    };
    (zone, columns)
}
