//! Areas of the floor, by the definitions of the measures.

use crate::math::Vec2;
use crate::setup::Court;

/// Bit of the lane widened by 0.45 m on each side, up to the free-throw line (a paint touch).
pub const LANE: u8 = 1;
/// Bit of the low post: 1.2 <= |x| <= 2.8, -0.6 <= y <= 2.2.
pub const LOW_POST: u8 = 2;
/// Bit of the high post: |x| <= 2.4, 3.0 <= y <= 5.2.
pub const HIGH_POST: u8 = 4;
/// Bit of the short corner: lane edge + 0.45 < |x| <= 4.5, y <= 0.9.
pub const SHORT_CORNER: u8 = 8;

/// The touch bits of a place.
pub fn touch_class(court: &Court, at: Vec2) -> u8 {
    let x = at.x.abs();
    let wide = court.lane_half_m + 0.45;
    let mut bits = 0;
    if x <= wide && at.y <= court.free_throw_y_m {
        bits |= LANE;
    }
    if (1.2..=2.8).contains(&x) && (-0.6..=2.2).contains(&at.y) {
        bits |= LOW_POST;
    }
    if x <= 2.4 && (3.0..=5.2).contains(&at.y) {
        bits |= HIGH_POST;
    }
    if x > wide && x <= 4.5 && at.y <= 0.9 {
        bits |= SHORT_CORNER;
    }
    bits
}

/// Sign of the side that a place is on; the middle counts as the given side.
pub fn side_of(at: Vec2, side: f32) -> f32 {
    if at.x * side < 0.0 { -side } else { side }
}
