//! Players who are known by themselves: `[[player]]` tables of a scenario and the rows of its `roster`, by role.
//!
//! What is said of a player lies over his team's values; what is not said stays the team's, with its spread between
//! team-mates. A `[[player]]` of a role lies over the roster's row of that role, so that one value can be varied.

mod body;
mod craft;
mod roster;
mod shooting;
pub(crate) mod squad;
mod taken;

use std::sync::Arc;

use engine::setup::{Body, Court, Head, Individual, Licence, Skill, Team};
use engine::slots::PLAYERS;

use crate::declared::{Field, Kind, Layer, Need, Part, Table};
use crate::fault::Problem;
use crate::read::Reader;
use crate::schema::level::{self, Layers};
use crate::schema::program::ROLES;
use crate::source::Desk;
use crate::text::Text;
use crate::tree::{Entry, Node};

pub(crate) use body::USUAL;
pub(crate) use shooting::PRIOR;
pub use shooting::ROSTER_SHOTS;

/// The roles by name with their slots.
const SLOTS: [(&str, usize); 5] = [(ROLES[0], 0), (ROLES[1], 1), (ROLES[2], 2), (ROLES[3], 3), (ROLES[4], 4)];

const LICENCES: [(&str, Licence); 5] = [
    ("any-good", Licence::AnyGood),
    ("open-only", Licence::OpenOnly),
    ("no-threes", Licence::NoThrees),
    ("inside-only", Licence::InsideOnly),
    ("none", Licence::None),
];

// What belongs to a team as a whole is no player's: friction between two bodies, on what a zone shifts, how many go to the
// glass, what a possession is worth.
pub(crate) static OWN_BODY: Table = Table::of(&[Part::But(Body::PARAMETERS, &["friction"])]);
pub(crate) static OWN_HEAD: Table = Table::of(&[Part::But(Head::PARAMETERS, &["shift_on_release"])]);
static OWN_SKILL: Table = Table::of(&[
    Part::Fields(&[level::PASSES, level::SHOTS]),
    Part::But(Skill::PARAMETERS, &["crash"]),
    Part::Parameters(&engine::setup::CATCH_TO_RELEASE),
]);

const fn own(name: &'static str, table: &'static Table, doc: &'static str) -> Field {
    Field::other(name, Kind::Layer(Layer::Over, table), doc)
}

/// What may be said of a player.
pub(crate) static PLAYER: Table = Table::of(&[
    Part::Fields(&[
        Field::other("role", Kind::Word(&SLOTS), "The role that he plays.").needed(),
        Field::text("name", Text::Name, "What he is called on sheets, cards and films."),
        Field::number(
            "number",
            "",
            (0.0, 99.0),
            "His number, which stands for the name where there is none.",
        )
        .as_kind(Kind::Whole),
        Field::text("plays", Text::Name, squad::PLAYS),
        Field::other(
            "licence",
            Kind::Word(&LICENCES),
            "What he may shoot, whatever the plan says and the clock.",
        )
        .or(Need::Word("any-good")),
    ]),
    Part::Fields(&body::FIELDS),
    Part::Fields(&shooting::FIELDS),
    Part::Fields(&craft::FIELDS),
    Part::Fields(&[
        own("body", &OWN_BODY, "Single values of his body that differ from his team's."),
        own("head", &OWN_HEAD, "Single values of his sight, memory and choice that differ from his team's."),
        own("skill", &OWN_SKILL, "Single values of his ball skills that differ from his team's."),
    ]),
]);

/// The list of players.
pub(crate) const PLAYERS_LIST: Field =
    Field::tables("player", &PLAYER, "Players who are known by themselves, each by his role.");

/// The file with the rest of them.
pub(crate) const ROSTER: Field = Field::other(
    "roster",
    Kind::Rows(&PLAYER),
    "A CSV file with a player a row, its headings keys of `player`; a `player` of the same role lies over his row.",
);

/// What players are read over.
pub(crate) struct Ground<'a, 'd> {
    /// The scenario.
    pub root: &'a Reader<'d>,
    /// The lines of the floor.
    pub court: &'a Court,
    /// Their team.
    pub team: &'a Team,
    /// The layers of their team: the scenario's values over the level's.
    pub layers: &'a dyn Fn() -> Layers<'d>,
    /// Shooting by role against the team's, logit.
    pub role_shooting: [f32; 5],
}

/// Reads the players of a scenario, by slot.
pub(crate) fn read(ground: &Ground<'_, '_>) -> [Option<Arc<Individual>>; PLAYERS] {
    let rows = roster::merged(ground.root);
    let of_row = |(path, row)| {
        let reader = Reader::over(ground.root.desk, row, &PLAYER, String::clone(path));
        (slot_of(&reader), reader)
    };
    let readers: Vec<(Option<usize>, Reader<'_>)> =
        rows.iter().map(|(path, row)| of_row((path, row))).collect();
    let usual = body::Usual::of(ground.root, readers.iter().map(|(_, reader)| reader));
    let prior_attempts = ground.root.number("prior_attempts");
    let mut found: [Option<Arc<Individual>>; PLAYERS] = Default::default();
    for (slot, reader) in readers {
        if let Some(slot) = slot.filter(|slot| found[*slot].is_some()) {
            twice(&reader, SLOTS[slot].0);
        }
        // Whose role is not known is read all the same, for what else is wrong with him.
        let player = individual(ground, (slot.unwrap_or(0), reader), &usual, prior_attempts);
        if let Some(slot) = slot {
            found[slot] = Some(Arc::new(player));
        }
    }
    found
}

fn individual(
    ground: &Ground<'_, '_>,
    (slot, reader): (usize, Reader<'_>),
    usual: &body::Usual,
    prior_attempts: f32,
) -> Individual {
    let name = reader.maybe_text("name").map(str::to_owned);
    let number = reader.maybe_whole("number").map(|number| format!("no. {number}"));
    let licence = reader.word("licence", &LICENCES);
    let by = if squad::plays(&reader).is_some() { taken::By::Everybody } else { taken::By::slot(slot) };
    let said_of_body = body::Said::read(&reader, usual);
    let said_of_craft = craft::Said::read(&reader);
    let shares = shooting::shares(&reader);
    // From here on the reader is a layer like any other.
    let mut own = level::own(&(ground.layers)().under(reader), ground.team);
    said_of_body.apply(&mut own.body);
    said_of_craft.apply(&mut own);
    let base = shooting::base(slot, ground);
    let mut on = shooting::On { court: ground.court, own: &mut own.skill, base, by, prior_attempts };
    let shooting = shooting::played(&shares, &mut on);
    let name = name.or(number).unwrap_or_default();
    Individual { name, own, shooting: shooting.logits, licence, known: shooting.known, zone: None }
}

/// How a row of players is called in messages: by his name or number, else by where he stands.
pub(super) fn named(row: &Node, nth: usize) -> String {
    let name = row.get("name").and_then(|entry| entry.node.text().map(str::to_owned));
    let number =
        || row.get("number").and_then(|entry| entry.node.number()).map(|number| format!("no. {number}"));
    name.or_else(number).map_or_else(|| format!("player {}", nth + 1), |name| format!("player {name}"))
}

/// Notes what is wrong with the rows of a roster by themselves.
pub(crate) fn judge_rows(desk: &Desk, rows: &Node) {
    for (nth, row) in rows.members().iter().enumerate() {
        let path = named(row, nth);
        slot_of(&Reader::over(desk, row, &PLAYER, path.clone()).all_known());
        judge_row(desk, row, &path);
    }
}

/// Notes what is wrong with a row whatever the team is that he plays in: all but his role, and times, which are held against
/// the others'.
fn judge_row(desk: &Desk, row: &Node, path: &str) {
    let reader = Reader::over(desk, row, &PLAYER, path.to_owned()).all_known();
    reader.maybe_text("name");
    reader.maybe_whole("number");
    reader.maybe_word("licence", &LICENCES);
    squad::plays(&reader);
    body::judge(&reader);
    craft::Said::read(&reader);
    shooting::shares(&reader);
}

/// The slot of a player's role.
fn slot_of(reader: &Reader<'_>) -> Option<usize> {
    if !reader.has("role") {
        reader.missing("role", crate::fault::one_of(SLOTS.iter().map(|(role, _)| *role)));
    }
    reader.maybe_word("role", &SLOTS)
}

/// Refuses a second player of a role.
fn twice(reader: &Reader<'_>, role: &str) {
    if let Some(entry) = reader.node().get("role") {
        let allowed = format!("one player a role; {role} stands above already");
        reader.refuse("role", &entry.node, allowed, None);
    }
}

/// Notes that two keys say the same, at the one of them.
fn clash(reader: &Reader<'_>, at: &Node, path: &str, keys: &str) {
    let found = reader.desk.written(at);
    let problem = Problem::NotAllowed { found, allowed: format!("one of {keys}"), nearest: None };
    let help = "They say the same; keep the one that you trust more.".to_owned();
    reader.desk.fault(at.origin, &reader.path_of(path), problem, Some(help));
}

/// The entry of a key in one of a player's nested tables.
fn nested<'d>(reader: &Reader<'d>, table: &str, key: &str) -> Option<&'d Entry> {
    reader.node().get(table)?.node.get(key)
}
