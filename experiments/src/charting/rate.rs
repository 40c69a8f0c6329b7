//! What a chart is held against: shares of possessions, or of last shots, that both a helper and the model can count.

use engine::ends::{End, Spot};
use engine::shots::ShotSpace;
use scenarios::Charted;

use crate::places::{ATTACKERS, position_words};

/// A share of possessions or of last shots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rate {
    /// Possessions that end in a turnover.
    Turnovers,
    /// Possessions that end at the free-throw line.
    Line,
    /// Possessions with the ball in the high post before the first shot.
    HighPost,
    /// The same of the low post.
    LowPost,
    /// Shots that are threes.
    Threes,
    /// Shots from a spot.
    From(Spot),
    /// Shots by a role.
    By(usize),
    /// Shots with nobody within 1.22 m (4 ft).
    Open,
    /// Twos from the rim and the low post that go in.
    InsideMade,
    /// Other twos that go in.
    OutsideMade,
    /// Threes that go in with somebody within 1.83 m (6 ft).
    GuardedThreesMade,
    /// Threes that go in with nobody so near.
    OpenThreesMade,
    /// Shots by a role that go in.
    MadeBy(usize),
}

impl Rate {
    /// All, in the order of tables.
    pub fn all() -> Vec<Rate> {
        let mut all = vec![Self::Turnovers, Self::Line, Self::HighPost, Self::LowPost, Self::Threes];
        all.extend(Spot::ALL.map(Self::From));
        all.extend((0..ATTACKERS.len()).map(Self::By));
        all.extend([
            Self::Open,
            Self::InsideMade,
            Self::OutsideMade,
            Self::GuardedThreesMade,
            Self::OpenThreesMade,
        ]);
        all.extend((0..ATTACKERS.len()).map(Self::MadeBy));
        all
    }

    /// Whether a possession is counted; `None` if it is none of those the rate speaks of, or too little of it was seen.
    pub fn of(self, seen: &Charted) -> Option<bool> {
        let shot = seen.end.filter(|end| end.is_shot());
        let inside = seen.spot.map(|spot| matches!(spot, Spot::Rim | Spot::LowPost));
        match self {
            Self::Turnovers => seen.end.map(|end| end == End::Turnover),
            Self::Line => seen.end.map(|end| end == End::FreeThrows),
            Self::HighPost => seen.high_post,
            Self::LowPost => seen.low_post,
            Self::Threes => shot.map(End::is_three),
            Self::From(spot) => shot.and(seen.spot).map(|own| own == spot),
            Self::By(role) => shot.and(seen.who).map(|who| who == role),
            Self::Open => shot.and(seen.space).map(|space| space != ShotSpace::Guarded),
            Self::InsideMade => shot.filter(|end| !end.is_three() && inside == Some(true)).map(End::is_made),
            Self::OutsideMade => {
                shot.filter(|end| !end.is_three() && inside == Some(false)).map(End::is_made)
            }
            Self::GuardedThreesMade => {
                let guarded = seen.space.map(|space| space != ShotSpace::WideOpen);
                shot.filter(|end| end.is_three() && guarded == Some(true)).map(End::is_made)
            }
            Self::OpenThreesMade => {
                let open = seen.space == Some(ShotSpace::WideOpen);
                shot.filter(|end| end.is_three() && open).map(End::is_made)
            }
            Self::MadeBy(role) => shot.filter(|_| seen.who == Some(role)).map(End::is_made),
        }
    }

    /// What is counted, in words.
    pub fn words(self) -> String {
        match self {
            Self::Turnovers => "turnovers".into(),
            Self::Line => "possessions ended at the free-throw line".into(),
            Self::HighPost => "possessions with the ball in the high post".into(),
            Self::LowPost => "possessions with the ball in the low post".into(),
            Self::Threes => "shots that are threes".into(),
            Self::From(spot) => {
                format!("shots from the {}", scenarios::SPOTS[spot as usize].0.replace('-', " "))
            }
            Self::By(role) => format!("shots by the {}", position_words(ATTACKERS[role])),
            Self::Open => "shots with nobody within 1.22 m".into(),
            Self::InsideMade => "twos from the rim and the low post that go in".into(),
            Self::OutsideMade => "other twos that go in".into(),
            Self::GuardedThreesMade => "guarded and open threes that go in".into(),
            Self::OpenThreesMade => "wide-open threes that go in".into(),
            Self::MadeBy(role) => format!("shots by the {} that go in", position_words(ATTACKERS[role])),
        }
    }

    /// Its name in files.
    pub fn key(self) -> String {
        match self {
            Self::Turnovers => "turnovers".into(),
            Self::Line => "free-throws".into(),
            Self::HighPost => "high-post".into(),
            Self::LowPost => "low-post".into(),
            Self::Threes => "threes".into(),
            Self::From(spot) => format!("shots-from-{}", scenarios::SPOTS[spot as usize].0),
            Self::By(role) => format!("shots-by-{}", ATTACKERS[role]),
            Self::Open => "open-shots".into(),
            Self::InsideMade => "inside-twos-made".into(),
            Self::OutsideMade => "other-twos-made".into(),
            Self::GuardedThreesMade => "guarded-threes-made".into(),
            Self::OpenThreesMade => "wide-open-threes-made".into(),
            Self::MadeBy(role) => format!("made-by-{}", ATTACKERS[role]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_not_seen_counts_for_nothing() {
        let nothing = Charted::default();
        assert!(Rate::all().into_iter().all(|rate| rate.of(&nothing).is_none()));
        let shot = Charted { end: Some(End::ThreeMissed), space: Some(ShotSpace::Open), ..nothing.clone() };
        let of = |rate: Rate| rate.of(&shot);
        assert_eq!(
            (of(Rate::Turnovers), of(Rate::Threes), of(Rate::Open)),
            (Some(false), Some(true), Some(true))
        );
        assert_eq!((of(Rate::GuardedThreesMade), of(Rate::OpenThreesMade)), (Some(false), None));
        assert_eq!((of(Rate::From(Spot::Corner)), of(Rate::By(2)), of(Rate::InsideMade)), (None, None, None));
        let lost = Charted { end: Some(End::Turnover), who: Some(2), spot: Some(Spot::Rim), ..nothing };
        assert_eq!(Rate::By(2).of(&lost), None);
    }
}
