//! What was scouted of single defenders: `[[opponent]]` tables of a scenario, by line or by position, in the words of coaches.
//!
//! A word says how often they do something: `usual` is what the level has. What each word changes is written beside it; a
//! number of body, head or skill may be set by itself instead.

use std::sync::Arc;

use engine::math::{max, min, vec2};
use engine::setup::{Individual, Licence, Line, Position, Skill, Team, Zone};
use engine::slots::{PLAYERS, TEAM};

use crate::declared::{Field, Kind, Layer, Part, Table};
use crate::fault::{nearest, one_of};
use crate::read::Reader;
use crate::schema::level::{self, Layers};
use crate::schema::player::{OWN_BODY, OWN_HEAD};
use crate::text::Text;
use crate::tree::{Data, Node};

/// How often they do something.
const OFTEN: [(&str, usize); 5] = [("never", 0), ("seldom", 1), ("usual", 2), ("often", 3), ("always", 4)];

// What the words do, by how often. (assumed, all of them: common practice has the words and no numbers)

/// Late: added to the simple reaction, s. A step takes about a quarter of a second.
const LATE_S: [f32; 5] = [-0.02, -0.01, 0.0, 0.12, 0.25];
/// Bites on fakes: factors on the chance of biting and on how far he moves then.
const BITES: ([f32; 5], [f32; 5]) = ([0.2, 0.6, 1.0, 1.4, 1.9], [0.6, 0.8, 1.0, 1.2, 1.5]);
/// Turns his head: factors on the time between looks away from the ball and on their length.
const TURNS: ([f32; 5], [f32; 5]) = ([3.0, 1.6, 1.0, 0.6, 0.35], [0.8, 0.9, 1.0, 1.15, 1.3]);
/// Over-helps: factor on how far from the rim a driver is helped on; how far he steps at a driver besides, m.
const HELPS: ([f32; 5], [f32; 5]) = ([0.4, 0.75, 1.0, 1.15, 1.3], [0.0, 0.0, 0.0, 0.6, 1.2]);
/// Gambles: added to how far he steps into passing lanes, as a share.
const GAMBLES: [f32; 5] = [-0.25, -0.12, 0.0, 0.25, 0.5];
/// Cheats to the high post: how far he stands nearer to it than his place, m.
const CHEATS_M: [f32; 5] = [0.0, 0.0, 0.0, 0.5, 1.1];
/// The middle of the free-throw line, m from under the rim: 4.19 where it is 15 ft from the backboard, as US rules have it, 4.23
/// under FIBA's.
const HIGH_POST_Y_M: f32 = 4.2;

static OWN_SKILL: Table = Table::of(&[Part::But(Skill::PARAMETERS, &["crash"])]);

const fn often(name: &'static str, doc: &'static str) -> Field {
    Field::other(name, Kind::Word(&OFTEN), doc)
}

const fn own(name: &'static str, table: &'static Table, doc: &'static str) -> Field {
    Field::other(name, Kind::Layer(Layer::Over, table), doc)
}

/// What may be said of a defender or a line of them.
static OPPONENT: Table = Table::of(&[Part::Fields(&[
    Field::text(
        "who",
        Text::Name,
        "Of whom: everybody, front-line, back-line, or a position of the zone without its side, such as point, wing, back.",
    )
    .needed(),
    often("late", "Late to the ball, as a back line to the corner: reaction 0.02 s shorter to 0.25 s longer."),
    often("bites", "Bites on fakes: the chance of it 0.2 to 1.9 times, how far he moves 0.6 to 1.5 times."),
    often(
        "over_helps",
        "Over-helps on drives: helps from 0.4 to 1.3 times as far from the rim; `often` and `always` step at drivers by 0.6 \
         and 1.2 m.",
    ),
    often(
        "turns_head",
        "Turns his head for those behind him: looks away from the ball 3 times as seldom to about 3 times as often.",
    ),
    often("gambles", "Gambles in passing lanes: denial 0.25 less to 0.5 more."),
    often("cheats_high_post", "Cheats to the high post: `often` and `always` stand 0.5 and 1.1 m nearer to it."),
    own("body", &OWN_BODY, "Single values of the body that differ from the team's."),
    own("head", &OWN_HEAD, "Single values of sight, memory and choice that differ from the team's."),
    own("skill", &OWN_SKILL, "Single values of skill that differ from the team's."),
])]);

/// The list of what was scouted.
pub(crate) const OPPONENTS: Field = Field::tables(
    "opponent",
    &OPPONENT,
    "What was scouted of the defenders, by line or position; of several that speak of the same one the later ones win.",
);

/// What opponents are read over.
pub(crate) struct Ground<'a, 'd> {
    pub root: &'a Reader<'d>,
    pub team: &'a Team,
    pub zone: &'a Zone,
    /// The layers of their team: the scenario's values over the level's.
    pub layers: &'a dyn Fn() -> Layers<'d>,
}

/// Reads what was scouted into the defenders' slots.
pub(crate) fn read(ground: &Ground<'_, '_>, individuals: &mut [Option<Arc<Individual>>; PLAYERS]) {
    let list: Vec<(String, &Node)> = entries(ground.root);
    let whom: Vec<Vec<usize>> = list.iter().map(|entry| whom(&reader(ground, entry), ground.zone)).collect();
    for position in 0..TEAM {
        let own = list.iter().zip(&whom).filter(|(_, whom)| whom.contains(&position));
        let own: Vec<Reader<'_>> = own.map(|(entry, _)| reader(ground, entry)).collect();
        if !own.is_empty() {
            individuals[TEAM + position] = Some(Arc::new(scouted(ground, position, own)));
        }
    }
    // What speaks of nobody is read all the same, for what else is wrong with it.
    for (entry, _) in list.iter().zip(&whom).filter(|(_, whom)| whom.is_empty()) {
        scouted(ground, 0, vec![reader(ground, entry)]);
    }
}

fn reader<'e>(ground: &Ground<'_, 'e>, (path, node): &(String, &'e Node)) -> Reader<'e> {
    Reader::over(ground.root.desk, node, &OPPONENT, path.clone())
}

/// The tables of the list, each with its path.
fn entries<'d>(root: &Reader<'d>) -> Vec<(String, &'d Node)> {
    let mut found = Vec::new();
    for (nth, node) in root.list("opponent").iter().enumerate() {
        if matches!(node.data, Data::Table(_)) {
            found.push((format!("opponent.{}", nth + 1), node));
        } else {
            root.refuse("opponent", node, "a table, { key = value, ... }".into(), None);
        }
    }
    found
}

/// The positions that an entry speaks of.
fn whom(reader: &Reader<'_>, zone: &Zone) -> Vec<usize> {
    if !reader.has("who") {
        reader.missing("who", "everybody, front-line, back-line or a position".into());
    }
    give_up(reader);
    let Some(who) = reader.maybe_text("who") else { return Vec::new() };
    let is = |position: &Position| match who {
        "everybody" => true,
        "front-line" => position.line == Line::Front,
        "back-line" => position.line == Line::Back,
        name => position.name == name,
    };
    let found: Vec<usize> = (0..TEAM).filter(|at| is(&zone.positions[*at])).collect();
    if found.is_empty()
        && let Some(entry) = reader.node().get("who")
    {
        let mut names: Vec<&str> = Vec::new();
        for position in &zone.positions {
            if !names.contains(&position.name.as_str()) {
                names.push(&position.name);
            }
        }
        let all: Vec<&str> = ["everybody", "front-line", "back-line"].into_iter().chain(names).collect();
        let near = nearest(who, all.iter().copied());
        reader.refuse("who", &entry.node, one_of(all.iter().copied()), near);
    }
    found
}

/// All keys are known: they are read elsewhere.
fn give_up(reader: &Reader<'_>) {
    for field in OPPONENT.fields() {
        reader.find(field.key.name);
    }
}

/// The defender of a position, of whom all this was scouted.
fn scouted(ground: &Ground<'_, '_>, position: usize, entries: Vec<Reader<'_>>) -> Individual {
    let said: Vec<Said> = entries.iter().map(Said::read).collect();
    let layers = entries.into_iter().fold((ground.layers)(), Layers::under);
    let mut own = level::own(&layers, ground.team);
    let mut zone = Box::new(ground.zone.clone());
    // Of each word the last one holds.
    let last = |of: fn(&Said) -> Option<usize>| said.iter().rev().find_map(of);
    let (head, positions) = (&mut own.head, &ground.zone.positions);
    if let Some(often) = last(|said| said.late) {
        head.reaction_s = max(head.reaction_s + LATE_S[often], 0.0);
    }
    if let Some(often) = last(|said| said.bites) {
        head.bite_chance = min(head.bite_chance * BITES.0[often], 1.0);
        head.bite_distance_m *= BITES.1[often];
    }
    if let Some(often) = last(|said| said.turns_head) {
        head.glance_every_s *= TURNS.0[often];
        head.glance_s *= TURNS.1[often];
    }
    if let Some(often) = last(|said| said.over_helps) {
        zone.help_within_m *= HELPS.0[often];
        zone.stunt_m = max(zone.stunt_m, HELPS.1[often]);
    }
    if let Some(often) = last(|said| said.gambles) {
        zone.denial = (zone.denial + GAMBLES[often]).clamp(0.0, 1.0);
    }
    if let Some(often) = last(|said| said.cheats_high_post) {
        cheat(&mut zone, &positions[position].name, CHEATS_M[often]);
    }
    Individual {
        name: String::new(),
        own,
        shooting: Default::default(),
        licence: Licence::AnyGood,
        known: Vec::new(),
        zone: Some(zone),
    }
}

/// What the words of an entry say, by how often.
struct Said {
    late: Option<usize>,
    bites: Option<usize>,
    over_helps: Option<usize>,
    turns_head: Option<usize>,
    gambles: Option<usize>,
    cheats_high_post: Option<usize>,
}

impl Said {
    fn read(reader: &Reader<'_>) -> Said {
        reader.find("who");
        let word = |key| reader.maybe_word(key, &OFTEN);
        Said {
            late: word("late"),
            bites: word("bites"),
            over_helps: word("over_helps"),
            turns_head: word("turns_head"),
            gambles: word("gambles"),
            cheats_high_post: word("cheats_high_post"),
        }
    }
}

/// Moves his own places toward the high post; those of the others he knows as they are.
fn cheat(zone: &mut Zone, name: &str, metres: f32) {
    let high_post = vec2(0.0, HIGH_POST_Y_M);
    let own: Vec<bool> = zone.positions.iter().map(|position| position.name == name).collect();
    for table in [Some(&mut zone.table), zone.adjusted.as_mut()].into_iter().flatten() {
        for row in &mut table.anchors {
            for place in row.iter_mut().zip(&own).filter(|(_, own)| **own).map(|(place, _)| place) {
                *place = *place + (high_post - *place).at_most(metres);
            }
        }
    }
}
