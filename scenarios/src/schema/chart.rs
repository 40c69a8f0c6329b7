//! A chart: a table of comma-separated values that a helper on the bench fills in by hand, a row a possession. What he did
//! not see he leaves empty. Who charts every shot gives a possession several rows of the same number, one under another: the
//! last is how it ended, those above it are shots that did not end it.

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

/// Words, and after them the marks of the printed form for the same.
const fn with_marks<T: Copy, const A: usize, const B: usize, const ALL: usize>(
    words: [(&'static str, T); A],
    marks: [(&'static str, T); B],
) -> [(&'static str, T); ALL] {
    assert!(A + B == ALL);
    let mut all = [words[0]; ALL];
    let mut nth = 0;
    while nth < ALL {
        all[nth] = if nth < A { words[nth] } else { marks[nth - A] };
        nth += 1;
    }
    all
}

const END_WORDS: [(&str, End); 14] = with_marks(
    ENDS,
    [
        ("2+", End::TwoMade),
        ("2-", End::TwoMissed),
        ("2\u{2212}", End::TwoMissed),
        ("3+", End::ThreeMade),
        ("3-", End::ThreeMissed),
        ("3\u{2212}", End::ThreeMissed),
        ("ft", End::FreeThrows),
        ("to", End::Turnover),
    ],
);
const SPOT_WORDS: [(&str, Spot); 14] = with_marks(
    SPOTS,
    [
        ("r", Spot::Rim),
        ("l", Spot::LowPost),
        ("h", Spot::HighPost),
        ("s", Spot::ShortCorner),
        ("c", Spot::Corner),
        ("w", Spot::Wing),
        ("t", Spot::Top),
    ],
);
const SPACE_WORDS: [(&str, ShotSpace); 6] =
    with_marks(SPACES, [("g", ShotSpace::Guarded), ("o", ShotSpace::Open), ("w", ShotSpace::WideOpen)]);
/// Who shot: the number of his position on the form, or its name. He may be named instead.
const POSITIONS: [(&str, usize); 10] = [
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
    Field::number(
        "possession",
        "",
        (0.0, NUMBER_MOST),
        "Its number; rows of one possession stand one under another, shots that did not end it first.",
    )
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
    Field::other(
        "end",
        Kind::Word(&END_WORDS),
        "How it ended; of several shots the last one. In a row above another of the same number: a shot that did not end it.",
    ),
    Field::text(
        "who",
        Text::Name,
        "The last shooter, or who went to the line: his position, 1 to 5 or by its name, his name, or his number as #4.",
    ),
    Field::other("place", Kind::Word(&SPOT_WORDS), "Where the last shot came from."),
    Field::other(
        "space",
        Kind::Word(&SPACE_WORDS),
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
    /// Shots before the last one that were charted too.
    pub earlier: Vec<Attempt>,
}

/// A shot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attempt {
    /// Whether it was a three, and went in.
    pub end: End,
    /// Role of the shooter.
    pub who: Option<usize>,
    /// Where it came from.
    pub spot: Option<Spot>,
    /// How much space he had.
    pub space: Option<ShotSpace>,
}

impl Charted {
    /// The shot with which the possession ended, if it did.
    fn last_shot(&self) -> Option<Attempt> {
        let end = self.end.filter(|end| end.is_shot())?;
        Some(Attempt { end, who: self.who, spot: self.spot, space: self.space })
    }

    /// All shots that were charted, in their order.
    pub fn shots(&self) -> impl Iterator<Item = Attempt> + '_ {
        self.earlier.iter().cloned().chain(self.last_shot())
    }

    /// Takes in the rows above, as far as nothing else stands in this one.
    fn after(&mut self, before: Charted) {
        let shot = before.last_shot();
        self.earlier = before.earlier;
        self.earlier.extend(shot);
        self.call = self.call.take().or(before.call);
        self.zone = self.zone.or(before.zone);
        self.high_post = self.high_post.or(before.high_post);
        self.low_post = self.low_post.or(before.low_post);
    }
}

/// A player who may be named in a chart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wearer {
    /// His name; empty: none.
    pub name: String,
    /// The number on his shirt.
    pub number: Option<u32>,
    /// His role.
    pub role: usize,
}

/// What cells may name.
pub(crate) struct Calls<'a> {
    /// The variants of the result; None: anything, and anybody.
    pub variants: Option<&'a [String]>,
    /// The players.
    pub players: &'a [Wearer],
}

/// Reads the rows of such a table.
pub(crate) fn read(desk: &Desk, rows: &Node, calls: &Calls<'_>) -> Vec<Charted> {
    let mut numbers = BTreeSet::new();
    let mut found: Vec<Charted> = Vec::new();
    // Session and number of the possession in the row above, if it may go on.
    let mut above = None;
    for (nth, row) in rows.members().iter().enumerate() {
        let reader = Reader::over(desk, row, &ROW, format!("row {}", nth + 1));
        reader.maybe_text("note");
        let session = reader.maybe_word("session", &SESSIONS);
        let number = reader.maybe_whole("possession").map(|number| (session, number));
        let mut charted = Charted {
            session,
            call: called(&reader, row, calls.variants),
            zone: reader.maybe_word("zone", &SHAPES),
            high_post: reader.maybe_word("high_post", &SEEN),
            low_post: reader.maybe_word("low_post", &SEEN),
            end: reader.maybe_word("end", &END_WORDS),
            who: who(&reader, row, calls),
            spot: reader.maybe_word("place", &SPOT_WORDS),
            space: reader.maybe_word("space", &SPACE_WORDS),
            line: line(&reader, row),
            earlier: Vec::new(),
        };
        judge(&reader, row, &charted);
        let is_new = number.is_none_or(|number| numbers.insert(number));
        if !is_new {
            // A miss goes on to anything, a basket to the free throw after it.
            let goes_on = |before: &Charted| {
                before.end.is_some_and(|end| {
                    end.is_shot() && (!end.is_made() || charted.end == Some(End::FreeThrows))
                })
            };
            if let Some(before) = found.pop_if(|before| above == number && goes_on(before)) {
                charted.after(before);
            } else if let Some(entry) = row.get("possession") {
                let allowed = "each number once in a session, or right under a row of the same number with a missed shot or a \
                               basket before its free throw";
                reader.refuse("possession", &entry.node, allowed.into(), None);
            }
        }
        above = number;
        // A row of the form that has its number and nothing else has not been filled in.
        if charted != (Charted { session, ..Charted::default() }) {
            found.push(charted);
        }
    }
    found
}

/// What was called, one of what the result has.
fn called(reader: &Reader<'_>, row: &Node, calls: Option<&[String]>) -> Option<String> {
    let call = reader.maybe_text("call")?;
    let Some(calls) = calls else { return Some(call.to_owned()) };
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

/// Who it was. A number alone is a position's, unless a player wears it: then it could be either.
fn who(reader: &Reader<'_>, row: &Node, calls: &Calls<'_>) -> Option<usize> {
    let players = calls.players;
    let text = reader.maybe_text("who")?.trim().to_lowercase();
    let digits = |text: &str| text.trim().trim_end_matches(".0").parse::<u32>().ok();
    let shirt = ["#", "no. ", "no ", "no."].iter().find_map(|sign| digits(text.strip_prefix(sign)?));
    let worn = |number: u32| players.iter().find(|own| own.number == Some(number));
    let named = |own: &&Wearer| !own.name.is_empty() && own.name.to_lowercase() == text;
    if let Some(player) = players.iter().find(named) {
        return Some(player.role);
    }
    if let Some(player) = shirt.and_then(worn) {
        return Some(player.role);
    }
    let key = text.replace([' ', '_'], "-");
    let position = POSITIONS.iter().find(|(word, _)| *word == key).map(|(_, role)| *role);
    let wearer = digits(&text).and_then(worn);
    match (position, wearer) {
        (Some(role), Some(wearer)) if wearer.role != role => {
            let entry = row.get("who")?;
            let allowed = format!(
                "#{key} for the {} who wears it, or the position as {}",
                ROLES[wearer.role], ROLES[role]
            );
            reader.refuse("who", &entry.node, allowed, None);
            None
        }
        (Some(role), _) => Some(role),
        (None, Some(wearer)) => Some(wearer.role),
        // Who the players are is not known here.
        (None, None) if calls.variants.is_none() => None,
        (None, None) => {
            let entry = row.get("who")?;
            let names = players.iter().flat_map(|own| {
                let number = own.number.map(|number| format!("#{number}"));
                [Some(own.name.clone()).filter(|name| !name.is_empty()), number].into_iter().flatten()
            });
            let all: Vec<String> =
                POSITIONS.iter().map(|(word, _)| (*word).to_owned()).chain(names).collect();
            // A number is no misspelt one.
            let is_number = shirt.or_else(|| digits(&text)).is_some();
            let near = if is_number { None } else { nearest(&key, all.iter().map(String::as_str)) };
            reader.refuse("who", &entry.node, one_of(all.iter().map(String::as_str)), near);
            None
        }
    }
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
    let inside = matches!(charted.spot, Some(Spot::Rim | Spot::LowPost | Spot::HighPost | Spot::ShortCorner));
    if inside && charted.end.is_some_and(End::is_three) {
        refuse("place", "corner, wing or top beside a three");
    }
    if charted.end == Some(End::Turnover) {
        for key in ["place", "space"] {
            refuse(key, "nothing beside a turnover: it is of shots");
        }
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
