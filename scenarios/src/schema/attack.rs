//! Attacks: the formation, the base habits, the attack's own movements, and the routes and options that a scenario
//! chooses.

use std::ops::RangeInclusive;

use engine::math::{Vec2, ln};
use engine::setup::{
    Attack, Choice, Habits, PROGRAMS as PROGRAMS_MOST, Parameter, Program, ProgramKind, RoleSet, SideChoice,
    Start,
};

use crate::declared::{Field, Kind, Layer, Need, Part, Table};
use crate::read::Reader;
use crate::schema::plan::{self, DRILLED};
use crate::schema::program::{self, EVERYBODY, GUARDS, Ground, POSTS, PROGRAMS, ROLES};
use crate::schema::route::{self, Route};
use crate::source::{Desk, Named};
use crate::tree::{Data, Node};

/// The plan of a scenario that does not say.
const PLAN: &str = "free";
/// The route of a scenario that does not say.
const ROUTE: &str = "hold-wing";

const SIDES: [(&str, SideChoice); 3] =
    [("either", SideChoice::Either), ("left", SideChoice::Left), ("right", SideChoice::Right)];

/// Where a role has its home.
const HOME: Field = Field::place("", "Home of this role.");
static FORMATION: Table = Table::of(&[Part::Each(&ROLES, HOME.needed())]);
static HABITS: Table = Table::of(&[Part::Parameters(Habits::PARAMETERS)]);

/// An attack's file.
pub(crate) static ATTACK: Table = Table::of(&[Part::Fields(&[
    Field::table("formation", &FORMATION, "Homes of the five roles, the rover's side being +x.").needed(),
    Field::table("habits", &HABITS, "Habits of the players with the ball.").needed(),
    PROGRAMS,
])]);

/// The file of an option of posts or guards.
pub(crate) static OPTION: Table = Table::of(&[Part::Fields(&[
    Field::other("habits", Kind::Layer(Layer::Changed, &HABITS), "Habits that the option changes."),
    PROGRAMS,
])]);

const WEIGHT: Field = Field::number("", "", (0.0, 1.0), "The share of its chances that the option takes.");
static OPTIONS: Table = Table::of(&[Part::Fields(&[Field::other(
    "options",
    Kind::Map(&WEIGHT),
    "Options by name, each with its weight from 0 to 1.",
)])]);
static ROVER_TABLE: Table = Table::of(&[Part::Fields(&[
    Field::other("route", Kind::File("routes"), "The rover's route.").or(Need::Word(ROUTE)),
    Field::flag(
        "home_only",
        "He stays where the route starts and runs none of it: the control of the route.",
    ),
])]);
static HOMES: Table = Table::of(&[Part::Each(&ROLES, HOME.or(Need::Below))]);
static SHOOTING: Table = Table::of(&[Part::Each(
    &ROLES,
    Field::number("", "logit", (-3.0, 3.0), "Added to the logit of every shot of this role.")
        .or(Need::Number(0.0)),
)]);

/// A scenario's choice of an attack.
pub(crate) static CHOICE: Table = Table::of(&[Part::Fields(&[
    Field::other("use", Kind::File("attacks"), "The attack's file.").or(Need::Word("rover")),
    Field::other(
        "side",
        Kind::Word(&SIDES),
        "Side of the floor the rover starts on; `either`: a keyed coin.",
    )
    .or(Need::Word("either")),
    Field::other("plan", Kind::File("plans"), "What the team has been taught to do with the ball.")
        .or(Need::Word(PLAN)),
    DRILLED,
    Field::table("rover", &ROVER_TABLE, "What the rover does."),
    Field::table("posts", &OPTIONS, "What the posts do."),
    Field::table("guards", &OPTIONS, "What the guards do."),
    Field::table("formation", &HOMES, "Homes of the five roles that differ from the attack's."),
    Field::table("shooting", &SHOOTING, "Shooting by role against the team's, which the defence knows."),
    Field::other("habits", Kind::Layer(Layer::Over, &HABITS), "Habits that differ from the attack's."),
])]);

/// Whether the scenario's `[attack]` table names a plan that is one.
pub(crate) fn has_plan(choice: &Reader<'_>) -> bool {
    choice.file("plan").is_some_and(|file| plan::is_taught(&file))
}

/// Reads the scenario's `[attack]` table with the files that it names. How a possession starts is set apart.
pub(crate) fn read(desk: &Desk, choice: &Reader<'_>, ground: &Ground<'_>) -> Option<Attack> {
    let file = choice.file("use");
    let side = choice.word("side", &SIDES);
    let plan = choice.file("plan");
    let drilled = choice.number("drilled");
    let rover = choice.table("rover");
    let posts = choice.table("posts");
    let guards = choice.table("guards");
    let places = choice.table("formation");
    let role_shooting = shooting(choice);
    let own_habits = choice.table("habits");

    let route = rover.as_ref().map_or_else(|| desk.bundled("routes", ROUTE), |rover| rover.file("route"));
    let mut route = route.map(|file| route::read(desk, &file, ground));
    if rover.is_some_and(|rover| rover.flag("home_only"))
        && let Some(route) = &mut route
    {
        route.programs.clear();
    }
    let post_options = options(desk, posts.as_ref(), "options/posts");
    let guard_options = options(desk, guards.as_ref(), "options/guards");

    let file = file?;
    let root = Reader::root(desk, &file.root, &ATTACK);
    let formation = formation(&root, places.as_ref(), route.as_ref(), ground);
    let mut habits = base_habits(&root);
    let route_choice = route.as_ref().map_or(Choice::First, |route| route.choice);
    let mut programs = route.map_or_else(Vec::new, |route| route.programs);
    for (kind, who, chosen) in
        [(ProgramKind::PostOption, POSTS, &post_options), (ProgramKind::GuardOption, GUARDS, &guard_options)]
    {
        for (file, weight) in chosen {
            programs.extend(option(desk, file, (kind, who, *weight), ground, &mut habits));
        }
    }
    // What a scenario asks for by name comes before the attack's own.
    programs.extend(program::read_all(&root, &moves(&file), ground));
    if programs.len() > PROGRAMS_MOST {
        let allowed = format!(
            "at most {PROGRAMS_MOST} programs, attack, route and options together; these make {}",
            programs.len()
        );
        choice.refuse("rover", choice.node(), allowed, None);
    }
    if let Some(own) = &own_habits {
        change(&mut habits, |parameter, so_far| own.number_over(parameter.name, so_far));
    }
    let mut habits = habits.into_iter();
    Some(Attack {
        name: file.name,
        side,
        formation,
        ball_starts_with: 0,
        start: Start::Set,
        programs,
        route_choice,
        // Asked for in the order in which they were read.
        habits: Habits::stated(|_| habits.next()),
        plan: plan.and_then(|file| plan::read(desk, &file, drilled)),
        role_shooting,
    })
}

/// The options with their weights, in the order written; those of weight 0 are left out.
fn options(desk: &Desk, reader: Option<&Reader<'_>>, folder: &str) -> Vec<(Named, f32)> {
    let Some(table) = reader.and_then(|reader| reader.table("options")) else { return Vec::new() };
    let mut found = Vec::new();
    for entry in table.entries() {
        // The option's name is a key: seen as a text where it stands, it may name a file like any other.
        let name = Node { origin: entry.key_origin, data: Data::Text(entry.key.clone()) };
        let file = desk.open_named(folder, &name, &table.path_of(&entry.key));
        let weight = table.number_in(&entry.key, &entry.node);
        found.extend(file.zip(weight));
    }
    found
}

/// An option's programs; its habits, if it has any, are mixed into `habits` by its weight.
fn option(
    desk: &Desk,
    file: &Named,
    (kind, who, weight): (ProgramKind, RoleSet, f32),
    ground: &Ground<'_>,
    habits: &mut [f32],
) -> Vec<Program> {
    let root = Reader::root(desk, &file.root, &OPTION);
    if let Some(table) = root.table("habits") {
        change(habits, |parameter, so_far| {
            let stated = table.maybe_sourced(parameter.name);
            stated.map_or(so_far, |stated| so_far + weight * (stated - so_far))
        });
    }
    let programs = program::read_all(&root, &program::From { file, kind, who, weight }, ground);
    if weight > 0.0 { programs } else { Vec::new() }
}

/// The home of each role: the scenario's, else (for the rover) the route's, else the attack's.
fn formation(
    root: &Reader<'_>,
    own: Option<&Reader<'_>>,
    route: Option<&Route>,
    ground: &Ground<'_>,
) -> [Vec2; 5] {
    let mut places = [Vec2::RIM; 5];
    if let Some(table) = root.table("formation") {
        for (place, role) in places.iter_mut().zip(ROLES) {
            *place = ground.fit.on_floor(&table, role, ground.fit.attacker(table.place(role)));
        }
    }
    if let Some(home) = route.and_then(|route| route.home) {
        places[2] = home;
    }
    for (place, role) in places.iter_mut().zip(ROLES) {
        if let Some(own) = own
            && let Some(home) = own.maybe_place(role)
        {
            *place = ground.fit.on_floor(own, role, home);
        }
    }
    places
}

/// Reads an attack's file for its own sake, in no scenario.
pub(crate) fn alone(desk: &Desk, file: &Named, ground: &Ground<'_>) {
    let root = Reader::root(desk, &file.root, &ATTACK);
    formation(&root, None, None, ground);
    base_habits(&root);
    program::read_all(&root, &moves(file), ground);
}

/// The movements of an attack's own file: anybody may run them, always.
fn moves(file: &Named) -> program::From<'_> {
    program::From { file, kind: ProgramKind::Set, who: EVERYBODY, weight: 1.0 }
}

/// Reads an option's file for its own sake, in no scenario.
pub(crate) fn option_alone(desk: &Desk, file: &Named, ground: &Ground<'_>) {
    option(desk, file, (ProgramKind::PostOption, POSTS, 1.0), ground, &mut least_habits());
}

/// Shooting by role against the team's; a role that is not named shoots as the team.
pub(crate) fn shooting(choice: &Reader<'_>) -> [f32; 5] {
    let table = choice.table("shooting");
    ROLES.map(|role| table.as_ref().map_or(0.0, |table| offset(table, role)))
}

/// Positive numbers of this size without their sign look like a share of shots that go in: a logit of theirs is written with
/// the sign. (assumed: whoever makes fewer or more than this of his shots is rare)
const LIKE_A_SHARE: RangeInclusive<f32> = 0.2..=0.75;

/// What a role's shots have added to them. A bare 0.40 may be a share or a logit, and who means the one would get the other.
fn offset(table: &Reader<'_>, role: &str) -> f32 {
    let logit = table.number(role);
    if LIKE_A_SHARE.contains(&logit)
        && table.find(role).is_some_and(|node| !table.slice(node).starts_with('+'))
    {
        table.refuse_hinting(role, "a logit with its sign, such as +0.40 or -0.40", &like_a_share(logit));
    }
    logit
}

/// What to write in place of a number that looks like a share.
fn like_a_share(share: f32) -> String {
    let logit = |share: f32| ln(share / (1.0 - share));
    let team = 0.33;
    let more = logit(share) - logit(team);
    format!(
        "It is added to the logarithm of the odds. For a logit write `+{share}`. If {:.0} % of his shots go in where {:.0} % of the \
         team's do, write `{more:+.2}`.",
        100.0 * share,
        100.0 * team
    )
}

/// The habits of an attack's file, in the order of their declaration.
fn base_habits(root: &Reader<'_>) -> Vec<f32> {
    let mut habits = least_habits();
    if let Some(table) = root.table("habits") {
        change(&mut habits, |parameter, _| table.sourced(parameter.name));
    }
    habits
}

/// What habits are read over where there are none yet.
fn least_habits() -> Vec<f32> {
    Habits::PARAMETERS.iter().map(|parameter| parameter.low as f32).collect()
}

/// Changes one habit after another; those that are whole numbers stay so, however they are mixed.
fn change(habits: &mut [f32], mut number: impl FnMut(&Parameter, f32) -> f32) {
    for (habit, parameter) in habits.iter_mut().zip(Habits::PARAMETERS) {
        let changed = number(parameter, *habit);
        *habit = if parameter.whole { (0.5 + changed).floor() } else { changed };
    }
}
