//! Programs of movement: when they start, where they lead, what follows; and the habits of passers.

use engine::setup::{
    BallPlace, Condition, Frame, Locus, Pace, PlaceSet, Program, ProgramKind, Relative, RoleSet, Step, Then,
};

use crate::declared::{Choice, Count, Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::zone::Positions;
use crate::source::Named;
use crate::tree::Node;

/// The five roles as files name them, in slot order.
pub(crate) const ROLES: [&str; 5] = ["lead-guard", "off-guard", "rover", "rover-side-post", "other-post"];
/// The guards.
pub(crate) const GUARDS: RoleSet = RoleSet(0b0_0011);
/// The rover.
pub(crate) const ROVER: RoleSet = RoleSet(0b0_0100);
/// All five.
pub(crate) const EVERYBODY: RoleSet = RoleSet(0b1_1111);
/// The posts.
pub(crate) const POSTS: RoleSet = RoleSet(0b1_1000);

/// The roles, and names for two of them, as sets.
const ROLE_SETS: [(&str, u8); 7] = [
    (ROLES[0], 0b0_0001),
    (ROLES[1], 0b0_0010),
    (ROLES[2], ROVER.0),
    (ROLES[3], 0b0_1000),
    (ROLES[4], 0b1_0000),
    ("guards", GUARDS.0),
    ("posts", POSTS.0),
];
/// The ball places as files name them, each as a set.
const PLACE_SETS: [(&str, u8); BallPlace::COUNT] = {
    let mut sets = [("", 0); BallPlace::COUNT];
    let mut at = 0;
    while at < BallPlace::COUNT {
        sets[at] = (BallPlace::NAMES[at], 1 << at);
        at += 1;
    }
    sets
};
const FRAMES: [(&str, Frame); 2] = [("start", Frame::Start), ("ball", Frame::Ball)];
const PACES: [(&str, Pace); 3] = [("walk", Pace::Walk), ("jog", Pace::Jog), ("sprint", Pace::Sprint)];
pub(crate) const SIDES: [(&str, Relative); 3] =
    [("same", Relative::Same), ("other", Relative::Other), ("any", Relative::Any)];
/// What follows the last step.
pub(crate) const THENS: [(&str, Then); 2] = [("stay", Then::Stay), ("go-home", Then::GoHome)];
/// The posts by their distance from the ball: the nearer one is true.
const NEAR: [(&str, bool); 2] = [("near", true), ("far", false)];

/// At least one.
const SOME: Count = Count::Within(1, usize::MAX);
const FRAME: Field =
    Field::other("frame", Kind::Word(&FRAMES), "Which side +x is: the owner's at the start, or the ball's.")
        .or(Need::Word("start"));

const fn distance(doc: &'static str) -> Field {
    Field::number("distance_m", "m", (0.0, 4.0), doc).or(Need::Number(0.8))
}

pub(crate) const fn choice(field: Field, with: &'static [Field]) -> Choice {
    Choice { field, with }
}

/// A place.
static LOCUS: Table = Table::choice(&[
    choice(Field::place("floor", "A fixed place [x, y]."), &[FRAME]),
    choice(
        Field::number("line_gap", "m", (-8.0, 8.0), "Between the lines of the zone, at this x."),
        &[FRAME],
    ),
    choice(
        Field::other("behind", Kind::Position, "Behind the defender in a position."),
        &[distance("How far behind him.")],
    ),
    choice(
        Field::other(
            "seam",
            Kind::List(&Kind::Position, Count::Within(2, 2)),
            "Halfway between the defenders of two positions.",
        ),
        &[],
    ),
    choice(
        Field::other("by_post", Kind::Word(&NEAR), "Beside the near or the far post."),
        &[Field::place("offset", "Displacement, +x toward the ball's side.").needed()],
    ),
    choice(
        Field::other("screen", Kind::Position, "In the way of the defender in a position."),
        &[
            Field::place("toward", "The place to which the screened defender would run.").needed(),
            FRAME,
            distance("How far in front of him."),
        ],
    ),
    choice(
        Field::number(
            "along_arc",
            "m",
            (0.5, 6.0),
            "So far along the arc from where the leg began, toward the roomier side.",
        ),
        &[],
    ),
    choice(Field::other("seal", Kind::True, "Between the next helper and the owner's catching place."), &[]),
    choice(Field::other("home", Kind::True, "Where the formation has the owner."), &[]),
]);

pub(crate) const fn roles_under(name: &'static str, doc: &'static str) -> Field {
    Field::other(name, Kind::List(&Kind::Word(&ROLE_SETS), SOME), doc)
}

pub(crate) const fn places_under(name: &'static str, doc: &'static str) -> Field {
    Field::other(name, Kind::List(&Kind::Word(&PLACE_SETS), SOME), doc)
}

const fn time(name: &'static str, doc: &'static str) -> Choice {
    choice(Field::number(name, "s", (0.0, 120.0), doc), &[])
}

pub(crate) const fn standing(name: &'static str, doc: &'static str) -> Field {
    Field::other(name, Kind::True, doc)
}

pub(crate) const SIDE: Field =
    Field::other("side", Kind::Word(&SIDES), "On which side, as compared with the owner's.")
        .or(Need::Word("any"));

/// A condition.
static CONDITION: Table = Table::choice(&[
    choice(roles_under("ball_with", "The ball is held by one of these roles."), &[]),
    choice(places_under("ball_at", "The ball is held at one of these places."), &[SIDE]),
    choice(
        Field::table("open", &LOCUS, "No believed defender near this place."),
        &[Field::number("within_m", "m", (0.0, 6.0), "How near a defender must not be.")
            .or(Need::Number(1.2))],
    ),
    choice(
        Field::other(
            "near_post",
            Kind::Flag,
            "The owner is the nearer post to the ball (or, if false, the farther).",
        ),
        &[],
    ),
    choice(
        places_under("ball_bound", "The ball is held at one of these places or in the air toward one."),
        &[SIDE],
    ),
    choice(
        Field::table("stands", &LOCUS, "One of the roles in `who` (default: the owner) is at this place."),
        &[
            roles_under("who", "Whose place is meant."),
            Field::number("within_m", "m", (0.1, 6.0), "How near to the place.").or(Need::Number(1.5)),
        ],
    ),
    time("ball_left_me_s", "The owner passed no longer ago than this."),
    time("waited_s", "The owner has been in his step this long."),
    time("after_s", "So long since the possession began."),
    choice(standing("ball_in_the_air", "The ball is in the air, from hand to hand."), &[]),
    choice(standing("ball_elsewhere", "No pass has come to the owner."), &[]),
    choice(standing("unwatched", "No defender near him looks his way."), &[]),
    choice(standing("dribbled_at", "The team-mate with the ball dribbles at him."), &[]),
    choice(standing("back_out", "A back has gone out to the corner or wing."), &[]),
]);

/// Conditions that must all hold.
pub(crate) const fn conditions_under(name: &'static str, doc: &'static str) -> Field {
    Field::tables(name, &CONDITION, doc)
}

static STEP: Table = Table::of(&[Part::Fields(&[
    Field::table("to", &LOCUS, "Where the leg leads.").needed(),
    Field::other("pace", Kind::Word(&PACES), "How fast the leg is run.").or(Need::Word("sprint")),
    Field::number("within_m", "m", (0.1, 3.0), "How near counts as there.").or(Need::Number(0.5)),
    Field::number("linger_s", "s", (0.0, 60.0), "Time spent there.").or(Need::Number(0.0)),
    conditions_under("leave_when", "Conditions that, all holding, end the lingering."),
    Field::number("longest_s", "s", (0.1, 60.0), "Longest time for the whole leg.").or(Need::Number(3.0)),
])]);

static PROGRAM: Table = Table::of(&[Part::Fields(&[
    Field::other("step", Kind::Tables(&STEP, SOME), "A leg of the path.").needed(),
    roles_under("who", "Who may run it."),
    Field::number("weight", "", (0.0, 1.0), "Share of its chances that are taken.").or(Need::Number(1.0)),
    conditions_under("when", "Conditions that must all hold for it to start."),
    Field::other("then", Kind::Word(&THENS), "What follows the last step.").or(Need::Word("go-home")),
    Field::number("rest_s", "s", (0.0, 120.0), "Rest before the same owner may run it again.")
        .or(Need::Number(2.0)),
])]);

/// The programs of a file.
pub(crate) const PROGRAMS: Field = Field::tables("program", &PROGRAM, "A program of movement.");

/// What a program's places and names are read against.
pub(crate) struct Ground<'g> {
    pub positions: &'g Positions,
    pub fit: Fit,
}

/// Where a file's programs come from, for credit.
pub(crate) struct From<'g> {
    pub file: &'g Named,
    pub kind: ProgramKind,
    pub who: RoleSet,
    pub weight: f32,
}

/// Every `[[program]]` of a file.
pub(crate) fn read_all(root: &Reader<'_>, from: &From<'_>, ground: &Ground<'_>) -> Vec<Program> {
    root.tables("program").iter().map(|table| program(table, from, ground)).collect()
}

fn program(t: &Reader<'_>, from: &From<'_>, ground: &Ground<'_>) -> Program {
    let steps: Vec<Step> = t.tables("step").iter().map(|table| step(table, ground)).collect();
    if steps.is_empty() {
        t.missing("step", "at least one step".into());
    }
    Program {
        name: from.file.name.clone(),
        kind: from.kind,
        who: t.find("who").map_or(from.who, |node| roles(t, "who", node)),
        weight: from.weight * t.number("weight"),
        when: conditions(t, "when", ground),
        steps,
        then: t.word("then", &THENS),
        rest_s: t.number("rest_s"),
    }
}

fn step(t: &Reader<'_>, ground: &Ground<'_>) -> Step {
    if !t.has("to") {
        t.missing("to", "a place".into());
    }
    Step {
        to: locus(t, "to", ground),
        pace: t.word("pace", &PACES),
        within_m: t.number("within_m"),
        linger_s: t.number("linger_s"),
        leave_when: conditions(t, "leave_when", ground),
        longest_s: t.number("longest_s"),
    }
}

/// A place: a table with exactly one of the kinds of place as its key.
fn locus(t: &Reader<'_>, name: &str, ground: &Ground<'_>) -> Locus {
    let Some(place) = t.maybe_table(name) else { return Locus::Home };
    locus_of(&place, ground).unwrap_or_else(|| {
        t.refuse(name, place.node(), format!("a table with one of {}", place.choices()), None);
        Locus::Home
    })
}

/// The place in a table, if one is there.
fn locus_of(t: &Reader<'_>, ground: &Ground<'_>) -> Option<Locus> {
    let frame = || t.word("frame", &FRAMES);
    let chosen = t.choose()?;
    let position = |node: &Node| ground.positions.read_defender(t, chosen, node);
    let found = match (chosen, t.find(chosen)?) {
        ("floor", _) => {
            Locus::Floor(ground.fit.on_floor(t, chosen, ground.fit.attacker(t.place(chosen))), frame())
        }
        ("line_gap", _) => Locus::LineGap(t.number(chosen), frame()),
        ("behind", node) => Locus::Behind(position(node), t.number("distance_m")),
        ("seam", node) => match t.list_in(chosen, node) {
            [a, b] => Locus::Seam(position(a), position(b)),
            _ => {
                t.refuse(chosen, node, "two positions".into(), None);
                Locus::Home
            }
        },
        ("by_post", node) => Locus::ByPost(t.word_in(chosen, node, &NEAR).unwrap_or(true), t.place("offset")),
        ("screen", node) => {
            let toward = ground.fit.on_floor(t, "toward", ground.fit.attacker(t.place("toward")));
            Locus::Screen(position(node), toward, frame(), t.number("distance_m"))
        }
        ("along_arc", _) => Locus::AlongArc(t.number(chosen)),
        ("seal", _) => {
            t.only_true(chosen);
            Locus::Seal
        }
        ("home", _) => {
            t.only_true(chosen);
            Locus::Home
        }
        _ => return None,
    };
    Some(found)
}

/// The conditions of a list.
pub(crate) fn conditions(t: &Reader<'_>, name: &str, ground: &Ground<'_>) -> Vec<Condition> {
    let tables = t.tables(name);
    tables
        .iter()
        .filter_map(|table| {
            let found = condition(table, ground);
            if found.is_none() {
                t.refuse(name, table.node(), format!("a table with one of {}", table.choices()), None);
            }
            found
        })
        .collect()
}

fn condition(t: &Reader<'_>, ground: &Ground<'_>) -> Option<Condition> {
    let side = || sides(t);
    let chosen = t.choose()?;
    let found = match (chosen, t.find(chosen)?) {
        ("ball_with", node) => Condition::BallWith(roles(t, chosen, node)),
        ("ball_at", node) => Condition::BallAt(places(t, chosen, node), side()),
        ("ball_bound", node) => Condition::BallBound(places(t, chosen, node), side()),
        ("open", _) => Condition::Open(locus(t, chosen, ground), t.number("within_m")),
        ("near_post", _) => Condition::NearPost(t.flag(chosen)),
        ("stands", _) => {
            let whose = t.find("who").map_or(RoleSet(0), |node| roles(t, "who", node));
            Condition::Stands(whose, locus(t, chosen, ground), t.number("within_m"))
        }
        ("ball_left_me_s", _) => Condition::BallLeftMe(t.number(chosen)),
        ("waited_s", _) => Condition::Waited(t.number(chosen)),
        ("after_s", _) => Condition::After(t.number(chosen)),
        _ => {
            t.only_true(chosen);
            match chosen {
                "ball_in_the_air" => Condition::BallInTheAir,
                "ball_elsewhere" => Condition::BallElsewhere,
                "unwatched" => Condition::Unwatched,
                "dribbled_at" => Condition::DribbledAt,
                "back_out" => Condition::BackOut,
                _ => return None,
            }
        }
    };
    Some(found)
}

/// On which side.
pub(crate) fn sides(t: &Reader<'_>) -> Relative {
    t.word("side", &SIDES)
}

/// A set of roles; `guards` and `posts` stand for both of them.
pub(crate) fn roles(t: &Reader<'_>, name: &str, node: &Node) -> RoleSet {
    RoleSet(t.words(name, node, &ROLE_SETS).into_iter().fold(0, |all, bit| all | bit))
}

pub(crate) fn places(t: &Reader<'_>, name: &str, node: &Node) -> PlaceSet {
    PlaceSet(t.words(name, node, &PLACE_SETS).into_iter().fold(0, |all, bit| all | bit))
}
