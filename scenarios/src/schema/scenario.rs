//! Scenarios: one matchup, put together from the files that it names and its own values.

use engine::setup::{Limits, Officials, Setup, Start};

use crate::declared::{Field, Kind, Layer, Need, Part, Table};
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::level::{self, LEVEL, Layers, TEAM};
use crate::schema::program::{Ground, ROLES};
use crate::schema::rules::{self, Rules};
use crate::schema::{attack, opponent, player, zone};
use crate::source::{Desk, Named};
use crate::text::Text;
use crate::tree::Node;

/// The default of `clock_used_s`, s: in the set; on the way over midcourt; after a rebound (the full time there
/// is the rebound's).
const CLOCK_USED_S: [f32; 3] = [8.0, 5.0, 0.0];

const STATES: [(&str, Start); 3] =
    [("set", Start::Set), ("arriving", Start::Arriving), ("rebound", Start::Rebound)];
/// The roles by name with their slots.
const SLOTS: [(&str, u8); 5] = [(ROLES[0], 0), (ROLES[1], 1), (ROLES[2], 2), (ROLES[3], 3), (ROLES[4], 4)];

const fn level_file(name: &'static str, doc: &'static str) -> Field {
    Field::other(name, Kind::File("levels"), doc).needed()
}

const fn team(name: &'static str, doc: &'static str) -> Field {
    Field::other(name, Kind::Layer(Layer::Over, &TEAM), doc)
}

static LEVELS: Table = Table::of(&[Part::Fields(&[
    level_file("attack", "Level of the attacking team."),
    level_file("defence", "Level of the defending team."),
])]);

static PLAYERS: Table = Table::of(&[Part::Fields(&[
    team("attack", "The attacking team's."),
    team("defence", "The defending team's."),
])]);

static CLOCK: Table = Table::of(&[Part::Fields(&[
    rules::SHOT_CLOCK.or(Need::Below),
    Field::of(Officials::PARAMETERS, "clock_used_s")
        .or(Need::Depends("8 in the set, 5 when arriving, 0 after a rebound")),
    rules::SHOT_CLOCK_REBOUND.or(Need::Below),
    Field::of(Officials::PARAMETERS, "cap_s").or(Need::Number(CAP_S)),
])]);

static OFFICIALS: Table = Table::of(&[
    Part::Fields(&[
        rules::THREE_SECONDS.or(Need::Below),
        rules::CLOSELY_GUARDED.or(Need::Below),
        rules::CLOSELY_GUARDED_M.or(Need::Below),
    ]),
    level::WHISTLE,
]);

static START: Table = Table::of(&[Part::Fields(&[
    Field::other("state", Kind::Word(&STATES), "How things stand when the possession starts.")
        .or(Need::Word("set")),
    Field::other("ball", Kind::Word(&SLOTS), "The role that starts with the ball.").or(Need::Depends(
        "off-guard in the set; lead-guard when arriving, or off-guard; rover-side-post after a rebound, or rover or \
         other-post",
    )),
])]);

static LIMITS: Table = Table::of(&[Part::Fields(&[
    Field::flag("frozen_zone", "Defenders do not move."),
    Field::flag("all_seeing_zone", "Defenders know the truth at once."),
    Field::flag(
        "shooting_unknown",
        "Nobody knows how anybody shoots: whatever the shooting, the same shots are taken.",
    ),
])]);

static NUMERICS: Table = Table::of(&[Part::Fields(&[Field::number(
    "step_s",
    "s",
    (0.005, 0.1),
    "Fixed step of the simulation.",
)
.or(Need::Number(STEP_S))])]);

/// A scenario's file.
pub(crate) static SCENARIO: Table = Table::of(&[Part::Fields(&[
    Field::text("name", Text::Name, "Name of the matchup, for output.").or(Need::Word("unnamed")),
    Field::text("setting", Text::Prose, "The situation in words, for readers."),
    Field::other("rules", Kind::File("rules"), "The rule set: the lines of the floor and the time rules.")
        .needed(),
    Field::table("level", &LEVELS, "Levels of play.").needed(),
    Field::table("players", &PLAYERS, "Values that differ from the levels'."),
    player::ROSTER,
    player::PLAYERS_LIST,
    player::USUAL,
    opponent::OPPONENTS,
    player::PRIOR,
    Field::table("clock", &CLOCK, "Clocks that differ from the rule set's."),
    Field::other(
        "officials",
        Kind::Layer(Layer::Over, &OFFICIALS),
        "Officials that differ from the rule set's and level's.",
    ),
    Field::table("start", &START, "How a possession starts."),
    Field::table("limits", &LIMITS, "Switches to the model's ends."),
    Field::table("numerics", &NUMERICS, "Numerical choices."),
    Field::other(
        "zone",
        Kind::Layer(Layer::Over, &zone::CHOICE),
        "The zone: its shape, and how it is played.",
    )
    .needed(),
    Field::table("attack", &attack::CHOICE, "The attack: its formation, route, options and habits.").needed(),
])]);

/// The default of `cap_s`, s.
const CAP_S: f32 = 60.0;
/// The default of `step_s`, s.
const STEP_S: f32 = 0.05;

/// Reads a scenario; `None` where a file that it names is unusable (faults are noted either way).
///
/// Where a name is missing or wrong a bundled file stands in, so that the rest is checked as well.
pub(crate) fn read(desk: &Desk, node: &Node) -> Option<(String, Setup)> {
    let root = Reader::root(desk, node, &SCENARIO);
    let name = root.text("name").to_owned();
    root.maybe_text("setting");
    let stands_in = |found: Option<Named>, folder, name| found.or_else(|| desk.bundled(folder, name));
    let rules = rules::read(desk, &stands_in(root.file("rules"), "rules", "us-high-school")?);

    let level = root.table("level");
    let (zone_table, attack_table) = (root.table("zone"), root.table("attack"));
    let taught = attack_table.as_ref().is_some_and(attack::has_plan);
    let level_of =
        |side| stands_in(level.as_ref().and_then(|level| level.file(side)), "levels", "high-school");
    let attack_file = level_of("attack")?;
    let defence_file = level_of("defence")?;
    let players = root.table("players");
    let own = |side| players.as_ref().and_then(|players| players.table(side));

    let attackers_layers = || Layers::new(own("attack"), Some(team_level(desk, &attack_file)));
    let defenders_layers = || Layers::new(own("defence"), Some(team_level(desk, &defence_file)));
    let attackers = level::team(desk, &attackers_layers(), taught);
    let defence_level = Reader::root(desk, &defence_file.root, &LEVEL);
    // The rest of it is read as a team's.
    for team in ["body", "head", "skill"] {
        defence_level.find(team);
    }
    let duties = defence_level.table("defence");
    let whistle = defence_level.table("officials");
    let defenders = level::team(desk, &defenders_layers(), taught);

    let mut individuals = player::read(&player::Ground {
        root: &root,
        court: &rules.court,
        team: &attackers,
        layers: &attackers_layers,
        role_shooting: attack_table.as_ref().map_or([0.0; 5], attack::shooting),
    });

    let mut officials = officials(&root, &rules, whistle);
    let start = root.table("start");
    let (start, ball) = start.as_ref().map_or((Start::Set, 1), starts_with);
    if root.node().get("clock").is_none_or(|clock| clock.node.get("clock_used_s").is_none()) {
        officials.clock_used_s = CLOCK_USED_S[start as usize];
    }
    let limits = limits(&root);
    let step_s = root.table("numerics").map_or(STEP_S, |numerics| numerics.number("step_s"));

    let fit = Fit::new(&rules.court);
    let zone_file = zone_table.as_ref().and_then(|table| table.file("use"));
    let zone_file = stands_in(zone_file, "zones", "1-2-2")?;
    let (zone, positions) = zone::read(desk, &zone_file, zone_table, duties, fit);
    opponent::read(
        &opponent::Ground { root: &root, team: &defenders, zone: &zone, layers: &defenders_layers },
        &mut individuals,
    );
    let attack_table = attack_table?;
    let mut attack = attack::read(desk, &attack_table, &Ground { positions: &positions, fit })?;
    attack.ball_starts_with = ball;
    attack.start = start;
    let setup = Setup {
        court: rules.court,
        officials,
        attackers,
        defenders,
        individuals,
        limits,
        zone,
        attack,
        step_s,
    };
    Some((name, setup))
}

/// A level's file as of a team: its word on defending and on officials counts for the defending side only, and is read apart.
fn team_level<'d>(desk: &'d Desk, file: &'d Named) -> Reader<'d> {
    let level = Reader::root(desk, &file.root, &LEVEL);
    level.find("defence");
    level.find("officials");
    level
}

/// How things stand at the start, and the role with the ball: on the way over midcourt a guard, after a rebound
/// one of those who go to the glass.
fn starts_with(start: &Reader<'_>) -> (Start, u8) {
    let state = start.word("state", &STATES);
    let (roles, usual) = match state {
        Start::Set => (&SLOTS[..], 1),
        Start::Arriving => (&SLOTS[..2], 0),
        Start::Rebound => (&SLOTS[2..], 3),
    };
    (state, start.maybe_word("ball", roles).unwrap_or(usual))
}

fn limits(root: &Reader<'_>) -> Limits {
    let Some(table) = root.table("limits") else { return Limits::default() };
    Limits {
        frozen_zone: table.flag("frozen_zone"),
        all_seeing_zone: table.flag("all_seeing_zone"),
        shooting_unknown: table.flag("shooting_unknown"),
    }
}

/// Clocks and officials: the rule set's and the level's, with the scenario's own values over them.
pub(crate) fn officials(root: &Reader<'_>, rules: &Rules, level: Option<Reader<'_>>) -> Officials {
    let clock = root.table("clock");
    let called = Layers::new(root.table("officials"), level);
    let number = |table: Option<&Reader<'_>>, name: &str, below| {
        Some(table.map_or(below, |table| table.number_over(name, below)))
    };
    let time = |table: Option<&Reader<'_>>, name: &str, below: Option<f32>| {
        table.and_then(|table| table.number_or_none(name)).unwrap_or(below)
    };
    let (clock, own) = (clock.as_ref(), called.over());
    let officials = Officials::stated(|parameter| match parameter.name {
        name @ "shot_clock_s" => time(clock, name, rules.shot_clock_s),
        name @ "clock_used_s" => number(clock, name, CLOCK_USED_S[0]),
        name @ "shot_clock_rebound_s" => number(clock, name, rules.shot_clock_rebound_s),
        name @ "cap_s" => Some(clock.map_or(CAP_S, |clock| clock.number(name))),
        name @ "three_seconds_s" => number(own, name, rules.three_seconds_s),
        name @ "closely_guarded_s" => time(own, name, rules.closely_guarded_s),
        name @ "closely_guarded_m" => number(own, name, rules.closely_guarded_m),
        _ => called.number(parameter),
    });
    if let (Some(full), Some(clock)) = (officials.shot_clock_s, clock)
        && officials.clock_used_s >= full
    {
        let own = |name: &str| clock.node().get(name).map(|entry| &entry.node);
        if let Some(node) = own("clock_used_s") {
            clock.refuse("clock_used_s", node, format!("less than shot_clock_s ({full} s)"), None);
        } else if let Some(node) = own("shot_clock_s") {
            let used = officials.clock_used_s;
            let allowed = format!("more than clock_used_s ({used} s, gone when the set begins)");
            clock.refuse("shot_clock_s", node, allowed, None);
        }
    }
    officials
}
