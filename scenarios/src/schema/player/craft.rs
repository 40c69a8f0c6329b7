//! Passing and handling in words, as factors on the team's parameters.

use engine::setup::Team;

use crate::declared::{Field, Kind};
use crate::read::Reader;

/// Words for passing, each with what it multiplies the spread of the direction by. (assumed; the levels' ranges of it span
/// 0.45 to 2.3 times their values)
const PASSING: [(&str, f32); 3] = [("poor", 1.5), ("average", 1.0), ("good", 0.7)];
/// Words for handling, each with what it multiplies the rates of losing the ball and of travelling by. (assumed; the levels'
/// ranges of them span 0.25 to 3 times their values)
const HANDLING: [(&str, f32); 3] = [("poor", 2.0), ("average", 1.0), ("good", 0.5)];

/// The keys of passing and handling.
pub(super) const FIELDS: [Field; 2] = [
    Field::other(
        "passing",
        Kind::Word(&PASSING),
        "How true his passes are: the spread of their direction is 1.5, 1 or 0.7 times his team's.",
    ),
    Field::other(
        "handling",
        Kind::Word(&HANDLING),
        "How safe the ball is with him: he loses it, and travels, 2, 1 or 0.5 times as often as his team.",
    ),
];

/// What is said of a player's passing and handling.
pub(super) struct Said {
    passing: Option<f32>,
    handling: Option<f32>,
}

impl Said {
    pub fn read(reader: &Reader<'_>) -> Said {
        Said {
            passing: reader.maybe_word("passing", &PASSING),
            handling: reader.maybe_word("handling", &HANDLING),
        }
    }

    /// Changes what he has of his team.
    pub fn apply(&self, own: &mut Team) {
        if let Some(spread) = self.passing {
            own.skill.pass.iter_mut().for_each(|kind| kind.error_rad *= spread);
        }
        if let Some(often) = self.handling {
            own.skill.handling_loss_per_s *= often;
            own.skill.travel_per_catch *= often;
        }
    }
}
