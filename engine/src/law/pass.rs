//! A pass: how high it flies and where it is aimed.

use super::flight::GRAVITY_M_S2;
use crate::math::Vec2;
use crate::setup::{Court, PassKind, PassSkill};

/// A bounce pass strikes the floor at this share of its way. (common practice, no source)
const STRIKES_AT: f32 = 2.0 / 3.0;
/// Height of the ball's centre where a bounce pass strikes the floor: the ball's radius to the nearest centimetre, m.
/// (source: rule books, rounded)
const STRIKES_AT_HEIGHT_M: f32 = 0.12;
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
            up * (1.0 - share / STRIKES_AT) + STRIKES_AT_HEIGHT_M
        } else {
            down * (share - STRIKES_AT) / (1.0 - STRIKES_AT) + STRIKES_AT_HEIGHT_M
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::examples::court;
    use crate::math::vec2;

    /// A chest pass without error. (assumed)
    const CHEST: PassSkill = PassSkill {
        speed_m_s: 10.0,
        error_rad: 0.0,
        release_s: 0.3,
        release_height_m: 1.4,
        catch_height_m: 1.2,
    };

    #[test]
    fn a_bounce_comes_up_from_the_floor_and_other_passes_rise_between_hands() {
        let bounce = |share| pass_height(PassKind::Bounce, &CHEST, 1.0, share);
        assert!((bounce(STRIKES_AT) - STRIKES_AT_HEIGHT_M).abs() < 1e-6);
        assert!(bounce(0.3) > bounce(0.6) && bounce(0.7) < bounce(0.9));
        let chest = |share| pass_height(PassKind::Chest, &CHEST, 0.8, share);
        assert!((chest(0.0) - 1.4).abs() < 1e-6 && (chest(1.0) - 1.2).abs() < 1e-6);
        // Half-way a ball that is 0.8 s in the air is g T^2 / 8 above the line between the hands.
        assert!((chest(0.5) - 1.3 - 9.806_65 * 0.64 / 8.0).abs() < 1e-5);
    }

    #[test]
    fn a_runner_is_led_as_far_as_a_pass_may_lead_and_not_over_a_line() {
        let to = |at, velocity| aim(&court(), &CHEST, PassKind::Chest, vec2(0.0, 8.0), (at, velocity), 0.3);
        let at = vec2(-4.0, 5.0);
        assert_eq!(to(at, vec2(0.0, 0.0)), at);
        let (slow, fast, faster) = (to(at, vec2(3.0, 0.0)), to(at, vec2(5.0, 0.0)), to(at, vec2(8.0, 0.0)));
        assert!(at.x < slow.x && slow.x < fast.x);
        assert_eq!(fast, faster);
        assert_eq!(to(vec2(7.0, 3.0), vec2(4.0, 0.0)).x, 7.62 - AIMS_INSIDE_M);
    }
}
