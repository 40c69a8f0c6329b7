//! Scenarios: one matchup, put together from the files that it names and its own values.

use engine::setup::{Limits, Officials, Setup, Start};

use crate::asked::Default;
use crate::key::Key;
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::level::{self, Layers};
use crate::schema::program::{Ground, ROLES};
use crate::schema::rules::{self, Rules};
use crate::schema::{attack, zone};
use crate::source::{Desk, Named};
use crate::tree::Node;

const NAME: Key = Key::other("name", "Name of the matchup, for output.");
const SETTING: Key = Key::other("setting", "The situation in words, for readers.");
const RULES: Key = Key::other("rules", "The rule set: the lines of the floor and the time rules.");
const ZONE: Key = Key::other("zone", "The zone: its shape, and how it is played.");
const ATTACK: Key = Key::other("attack", "The attack: its formation, route, options and habits.");
pub(crate) const DEFENCE: Key = Key::other("defence", "What defenders of this level are told to do.");
pub(crate) const WHISTLE: Key = Key::other("officials", "The strictness of officials at this level.");
const STEP: Key = Key::number("step_s", "s", 0.005, 0.1, "Fixed step of the simulation.");
const CLOCK_USED: Key =
    Key::number("clock_used_s", "s", 0.0, 110.0, "How much of the shot clock is gone when the set begins.");
const CAP: Key = Key::number("cap_s", "s", 5.0, 300.0, "Cap on a possession where there is no shot clock.");

/// The default of `clock_used_s`, s: in the set; on the way over midcourt; after a rebound (the full time there
/// is the rebound's).
const CLOCK_USED_S: [f32; 3] = [8.0, 5.0, 0.0];
/// The default of `cap_s`, s.
const CAP_S: f32 = 60.0;
/// The default of `step_s`, s.
const STEP_S: f32 = 0.05;

/// Reads a scenario; `None` where a file that it names is unusable (faults are noted either way).
///
/// Where a name is missing or wrong a bundled file stands in, so that the rest is checked as well.
pub(crate) fn read(desk: &Desk, node: &Node) -> Option<(String, Setup)> {
    let root = Reader::root(desk, node);
    let name = root.maybe_text(NAME).unwrap_or("unnamed").to_owned();
    root.maybe_text(SETTING);
    let stands_in = |found: Option<Named>, folder, name| found.or_else(|| desk.bundled(folder, name));
    let rules = rules::read(desk, &stands_in(root.file(RULES, "rules"), "rules", "us-high-school")?);

    let level = root.table(Key::other("level", "Levels of play."));
    let level_of = |side, doc| {
        let found = level.as_ref().and_then(|level| level.file(Key::other(side, doc), "levels"));
        stands_in(found, "levels", "high-school")
    };
    let attack_file = level_of("attack", "Level of the attacking team.")?;
    let defence_file = level_of("defence", "Level of the defending team.")?;
    let players = root.maybe_table(Key::other("players", "Values that differ from the levels'."));
    let own = |side, doc| players.as_ref().and_then(|players| players.maybe_table(Key::other(side, doc)));

    let attack_level = Reader::root(desk, &attack_file.root);
    // A level's word on defending and on officials counts for the defending side only.
    attack_level.find(DEFENCE.name);
    attack_level.find(WHISTLE.name);
    let attackers =
        level::team(desk, &Layers::new(own("attack", "The attacking team's."), Some(attack_level)));
    let defence_level = Reader::root(desk, &defence_file.root);
    let duties = defence_level.table(DEFENCE);
    let whistle = defence_level.table(WHISTLE);
    let defenders =
        level::team(desk, &Layers::new(own("defence", "The defending team's."), Some(defence_level)));

    let mut officials = officials(&root, &rules, whistle);
    let start = root.maybe_table(Key::other("start", "How a possession starts."));
    let (start, ball) = start.as_ref().map_or((Start::Set, 1), starts_with);
    if root.node().get("clock").is_none_or(|clock| clock.node.get(CLOCK_USED.name).is_none()) {
        officials.clock_used_s = CLOCK_USED_S[start as usize];
    }
    let limits = limits(&root);
    let numerics = root.maybe_table(Key::other("numerics", "Numerical choices."));
    let step_s = numerics.map_or(STEP_S, |numerics| numerics.number_or(STEP, STEP_S));

    let (zone_table, attack_table) = (root.table(ZONE), root.table(ATTACK));
    let fit = Fit::new(&rules.court);
    let zone_file =
        zone_table.as_ref().and_then(|table| table.file(Key::other("use", "The zone's shape."), "zones"));
    let zone_file = stands_in(zone_file, "zones", "1-2-2")?;
    let (zone, columns) = zone::read(desk, &zone_file, zone_table, duties, fit);
    let attack_table = attack_table?;
    let mut attack = attack::read(desk, &attack_table, &Ground { columns: &columns, fit })?;
    attack.ball_starts_with = ball;
    attack.start = start;
    Some((name, Setup { court: rules.court, officials, attackers, defenders, limits, zone, attack, step_s }))
}

/// How things stand at the start, and the role with the ball: on the way over midcourt a guard, after a rebound
/// one of those who go to the glass.
fn starts_with(start: &Reader<'_>) -> (Start, u8) {
    let state = start.word_or(
        Key::other("state", "How things stand when the possession starts."),
        &[("set", Start::Set), ("arriving", Start::Arriving), ("rebound", Start::Rebound)],
        Start::Set,
    );
    let roles = [(ROLES[0], 0), (ROLES[1], 1), (ROLES[2], 2), (ROLES[3], 3), (ROLES[4], 4)];
    let (roles, usual) = match state {
        Start::Set => (&roles[..], 1),
        Start::Arriving => (&roles[..2], 0),
        Start::Rebound => (&roles[2..], 3),
    };
    (state, start.word_or(Key::other("ball", "The role that starts with the ball."), roles, usual))
}

fn limits(root: &Reader<'_>) -> Limits {
    let Some(table) = root.maybe_table(Key::other("limits", "Switches to the model's ends.")) else {
        return Limits::default();
    };
    Limits {
        frozen_zone: table.flag(Key::other("frozen_zone", "Defenders do not move.")),
        all_seeing_zone: table.flag(Key::other("all_seeing_zone", "Defenders know the truth at once.")),
    }
}

/// Clocks and officials: the rule set's and the level's, with the scenario's own values over them.
pub(crate) fn officials(root: &Reader<'_>, rules: &Rules, level: Option<Reader<'_>>) -> Officials {
    let clock = root.maybe_table(Key::other("clock", "Clocks that differ from the rule set's."));
    let own =
        root.maybe_table(Key::other("officials", "Officials that differ from the rule set's and level's."));
    let number = |table: &Option<Reader<'_>>, key, below| {
        table.as_ref().map_or(below, |table| table.number_over(key, below))
    };
    let stated = |key, default| clock.as_ref().map_or(default, |clock| clock.number_or(key, default));
    let time = |table: &Option<Reader<'_>>, key, below: Option<f32>| {
        table.as_ref().and_then(|table| table.number_or_none(key, Default::FileBelow)).unwrap_or(below)
    };
    let shot_clock_s = time(&clock, rules::SHOT_CLOCK, rules.shot_clock_s);
    let clock_used_s = stated(CLOCK_USED, CLOCK_USED_S[0]);
    let shot_clock_rebound_s = number(&clock, rules::SHOT_CLOCK_REBOUND, rules.shot_clock_rebound_s);
    let cap_s = stated(CAP, CAP_S);
    if let (Some(full), Some(clock)) = (shot_clock_s, &clock)
        && clock_used_s >= full
    {
        let own = |key: Key| clock.node().get(key.name).map(|entry| &entry.node);
        if let Some(node) = own(CLOCK_USED) {
            clock.refuse(CLOCK_USED, node, format!("less than shot_clock_s ({full} s)"), None);
        } else if let Some(node) = own(rules::SHOT_CLOCK) {
            let allowed = format!("more than clock_used_s ({clock_used_s} s, gone when the set begins)");
            clock.refuse(rules::SHOT_CLOCK, node, allowed, None);
        }
    }
    let three_seconds_s = number(&own, rules::THREE_SECONDS, rules.three_seconds_s);
    let closely_guarded_s = time(&own, rules::CLOSELY_GUARDED, rules.closely_guarded_s);
    let closely_guarded_m = number(&own, rules::CLOSELY_GUARDED_M, rules.closely_guarded_m);
    let called = Layers::new(own, level);
    Officials {
        shot_clock_s,
        shot_clock_rebound_s,
        clock_used_s,
        cap_s,
        three_seconds_s,
        closely_guarded_s,
        closely_guarded_m,
        whistle_m_s: called.number(Key::number(
            "whistle_m_s",
            "m/s",
            0.1,
            10.0,
            "Contact called half the time.",
        )),
        whistle_scale_m_s: called.number(Key::number(
            "whistle_scale_m_s",
            "m/s",
            0.01,
            5.0,
            "Width of strictness.",
        )),
        bonus_share: called.number(Key::share("bonus_share", "Share of possessions in the bonus.")),
    }
}
