//! Penalties: what lowers an option's worth in the choice beside the points that it promises. Matters of taste and
//! teaching: an early shot from outside, a ball that stays in one man's hands.

use super::candidate::Thought;
use crate::decide::value::Prospect;
use crate::law::conduct::choice::{
    EARLY_RISES_OVER_S, FULLY_CONTESTED_M, HAND_IN_FACE_FROM_M, HAND_IN_FACE_RISES_OVER_M,
    HAND_IN_FACE_WEIGHT, KEPT_MOST_POINTS, KEPT_POINTS_PER_S, KEPT_TOO_LONG_S, SHOT_CLOCK_LATE_S,
};
use crate::law::conduct::shooting::JUMP_SHOT_FROM_M;
use crate::law::shot::WIDE_OPEN_M;
use crate::math::clamp;

/// On a shot from outside while there is time for a better one, points: the more so the nearer a hand will be.
pub fn early_shot(t: &Thought<'_>, shot: &Prospect) -> f32 {
    if t.here.len() <= JUMP_SHOT_FROM_M {
        return 0.0;
    }
    let setup = &t.view.given.setup;
    let near = clamp((WIDE_OPEN_M - shot.space_m) / (WIDE_OPEN_M - FULLY_CONTESTED_M), 0.0, 1.0);
    let in_face = clamp((HAND_IN_FACE_FROM_M - shot.space_m) / HAND_IN_FACE_RISES_OVER_M, 0.0, 1.0);
    let early = clamp((t.left_s - SHOT_CLOCK_LATE_S) / EARLY_RISES_OVER_S, 0.0, 1.0);
    let contested = setup.attack.habits.contested_cost_points * (near + HAND_IN_FACE_WEIGHT * in_face);
    (setup.player(t.view.me.slot).head.patience_points + contested) * early
}

/// On keeping a ball that he has had at his place for so long, points.
pub fn kept_too_long(held_s: f32) -> f32 {
    clamp((held_s - KEPT_TOO_LONG_S) * KEPT_POINTS_PER_S, 0.0, KEPT_MOST_POINTS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ball_kept_for_a_moment_costs_nothing_and_for_ever_no_more_than_the_most() {
        assert_eq!(kept_too_long(KEPT_TOO_LONG_S), 0.0);
        let (soon, later) = (kept_too_long(KEPT_TOO_LONG_S + 1.0), kept_too_long(KEPT_TOO_LONG_S + 2.0));
        assert!(soon > 0.0 && later > soon && later < KEPT_MOST_POINTS, "{soon} {later}");
        assert_eq!(kept_too_long(30.0), KEPT_MOST_POINTS);
    }
}
