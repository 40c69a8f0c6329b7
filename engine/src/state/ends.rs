//! How possessions ended, as somebody on the bench writes it down: what the end was, who shot last and from where, how much
//! space he had, and whether the ball had been in either post before the first shot.

use super::shots::{ShotKind, ShotPlace, ShotSpace};
use crate::setup::Region;
use crate::slots::TEAM;
use serde::{Deserialize, Serialize};

/// How a possession ended. A shot is its last one; one that was missed and rebounded by the attack ends nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum End {
    /// A two went in.
    TwoMade,
    /// A two was missed.
    TwoMissed,
    /// A three went in.
    ThreeMade,
    /// A three was missed.
    ThreeMissed,
    /// Free throws, those after a made shot among them.
    FreeThrows,
    /// A turnover of any kind.
    Turnover,
}

impl End {
    /// All, in order.
    pub const ALL: [End; 6] = [
        Self::TwoMade,
        Self::TwoMissed,
        Self::ThreeMade,
        Self::ThreeMissed,
        Self::FreeThrows,
        Self::Turnover,
    ];

    /// Whether it was a shot.
    pub const fn is_shot(self) -> bool {
        (self as u8) < Self::FreeThrows as u8
    }

    /// Whether a shot went in.
    pub const fn is_made(self) -> bool {
        matches!(self, Self::TwoMade | Self::ThreeMade)
    }

    /// Whether it was a three.
    pub const fn is_three(self) -> bool {
        matches!(self, Self::ThreeMade | Self::ThreeMissed)
    }
}

/// Where the last shot came from: the regions of the floor, whatever their side, and what lies under the rim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Spot {
    /// Within 1.22 m (4 ft) of the rim.
    Rim,
    /// The block.
    LowPost,
    /// The elbows and the free-throw line.
    HighPost,
    /// On the baseline between lane and corner.
    ShortCorner,
    /// The corner.
    Corner,
    /// The wing.
    Wing,
    /// The top and the slots beside it.
    Top,
}

impl Spot {
    /// All, in order.
    pub const ALL: [Spot; 7] =
        [Self::Rim, Self::LowPost, Self::HighPost, Self::ShortCorner, Self::Corner, Self::Wing, Self::Top];

    /// The spot of a shot of a kind that was taken in a region.
    pub fn of(kind: ShotKind, region: Region) -> Self {
        if kind.place == ShotPlace::Rim {
            return Self::Rim;
        }
        match region {
            Region::RightLowPost | Region::LeftLowPost => Self::LowPost,
            Region::HighPost => Self::HighPost,
            Region::RightShortCorner | Region::LeftShortCorner => Self::ShortCorner,
            Region::RightCorner | Region::LeftCorner => Self::Corner,
            Region::RightWing | Region::LeftWing => Self::Wing,
            Region::Top => Self::Top,
        }
    }
}

/// A possession as it is written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ended {
    /// How it ended.
    pub end: End,
    /// The role of the last shooter, or of who went to the line.
    pub who: Option<usize>,
    /// Where a shot that ended it came from.
    pub spot: Option<Spot>,
    /// How much space its shooter had.
    pub space: Option<ShotSpace>,
    /// The ball was held in the high post before the first shot.
    pub high_post: bool,
    /// The ball was held in the low post before the first shot.
    pub low_post: bool,
}

const ROLES: usize = TEAM + 1;
const SPOTS: usize = Spot::ALL.len() + 1;
const SPACES: usize = ShotSpace::ALL.len() + 1;
const TOUCHES: usize = 4;
const ALL: usize = End::ALL.len() * ROLES * SPOTS * SPACES * TOUCHES;

impl Ended {
    /// Where such possessions are counted: the digits of a number, the end first; 0 for what is not known.
    fn index(self) -> usize {
        let touches = 2 * usize::from(self.high_post) + usize::from(self.low_post);
        let mut index = self.end as usize;
        index = index * ROLES + self.who.map_or(0, |who| who + 1);
        index = index * SPOTS + self.spot.map_or(0, |spot| spot as usize + 1);
        index = index * SPACES + self.space.map_or(0, |space| space as usize + 1);
        index * TOUCHES + touches
    }

    fn at(index: usize) -> Self {
        let (rest, touches) = (index / TOUCHES, index % TOUCHES);
        let (rest, space) = (rest / SPACES, rest % SPACES);
        let (rest, spot) = (rest / SPOTS, rest % SPOTS);
        let (end, who) = (rest / ROLES, rest % ROLES);
        Self {
            end: End::ALL[end],
            who: who.checked_sub(1),
            spot: spot.checked_sub(1).map(|spot| Spot::ALL[spot]),
            space: space.checked_sub(1).map(|space| ShotSpace::ALL[space]),
            high_post: touches / 2 == 1,
            low_post: touches % 2 == 1,
        }
    }
}

/// How often possessions of one setup ended in each way.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ends {
    /// By [`Ended::index`]; empty before the first possession.
    counts: Vec<i64>,
}

impl Ends {
    /// Forgets everything and makes room, so that a step need not.
    pub(crate) fn begin(&mut self) {
        self.counts.clear();
        self.counts.resize(ALL, 0);
    }

    pub(crate) fn add(&mut self, ended: Ended) {
        if let Some(count) = self.counts.get_mut(ended.index()) {
            *count += 1;
        }
    }

    pub(crate) fn is_well_formed(&self) -> bool {
        self.counts.len() == ALL
    }

    pub(crate) fn merge(&mut self, other: &Self) {
        self.counts.iter_mut().zip(&other.counts).for_each(|(own, more)| *own += more);
    }

    /// The ways in which any ended, each with how many did, in a fixed order.
    pub fn all(&self) -> impl Iterator<Item = (Ended, i64)> {
        let counted = self.counts.iter().enumerate().filter(|(_, count)| **count > 0);
        counted.map(|(index, count)| (Ended::at(index), *count))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_way_to_end_has_a_place_of_its_own() {
        for index in 0..ALL {
            assert_eq!(Ended::at(index).index(), index);
        }
    }

    #[test]
    fn a_shot_under_the_rim_is_there_whatever_its_region() {
        let kind = |place| ShotKind { place, space: ShotSpace::Open };
        assert_eq!(Spot::of(kind(ShotPlace::Rim), Region::LeftLowPost), Spot::Rim);
        assert_eq!(Spot::of(kind(ShotPlace::Short), Region::LeftLowPost), Spot::LowPost);
        assert_eq!(Spot::of(kind(ShotPlace::Three), Region::RightWing), Spot::Wing);
    }
}
