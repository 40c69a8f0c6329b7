//! Fouls on a shot by the contesting arms: a defender within arm's length of a shooter touches him.

use super::floor::INSIDE_M;
use crate::math::{logistic, max};
use crate::setup::Officials;

/// Within this distance, centre to centre, the arms of a contest meet the shooter, m. (assumed)
pub const ARMS_M: f32 = 0.75;
/// Impulse of the arms of a defender who stands at a shot from inside, over body mass, m/s. (assumed)
const STANDING_M_S: f32 = 0.72;
/// Impulse of the arms of a defender who stands at a jump shot from outside, over body mass, m/s: a hand up rather than
/// a body. (assumed)
const STANDING_OUTSIDE_M_S: f32 = 0.35;
/// Share of his speed toward the shooter that is added to the impulse of his arms. (assumed)
const CARRIED_SHARE: f32 = 0.3;

/// Chance that the contest of a shot from `shot_m` is called, with the nearest defender `space_m` away and
/// coming on at `closing_m_s`.
pub fn chance(officials: &Officials, shot_m: f32, space_m: f32, closing_m_s: f32) -> f32 {
    if space_m > ARMS_M {
        return 0.0;
    }
    let standing = if shot_m > INSIDE_M { STANDING_OUTSIDE_M_S } else { STANDING_M_S };
    let hit = standing + CARRIED_SHARE * max(closing_m_s, 0.0);
    logistic((hit - officials.whistle_m_s) / officials.whistle_scale_m_s)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arms_foul_within_reach_only_sooner_inside_and_sooner_by_who_comes_on() {
        let officials = Officials {
            shot_clock_s: None,
            shot_clock_rebound_s: 0.0,
            clock_used_s: 0.0,
            cap_s: 60.0,
            three_seconds_s: 3.0,
            closely_guarded_s: None,
            closely_guarded_m: 1.8,
            whistle_m_s: 1.5,
            whistle_scale_m_s: 0.3,
            bonus_share: 0.0,
        };
        let called = |shot_m, space_m, closing_m_s| chance(&officials, shot_m, space_m, closing_m_s);
        assert_eq!(called(1.0, ARMS_M + 0.01, 5.0), 0.0);
        assert!(called(1.0, 0.6, 0.0) > called(6.0, 0.6, 0.0) && called(6.0, 0.6, 0.0) > 0.0);
        assert!(called(1.0, 0.6, 2.0) > called(1.0, 0.6, 0.0));
        assert_eq!(
            called(1.0, 0.6, -2.0),
            called(1.0, 0.6, 0.0),
            "who backs off is no softer than who stands"
        );
    }
}
