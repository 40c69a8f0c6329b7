//! The floor: lines and places of one rule set, with the origin on the floor under the rim's centre.

use super::parameter::parameters;
use crate::math::{Vec2, vec2};

parameters! {
    /// The half court of one rule set. Metres; x to the right as the attack faces the rim, y toward midcourt.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Court {
        /// From the baseline to under the rim's centre.
        baseline_y_m: f32 = "m", 1.0 to 2.0, negative of basket_from_baseline_m;
        /// Width of the lane, outside to outside.
        lane_half_m: f32 = "m", 3.0 to 6.5, half of lane_width_m;
        /// From under the rim's centre to the free-throw line.
        free_throw_y_m: f32 = "m", 3.5 to 5.0, value of free_throw_from_basket_m;
        /// Radius of the three-point arc, to its outside edge.
        three_radius_m: f32 = "m", 4.5 to 8.0;
        /// From the basket's line to the straight part of the arc.
        three_corner_x_m: f32 = "m", 4.5 to 8.0, value of three_corner_m;
        /// Width of the floor.
        half_width_m: f32 = "m", 12.0 to 18.0, half of court_width_m;
    }
    /// What more than one number gives.
    with CourtRest {
        /// y of the midcourt line.
        midcourt_y_m: f32,
        /// What is drawn besides.
        markings: Markings,
    }
}

parameters! {
    /// Marks and fittings that a picture of the floor shows. Nothing in the model depends on them but on the board,
    /// which bars shots from behind it.
    #[derive(Clone, Copy, Debug, PartialEq)]
    pub struct Markings {
        /// Radius of the free-throw circle.
        circle_radius_m: f32 = "m", 1.0 to 3.0;
        /// Width of the backboard.
        board_width_m: f32 = "m", 1.0 to 2.5;
        /// Inner diameter of the rim.
        rim_radius_m: f32 = "m", 0.4 to 0.5, half of rim_diameter_m;
        /// Height of the rim.
        rim_height_m: f32 = "m", 2.0 to 3.5;
        /// Radius of the no-charge arc, or "none".
        no_charge_m: Option<f32> = "m", 0.5 to 2.0, value of no_charge_radius_m;
    }
    /// What more than one number gives.
    with MarkingsRest {
        /// y of the backboard's face.
        board_y_m: f32,
        /// Lengths are told in feet under these rules. For output only.
        in_feet: bool,
    }
}

impl Court {
    /// True where a shot from `p` counts three.
    pub fn is_three(&self, p: Vec2) -> bool {
        let straight_ends_y = self.straight_end_y();
        if p.y < straight_ends_y {
            p.x.abs() >= self.three_corner_x_m
        } else {
            p.len2() >= self.three_radius_m * self.three_radius_m
        }
    }

    /// y where the straight part of the three-point line meets the arc.
    pub fn straight_end_y(&self) -> f32 {
        let r2 = self.three_radius_m * self.three_radius_m;
        let c2 = self.three_corner_x_m * self.three_corner_x_m;
        if r2 > c2 { (r2 - c2).sqrt() } else { 0.0 }
    }

    /// True where `p` lies in the lane (the paint), lines included.
    pub fn in_lane(&self, p: Vec2) -> bool {
        p.x.abs() <= self.lane_half_m && p.y <= self.free_throw_y_m
    }

    /// True where `p` lies on the half court.
    pub fn in_bounds(&self, p: Vec2) -> bool {
        p.x.abs() <= self.half_width_m && p.y >= self.baseline_y_m && p.y <= self.midcourt_y_m
    }

    /// True where the backboard stands in the straight way from `p` to the rim: no shot goes in from there.
    pub fn behind_board(&self, p: Vec2) -> bool {
        let face = self.markings.board_y_m;
        // Where the way crosses the board's plane: at a share `face / p.y` of the way out from the rim.
        face < 0.0 && p.y < face && p.x.abs() * face > 0.5 * self.markings.board_width_m * p.y
    }

    /// `p` moved, where it has to be, to stand at least `margin_m` inside the lines of the half court.
    pub fn inside(&self, p: Vec2, margin_m: f32) -> Vec2 {
        let x_most = self.half_width_m - margin_m;
        vec2(
            crate::math::clamp(p.x, -x_most, x_most),
            crate::math::clamp(p.y, self.baseline_y_m + margin_m, self.midcourt_y_m - margin_m),
        )
    }

    /// How far it is from `p` square to the lines ahead of one who moves like `v`, to where he stands less than `margin_m`
    /// inside them, m: the sideline in x, the baseline or the midcourt line in y; below 0 where he does so already.
    pub fn room(&self, p: Vec2, v: Vec2, margin_m: f32) -> Vec2 {
        let x = if v.x < 0.0 { self.half_width_m + p.x } else { self.half_width_m - p.x };
        let y = if v.y < 0.0 { p.y - self.baseline_y_m } else { self.midcourt_y_m - p.y };
        vec2(x - margin_m, y - margin_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn room_is_counted_to_the_line_ahead_alike_on_both_sides() {
        let room = |x: f32, y: f32, v: Vec2| court().room(vec2(x, y), v, 0.3);
        for (x, y, v, metres) in [
            (7.0, 3.0, vec2(2.0, 1.0), vec2(0.32, 7.9)),
            (7.0, 3.0, vec2(-2.0, -1.0), vec2(14.32, 4.3)),
            (8.0, -1.5, vec2(0.5, -0.1), vec2(-0.68, -0.2)),
        ] {
            assert!((room(x, y, v) - metres).len() < 1e-5, "{x} {y} {v:?}: {:?}", room(x, y, v));
            assert_eq!(room(x, y, v), room(-x, y, vec2(-v.x, v.y)));
        }
    }

    fn court() -> Court {
        Court {
            lane_half_m: 1.83,
            free_throw_y_m: 4.19,
            three_radius_m: 6.02,
            three_corner_x_m: 6.02,
            half_width_m: 7.62,
            baseline_y_m: -1.6,
            midcourt_y_m: 11.2,
            markings: Markings {
                circle_radius_m: 1.83,
                board_y_m: -0.38,
                in_feet: true,
                board_width_m: 1.83,
                rim_radius_m: 0.23,
                rim_height_m: 3.05,
                no_charge_m: None,
            },
        }
    }

    #[test]
    fn the_board_bars_what_lies_behind_it_and_nothing_beside_or_before() {
        let court = court();
        for (at, barred) in [
            (vec2(0.0, -0.5), true),
            (vec2(-0.8, -1.1), true),
            (vec2(1.9, -1.3), true),
            (vec2(2.5, -0.9), false),
            (vec2(-6.4, -1.2), false),
            (vec2(0.3, -0.3), false),
            (vec2(0.9, 0.4), false),
        ] {
            assert_eq!(court.behind_board(at), barred, "{at:?}");
        }
    }
}
