//! Plans: what a team has been taught to do with the ball.

use engine::setup::{
    After, BallPlace, FillRule, Gap, Guarded, LOOKS, Lane, Late, Look, LookOrder, PlaceSet, PlanChoice,
    RoleSet, ShotRule, ShotSet, TeamPlan,
};

use crate::declared::{Choice, Count, Field, Kind, Need, Part, Table};
use crate::read::Reader;
use crate::schema::program::{
    EVERYBODY, GUARDS, ROVER, SIDE, SIDES, choice, places, places_under, roles, roles_under, sides, standing,
};
use crate::source::{Desk, Named};

const CHOOSE: [(&str, PlanChoice); 2] = [("first", PlanChoice::First), ("best", PlanChoice::Best)];
const LANES: [(&str, Lane); 3] =
    [("open", Lane::Open), ("fast-closeout", Lane::FastCloseout), ("any", Lane::Any)];
const GUARDED: [(&str, Guarded); 3] =
    [("any", Guarded::Any), ("on-his-back", Guarded::OnHisBack), ("open", Guarded::Open)];
const FILLED: [(&str, BallPlace); BallPlace::COUNT] = {
    let mut places = [("", BallPlace::Top); BallPlace::COUNT];
    let mut at = 0;
    while at < BallPlace::COUNT {
        places[at] = (BallPlace::NAMES[at], BallPlace::ALL[at]);
        at += 1;
    }
    places
};
const SHOTS: [(&str, u8); 4] = [
    ("rim", ShotSet::RIM),
    ("inside", ShotSet::INSIDE),
    ("outside-two", ShotSet::OUTSIDE),
    ("three", ShotSet::THREE),
];
const AFTERS: [(&str, After); 5] = [
    ("always", After::Always),
    ("inside", After::Inside),
    ("reversal", After::Reversals(1)),
    ("two-reversals", After::Reversals(2)),
    ("inside-or-reversal", After::InsideOrReversal),
];

/// One look of the holder.
const LOOK: [Choice; 3] = [
    choice(
        roles_under("pass", "A pass to one of these roles."),
        &[
            places_under("at", "Where the receiver stands; anywhere, if left out."),
            SIDE,
            Field::other("when", Kind::Word(&GUARDED), "How the receiver's man has to stand.")
                .or(Need::Word("any")),
        ],
    ),
    choice(
        Field::other("drive", Kind::Word(&LANES), "A drive or a post move, and what lets him start it."),
        &[],
    ),
    choice(standing("shoot", "His own shot, as far as a shot rule allows it."), &[]),
];
static LOOK_TABLE: Table = Table::choice(&LOOK);

static LOOK_ORDER: Table = Table::of(&[Part::Fields(&[
    places_under("at", "Where the holder has the ball.").needed(),
    roles_under("who", "Which holders it is for; everybody, if left out."),
    Field::other("order", Kind::Tables(&LOOK_TABLE, Count::Within(1, LOOKS)), "His looks, first to last.")
        .needed(),
])]);

static SHOT: Table = Table::of(&[Part::Fields(&[
    roles_under("who", "Whom it allows to shoot; everybody, if left out."),
    Field::other(
        "from",
        Kind::List(&Kind::Word(&SHOTS), Count::Within(1, usize::MAX)),
        "From where: at the rim (within 2 m), other twos from inside (within 3.6 m), twos from farther out, threes.",
    )
    .needed(),
    Field::number("least_space_m", "m", (0.0, 4.0), "Least distance of the nearest defender that he expects.")
        .or(Need::Number(0.0)),
    Field::number("least_chance", "", (0.0, 1.0), "Least chance that it goes in, as he expects.")
        .or(Need::Number(0.0)),
    Field::flag("feet_set", "Off the catch only."),
    Field::other("after", Kind::Word(&AFTERS), "What the ball must have done before.").or(Need::Word("always")),
])]);

static LATE: Table = Table::of(&[Part::Fields(&[
    Field::number("from_s", "s", (0.0, 30.0), "From so much left on the shot clock on.")
        .or(Need::Number(FROM_S)),
    roles_under(
        "who",
        "To whom the ball goes then, unless a shot or drive that its holder may take at any time is better; the guards \
         and the rover, if left out.",
    ),
    Field::number(
        "shoot_from_s",
        "s",
        (0.0, 30.0),
        "From so much left on whoever has the ball does what is worth most.",
    )
    .or(Need::Number(SHOOT_FROM_S)),
])]);

static FILL: Table = Table::of(&[Part::Fields(&[
    Field::other("place", Kind::Word(&FILLED), "The place that is not left empty.").needed(),
    Field::other("side", Kind::Word(&SIDES), "On which side, as compared with the ball's.")
        .or(Need::Word("same")),
    places_under("ball", "Where the ball is, or goes, then.").needed(),
    roles_under("by", "Who takes it: the nearest of these who has nothing else to do.").needed(),
])]);

static GAP: Table = Table::of(&[Part::Fields(&[
    Field::number("most", "", (1.0, 5.0), "Most attackers between the lines, those on their way included.")
        .as_kind(Kind::Whole)
        .or(Need::Whole(1)),
    roles_under("first", "Who goes first.").needed(),
])]);

/// The default of `late.from_s`, s. (common practice, no source)
const FROM_S: f32 = 8.0;
/// The default of `late.shoot_from_s`, s. (common practice, no source)
const SHOOT_FROM_S: f32 = 4.0;

/// A plan's file. One without a look order is no plan: everybody does what he believes to be worth most.
pub(crate) static PLAN: Table = Table::of(&[Part::Fields(&[
    Field::other("choose", Kind::Word(&CHOOSE), "Which of several looks that are on is taken.")
        .or(Need::Word("first")),
    Field::number("look_s", "s", (0.05, 1.0), "What one look costs a player (assumed).")
        .or(Need::Number(0.2)),
    Field::number("reset_after_s", "s", (0.5, 10.0), "Nothing on for so long: to the nearest guard.")
        .or(Need::Number(2.0)),
    Field::number(
        "waits_s",
        "s",
        (0.0, 3.0),
        "How long the holder waits for one who is on his way to where a look goes, before he looks on.",
    )
    .or(Need::Number(0.0)),
    Field::number(
        "return_moved_m",
        "m",
        (0.0, 10.0),
        "Outside, a look gives the ball back to who passed it only if he is so far from where he got it; 0: whenever it is on.",
    )
    .or(Need::Number(0.0)),
    Field::number(
        "concede_points",
        "points",
        (0.0, 0.5),
        "What a look may be worth less than going on, the same for all of them.",
    )
    .or(Need::Number(0.05)),
    Field::tables("look", &LOOK_ORDER, "A look order; the first that fits the holder and his place holds."),
    Field::tables("shot", &SHOT, "A shot rule; what none of them allows waits for the late clock."),
    Field::table("late", &LATE, "As the shot clock runs down."),
    Field::tables(
        "fill",
        &FILL,
        "A place that is not left empty; the first rule that wants a player has him.",
    ),
    Field::table("gap", &GAP, "How many attackers may be between the lines at a time."),
])]);

/// How well a plan is known.
pub(crate) const DRILLED: Field = Field::number(
    "drilled",
    "",
    (0.0, 1.0),
    "How well the plan is known: who does not know it at all does not think of half of its looks.",
)
.or(Need::Number(1.0));

/// Whether a plan's file teaches anything.
pub(crate) fn is_taught(file: &Named) -> bool {
    file.root.get("look").is_some()
}

/// Reads a plan, drilled so well.
pub(crate) fn read(desk: &Desk, file: &Named, drilled: f32) -> Option<TeamPlan> {
    let root = Reader::root(desk, &file.root, &PLAN);
    let plan = TeamPlan {
        name: file.name.clone(),
        choose: root.word("choose", &CHOOSE),
        look_s: root.number("look_s"),
        reset_after_s: root.number("reset_after_s"),
        waits_s: root.number("waits_s"),
        return_moved_m: root.number("return_moved_m"),
        concede_points: root.number("concede_points"),
        drilled,
        looks: root.tables("look").iter().map(look_order).collect(),
        shots: root.tables("shot").iter().map(shot).collect(),
        late: late(root.table("late").as_ref()),
        fills: root.tables("fill").iter().filter_map(fill).collect(),
        gap: root.table("gap").as_ref().map(gap),
        forced: None,
    };
    (!plan.looks.is_empty()).then_some(plan)
}

fn look_order(t: &Reader<'_>) -> LookOrder {
    let at = t.find("at").map(|node| places(t, "at", node));
    if at.is_none() {
        t.missing("at", "at least one place".into());
    }
    let order: Vec<Look> = t.tables("order").iter().filter_map(|table| look(t, table)).collect();
    if order.is_empty() {
        t.missing("order", "at least one look".into());
    }
    LookOrder { at: at.unwrap_or(PlaceSet::ALL), who: who(t), order }
}

fn look(order: &Reader<'_>, t: &Reader<'_>) -> Option<Look> {
    let chosen = t.choose();
    match chosen.and_then(|chosen| t.find(chosen).map(|node| (chosen, node))) {
        Some(("pass", node)) => {
            let to = roles(t, "pass", node);
            let at = t.find("at").map_or(PlaceSet::ALL, |node| places(t, "at", node));
            Some(Look::Pass { to, at, side: sides(t), when: t.word("when", &GUARDED) })
        }
        Some(("drive", node)) => t.word_in("drive", node, &LANES).map(Look::Drive),
        Some(("shoot", _)) => {
            t.only_true("shoot");
            Some(Look::Shoot)
        }
        _ => {
            order.refuse("order", t.node(), format!("a table with one of {}", t.choices()), None);
            None
        }
    }
}

fn shot(t: &Reader<'_>) -> ShotRule {
    let from =
        t.find("from").map(|node| t.words("from", node, &SHOTS).into_iter().fold(0, |all, bit| all | bit));
    if from.is_none() {
        t.missing("from", "at least one kind of shot".into());
    }
    ShotRule {
        who: who(t),
        from: ShotSet(from.unwrap_or(0)),
        least_space_m: t.number("least_space_m"),
        least_chance: t.number("least_chance"),
        feet_set: t.flag("feet_set"),
        after: t.word("after", &AFTERS),
    }
}

fn late(t: Option<&Reader<'_>>) -> Late {
    let outside = RoleSet(GUARDS.0 | ROVER.0);
    t.map_or(Late { from_s: FROM_S, who: outside, shoot_from_s: SHOOT_FROM_S }, |t| Late {
        from_s: t.number("from_s"),
        who: t.find("who").map_or(outside, |node| roles(t, "who", node)),
        shoot_from_s: t.number("shoot_from_s"),
    })
}

fn fill(t: &Reader<'_>) -> Option<FillRule> {
    let ball = t.find("ball").map(|node| places(t, "ball", node));
    if ball.is_none() {
        t.missing("ball", "at least one place".into());
    }
    let by = t.find("by").map(|node| roles(t, "by", node));
    if by.is_none() {
        t.missing("by", "at least one role".into());
    }
    let place = t.find("place").and_then(|node| t.word_in("place", node, &FILLED));
    if place.is_none() && t.find("place").is_none() {
        t.missing("place", "a place, such as \"corner\"".into());
    }
    // Read before any of them may be lacking: all faults of a table are told at once.
    let side = sides(t);
    Some(FillRule { place: place?, side, ball: ball?, by: by? })
}

fn gap(t: &Reader<'_>) -> Gap {
    let first = t.find("first").map(|node| roles(t, "first", node));
    if first.is_none() {
        t.missing("first", "at least one role".into());
    }
    Gap { most: t.whole("most") as u8, first: first.unwrap_or(EVERYBODY) }
}

/// Whom an entry is for.
fn who(t: &Reader<'_>) -> RoleSet {
    t.find("who").map_or(EVERYBODY, |node| roles(t, "who", node))
}
