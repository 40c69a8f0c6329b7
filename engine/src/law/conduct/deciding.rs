//! How often players decide, and how soon they judge what they see.

/// Time between two decisions of a player who learns nothing in between, s. (assumed)
pub const DECIDES_EVERY_S: f32 = 0.1;

/// Half the time between two decisions, s. A player's reaction has it taken off, since decisions come at steps of that
/// time; a hand waits for no decision, so there it is added again. (derived from [`DECIDES_EVERY_S`])
pub const HALF_DECISION_S: f32 = 0.5 * DECIDES_EVERY_S;

/// How much of a pass's flight its receiver has to see, a reaction aside, before he knows where it comes down, s.
/// (assumed)
pub const JUDGES_FLIGHT_S: f32 = 0.4;

/// Speed at which a player who is off his feet for a jump can still drift, m/s. (assumed)
pub const IN_THE_AIR_M_S: f32 = 0.5;
