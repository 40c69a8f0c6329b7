//! Rule sets: the lines of the floor and the time rules, one file each.

use engine::setup::{Court, CourtRest, Markings, MarkingsRest, Officials, Parameter};

use crate::declared::{Field, Kind, Part, Table};
use crate::read::Reader;
use crate::source::{Desk, Named};

/// A rule set, as its file has it.
pub(crate) struct Rules {
    pub court: Court,
    pub shot_clock_s: Option<f32>,
    pub shot_clock_rebound_s: f32,
    pub three_seconds_s: f32,
    pub closely_guarded_s: Option<f32>,
    pub closely_guarded_m: f32,
}

/// The time rules that a scenario's `[clock]` may change.
pub(crate) const SHOT_CLOCK: Field =
    Field::of(Officials::PARAMETERS, "shot_clock_s").as_kind(Kind::NumberOrNone);
pub(crate) const SHOT_CLOCK_REBOUND: Field = Field::of(Officials::PARAMETERS, "shot_clock_rebound_s");
/// Those that its `[officials]` may change.
pub(crate) const THREE_SECONDS: Field = Field::of(Officials::PARAMETERS, "three_seconds_s");
pub(crate) const CLOSELY_GUARDED: Field =
    Field::of(Officials::PARAMETERS, "closely_guarded_s").as_kind(Kind::NumberOrNone);
pub(crate) const CLOSELY_GUARDED_M: Field = Field::of(Officials::PARAMETERS, "closely_guarded_m");

/// A parameter of the floor, which a rule set states as a plain number.
const fn floor(name: &'static str) -> Field {
    Field::of(Court::PARAMETERS, name).needed()
}

/// A parameter of what is drawn on the floor.
const fn drawn(name: &'static str) -> Field {
    Field::of(Markings::PARAMETERS, name).needed()
}

static FLOOR: Table = Table::of(&[Part::Fields(&[
    floor("basket_from_baseline_m"),
    floor("lane_width_m"),
    floor("free_throw_from_basket_m"),
    floor("three_radius_m"),
    floor("three_corner_m"),
    floor("court_width_m"),
    Field::number("court_length_m", "m", (22.0, 32.0), "Length of the floor.").needed(),
])]);

static MARKINGS: Table = Table::of(&[Part::Fields(&[
    drawn("circle_radius_m"),
    Field::number("board_from_baseline_m", "m", (0.5, 2.0), "From the baseline to the backboard's face.")
        .needed(),
    drawn("board_width_m"),
    drawn("rim_diameter_m"),
    drawn("rim_height_m"),
    drawn("no_charge_radius_m").as_kind(Kind::NumberOrNone),
])]);

static CLOCK: Table = Table::of(&[Part::Fields(&[
    SHOT_CLOCK.needed(),
    CLOSELY_GUARDED.needed(),
    SHOT_CLOCK_REBOUND.needed(),
    THREE_SECONDS.needed(),
    CLOSELY_GUARDED_M.needed(),
])]);

/// A file of rules.
pub(crate) static RULES: Table = Table::of(&[Part::Fields(&[
    Field::table("floor", &FLOOR, "Lines of the floor.").needed(),
    Field::table(
        "markings",
        &MARKINGS,
        "What a picture of the floor shows besides; no shot goes in from behind the board.",
    )
    .needed(),
    Field::table("clock", &CLOCK, "Time rules.").needed(),
])]);

/// Reads a rule set.
pub(crate) fn read(desk: &Desk, file: &Named) -> Rules {
    let root = Reader::root(desk, &file.root, &RULES);
    let floor = root.table("floor");
    let number = |of: &Option<Reader<'_>>, name: &str, without: f32| {
        of.as_ref().map_or(without, |table| table.number(name))
    };
    let baseline_y_m = -number(&floor, "basket_from_baseline_m", 1.6);
    let markings = markings(root.table("markings").as_ref(), baseline_y_m);
    let rest =
        CourtRest { midcourt_y_m: number(&floor, "court_length_m", 28.0) / 2.0 + baseline_y_m, markings };
    let court = Court::stated(|parameter| floor.as_ref().map(|floor| floor.number(parameter.name)), rest);
    if let Some(floor) = &floor
        && court.three_corner_x_m > court.three_radius_m
        && let Some(entry) = floor.node().get("three_corner_m")
    {
        let allowed = format!("at most three_radius_m ({} m)", court.three_radius_m);
        floor.refuse("three_corner_m", &entry.node, allowed, None);
    }
    let clock = root.table("clock");
    let time = |name: &str| clock.as_ref().and_then(|clock| clock.number_or_none(name)).flatten();
    Rules {
        court,
        shot_clock_s: time("shot_clock_s"),
        closely_guarded_s: time("closely_guarded_s"),
        shot_clock_rebound_s: number(&clock, "shot_clock_rebound_s", 1.0),
        three_seconds_s: number(&clock, "three_seconds_s", 3.0),
        closely_guarded_m: number(&clock, "closely_guarded_m", 0.0),
    }
}

/// What is drawn besides; without its table, which is a fault, of the smallest size.
fn markings(drawn: Option<&Reader<'_>>, baseline_y_m: f32) -> Markings {
    let board_y_m = baseline_y_m + drawn.map_or(0.5, |drawn| drawn.number("board_from_baseline_m"));
    let number = |parameter: &Parameter| match parameter.name {
        "no_charge_radius_m" => drawn.and_then(|drawn| drawn.number_or_none(parameter.name)).flatten(),
        name => drawn.map(|drawn| drawn.number(name)),
    };
    Markings::stated(number, MarkingsRest { board_y_m })
}
