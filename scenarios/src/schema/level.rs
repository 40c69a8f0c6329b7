//! Levels of play: every parameter of a team, each a table of value, plausible range and source, with a
//! scenario's own values laid over them.

use engine::setup::{
    Body, CATCH_TO_RELEASE, Continuation, Head, IMPATIENCE, Officials, Parameter, PassKind, PassSkill,
    ShotCurve, ShotCurves, ShotSkill, Skill, SkillTables, Team, Zone,
};

use crate::declared::{Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::worth;
use crate::source::{Desk, Named};

/// One table of a level's file with tables of the same name over it: the scenario's, and over that a player's own.
pub(crate) struct Layers<'d> {
    /// The uppermost first.
    over: Vec<Reader<'d>>,
    level: Option<Reader<'d>>,
}

impl<'d> Layers<'d> {
    /// A level's file under a scenario's table.
    pub fn new(over: Option<Reader<'d>>, level: Option<Reader<'d>>) -> Layers<'d> {
        Layers { over: over.into_iter().collect(), level }
    }

    /// The same under one table more.
    pub fn under(mut self, own: Reader<'d>) -> Layers<'d> {
        self.over.insert(0, own);
        self
    }

    /// The scenario's table.
    pub fn over(&self) -> Option<&Reader<'d>> {
        self.over.first()
    }

    /// The scenario's value, or else the level's.
    pub fn number(&self, parameter: &Parameter) -> Option<f32> {
        self.named(parameter.name)
    }

    fn named(&self, name: &str) -> Option<f32> {
        let level = self.level.as_ref().map(|level| level.sourced(name));
        // Each is asked, so that each knows the key. What belongs to a team as a whole no player has.
        let has = |over: &&Reader<'d>| over.declares(name);
        let over: Vec<f32> =
            self.over.iter().filter(has).filter_map(|over| over.maybe_number(name)).collect();
        over.first().copied().or(level)
    }

    /// The table of continuation values: a scenario that names one means it for teams with a plan and without.
    fn worth(&self, taught: bool) -> Option<Named> {
        let own = |name| self.over().and_then(|over| over.maybe_file(name));
        let (own_table, own_untaught) = (own("table"), own("untaught_table"));
        let table = self.level.as_ref().and_then(|level| level.file("table"));
        let untaught = self.level.as_ref().and_then(|level| level.maybe_file("untaught_table"));
        if taught { own_table.or(table) } else { own_untaught.or(own_table).or(untaught).or(table) }
    }

    /// A nested table.
    fn part(&self, name: &str) -> Layers<'d> {
        Layers {
            over: self
                .over
                .iter()
                .filter(|over| over.declares(name))
                .filter_map(|over| over.maybe_table(name))
                .collect(),
            level: self.level.as_ref().and_then(|level| level.table(name)),
        }
    }

    /// A fault where the first of two parameters is larger than the second.
    fn ordered(&self, small: &str, large: &str) {
        if self.named(small) <= self.named(large) {
            return;
        }
        let allowed = format!("{small} at most {large}");
        for reader in self.over.iter().chain(&self.level) {
            if [small, large].into_iter().any(|name| reader.refuse_standing(name, &allowed)) {
                return;
            }
        }
    }
}

static BODY: Table = Table::of(&[Part::Parameters(Body::PARAMETERS)]);
static HEAD: Table = Table::of(&[Part::Parameters(Head::PARAMETERS)]);
static CURVE: Table = Table::of(&[Part::Parameters(ShotCurve::PARAMETERS)]);
static PASS_KIND: Table = Table::of(&[Part::Parameters(PassSkill::PARAMETERS)]);

static SHOT: Table = Table::of(&[
    Part::Fields(&[
        part("rim", &CURVE, "Two-pointers inside 1.22 m."),
        part("short", &CURVE, "Two-pointers from 1.22 m to 3.05 m."),
        part("mid", &CURVE, "Two-pointers from beyond 3.05 m."),
        part("three", &CURVE, "Three-pointers."),
    ]),
    Part::Parameters(ShotSkill::PARAMETERS),
]);

/// The kinds of pass, in the order of [`engine::setup::PassKind`].
const PASS_KINDS: [Field; PassKind::COUNT] = [
    part("chest", &PASS_KIND, "Two hands from the chest."),
    part("bounce", &PASS_KIND, "Off the floor."),
    part("overhead", &PASS_KIND, "Two hands above the head."),
    part("lob", &PASS_KIND, "A high arc."),
];
static PASS: Table = Table::of(&[Part::Fields(&PASS_KINDS)]);

static CONTINUATION: Table = Table::of(&[
    Part::Parameters(&[IMPATIENCE]),
    Part::Fields(&[
        Field::other(
            "table",
            Kind::File("worth"),
            "Continuation values, computed by `zoneprobe worth` for players like these.",
        )
        .or(Need::ByLayer),
        Field::other(
            "untaught_table",
            Kind::File("worth"),
            "Continuation values of an attack that has been taught no plan.",
        )
        .or(Need::Depends("those of `table`")),
    ]),
]);

static SKILL: Table = Table::of(&[
    Part::Fields(&[PASSES, SHOTS]),
    Part::Parameters(Skill::PARAMETERS),
    Part::Parameters(&CATCH_TO_RELEASE),
    Part::Fields(&[part("continuation", &CONTINUATION, "Continuation values.")]),
]);

/// The tables of a team.
const TEAM_PARTS: Part = Part::Fields(&[
    part("body", &BODY, "Moving and size."),
    part("head", &HEAD, "Sight, reaction, memory and choice."),
    part("skill", &SKILL, "Ball skills."),
]);

/// A team's values that differ from those of its level.
pub(crate) static TEAM: Table = Table::of(&[TEAM_PARTS]);

static DUTIES: Table = Table::of(&[Part::Parameters(Zone::PARAMETERS)]);

/// The parameters of officials that a level states, and a scenario may change.
pub(crate) const WHISTLE: Part =
    Part::Fields(&[whistle("whistle_m_s"), whistle("whistle_scale_m_s"), whistle("bonus_share")]);

const fn whistle(name: &'static str) -> Field {
    Field::of(Officials::PARAMETERS, name).as_kind(Kind::Parameter).or(Need::ByLayer)
}

static STRICTNESS: Table = Table::of(&[WHISTLE]);

/// A level's file.
pub(crate) static LEVEL: Table = Table::of(&[
    Part::Fields(&[
        Field::table("defence", &DUTIES, "What defenders of this level are told to do.").needed(),
        Field::table("officials", &STRICTNESS, "The strictness of officials at this level.").needed(),
    ]),
    TEAM_PARTS,
]);

/// Passes by kind, a table of skills.
pub(crate) const PASSES: Field = part("pass", &PASS, "Passes by kind.");
/// Make probability, a table of skills.
pub(crate) const SHOTS: Field = part("shot", &SHOT, "Make probability by class of shot.");

const fn part(name: &'static str, table: &'static Table, doc: &'static str) -> Field {
    Field::table(name, table, doc).or(Need::ByLayer)
}

/// A team from its level and the scenario's changes; what a possession is worth to it depends on whether it has been taught
/// a plan.
pub(crate) fn team(desk: &Desk, layers: &Layers<'_>, taught: bool) -> Team {
    Team {
        body: body(&layers.part("body")),
        head: head(&layers.part("head")),
        skill: team_skill(desk, &layers.part("skill"), taught),
    }
}

/// A player from his team's layers and his own table over them. What a possession is worth is his team's.
pub(crate) fn own(layers: &Layers<'_>, team: &Team) -> Team {
    let skills = layers.part("skill");
    // Read with the team already: here it is known, and no more.
    skills.part("continuation");
    Team {
        body: body(&layers.part("body")),
        head: head(&layers.part("head")),
        skill: skill(&skills, team.skill.continuation.clone()),
    }
}

fn team_skill(desk: &Desk, t: &Layers<'_>, taught: bool) -> Skill {
    let continuation = continuation(desk, &t.part("continuation"), taught);
    skill(t, continuation)
}

fn body(t: &Layers<'_>) -> Body {
    let body = Body::stated(|parameter| t.number(parameter));
    t.ordered("arm_reach_m", "lunge_reach_m");
    body
}

fn head(t: &Layers<'_>) -> Head {
    let head = Head::stated(|parameter| t.number(parameter));
    t.ordered("sharp_deg", "whole_deg");
    head
}

fn skill(t: &Layers<'_>, continuation: Continuation) -> Skill {
    let pass = t.part("pass");
    let [least, most] = &CATCH_TO_RELEASE;
    let seconds = |parameter: &Parameter| t.number(parameter).unwrap_or(parameter.low as f32);
    let tables = SkillTables {
        shot: shots(&t.part("shot")),
        catch_to_release_s: (seconds(least), seconds(most)),
        pass: PASS_KINDS.map(|kind| {
            let kind = pass.part(kind.key.name);
            PassSkill::stated(|parameter| kind.number(parameter))
        }),
        continuation,
    };
    let skill = Skill::stated(|parameter| t.number(parameter), tables);
    t.ordered(least.name, most.name);
    t.ordered("catch_easy_m", "catch_far_m");
    skill
}

fn shots(t: &Layers<'_>) -> ShotSkill {
    let curve = |name| {
        let curve = t.part(name);
        ShotCurve::stated(|parameter| curve.number(parameter))
    };
    let curves =
        ShotCurves { rim: curve("rim"), short: curve("short"), mid: curve("mid"), three: curve("three") };
    ShotSkill::stated(|parameter| t.number(parameter), curves)
}

fn continuation(desk: &Desk, t: &Layers<'_>, taught: bool) -> Continuation {
    let impatience_per_s = t.number(&IMPATIENCE).unwrap_or(IMPATIENCE.low as f32);
    match t.worth(taught) {
        Some(file) => worth::read(desk, &file, impatience_per_s),
        None => Continuation { impatience_per_s, ..Continuation::flat(0.85) },
    }
}
