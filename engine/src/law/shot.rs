//! A shot: how likely it goes in, what counts as an open one, how long it flies.

use super::flight::GRAVITY_M_S2;
use crate::math::{Vec2, logistic, max, min};
use crate::setup::{Court, Shooter, ShotSkill};

/// Distance from which a look is open, m (4 ft).
pub const OPEN_M: f32 = 1.22;
/// Distance from which it is wide open, m (6 ft).
pub const WIDE_OPEN_M: f32 = 1.83;
/// Uncontested expected points from which a place is in range.
pub const IN_RANGE_POINTS: f32 = 0.75;
/// Expected points from which a shot is a good one.
pub const GOOD_POINTS: f32 = 1.0;

/// Nearest defender beyond this distance no longer matters to a shot, m (the fits of the shot curves end there).
pub const FREE_M: f32 = 3.66;

/// Farther behind the rim than this a shot past the board's edge is so much harder, m and logit. (assumed)
const STEEP_Y_M: f32 = -0.9;
const STEEP_LOGIT: f32 = 0.5;

/// Tangent of the release angle (52 degrees, the measured mean and the computed optimum).
const RELEASE_TANGENT: f32 = 1.28;
/// Height of the release below the rim, m (2.2 m against 3.05 m).
pub const BELOW_RIM_M: f32 = 0.85;

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
    let curve = if three {
        skill.three
    } else if distance < 1.22 {
        skill.rim
    } else if distance < 3.05 {
        skill.short
    } else {
        skill.mid
    };
    let own = if three { shooter.threes } else { shooter.twos };
    let bonus = if three && off_catch { skill.three_catch } else { 0.0 };
    let z = curve.a + curve.distance * distance + curve.space * min(space_m, FREE_M) + bonus + own;
    // Beside the board, but well behind its plane, there is next to no angle.
    let steep = if at.y < STEEP_Y_M { STEEP_LOGIT } else { 0.0 };
    let chance = if court.behind_board(at) { 0.0 } else { logistic(z - steep) };
    (chance, if three { 3.0 } else { 2.0 })
}

/// Catch to release at a place: a shot near the rim needs no setting of the feet.
pub fn shooting_ready(catch_to_release_s: f32, at: Vec2) -> f32 {
    if at.len() < 2.5 { catch_to_release_s * 0.6 } else { catch_to_release_s }
}

/// Flight time of a shot from a distance, s: a projectile at the stated angle; at the rim a short push.
pub fn flight_s(distance_m: f32) -> f32 {
    let rise = distance_m * RELEASE_TANGENT - BELOW_RIM_M;
    max((2.0 * max(rise, 0.0) / GRAVITY_M_S2).sqrt(), 0.45)
}
