//! A shot: how likely it goes in, what counts as an open one, how long it flies.

use super::flight::GRAVITY_M_S2;
use super::floor::INSIDE_M;
use crate::math::{Vec2, logistic, max, min};
use crate::setup::{Court, Licence, Shooter, ShotClass, ShotCurve, ShotSkill};

/// Nearest defender at least this far away: an open look, m. (by definition of the measures: 4 ft)
pub const OPEN_M: f32 = 1.22;
/// Nearest defender at least this far away: a wide-open look, m. (by definition of the measures: 6 ft)
pub const WIDE_OPEN_M: f32 = 1.83;
/// Expected points of an uncontested shot from which on a place is in a shooter's range, points. (by definition of the
/// measures)
pub const IN_RANGE_POINTS: f32 = 0.75;
/// Expected points from which on a shot is a good one, points. (by definition of the measures)
pub const GOOD_POINTS: f32 = 1.0;
/// Expected points of a shot from which on the look was a good one: a little more than an ordinary possession brings; and a
/// lower and a higher bar beside it, since a bar is a choice, points. (by definition of the measures)
pub const GOOD_LOOK_POINTS: [f32; 3] = [0.95, 0.85, 1.05];

/// Nearest defender beyond this distance no longer matters to a shot, m. (source: the fits of the shot curves end
/// there, 12 ft)
pub const FREE_M: f32 = 3.66;

/// A two from nearer than this follows the curve of shots at the rim, m. (source: the fits of the shot curves, 4 ft)
const RIM_CURVE_WITHIN_M: f32 = 1.22;
/// A two from nearer than this, but not at the rim, follows the curve of short shots, beyond it that of mid-range
/// shots, m. (source: the fits of the shot curves, 10 ft)
const SHORT_CURVE_WITHIN_M: f32 = 3.05;
/// Points of a basket from inside the three-point line. (source: rule books)
pub const TWO_POINTS: f32 = 2.0;
/// Points of a basket from beyond the three-point line. (source: rule books)
pub const THREE_POINTS: f32 = 3.0;

/// From lower on the floor than this (behind the rim) a shot goes past the board's edge at a steep angle, y in m.
/// (assumed)
const STEEP_BELOW_Y_M: f32 = -0.9;
/// How much harder such a steep shot is, taken off its logit; logit. (assumed)
const STEEP_LOGIT: f32 = 0.5;

/// From nearer to the rim than this a shot needs no setting of the feet, m. (assumed)
const NO_FEET_M: f32 = 2.5;
/// Share of the time from catch to release that a shot without setting of the feet takes. (assumed)
const NO_FEET_SHARE: f32 = 0.6;

/// Tangent of the release angle, 52 degrees; a pure number. (from memory: the measured mean and the computed optimum)
const RELEASE_TANGENT: f32 = 1.28;
/// Height of a shot as it leaves the hands, m. In 64 bits, so that the difference from the rim is rounded but once.
/// (assumed)
pub const RELEASE_HEIGHT_M: f64 = 2.2;
/// Height of the rim, m. (source: rule books, 10 ft)
const RIM_HEIGHT_M: f64 = 3.05;
/// Height of the release below the rim, m. (derived from [`RELEASE_HEIGHT_M`] and the rim's height)
pub const BELOW_RIM_M: f32 = (RIM_HEIGHT_M - RELEASE_HEIGHT_M) as f32;
/// Shortest time from the release of a shot to the rim, s: a push at the rim. (assumed)
const SHORTEST_FLIGHT_S: f32 = 0.45;

/// Make probability of a shot from `at` with the nearest defender `space_m` away, and its points. Through the back of
/// the board nothing goes in.
pub fn make_chance(
    court: &Court,
    skill: &ShotSkill,
    shooter: Shooter,
    at: Vec2,
    space_m: f32,
    off_catch: bool,
) -> (f32, f32) {
    let distance = at.len();
    let three = court.is_three(at);
    let class = class_of(three, distance);
    let (curve, own) = (curve(skill, class), shooter.0[class as usize]);
    let bonus = if three && off_catch { skill.three_catch } else { 0.0 };
    let z = curve.a + curve.distance * distance + curve.space * min(space_m, FREE_M) + bonus + own;
    // Beside the board, but well behind its plane, there is next to no angle.
    let steep = if at.y < STEEP_BELOW_Y_M { STEEP_LOGIT } else { 0.0 };
    let chance = if court.behind_board(at) { 0.0 } else { logistic(z - steep) };
    (chance, worth(three))
}

/// Whether a licence lets a player take a shot from a place with so much space.
pub fn may_shoot(court: &Court, licence: Licence, at: Vec2, space_m: f32) -> bool {
    let inside = at.len2() < INSIDE_M * INSIDE_M;
    match licence {
        Licence::AnyGood => true,
        Licence::OpenOnly => inside || space_m >= OPEN_M,
        Licence::NoThrees => !court.is_three(at),
        Licence::InsideOnly => inside,
        Licence::None => false,
    }
}

/// Points of a basket.
pub fn worth(three: bool) -> f32 {
    if three { THREE_POINTS } else { TWO_POINTS }
}

/// The class of a shot from a distance.
pub fn class_of(three: bool, distance_m: f32) -> ShotClass {
    if three {
        ShotClass::Three
    } else if distance_m < RIM_CURVE_WITHIN_M {
        ShotClass::Rim
    } else if distance_m < SHORT_CURVE_WITHIN_M {
        ShotClass::Short
    } else {
        ShotClass::Mid
    }
}

/// The fitted curve of a class.
fn curve(skill: &ShotSkill, class: ShotClass) -> ShotCurve {
    match class {
        ShotClass::Rim => skill.rim,
        ShotClass::Short => skill.short,
        ShotClass::Mid => skill.mid,
        ShotClass::Three => skill.three,
    }
}

/// Catch to release at a place: a shot near the rim needs no setting of the feet.
pub fn shooting_ready(catch_to_release_s: f32, at: Vec2) -> f32 {
    if at.len() < NO_FEET_M { catch_to_release_s * NO_FEET_SHARE } else { catch_to_release_s }
}

/// Flight time of a shot from a distance, s: a projectile at the angle of the release; at the rim a short push.
pub fn flight_s(distance_m: f32) -> f32 {
    let rise = distance_m * RELEASE_TANGENT - BELOW_RIM_M;
    max((2.0 * max(rise, 0.0) / GRAVITY_M_S2).sqrt(), SHORTEST_FLIGHT_S)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::examples::court;
    use crate::math::vec2;

    /// Each class by an intercept of its own; space counts only for mid-range shots.
    fn skill() -> ShotSkill {
        let curve = |a, space| ShotCurve { a, distance: 0.0, space };
        ShotSkill {
            rim: curve(1.0, 0.0),
            short: curve(0.5, 0.0),
            mid: curve(-0.5, 0.3),
            three: curve(-1.0, 0.0),
            three_catch: 0.25,
            post_three: 0.0,
        }
    }

    fn chance(x: f32, y: f32, space_m: f32, off_catch: bool) -> (f32, f32) {
        make_chance(&court(), &skill(), Shooter::default(), vec2(x, y), space_m, off_catch)
    }

    #[test]
    fn the_height_below_the_rim_is_derived_to_the_last_bit() {
        assert_eq!((BELOW_RIM_M.to_bits(), RELEASE_HEIGHT_M as f32), (0.85_f32.to_bits(), 2.2));
    }

    #[test]
    fn a_shot_follows_the_curve_of_its_class() {
        for (y, logit, points) in
            [(1.21, 1.0, 2.0), (1.23, 0.5, 2.0), (3.04, 0.5, 2.0), (3.06, -0.5, 2.0), (6.03, -1.0, 3.0)]
        {
            assert_eq!(chance(0.0, y, 0.0, false), (logistic(logit), points), "from {y} m");
        }
        // The catch helps a three and no two.
        assert_eq!(chance(0.0, 6.03, 0.0, true).0, logistic(-0.75));
        assert_eq!(chance(0.0, 3.06, 0.0, true), chance(0.0, 3.06, 0.0, false));
    }

    #[test]
    fn a_shooter_differs_in_each_class_by_itself() {
        let own = Shooter([0.1, 0.2, 0.3, 0.4]);
        for (y, logit) in [(1.0, 1.1), (2.0, 0.7), (4.0, -0.2), (6.5, -0.6)] {
            let (made, _) = make_chance(&court(), &skill(), own, vec2(0.0, y), 0.0, false);
            assert!((made - logistic(logit)).abs() < 1e-6, "from {y} m");
        }
    }

    #[test]
    fn a_licence_holds_by_place_and_space() {
        let shots = [(1.0, 0.3), (5.0, 0.3), (6.5, 0.3), (6.5, 1.3)];
        let may = |licence| shots.map(|(far, space_m)| may_shoot(&court(), licence, vec2(0.0, far), space_m));
        assert_eq!(may(Licence::AnyGood), [true; 4]);
        assert_eq!(may(Licence::OpenOnly), [true, false, false, true]);
        assert_eq!(may(Licence::NoThrees), [true, true, false, false]);
        assert_eq!(may(Licence::InsideOnly), [true, false, false, false]);
        assert_eq!(may(Licence::None), [false; 4]);
    }

    #[test]
    fn room_helps_up_to_the_distance_at_which_nobody_is_near() {
        let from = |space_m| chance(0.0, 4.0, space_m, false).0;
        assert!(from(1.0) > from(0.5) && from(3.6) > from(3.0));
        assert_eq!(from(FREE_M), from(9.0));
    }

    #[test]
    fn nothing_goes_in_through_the_board_and_past_its_edge_it_is_harder() {
        assert_eq!(chance(0.2, -1.2, 9.0, false).0, 0.0);
        assert_eq!(chance(2.9, -1.0, 0.0, false).0, logistic(-0.5 - STEEP_LOGIT));
        assert_eq!(chance(3.1, -0.8, 0.0, false).0, logistic(-0.5));
    }

    #[test]
    fn a_shot_rises_to_the_rim_for_longer_the_farther_it_is_and_never_for_no_time() {
        let flights = [0.0, 0.5, 2.0, 4.0, 7.0].map(flight_s);
        assert_eq!(flights[..2], [SHORTEST_FLIGHT_S; 2]);
        assert!(flights[2] < flights[3] && flights[3] < flights[4] && flights[4] < 2.0, "{flights:?}");
    }
}
