//! A chart: a table of comma-separated values that a helper on the bench fills in by hand, a row a possession. What he did
//! not see he leaves empty.

use std::collections::BTreeSet;

use engine::ends::{End, Spot};
use engine::shots::ShotSpace;

use crate::declared::{Field, Kind, Part, Table};
use crate::fault::{nearest, one_of};
use crate::read::Reader;
use crate::schema::program::ROLES;
use crate::source::Desk;
use crate::text::Text;
use crate::tree::Node;

/// When a possession was played. The two are told apart: opponents who are one's own team-mates are other opponents.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Session {
    /// In a game.
    Game,
    /// In practice.
    Practice,
}

/// Sessions by name.
pub const SESSIONS: [(&str, Session); 2] = [("game", Session::Game), ("practice", Session::Practice)];
/// Ends of a possession by name, in the order of [`End::ALL`].
pub const ENDS: [(&str, End); 6] = [
    ("two-made", End::TwoMade),
    ("two-missed", End::TwoMissed),
    ("three-made", End::ThreeMade),
    ("three-missed", End::ThreeMissed),
    ("free-throws", End::FreeThrows),
    ("turnover", End::Turnover),
];
/// Where shots come from by name, in the order of [`Spot::ALL`].
pub const SPOTS: [(&str, Spot); 7] = [
    ("rim", Spot::Rim),
    ("low-post", Spot::LowPost),
    ("high-post", Spot::HighPost),
    ("short-corner", Spot::ShortCorner),
    ("corner", Spot::Corner),
    ("wing", Spot::Wing),
    ("top", Spot::Top),
];
/// Space by name, in the order of [`ShotSpace::ALL`].
pub const SPACES: [(&str, ShotSpace); 3] =
    [("guarded", ShotSpace::Guarded), ("open", ShotSpace::Open), ("wide-open", ShotSpace::WideOpen)];
/// Who shot: the number of his position on the form, or its name.
const WHO: [(&str, usize); 10] = [
    ("1", 0),
    ("2", 1),
    ("3", 2),
    ("4", 3),
    ("5", 4),
    (ROLES[0], 0),
    (ROLES[1], 1),
    (ROLES[2], 2),
    (ROLES[3], 3),
    (ROLES[4], 4),
];
/// Shapes, also without strokes: a spreadsheet takes 3-2 for a day.
const SHAPES: [(&str, &str); 12] = [
    ("1-2-2", "1-2-2"),
    ("3-2", "3-2"),
    ("2-3", "2-3"),
    ("2-1-2", "2-1-2"),
    ("1-3-1", "1-3-1"),
    ("man-to-man", "man-to-man"),
    ("122", "1-2-2"),
    ("32", "3-2"),
    ("23", "2-3"),
    ("212", "2-1-2"),
    ("131", "1-3-1"),
    ("man", "man-to-man"),
];
/// The shapes that may be seen.
pub const SHAPES_SEEN: [&str; 6] = ["1-2-2", "3-2", "2-3", "2-1-2", "1-3-1", "man-to-man"];
const SEEN: [(&str, bool); 4] = [("yes", true), ("no", false), ("y", true), ("n", false)];

/// Most possessions by number, and most free throws of one. (choices)
const NUMBER_MOST: f64 = 100_000.0;
const LINE_MOST: f64 = 3.0;

/// A row.
static ROW: Table = Table::of(&[Part::Fields(&[
    Field::number("possession", "", (0.0, NUMBER_MOST), "Its number, each once in a session.")
        .as_kind(Kind::Whole),
    Field::other("session", Kind::Word(&SESSIONS), "Whether it was played in a game or in practice."),
    Field::text("call", Text::Name, "What was called, by its name in the result; empty: as planned."),
    Field::other("zone", Kind::Word(&SHAPES), "The shape of their zone."),
    Field::other(
        "high_post",
        Kind::Word(&SEEN),
        "Whether the ball was held in the high post before the first shot.",
    ),
    Field::other(
        "low_post",
        Kind::Word(&SEEN),
        "Whether the ball was held in the low post before the first shot.",
    ),
    Field::other("end", Kind::Word(&ENDS), "How it ended; of several shots the last one."),
    Field::other(
        "who",
        Kind::Word(&WHO),
        "The position, 1 to 5, of the last shooter or of who went to the line.",
    ),
    Field::other("place", Kind::Word(&SPOTS), "Where the last shot came from."),
    Field::other(
        "space",
        Kind::Word(&SPACES),
        "The nearest defender at the release: within 1.22 m (4 ft), within 1.83 m (6 ft), or farther.",
    ),
    Field::number("line_made", "", (0.0, LINE_MOST), "Free throws made.")
        .as_kind(Kind::Whole)
        .with("line_shot"),
    Field::number("line_shot", "", (1.0, LINE_MOST), "Free throws shot.")
        .as_kind(Kind::Whole)
        .with("line_made"),
    Field::text("note", Text::Prose, "Anything else; it is not used."),
])]);

/// The columns of the table.
pub(crate) static COLUMNS: &Table = &ROW;

/// The names of the columns, in their order.
pub const CHART_COLUMNS: [&str; 13] = [
    "possession",
    "session",
    "call",
    "zone",
    "high_post",
    "low_post",
    "end",
    "who",
    "place",
    "space",
    "line_made",
    "line_shot",
    "note",
];

/// A possession as it was written down; `None`: not seen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Charted {
    /// In a game or in practice.
    pub session: Option<Session>,
    /// What was called; `None`: as planned.
    pub call: Option<String>,
    /// The shape of their zone.
    pub zone: Option<&'static str>,
    /// The ball was in the high post.
    pub high_post: Option<bool>,
    /// The ball was in the low post.
    pub low_post: Option<bool>,
    /// How it ended.
    pub end: Option<End>,
    /// Role of the last shooter, or of who went to the line.
    pub who: Option<usize>,
    /// Where the last shot came from.
    pub spot: Option<Spot>,
    /// How much space he had.
    pub space: Option<ShotSpace>,
    /// Free throws made, and shot.
    pub line: Option<(u32, u32)>,
}

/// Reads the rows of such a table; what was called is one of `calls`.
pub(crate) fn read(desk: &Desk, rows: &Node, calls: &[String]) -> Vec<Charted> {
    let mut numbers = BTreeSet::new();
    let mut found = Vec::new();
    for (nth, row) in rows.members().iter().enumerate() {
        let reader = Reader::over(desk, row, &ROW, format!("row {}", nth + 1));
        reader.maybe_text("note");
        let session = reader.maybe_word("session", &SESSIONS);
        if let Some(number) = reader.maybe_whole("possession")
            && !numbers.insert((session, number))
            && let Some(entry) = row.get("possession")
        {
            reader.refuse("possession", &entry.node, "each number once in a session".into(), None);
        }
        let charted = Charted {
            session,
            call: called(&reader, row, calls),
            zone: reader.maybe_word("zone", &SHAPES),
            high_post: reader.maybe_word("high_post", &SEEN),
            low_post: reader.maybe_word("low_post", &SEEN),
            end: reader.maybe_word("end", &ENDS),
            who: reader.maybe_word("who", &WHO),
            spot: reader.maybe_word("place", &SPOTS),
            space: reader.maybe_word("space", &SPACES),
            line: line(&reader, row),
        };
        judge(&reader, row, &charted);
        // A row of the form that has its number and nothing else has not been filled in.
        if charted != (Charted { session, ..Charted::default() }) {
            found.push(charted);
        }
    }
    found
}

/// What was called, one of what the result has.
fn called(reader: &Reader<'_>, row: &Node, calls: &[String]) -> Option<String> {
    let call = reader.maybe_text("call")?;
    let known: Vec<&str> = calls.iter().map(String::as_str).collect();
    if !known.contains(&call)
        && let Some(entry) = row.get("call")
    {
        reader.refuse(
            "call",
            &entry.node,
            one_of(known.iter().copied()),
            nearest(call, known.iter().copied()),
        );
    }
    Some(call.to_owned())
}

/// Free throws made, no more than were shot.
fn line(reader: &Reader<'_>, row: &Node) -> Option<(u32, u32)> {
    let (made, shot) = (reader.maybe_whole("line_made"), reader.maybe_whole("line_shot"));
    for (key, other) in [("line_made", "line_shot"), ("line_shot", "line_made")] {
        if reader.has(key) && !reader.has(other) {
            reader.missing(other, format!("a whole number, beside {key}"));
        }
    }
    let (made, shot) = (made?, shot?);
    if made > shot
        && let Some(entry) = row.get("line_made")
    {
        reader.refuse("line_made", &entry.node, format!("no more than line_shot, {shot}"), None);
    }
    Some((u32::try_from(made).ok()?, u32::try_from(shot).ok()?))
}

/// Refuses cells that cannot both be true.
fn judge(reader: &Reader<'_>, row: &Node, charted: &Charted) {
    let refuse = |key: &str, allowed: &str| {
        if let Some(entry) = row.get(key) {
            reader.refuse(key, &entry.node, allowed.into(), None);
        }
    };
    let inside = matches!(charted.spot, Some(Spot::Rim | Spot::LowPost | Spot::HighPost));
    if inside && charted.end.is_some_and(End::is_three) {
        refuse("place", "corner, wing or top beside a three");
    }
    if charted.line.is_some() && charted.end.is_some_and(|end| end != End::FreeThrows) {
        refuse("line_made", "free throws beside the end free-throws only, which it is after a basket, too");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stand_in_the_order_of_what_they_name() {
        assert_eq!(ENDS.map(|(_, end)| end), End::ALL);
        assert_eq!(SPOTS.map(|(_, spot)| spot), Spot::ALL);
        assert_eq!(SPACES.map(|(_, space)| space), ShotSpace::ALL);
        let columns: Vec<&str> = COLUMNS.fields().map(|field| field.key.name).collect();
        assert_eq!(columns, CHART_COLUMNS);
    }
}
