//! The floor as a coach divides it: ten named regions, each the places of the ball that are nearest to those a zone knows.

use super::{BallPlace, Zone};
use crate::math::Vec2;

/// A region of the floor. Right and left as the attack faces the rim; where places are folded, right is the rover's starting
/// side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Region {
    /// Near the baseline, outside.
    RightCorner,
    /// The same on the left.
    LeftCorner,
    /// Level with the free-throw line, outside.
    RightWing,
    /// The same on the left.
    LeftWing,
    /// The top and the slots beside it.
    Top,
    /// The elbows and the free-throw line between them.
    HighPost,
    /// The block and the rim's right half.
    RightLowPost,
    /// The same on the left.
    LeftLowPost,
    /// On the baseline between the lane and the corner.
    RightShortCorner,
    /// The same on the left.
    LeftShortCorner,
}

impl Region {
    /// How many there are.
    pub const COUNT: usize = Self::ALL.len();
    /// All, in order.
    pub const ALL: [Region; 10] = [
        Region::RightCorner,
        Region::LeftCorner,
        Region::RightWing,
        Region::LeftWing,
        Region::Top,
        Region::HighPost,
        Region::RightLowPost,
        Region::LeftLowPost,
        Region::RightShortCorner,
        Region::LeftShortCorner,
    ];

    /// The region of a place: that of the nearest of the zone's ball places, which lie where the rule set's lines put them.
    pub fn of(zone: &Zone, at: Vec2) -> Self {
        let [right, left] = match zone.nearest_place(at) {
            BallPlace::Top | BallPlace::Slot => [Self::Top; 2],
            BallPlace::Elbow => [Self::HighPost; 2],
            BallPlace::Wing => [Self::RightWing, Self::LeftWing],
            BallPlace::Corner => [Self::RightCorner, Self::LeftCorner],
            BallPlace::ShortCorner => [Self::RightShortCorner, Self::LeftShortCorner],
            BallPlace::LowPost => [Self::RightLowPost, Self::LeftLowPost],
        };
        if at.x < 0.0 { left } else { right }
    }
}

impl Zone {
    /// The ball place nearest to a point, whatever its side.
    pub fn nearest_place(&self, at: Vec2) -> BallPlace {
        let right = Vec2 { x: at.x.abs(), y: at.y };
        let mut best = (f32::INFINITY, BallPlace::Top);
        for (place, there) in BallPlace::ALL.iter().zip(&self.ball_places) {
            let d2 = (right - *there).len2();
            if d2 < best.0 {
                best = (d2, *place);
            }
        }
        best.1
    }
}
