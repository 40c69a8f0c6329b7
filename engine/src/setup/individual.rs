//! A player who is himself: whole parameters of his own, where the others have their team's.

use super::player::{SHOT_CLASSES, Team};
use super::zone::Zone;

/// A player who is known by himself.
#[derive(Clone, Debug, PartialEq)]
pub struct Individual {
    /// What he is called, for output only; empty: by his role or position.
    pub name: String,
    /// What he can do. What belongs to a team as a whole (continuation values, friction, how many go to the glass, whether a
    /// zone shifts on the release) is the team's in any case.
    pub own: Team,
    /// His difference from the curve of each class of shot where it is known, logit; else it is drawn, as any team-mate's.
    pub shooting: [Option<f32>; SHOT_CLASSES],
    /// What he may shoot.
    pub licence: Licence,
    /// What was stated of his shooting, for output only.
    pub known: Vec<Known>,
    /// The zone as he plays it, where that is not the zone's.
    pub zone: Option<Box<Zone>>,
}

/// What a player may shoot, whatever the plan says and the clock.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Licence {
    /// Any shot that is worth it.
    #[default]
    AnyGood,
    /// From outside only what is open.
    OpenOnly,
    /// No threes.
    NoThrees,
    /// Nothing from outside.
    InsideOnly,
    /// Nothing.
    None,
}

/// A share that was stated of a player's shooting.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// Of which shots, in words.
    pub shots: &'static str,
    /// Made and attempted, where they were counted.
    pub counted: Option<(u32, u32)>,
    /// The share as stated or counted.
    pub share: f32,
    /// The level's share of such shots, by those who take them.
    pub level: f32,
    /// Attempts at the level's share that were added to those counted.
    pub prior_attempts: f32,
    /// The share that he plays with.
    pub played: f32,
}
