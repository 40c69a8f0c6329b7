//! What the tests of the laws share.

use crate::setup::{Court, Markings};

/// A high-school floor.
pub fn court() -> Court {
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
