//! Attacks: the formation, the base habits, the attack's own movements, and the routes and options that a scenario
//! chooses.

use engine::math::Vec2;
use engine::setup::{Attack, Choice, Habits, PROGRAMS, Program, ProgramKind, RoleSet, SideChoice, Start};

use crate::key::Key;
use crate::read::Reader;
use crate::schema::program::{self, EVERYBODY, GUARDS, Ground, POSTS, ROLES};
use crate::schema::route::{self, Route};
use crate::source::{Desk, Named};
use crate::tree::{Data, Node};

/// The attack of a scenario that does not say.
const ATTACK: &str = "rover";
/// The route of a scenario that does not say.
const ROUTE: &str = "hold-wing";

/// What habits are read over where there are none yet.
const NO_HABITS: Habits = Habits {
    guard_hold_factor: 1.0,
    reversal_urge_points: 0.0,
    look_off_chance: 0.0,
    fake_chance: 0.0,
    fakes_most: 0,
    drive_chance: 0.0,
    blow_by_chance: 0.0,
    dribble_at_chance: 0.0,
    open_drive_chance: 0.0,
    shot_fake_chance: 0.0,
    fill_chance: 0.0,
    contested_cost_points: 0.0,
};

/// Reads the scenario's `[attack]` table with the files that it names. How a possession starts is set apart.
pub(crate) fn read(desk: &Desk, choice: &Reader<'_>, ground: &Ground<'_>) -> Option<Attack> {
    let file = choice.file_or(Key::other("use", "The attack's file."), "attacks", ATTACK);
    let side = choice.word_or(
        Key::other("side", "Side of the floor the rover starts on; `either`: a keyed coin."),
        &[("either", SideChoice::Either), ("left", SideChoice::Left), ("right", SideChoice::Right)],
        SideChoice::Either,
    );
    let rover = choice.maybe_table(Key::other("rover", "What the rover does."));
    let posts = choice.maybe_table(Key::other("posts", "What the posts do."));
    let guards = choice.maybe_table(Key::other("guards", "What the guards do."));
    let places =
        choice.maybe_table(Key::other("formation", "Homes of the five roles that differ from the attack's."));
    let role_shooting = shooting(choice);
    let own_habits = choice.maybe_table(Key::other("habits", "Habits that differ from the attack's."));

    let route = rover.as_ref().map_or_else(
        || desk.bundled("routes", ROUTE),
        |rover| rover.file_or(Key::other("route", "The rover's route."), "routes", ROUTE),
    );
    let route = route.map(|file| route::read(desk, &file, ground));
    let post_options = options(desk, posts.as_ref(), "options/posts");
    let guard_options = options(desk, guards.as_ref(), "options/guards");

    let file = file?;
    let root = Reader::root(desk, &file.root);
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
    if programs.len() > PROGRAMS {
        let allowed = format!(
            "at most {PROGRAMS} programs, attack, route and options together; these make {}",
            programs.len()
        );
        choice.refuse_all(Key::other("rover", "Route and options of the attack."), allowed);
    }
    let habits = program::habits(&habits, |key, so_far| {
        own_habits.as_ref().map_or(so_far, |own| own.number_over(key, so_far))
    });
    Some(Attack {
        name: file.name,
        side,
        formation,
        ball_starts_with: 0,
        start: Start::Set,
        programs,
        route_choice,
        habits,
        role_shooting,
    })
}

/// The options with their weights, in the order written; those of weight 0 are left out.
fn options(desk: &Desk, reader: Option<&Reader<'_>>, folder: &str) -> Vec<(Named, f32)> {
    let key = Key::other("options", "Options by name, each with its weight from 0 to 1.");
    let Some(table) = reader.and_then(|reader| reader.maybe_table(key)) else { return Vec::new() };
    let mut found = Vec::new();
    for entry in table.entries() {
        // The option's name is a key: seen as a text where it stands, it may name a file like any other.
        let name = Node { origin: entry.key_origin, data: Data::Text(entry.key.clone()) };
        let file = desk.open_named(folder, &name, &table.path_of(&entry.key));
        let weight = Key::share("weight", "The share of its chances that the option takes.");
        let number = table.number_in(weight, &entry.node, table.path_of(&entry.key));
        found.extend(file.zip(number));
    }
    found
}

/// An option's programs; its habits, if it has any, are mixed into `habits` by its weight.
fn option(
    desk: &Desk,
    file: &Named,
    (kind, who, weight): (ProgramKind, RoleSet, f32),
    ground: &Ground<'_>,
    habits: &mut Habits,
) -> Vec<Program> {
    let root = Reader::root(desk, &file.root);
    if let Some(table) = root.maybe_table(Key::other("habits", "Habits that the option changes.")) {
        *habits = program::habits(habits, |key, so_far| {
            if table.node().get(key.name).is_none() {
                table.find(key.name);
                return so_far;
            }
            so_far + weight * (table.sourced(key) - so_far)
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
    if let Some(table) =
        root.table(Key::other("formation", "Homes of the five roles, the rover's side being +x."))
    {
        for (place, role) in places.iter_mut().zip(ROLES) {
            let key = Key::place(role, "Home of this role.");
            *place = ground.fit.on_floor(&table, key, ground.fit.attacker(table.place(key)));
        }
    }
    if let Some(home) = route.and_then(|route| route.home) {
        places[2] = home;
    }
    for (place, role) in places.iter_mut().zip(ROLES) {
        let key = Key::place(role, "Home of this role.");
        if let Some(own) = own
            && let Some(home) = own.place_over(key)
        {
            *place = ground.fit.on_floor(own, key, home);
        }
    }
    places
}

/// Reads an attack's file for its own sake, in no scenario.
pub(crate) fn alone(desk: &Desk, file: &Named, ground: &Ground<'_>) {
    let root = Reader::root(desk, &file.root);
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
    let mut habits = NO_HABITS;
    option(desk, file, (ProgramKind::PostOption, POSTS, 1.0), ground, &mut habits);
}

/// Shooting by role against the team's; a role that is not named shoots as the team.
fn shooting(choice: &Reader<'_>) -> [f32; 5] {
    let key = Key::other("shooting", "Shooting by role against the team's, which the defence knows.");
    let table = choice.maybe_table(key);
    ROLES.map(|role| {
        let key = Key::number(role, "logit", -3.0, 3.0, "Added to the logit of every shot of this role.");
        table.as_ref().map_or(0.0, |table| table.number_or(key, 0.0))
    })
}

/// The habits of an attack's file.
fn base_habits(root: &Reader<'_>) -> Habits {
    match root.table(Key::other("habits", "Habits of the players with the ball.")) {
        Some(table) => program::habits(&NO_HABITS, |key, _| table.sourced(key)),
        None => NO_HABITS,
    }
}
