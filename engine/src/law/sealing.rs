//! Whom a post seals, and where he wants the ball.

use crate::law::conduct::programs::HELPER_OFF_BALL_M;
use crate::math::Vec2;

/// Where he wants the ball: his own place, on the ball's side, m.
pub fn wanted(home: Vec2, ball: Vec2) -> Vec2 {
    home.sided(if home.x * ball.x < 0.0 { -1.0 } else { 1.0 })
}

/// The helper: of defenders at these places the one nearest to where he wants the ball, those about the ball left out; by index, and
/// where he is, m.
pub fn helper(defenders: impl IntoIterator<Item = Vec2>, wanted: Vec2, ball: Vec2) -> Option<(usize, Vec2)> {
    let mut nearest = (f32::INFINITY, None);
    for (nth, at) in defenders.into_iter().enumerate() {
        let d = (at - wanted).len2();
        if d < nearest.0 && (at - ball).len2() > HELPER_OFF_BALL_M * HELPER_OFF_BALL_M {
            nearest = (d, Some((nth, at)));
        }
    }
    nearest.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;

    #[test]
    fn he_seals_who_is_nearest_to_his_place_on_the_ball_s_side_but_not_who_is_about_the_ball() {
        let ball = vec2(5.0, 2.0);
        let here = wanted(vec2(-2.2, 0.8), ball);
        assert_eq!(here, vec2(2.2, 0.8), "a post on the other side seals on the ball's");
        let zone = [vec2(0.0, 5.0), vec2(4.6, 2.6), vec2(1.0, 1.0), vec2(-1.0, 1.0)];
        assert_eq!(helper(zone, here, ball), Some((2, zone[2])));
        assert_eq!(helper([zone[1]], here, ball), None, "nobody but the man on the ball");
    }
}
