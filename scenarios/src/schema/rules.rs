//! Rule sets: the lines of the floor and the time rules, one file each.

use engine::setup::{Court, CourtRest, Markings, MarkingsRest, Officials, Parameter};

use crate::declared::{Field, Kind, Need, Part, Table};
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

const TOLD_IN: [(&str, bool); 2] = [("m", false), ("ft", true)];

/// A file of rules.
pub(crate) static RULES: Table = Table::of(&[Part::Fields(&[
    Field::other(
        "told_in",
        Kind::Word(&TOLD_IN),
        "What films, reports, sheets and cards tell lengths in, if `--units` does not say otherwise.",
    )
    .or(Need::Word("m")),
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
    let in_feet = root.word("told_in", &TOLD_IN);
    let court = court(floor.as_ref(), root.table("markings").as_ref(), in_feet);
    if let Some(floor) = &floor
        && court.three_corner_x_m > court.three_radius_m
    {
        floor.refuse_standing(
            "three_corner_m",
            &format!("at most three_radius_m ({} m)", court.three_radius_m),
        );
    }
    let clock = root.table("clock");
    let time = |name: &str| clock.as_ref().and_then(|clock| clock.number_or_none(name)).flatten();
    let number = |name: &str| number(&CLOCK, clock.as_ref(), name);
    Rules {
        court,
        shot_clock_s: time("shot_clock_s"),
        closely_guarded_s: time("closely_guarded_s"),
        shot_clock_rebound_s: number("shot_clock_rebound_s"),
        three_seconds_s: number("three_seconds_s"),
        closely_guarded_m: number("closely_guarded_m"),
    }
}

fn court(floor: Option<&Reader<'_>>, drawn: Option<&Reader<'_>>, in_feet: bool) -> Court {
    let of_floor = |name: &str| number(&FLOOR, floor, name);
    let baseline_y_m = -of_floor("basket_from_baseline_m");
    let board_y_m = baseline_y_m + number(&MARKINGS, drawn, "board_from_baseline_m");
    let marking = |parameter: &Parameter| match parameter.name {
        name @ "no_charge_radius_m" => drawn.and_then(|drawn| drawn.number_or_none(name)).flatten(),
        name => Some(number(&MARKINGS, drawn, name)),
    };
    let markings = Markings::stated(marking, MarkingsRest { board_y_m, in_feet });
    let midcourt_y_m = of_floor("court_length_m") / 2.0 + baseline_y_m;
    Court::stated(|parameter| Some(of_floor(parameter.name)), CourtRest { midcourt_y_m, markings })
}

/// A number of a table; where the whole table is missing, which is a fault, the middle of its range, so that places are
/// not refused as well.
fn number(table: &Table, reader: Option<&Reader<'_>>, name: &str) -> f32 {
    let middle = || {
        let field = table.fields().find(|field| field.key.name == name);
        field.map_or(0.0, |field| 0.5 * (field.key.low + field.key.high)) as f32
    };
    reader.map_or_else(middle, |reader| reader.number(name))
}
