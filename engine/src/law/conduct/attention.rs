//! Where eyes go, what they take in, how long it is remembered, and what team-mates call out.

/// Ways shorter than this have no direction, m: the eyes stay where they were. (assumed, far below anything that
/// matters)
pub const NO_WAY_M: f32 = 1e-6;

/// Distance at which a body is felt rather than seen, m. (assumed)
pub const FELT_M: f32 = 0.6;

/// A place that was seen is carried on with its velocity for at most so long, s. (assumed)
pub const CARRIED_ON_S: f32 = 0.25;

/// How often a man with the ball changes between looking at the rim and at a team-mate, 1/s. (assumed)
pub const HOLDER_LOOKS_PER_S: f32 = 4.0;

/// A defender takes his eyes off the ball for an attacker whom he has not seen for so long, s. (assumed)
pub const GLANCES_AFTER_S: f32 = 0.7;
/// A defender glances only at an attacker whom he believes nearer to himself than this, m. (assumed)
pub const GLANCES_WITHIN_M: f32 = 5.0;
/// Shortest time between two such glances, in shares of the level's mean; the longest is one mean longer. (assumed)
pub const GLANCE_GAP_LEAST: f32 = 0.5;

/// An attacker seen within so long counts as found again by a defender who had lost him, s. (assumed)
pub const FOUND_AGAIN_S: f32 = 0.5;
/// A defender is said to have lost an attacker only if that one is truly within this distance, m. (by definition of the
/// measures)
pub const LOST_WITHIN_M: f32 = 2.0;
/// A defender is said to have lost an attacker only if that one truly moves faster than this, m/s. (by definition of
/// the measures)
pub const LOST_MOVER_M_S: f32 = 1.0;

/// Steps in which a chance to notice a mover is told apart: six bits of a draw. (derived: 2 to the sixth)
pub const NOTICE_STEPS: f32 = 64.0;

/// Length of the spell of talking for which the level's chance of a call holds, s. (by definition of the measures)
pub const TALK_SPELL_S: f32 = 0.5;
/// Smallest chance that a spell passes without a call, so that a sure caller has a finite rate. (assumed)
pub const SILENCE_LEAST: f32 = 1e-3;
/// Nobody is told of an attacker whom he has seen within so long, s. (assumed)
pub const TOLD_AFTER_S: f32 = 0.6;
/// Only a team-mate who has seen the attacker within so long tells of him, s. (assumed)
pub const TELLS_WITHIN_S: f32 = 0.35;
/// A call says where a man is and roughly how he moves: this share of his velocity comes across. (assumed)
pub const TOLD_VELOCITY_SHARE: f32 = 0.5;
