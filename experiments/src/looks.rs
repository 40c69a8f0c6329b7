//! What a good look and an open look are, in the one wording that terminal, report, sheet and cards have.

use engine::OPEN_M;

use crate::units::Units;

/// A good look.
pub const GOOD_LOOK: &str = "Good look: a shot worth 0.95 points or more on average, guarded or not, or free throws for a \
                             foul on such a shot.";

/// What a paint touch is.
pub const PAINT_TOUCH: &str = "a player has the ball in the lane or just beside it";

/// An open look, its distance in these units.
pub fn open_look(units: Units) -> String {
    format!("Open look: a shot with nobody within {}, whatever it is worth.", units.exact(f64::from(OPEN_M)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_good_look_is_told_as_the_measures_count_it() {
        let bar = engine::law::shot::GOOD_LOOK_POINTS[0];
        assert!(GOOD_LOOK.contains(&format!("worth {bar} points or more")));
        assert!(open_look(Units::Ft).contains("within 4 ft,"));
    }
}
