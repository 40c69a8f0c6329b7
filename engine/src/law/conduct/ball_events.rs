//! How soon players learn what the ball does, and what a shown pass or shot does to them.

/// Doublings of the plausible targets of a pass: four receivers, two doublings; the passer's eyes halve them. (derived)
pub const TARGET_DOUBLINGS: f32 = 2.0;
/// Share of the doublings that is left where the passer's eyes gave the pass away. (assumed)
pub const EYES_TELL_SHARE: f32 = 0.5;
/// The receiver of a pass looks for it: he learns of the release after this share of a reaction. (assumed)
pub const RECEIVER_SHARE: f32 = 0.5;
/// Other team-mates learn of a pass so much later where the passer looked elsewhere, s. (assumed)
pub const LOOK_OFF_MATES_S: f32 = 0.1;
/// Whoever does not have the ball in view learns this much later, s: he hears it rather than sees it. (assumed)
pub const HEARD_S: f32 = 0.35;

/// A shown shot concerns a defender within this distance of the shooter, m. (assumed)
pub const SHOWN_SHOT_CONCERNS_M: f32 = 2.5;
/// A fake that a defender learns of later than this after it was shown fools him no more, s. (assumed)
pub const FAKE_STALE_S: f32 = 0.5;
/// A defender who bites on a shown pass leans for so long, beside the level's delay, s. (assumed)
pub const LEANS_S: f32 = 0.3;
/// For how long a defender who bites on a shown shot is of no use: up, down and set again, s. (assumed)
pub const BITE_JUMP_S: f32 = 0.45;

/// A shooter is in the air for this long, s. (derived: a jump of 0.5 m)
pub const SHOT_JUMP_S: f32 = 0.64;
/// A defender who goes up with a shooter is off his feet and gathering himself for this long in all, s. (assumed)
pub const CONTEST_JUMP_S: f32 = 0.85;
/// Whoever believes himself nearer to a shooter than this goes up with him, m: nearer than that a look is contested.
/// (derived from [`crate::law::shot::OPEN_M`]; assumed that they agree)
pub const GOES_UP_WITH_M: f32 = crate::law::shot::OPEN_M;
