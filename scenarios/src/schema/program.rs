//! Programs of movement: when they start, where they lead, what follows; and the habits of passers.

use engine::setup::{
    BallPlace, Condition, Frame, Habits, Locus, Pace, PlaceSet, Program, ProgramKind, Relative, RoleSet,
    Step, Then,
};

use crate::fault::one_of;
use crate::key::Key;
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::zone::Columns;
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

const FRAMES: [(&str, Frame); 2] = [("start", Frame::Start), ("ball", Frame::Ball)];
const FRAME: Key = Key::other("frame", "Which side +x is: the owner's at the start, or the ball's.");

/// What a program's places and names are read against.
pub(crate) struct Ground<'g> {
    pub columns: &'g Columns,
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
    let key = Key::other("program", "A program of movement.");
    let tables = root.list(key).iter().enumerate();
    tables
        .filter_map(|(nth, node)| {
            let table = root.table_in(key, node, format!("program.{}", nth + 1))?;
            Some(program(&table, from, ground))
        })
        .collect()
}

fn program(t: &Reader<'_>, from: &From<'_>, ground: &Ground<'_>) -> Program {
    let who = Key::other("who", "Who may run it.");
    let steps = Key::other("step", "A leg of the path.");
    let weight = Key::share("weight", "Share of its chances that are taken.");
    let legs: Vec<Step> = t
        .list(steps)
        .iter()
        .enumerate()
        .filter_map(|(nth, node)| {
            let table = t.table_in(steps, node, format!("{}.{}", t.path_of("step"), nth + 1))?;
            Some(step(&table, ground))
        })
        .collect();
    if legs.is_empty() {
        t.missing(steps, "at least one step".into());
    }
    Program {
        name: from.file.name.clone(),
        kind: from.kind,
        who: t.find(who.name).map_or(from.who, |node| roles(t, who, node)),
        weight: from.weight * t.number_or(weight, 1.0),
        when: conditions(t, Key::other("when", "Conditions that must all hold for it to start."), ground),
        steps: legs,
        then: t.word_or(
            Key::other("then", "What follows the last step."),
            &[("stay", Then::Stay), ("go-home", Then::GoHome)],
            Then::GoHome,
        ),
        rest_s: t.number_or(
            Key::number("rest_s", "s", 0.0, 120.0, "Rest before the same owner may run it again."),
            2.0,
        ),
    }
}

fn step(t: &Reader<'_>, ground: &Ground<'_>) -> Step {
    let to = Key::other("to", "Where the leg leads.");
    Step {
        to: match t.find(to.name) {
            Some(node) => locus(t, to, node, ground),
            None => {
                t.missing(to, "a place".into());
                Locus::Home
            }
        },
        pace: t.word_or(
            Key::other("pace", "How fast the leg is run."),
            &[("walk", Pace::Walk), ("jog", Pace::Jog), ("sprint", Pace::Sprint)],
            Pace::Sprint,
        ),
        within_m: t.number_or(Key::number("within_m", "m", 0.1, 3.0, "How near counts as there."), 0.5),
        linger_s: t.number_or(Key::number("linger_s", "s", 0.0, 60.0, "Time spent there."), 0.0),
        leave_when: conditions(
            t,
            Key::other("leave_when", "Conditions that, all holding, end the lingering."),
            ground,
        ),
        longest_s: t
            .number_or(Key::number("longest_s", "s", 0.1, 60.0, "Longest time for the whole leg."), 3.0),
    }
}

/// A place: a table with exactly one of the kinds of place as its key.
fn locus(t: &Reader<'_>, key: Key, node: &Node, ground: &Ground<'_>) -> Locus {
    const KINDS: [&str; 9] =
        ["floor", "line_gap", "behind", "seam", "by_post", "screen", "along_arc", "seal", "home"];
    let Some(place) = t.table_in(key, node, t.path_of(key.name)) else { return Locus::Home };
    locus_of(&place, ground).unwrap_or_else(|| {
        t.refuse(key, node, format!("a table with one of {}", one_of(KINDS)), None);
        Locus::Home
    })
}

/// The place in a table, if one is there.
fn locus_of(t: &Reader<'_>, ground: &Ground<'_>) -> Option<Locus> {
    let floor = Key::place("floor", "A fixed place [x, y].");
    let line_gap = Key::number("line_gap", "m", -8.0, 8.0, "Between the lines of the zone, at this x.");
    let behind = Key::other("behind", "Behind the defender in a column.");
    let seam = Key::other("seam", "Halfway between the defenders of two columns.");
    let by_post = Key::other("by_post", "Beside the near or the far post.");
    let screen = Key::other("screen", "In the way of the defender in a column.");
    let along_arc = Key::number(
        "along_arc",
        "m",
        0.5,
        6.0,
        "So far along the arc from where the leg began, toward the roomier side.",
    );
    let seal = Key::other("seal", "Between the next helper and the owner's catching place.");
    let home = Key::other("home", "Where the formation has the owner.");
    let found = if let Some(at) = t.maybe_place(floor) {
        Locus::Floor(
            ground.fit.on_floor(t, floor, ground.fit.attacker(at)),
            t.word_or(FRAME, &FRAMES, Frame::Start),
        )
    } else if let Some(x) = t.maybe_number(line_gap) {
        Locus::LineGap(x, t.word_or(FRAME, &FRAMES, Frame::Start))
    } else if let Some(node) = t.find(behind.name) {
        let distance = Key::number("distance_m", "m", 0.0, 4.0, "How far behind him.");
        Locus::Behind(ground.columns.read_defender(t, behind, node), t.number_or(distance, 0.8))
    } else if let Some(node) = t.find(seam.name) {
        match t.list_in(seam, node) {
            [a, b] => Locus::Seam(
                ground.columns.read_defender(t, seam, a),
                ground.columns.read_defender(t, seam, b),
            ),
            _ => {
                t.refuse(seam, node, "two columns".into(), None);
                Locus::Home
            }
        }
    } else if let Some(node) = t.find(by_post.name) {
        let near = t.word_in(by_post, node, &[("near", true), ("far", false)]).unwrap_or(true);
        Locus::ByPost(near, t.place(Key::place("offset", "Displacement, +x toward the ball's side.")))
    } else if let Some(node) = t.find(screen.name) {
        let place = Key::place("toward", "The place to which the screened defender would run.");
        let distance = Key::number("distance_m", "m", 0.0, 4.0, "How far in front of him.");
        Locus::Screen(
            ground.columns.read_defender(t, screen, node),
            ground.fit.attacker(t.place(place)),
            t.word_or(FRAME, &FRAMES, Frame::Start),
            t.number_or(distance, 0.8),
        )
    } else if let Some(metres) = t.maybe_number(along_arc) {
        Locus::AlongArc(metres)
    } else if t.flag(seal) {
        Locus::Seal
    } else if t.flag(home) {
        Locus::Home
    } else {
        return None;
    };
    Some(found)
}

pub(crate) fn conditions(t: &Reader<'_>, key: Key, ground: &Ground<'_>) -> Vec<Condition> {
    let nodes = t.list(key).iter().enumerate();
    nodes
        .filter_map(|(nth, node)| {
            let table = t.table_in(key, node, format!("{}.{}", t.path_of(key.name), nth + 1))?;
            let found = condition(&table, ground);
            if found.is_none() {
                t.refuse(key, node, format!("a table with one of {}", one_of(CONDITIONS)), None);
            }
            found
        })
        .collect()
}

/// The kinds of condition as files name them.
const CONDITIONS: [&str; 13] = [
    "ball_with",
    "ball_at",
    "ball_bound",
    "stands",
    "unwatched",
    "dribbled_at",
    "ball_left_me_s",
    "ball_elsewhere",
    "open",
    "back_out",
    "near_post",
    "waited_s",
    "after_s",
];

fn condition(t: &Reader<'_>, ground: &Ground<'_>) -> Option<Condition> {
    let time = |name, doc| t.maybe_number(Key::number(name, "s", 0.0, 120.0, doc));
    let with = Key::other("ball_with", "The ball is held by one of these roles.");
    let at = Key::other("ball_at", "The ball is held at one of these places.");
    let bound = Key::other("ball_bound", "The ball is held at one of these places or in the air toward one.");
    let stands = Key::other("stands", "One of the roles in `who` (default: the owner) is at this place.");
    let who = Key::other("who", "Whose place is meant.");
    let side = Key::other("side", "On which side, as compared with the owner's.");
    let sides = [("same", Relative::Same), ("other", Relative::Other), ("any", Relative::Any)];
    let open = Key::other("open", "No believed defender near this place.");
    let within = Key::number("within_m", "m", 0.0, 6.0, "How near a defender must not be.");
    let near_post =
        Key::other("near_post", "The owner is the nearer post to the ball (or, if false, the farther).");
    if let Some(node) = t.find(with.name) {
        return Some(Condition::BallWith(roles(t, with, node)));
    }
    if let Some(node) = t.find(at.name) {
        return Some(Condition::BallAt(places(t, at, node), t.word_or(side, &sides, Relative::Any)));
    }
    if let Some(node) = t.find(open.name) {
        return Some(Condition::Open(locus(t, open, node, ground), t.number_or(within, 1.2)));
    }
    if let Some(node) = t.find(near_post.name) {
        return Some(Condition::NearPost(t.flag_in(near_post, node)));
    }
    if let Some(node) = t.find(bound.name) {
        return Some(Condition::BallBound(places(t, bound, node), t.word_or(side, &sides, Relative::Any)));
    }
    if let Some(node) = t.find(stands.name) {
        let near = Key::number("within_m", "m", 0.1, 6.0, "How near to the place.");
        let whose = t.find(who.name).map_or(RoleSet(0), |node| roles(t, who, node));
        return Some(Condition::Stands(whose, locus(t, stands, node, ground), t.number_or(near, 1.5)));
    }
    let timed = time("ball_left_me_s", "The owner passed no longer ago than this.")
        .map(Condition::BallLeftMe)
        .or_else(|| time("waited_s", "The owner has been in his step this long.").map(Condition::Waited))
        .or_else(|| time("after_s", "So long since the possession began.").map(Condition::After));
    if timed.is_some() {
        return timed;
    }
    if t.flag(Key::other("ball_elsewhere", "No pass has come to the owner.")) {
        return Some(Condition::BallElsewhere);
    }
    if t.flag(Key::other("unwatched", "No defender near him looks his way.")) {
        return Some(Condition::Unwatched);
    }
    if t.flag(Key::other("dribbled_at", "The team-mate with the ball dribbles at him.")) {
        return Some(Condition::DribbledAt);
    }
    t.flag(Key::other("back_out", "A back has gone out to the corner or wing.")).then_some(Condition::BackOut)
}

/// A bit for each of the words in a list.
fn bits(t: &Reader<'_>, key: Key, node: &Node, words: &[&str]) -> u8 {
    let numbered: Vec<(&str, u8)> = words.iter().copied().zip((0..8).map(|bit| 1 << bit)).collect();
    let list = t.list_in(key, node);
    if list.is_empty() {
        t.refuse(key, node, format!("a list of {}", one_of(words.iter().copied())), None);
    }
    list.iter().filter_map(|node| t.word_in(key, node, &numbered)).fold(0, |all, bit| all | bit)
}

/// A set of roles; `guards` and `posts` stand for both of them.
fn roles(t: &Reader<'_>, key: Key, node: &Node) -> RoleSet {
    let mut words: Vec<(&str, u8)> = ROLES.into_iter().zip((0..5).map(|bit| 1 << bit)).collect();
    words.extend([("guards", GUARDS.0), ("posts", POSTS.0)]);
    let list = t.list_in(key, node);
    if list.is_empty() {
        t.refuse(key, node, format!("a list of {}", one_of(words.iter().map(|w| w.0))), None);
    }
    RoleSet(list.iter().filter_map(|node| t.word_in(key, node, &words)).fold(0, |all, bit| all | bit))
}

fn places(t: &Reader<'_>, key: Key, node: &Node) -> PlaceSet {
    PlaceSet(bits(t, key, node, &BallPlace::NAMES))
}

/// Reads one habit after another with `number`, which gets the key and the value so far.
pub(crate) fn habits(base: &Habits, mut number: impl FnMut(Key, f32) -> f32) -> Habits {
    let share = Key::share;
    Habits {
        guard_hold_factor: number(
            Key::number(
                "guard_hold_factor",
                "",
                0.1,
                5.0,
                "Factor on the guards' hold before the first decision.",
            ),
            base.guard_hold_factor,
        ),
        reversal_urge_points: number(
            Key::number(
                "reversal_urge_points",
                "points",
                0.0,
                1.0,
                "Preference for the pass to the other guard.",
            ),
            base.reversal_urge_points,
        ),
        look_off_chance: number(
            share("look_off_chance", "Chance of looking away from the receiver."),
            base.look_off_chance,
        ),
        fake_chance: number(share("fake_chance", "Chance of showing another pass first."), base.fake_chance),
        // Mixed by weight, and to the nearest whole number.
        fakes_most: (0.5
            + number(
                Key::number("fakes_most", "", 0.0, 5.0, "Most fakes in one hold, whole."),
                f32::from(base.fakes_most),
            )) as u8,
        drive_chance: number(
            share("drive_chance", "Share of catches on which a guard may drive a seam."),
            base.drive_chance,
        ),
        blow_by_chance: number(
            share("blow_by_chance", "Share of catches on which anyone may drive past a closeout."),
            base.blow_by_chance,
        ),
        dribble_at_chance: number(
            share("dribble_at_chance", "Share of catches on which a guard may dribble at the other guard."),
            base.dribble_at_chance,
        ),
        open_drive_chance: number(
            share(
                "open_drive_chance",
                "Share of catches on which anyone drives a way that he believes open.",
            ),
            base.open_drive_chance,
        ),
        shot_fake_chance: number(
            share("shot_fake_chance", "Chance of showing a shot to a defender who comes out too fast."),
            base.shot_fake_chance,
        ),
        fill_chance: number(
            share("fill_chance", "Share of its chances on which a perimeter player fills an empty corner."),
            base.fill_chance,
        ),
        contested_cost_points: number(
            Key::number(
                "contested_cost_points",
                "points",
                0.0,
                1.0,
                "What a player holds against a contested shot from outside while there is time for a better one.",
            ),
            base.contested_cost_points,
        ),
    }
}
