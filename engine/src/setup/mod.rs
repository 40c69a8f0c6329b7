//! Checked input values: everything that a possession depends on, apart from its seed and number.

mod attack;
mod continuation;
mod court;
mod officials;
mod parameter;
mod plan;
mod player;
mod sets;
mod zone;

pub use attack::*;
pub use continuation::*;
pub use court::{Court, CourtRest, Markings, MarkingsRest};
pub use officials::Officials;
pub use parameter::Parameter;
pub use plan::*;
pub use player::*;
pub use sets::*;
pub use zone::*;

/// One matchup, ready to be played.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// The floor.
    pub court: Court,
    /// Clocks and officials.
    pub officials: Officials,
    /// The attacking team.
    pub attackers: Team,
    /// The defending team.
    pub defenders: Team,
    /// Strictest limits, for tests of the model's ends.
    pub limits: Limits,
    /// The zone.
    pub zone: Zone,
    /// The attack.
    pub attack: Attack,
    /// Fixed step, s.
    pub step_s: f32,
}

/// Switches that push the model to its ends; all off in any ordinary scenario.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Limits {
    /// Defenders do not move.
    pub frozen_zone: bool,
    /// Defenders know the truth at once (no field of view, no memory, no fakes).
    pub all_seeing_zone: bool,
}
