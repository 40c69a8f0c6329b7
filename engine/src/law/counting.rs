//! Thresholds of the measures: what counts as what. Areas of the floor are in [`super::floor`], classes of looks in
//! [`super::shot`].

/// Fixed-point units in one unit of a measure: reals are kept in millionths; a pure number. (by definition of the
/// measures)
pub const MILLIONTHS: f64 = 1e6;

// Shots.

/// A two from nearer than this is a shot at the rim, m. (by definition of the measures)
pub const RIM_SHOT_WITHIN_M: f32 = 2.0;
/// A corner shot is taken farther outside the lane than this, m, and low on the floor. (by definition of the measures)
pub const CORNER_BESIDE_LANE_M: f32 = 1.2;
/// A shot from the corner, two or three points, is taken lower on the floor than this, m. (by definition of the measures)
pub const CORNER_BELOW_Y_M: f32 = 1.5;

// Ball movement.

/// The ball is on one side of the floor this far from its middle or farther, m; between, a reversal is under way.
/// (by definition of the measures)
const REVERSAL_SIDE_FROM_X_M: f32 = 1.0;

/// Sign of the side that a catch is on for counting reversals; 0 in the middle.
pub fn reversal_side(x: f32) -> f32 {
    if x > REVERSAL_SIDE_FROM_X_M {
        1.0
    } else if x < -REVERSAL_SIDE_FROM_X_M {
        -1.0
    } else {
        0.0
    }
}

// Stress of the zone. Lateness asks: if the ball were thrown now, how late would the back line be?

/// Time from the decision to the release of that pass, s. (by definition of the measures)
pub const LATENESS_RELEASE_S: f32 = 0.3;
/// Mean speed of that pass, m/s. (by definition of the measures)
pub const LATENESS_PASS_M_S: f32 = 10.0;
/// A defender this near to an attacker has him, m. (by definition of the measures)
pub const HAS_HIM_WITHIN_M: f32 = 0.9;
/// An attacker lower on the floor than this is the back line's to guard, m. (by definition of the measures)
pub const BACK_LINES_BELOW_Y_M: f32 = 2.9;
/// Two on one: both attackers are within this distance of one back-line defender, m. (by definition of the measures)
pub const TWO_ON_ONE_WITHIN_M: f32 = 3.0;
/// A defender within this distance of an attacker guards him: in a two on one nobody else does, and a cutter whom
/// nobody has had so near is alone, m. (by definition of the measures)
pub const GUARDED_WITHIN_M: f32 = 2.0;
/// A hand-off has failed once a cutter has been alone for this long, s. (by definition of the measures)
pub const ALONE_S: f32 = 0.5;
/// A cutter moves faster than this when nobody has him any more, m/s. (by definition of the measures)
pub const CUTS_FROM_M_S: f32 = 1.0;
/// Hand-offs are counted nearer to the rim than the arc by more than this, m. (by definition of the measures)
pub const CUT_INSIDE_ARC_M: f32 = 0.5;
/// The post helper is down within this distance of the ball-side low post, m. (by definition of the measures)
pub const HELPER_DOWN_WITHIN_M: f32 = 1.5;

// Break exposure: the chance of a fast break as the possession ends, by how it ended.

/// Logistic scale of the chance, in the difference of the two times to midcourt, s. (assumed)
pub const BREAK_SCALE_S: f32 = 0.4;
/// Points of a possession in transition, points. (source: the published figures, 1.10-1.16)
pub const TRANSITION_POINTS: f32 = 1.12;
/// Points of an ordinary possession, which the opponents would have had anyway, points. (source: Division I half court
/// .82-.90, secondary)
pub const ORDINARY_POINTS: f32 = 0.88;
/// What a break costs: the points that it adds to an ordinary possession, points. (derived from [`TRANSITION_POINTS`] and
/// [`ORDINARY_POINTS`])
pub const BREAK_POINTS: f32 = TRANSITION_POINTS - ORDINARY_POINTS;
/// Factor of the opponents' chance of a break after a ball lost live. (by definition of the measures)
pub const AFTER_LIVE_LOSS: f32 = 1.0;
/// Factor of the opponents' chance of a break after a long miss. (assumed)
pub const AFTER_LONG_MISS: f32 = 0.5;
/// Factor of the opponents' chance of a break after a short miss. (assumed)
pub const AFTER_SHORT_MISS: f32 = 0.25;
/// Factor of the opponents' chance of a break after a made basket or a dead ball. (assumed)
pub const AFTER_DEAD_BALL: f32 = 0.05;
/// A miss from beyond this is a long one, m. (assumed)
pub const LONG_MISS_FROM_M: f32 = 4.5;

/// A step that ends this little before a bin's time counts for it, s: times are rounded sums. (derived)
pub const SAME_TIME_S: f32 = 1e-3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_the_floor_is_on_neither_side_of_a_reversal() {
        assert_eq!([-4.0, -1.01, -1.0, 0.0, 1.0, 1.01].map(reversal_side), [-1.0, -1.0, 0.0, 0.0, 0.0, 1.0]);
    }
}
