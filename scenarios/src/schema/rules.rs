//! Rule sets: the lines of the floor and the time rules, one file each.

use engine::setup::{Court, Markings};

use crate::asked::Default;
use crate::key::Key;
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

/// The shot clock; the word `none` where there is none.
pub(crate) const SHOT_CLOCK: Key =
    Key::number("shot_clock_s", "s", 5.0, 120.0, "Shot clock at its full value, or \"none\".");
/// The shot clock after an offensive rebound.
pub(crate) const SHOT_CLOCK_REBOUND: Key =
    Key::number("shot_clock_rebound_s", "s", 1.0, 120.0, "Shot clock after an offensive rebound.");
/// Three seconds in the lane.
pub(crate) const THREE_SECONDS: Key =
    Key::number("three_seconds_s", "s", 1.0, 60.0, "Longest stay of an attacker in the lane.");
/// Closely guarded, the time.
pub(crate) const CLOSELY_GUARDED: Key =
    Key::number("closely_guarded_s", "s", 1.0, 60.0, "Longest hold while closely guarded, or \"none\".");
/// Closely guarded, the distance.
pub(crate) const CLOSELY_GUARDED_M: Key =
    Key::number("closely_guarded_m", "m", 0.0, 4.0, "Distance that counts as closely guarded.");

const LENGTH: Key = Key::number("court_length_m", "m", 22.0, 32.0, "Length of the floor.");
const WIDTH: Key = Key::number("court_width_m", "m", 12.0, 18.0, "Width of the floor.");
const LANE: Key = Key::number("lane_width_m", "m", 3.0, 6.5, "Width of the lane, outside to outside.");
const FREE_THROW: Key = Key::number(
    "free_throw_from_basket_m",
    "m",
    3.5,
    5.0,
    "From under the rim's centre to the free-throw line.",
);
const BASKET: Key =
    Key::number("basket_from_baseline_m", "m", 1.0, 2.0, "From the baseline to under the rim's centre.");
const RADIUS: Key =
    Key::number("three_radius_m", "m", 4.5, 8.0, "Radius of the three-point arc, to its outside edge.");
const CORNER: Key =
    Key::number("three_corner_m", "m", 4.5, 8.0, "From the basket's line to the straight part of the arc.");

const CIRCLE: Key = Key::number("circle_radius_m", "m", 1.0, 3.0, "Radius of the free-throw circle.");
const BOARD: Key =
    Key::number("board_from_baseline_m", "m", 0.5, 2.0, "From the baseline to the backboard's face.");
const BOARD_WIDTH: Key = Key::number("board_width_m", "m", 1.0, 2.5, "Width of the backboard.");
const RIM: Key = Key::number("rim_diameter_m", "m", 0.4, 0.5, "Inner diameter of the rim.");
const RIM_HEIGHT: Key = Key::number("rim_height_m", "m", 2.0, 3.5, "Height of the rim.");
const NO_CHARGE: Key =
    Key::number("no_charge_radius_m", "m", 0.5, 2.0, "Radius of the no-charge arc, or \"none\".");

/// Reads a rule set.
pub(crate) fn read(desk: &Desk, file: &Named) -> Rules {
    let root = Reader::root(desk, &file.root);
    let mut rules = Rules {
        court: Court {
            lane_half_m: 1.8,
            free_throw_y_m: 4.2,
            three_radius_m: 6.0,
            three_corner_x_m: 6.0,
            half_width_m: 7.5,
            baseline_y_m: -1.6,
            midcourt_y_m: 12.0,
            markings: Markings {
                circle_radius_m: 1.8,
                board_y_m: -0.4,
                board_width_m: 1.8,
                rim_radius_m: 0.2,
                rim_height_m: 3.0,
                no_charge_m: None,
            },
        },
        shot_clock_s: None,
        shot_clock_rebound_s: 1.0,
        three_seconds_s: 3.0,
        closely_guarded_s: None,
        closely_guarded_m: 0.0,
    };
    if let Some(floor) = root.table(Key::other("floor", "Lines of the floor.")) {
        let basket = floor.number(BASKET);
        rules.court = Court {
            lane_half_m: floor.number(LANE) / 2.0,
            free_throw_y_m: floor.number(FREE_THROW),
            three_radius_m: floor.number(RADIUS),
            three_corner_x_m: floor.number(CORNER),
            half_width_m: floor.number(WIDTH) / 2.0,
            baseline_y_m: -basket,
            midcourt_y_m: floor.number(LENGTH) / 2.0 - basket,
            markings: rules.court.markings,
        };
        if rules.court.three_corner_x_m > rules.court.three_radius_m
            && let Some(entry) = floor.node().get(CORNER.name)
        {
            floor.refuse(
                CORNER,
                &entry.node,
                format!("at most three_radius_m ({} m)", rules.court.three_radius_m),
                None,
            );
        }
    }
    if let Some(drawn) = root.table(Key::other(
        "markings",
        "What a picture of the floor shows besides; no shot goes in from behind the board.",
    )) {
        let none_too = || format!("{}, or \"none\"", NO_CHARGE.allowed());
        rules.court.markings = Markings {
            circle_radius_m: drawn.number(CIRCLE),
            board_y_m: rules.court.baseline_y_m + drawn.number(BOARD),
            board_width_m: drawn.number(BOARD_WIDTH),
            rim_radius_m: drawn.number(RIM) / 2.0,
            rim_height_m: drawn.number(RIM_HEIGHT),
            no_charge_m: drawn.number_or_none(NO_CHARGE, Default::Nothing).unwrap_or_else(|| {
                drawn.missing(NO_CHARGE, none_too());
                None
            }),
        };
    }
    if let Some(clock) = root.table(Key::other("clock", "Time rules.")) {
        rules.shot_clock_s = clock.number_or_none(SHOT_CLOCK, Default::Nothing).unwrap_or_else(|| {
            clock.missing(SHOT_CLOCK, format!("{}, or \"none\"", SHOT_CLOCK.allowed()));
            None
        });
        rules.closely_guarded_s =
            clock.number_or_none(CLOSELY_GUARDED, Default::Nothing).unwrap_or_else(|| {
                clock.missing(CLOSELY_GUARDED, format!("{}, or \"none\"", CLOSELY_GUARDED.allowed()));
                None
            });
        rules.shot_clock_rebound_s = clock.number(SHOT_CLOCK_REBOUND);
        rules.three_seconds_s = clock.number(THREE_SECONDS);
        rules.closely_guarded_m = clock.number(CLOSELY_GUARDED_M);
    }
    rules
}
