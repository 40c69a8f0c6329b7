//! Areas of the floor, by the definitions of the measures. The rim is the origin, y runs toward midcourt.

use crate::law::kernel::Rows;
use crate::math::{Vec2, vec2};
use crate::setup::Court;
use crate::slots::PLAYERS;
use std::ops::RangeInclusive;

/// Nearer to the rim than this a man is inside: a shot from there is no jump shot, whoever is nearest takes the ball,
/// and its guard stays in touch, m. (assumed)
pub const INSIDE_M: f32 = 3.6;

/// A foot stands this far beyond its owner's centre: with the centre nearer to a sideline or the baseline than this he is
/// on the line, and out, m. (assumed: half of a stance as wide as the shoulders; that who touches the floor on a line or
/// beyond it is out: FIBA rules 2022, article 23.1.1)
pub const FOOT_M: f32 = 0.2;
/// Farther than this beyond a line nobody gets by playing, m: all brake before it, and no shove carries anybody so far.
/// (assumed)
pub const OFF_FLOOR_M: f32 = 3.0;

/// Who leaves the lane goes this far beyond its line, m. (assumed: a foot and a body's half width)
pub const LANE_CLEAR_M: f32 = 0.45;

/// The lane counts as this much wider on either side, m. (by definition of the measures)
pub const LANE_MARGIN_M: f32 = 0.45;
/// Low post: distance from the middle of the floor, m. (by definition of the measures)
const LOW_POST_X_M: RangeInclusive<f32> = 1.2..=2.8;
/// Low post: height on the floor, m. (by definition of the measures)
const LOW_POST_Y_M: RangeInclusive<f32> = -0.6..=2.2;
/// High post: farthest from the middle of the floor, m. (by definition of the measures)
const HIGH_POST_X_MOST_M: f32 = 2.4;
/// From this height on the floor the inside is the high post, m. (by definition of the measures)
pub const HIGH_POST_FROM_Y_M: f32 = 3.0;
/// High post: height on the floor, m. (by definition of the measures)
const HIGH_POST_Y_M: RangeInclusive<f32> = HIGH_POST_FROM_Y_M..=5.2;
/// Short corner: farthest from the middle of the floor, m; it begins where the widened lane ends. (by definition of the
/// measures)
const SHORT_CORNER_X_MOST_M: f32 = 4.5;
/// Short corner: highest on the floor, m. (by definition of the measures)
const SHORT_CORNER_Y_MOST_M: f32 = 0.9;

/// Bit of the widened lane up to the free-throw line (a paint touch). (by definition of the measures)
pub const LANE: u8 = 1;
/// Bit of the low post. (by definition of the measures)
pub const LOW_POST: u8 = 2;
/// Bit of the high post. (by definition of the measures)
pub const HIGH_POST: u8 = 4;
/// Bit of the short corner. (by definition of the measures)
pub const SHORT_CORNER: u8 = 8;

/// The touch bits of a place.
pub fn touch_class(court: &Court, at: Vec2) -> u8 {
    let x = at.x.abs();
    let wide = court.lane_half_m + LANE_MARGIN_M;
    let mut bits = 0;
    if x <= wide && at.y <= court.free_throw_y_m {
        bits |= LANE;
    }
    if LOW_POST_X_M.contains(&x) && LOW_POST_Y_M.contains(&at.y) {
        bits |= LOW_POST;
    }
    if x <= HIGH_POST_X_MOST_M && HIGH_POST_Y_M.contains(&at.y) {
        bits |= HIGH_POST;
    }
    if x > wide && x <= SHORT_CORNER_X_MOST_M && at.y <= SHORT_CORNER_Y_MOST_M {
        bits |= SHORT_CORNER;
    }
    bits
}

/// True where a foot of a player at `at` is on a sideline or the baseline, or beyond it.
#[inline]
pub fn foot_out(court: &Court, at: Vec2) -> bool {
    at.x.abs() > court.half_width_m - FOOT_M || at.y < court.baseline_y_m + FOOT_M
}

/// True where somebody is so far off the floor that no play can have brought him there, or his place is no number.
pub fn off_floor(court: &Court, bodies: &Rows) -> bool {
    let most_x = court.half_width_m + OFF_FLOOR_M;
    let (low_y, high_y) = (court.baseline_y_m - OFF_FLOOR_M, court.midcourt_y_m + OFF_FLOOR_M);
    // Counted without a choice, so that four are done at once: of a place that is no number every comparison fails.
    let mut on = 0;
    for slot in 0..PLAYERS {
        let (x, y) = (bodies.px[slot], bodies.py[slot]);
        on += u32::from((-most_x <= x) & (x <= most_x) & (low_y <= y) & (y <= high_y));
    }
    on < PLAYERS as u32
}

/// The nearest place out of the lane for one at `here`, [`LANE_CLEAR_M`] beyond its line: to the side (`side` from its middle)
/// or, from high up, over the free-throw line.
pub fn out_of_lane(court: &Court, here: Vec2, side: f32) -> Vec2 {
    let sign = if here.x < 0.0 || (here.x == 0.0 && side < 0.0) { -1.0 } else { 1.0 };
    let beside = vec2(sign * (court.lane_half_m + LANE_CLEAR_M), here.y);
    let up = vec2(here.x, court.free_throw_y_m + LANE_CLEAR_M);
    if (up - here).len2() < (beside - here).len2() { up } else { beside }
}

/// Sign of the side that a place is on; the middle counts as the given side.
pub fn side_of(at: Vec2, side: f32) -> f32 {
    if at.x * side < 0.0 { -side } else { side }
}

/// The way from a place to the rim, a unit vector; under the rim, toward the baseline.
#[inline]
pub fn way_to_rim(at: Vec2) -> Vec2 {
    (Vec2::RIM - at).unit_or(vec2(0.0, -1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::examples::court;

    #[test]
    fn a_foot_is_out_on_the_sidelines_and_the_baseline_and_on_no_other() {
        for (x, y, out) in [
            (7.41, 3.0, false),
            (7.43, 3.0, true),
            (8.03, 3.0, true),
            (0.0, -1.39, false),
            (0.0, -1.41, true),
            (0.0, 11.5, false),
        ] {
            assert_eq!(foot_out(&court(), vec2(x, y)), out, "{x} {y}");
            assert_eq!(foot_out(&court(), vec2(-x, y)), out, "{x} {y}, mirrored");
        }
    }

    #[test]
    fn a_body_that_no_play_can_have_brought_there_is_off_the_floor() {
        for (x, y, off) in [
            (10.6, 3.0, false),
            (-10.7, 3.0, true),
            (0.0, -4.5, false),
            (0.0, -4.7, true),
            (0.0, 14.3, true),
            (f32::NAN, 3.0, true),
            (0.0, f32::INFINITY, true),
        ] {
            let mut bodies = Rows::default();
            (bodies.px[7], bodies.py[7]) = (x, y);
            assert_eq!(off_floor(&court(), &bodies), off, "{x} {y}");
        }
    }

    #[test]
    fn places_fall_into_the_areas_of_the_measures_on_both_sides_alike() {
        for (x, y, bits) in [
            (0.0, 1.0, LANE),
            (2.27, 4.18, LANE | HIGH_POST),
            (2.0, 0.0, LANE | LOW_POST),
            (2.7, 1.5, LOW_POST),
            // Overlaps: low beside the lane a place is both.
            (2.7, 0.5, LOW_POST | SHORT_CORNER),
            (2.9, 2.3, 0),
            (1.5, 5.1, HIGH_POST),
            (1.5, 5.3, 0),
            (4.4, 0.8, SHORT_CORNER),
            (4.6, 0.8, 0),
            (4.4, 1.0, 0),
        ] {
            for side in [1.0, -1.0] {
                assert_eq!(touch_class(&court(), vec2(x * side, y)), bits, "{} {y}", x * side);
            }
        }
    }
}
