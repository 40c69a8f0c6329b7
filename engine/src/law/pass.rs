//! A pass: how high it flies and where it is aimed.

use super::flight::GRAVITY_M_S2;
use crate::math::Vec2;
use crate::setup::{Court, PassKind, PassSkill};

/// Height of a pass at a share of its way, m: a parabola for what flies, two straight legs for a bounce.
pub fn pass_height(kind: PassKind, skill: &PassSkill, span_s: f32, share: f32) -> f32 {
    let (up, down) = (skill.release_height_m, skill.catch_height_m);
    if kind == PassKind::Bounce {
        // Struck two thirds of the way (coaching convention).
        let third = 2.0 / 3.0;
        return if share < third {
            up * (1.0 - share / third) + 0.12
        } else {
            down * (share - third) / (1.0 - third) + 0.12
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
    let velocity = velocity.at_most(5.0);
    let span = skill.flight_s(kind, from.distance(at));
    let lead = wait_s + span;
    // A man on the move brakes for the catch: not the whole lead.
    let to = at + velocity * (lead * 0.75);
    court.inside(to, 0.35)
}
