//! A pass: how high it flies and where it is aimed.

use super::flight::GRAVITY_M_S2;
use crate::math::Vec2;
use crate::setup::{Court, PassKind, PassSkill};

/// A bounce pass strikes the floor at this share of its way. (common practice, no source)
const STRIKES_AT: f32 = 2.0 / 3.0;
/// Height of the ball's centre where it strikes the floor: its radius, m. (rule books, rounded)
const BALL_RADIUS_M: f32 = 0.12;
/// No passer leads a receiver as if he ran faster than this, m/s. (assumed)
const LEADS_UP_TO_M_S: f32 = 5.0;
/// A receiver on the move brakes for the catch: he is led by this share of the way that he would make. (assumed)
const LED_SHARE: f32 = 0.75;
/// No pass is aimed nearer to a line than this, m: a foot must fit between. (assumed)
const AIMS_INSIDE_M: f32 = 0.35;

/// Height of a pass at a share of its way, m: a parabola for what flies, two straight legs for a bounce.
pub fn pass_height(kind: PassKind, skill: &PassSkill, span_s: f32, share: f32) -> f32 {
    let (up, down) = (skill.release_height_m, skill.catch_height_m);
    if kind == PassKind::Bounce {
        return if share < STRIKES_AT {
            up * (1.0 - share / STRIKES_AT) + BALL_RADIUS_M
        } else {
            down * (share - STRIKES_AT) / (1.0 - STRIKES_AT) + BALL_RADIUS_M
        };
    }
    let rise = 0.5 * GRAVITY_M_S2 * span_s * span_s;
    up + (down - up) * share + rise * share * (1.0 - share)
}

/// Where a pass to a receiver at `at` who moves like this should come: ahead of him by the time it takes
/// (`wait_s` until the release, and the flight).
pub fn aim(
    court: &Court,
    skill: &PassSkill,
    kind: PassKind,
    from: Vec2,
    (at, velocity): (Vec2, Vec2),
    wait_s: f32,
) -> Vec2 {
    let velocity = velocity.at_most(LEADS_UP_TO_M_S);
    let span = skill.flight_s(kind, from.distance(at));
    let lead = wait_s + span;
    let to = at + velocity * (lead * LED_SHARE);
    court.inside(to, AIMS_INSIDE_M)
}
