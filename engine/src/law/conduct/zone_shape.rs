//! The shape of a zone: where a defender has the ball, how he holds his place, whom he looks after, and how far passing
//! lanes draw him out of it.

// Where he has the ball.

/// The ball has to be this far over the middle of the floor before its side changes, m. (assumed)
pub const SIDE_CHANGES_BEYOND_M: f32 = 0.25;
/// Another ball place has to be nearer to the ball than the present one by this much to take over, m. (assumed)
pub const PLACE_CHANGES_BY_M: f32 = 0.5;
/// Farther from the rim than this the ball or an attacker is on the perimeter, m. (assumed)
pub const PERIMETER_FROM_M: f32 = 5.0;

// Burns: uncontested catches in range, after some of which a team changes its table.

/// A catch from no farther outside the arc than this is in range, m. (assumed)
pub const IN_RANGE_OUTSIDE_ARC_M: f32 = 0.8;
/// A hold that is learned of in fewer steps than this from the start is the possession's first, and no catch. (assumed)
pub const FIRST_HOLD_STEPS: u32 = 4;

// How he holds his place.

/// To a place farther away than this a defender turns and runs rather than slides, m. (assumed)
pub const RUNS_FROM_M: f32 = 3.0;
/// A defender this near to his place stands: nobody shuffles after every twitch, m. (assumed)
pub const SETTLED_WITHIN_M: f32 = 0.22;
/// Fastest that a settled defender moves, m/s. (assumed)
pub const SETTLED_PACE_M_S: f32 = 0.5;
/// A defender sets his feet before an attacker without the ball who is nearer than this and comes at him, m. (common
/// practice, no source: a stride and a half)
pub const SETS_FEET_WITHIN_M: f32 = 1.4;
/// An attacker who comes at him faster than this is about to run into him, m/s. (assumed)
pub const SETS_FEET_FROM_M_S: f32 = 1.0;
/// Top speed of a defender who is not settled, at his place itself, where the rise by [`HOLD_PACE_PER_M`] starts, m/s.
/// (assumed)
pub const HOLD_PACE_M_S: f32 = 1.0;
/// Rise of that top speed above [`HOLD_PACE_M_S`] for each metre that the defender is away from his place, (m/s)/m.
/// (assumed)
pub const HOLD_PACE_PER_M: f32 = 2.6;
/// Who does not guard a ball outside keeps this far from it, m: two on one spot guard one. (assumed)
pub const KEEPS_OFF_BALL_M: f32 = 1.7;
/// The room that a poor shooter is given brings a defender no nearer to the rim than this, m. (assumed)
pub const ROOM_ENDS_M: f32 = 1.5;
/// Man-to-man: sagging off a man brings a defender no nearer to the rim than this, m. (assumed)
pub const SAG_ENDS_M: f32 = 1.0;
/// A defender braces against a man who is nearer to the rim than this, m. (assumed)
pub const BRACES_FOR_MAN_WITHIN_M: f32 = 3.0;
/// A defender braces once he is this near to his own place, m. (assumed)
pub const BRACES_NEAR_PLACE_M: f32 = 1.0;

// Whom he looks after.

/// Nearness to the rim starts at this distance with 0 and rises evenly to 1 under the rim, m: the nearer an attacker,
/// the tighter he is played and the more dangerous he is. (assumed)
pub const TIGHTENS_WITHIN_M: f32 = 6.5;
/// Danger of an attacker of nearness 0; one under the rim has this plus 1. (assumed)
pub const DANGER_OUTSIDE: f32 = 0.35;
/// How fast danger falls with the squared distance from the defender's own anchor, 1/m2: what is near is more one's
/// own. (assumed)
pub const DANGER_FALLS_PER_M2: f32 = 0.15;
/// Share by which an attacker of nearness 0 is less dangerous for each metre of room more than usual that he is given,
/// 1/m. (assumed)
pub const LESS_DANGER_PER_M: f32 = 0.4;
/// Added to distances that are compared by their inverse (who is nearest to the rim, or to the ball), m: it keeps them
/// finite. (assumed)
pub const NEAREST_OFFSET_M: f32 = 0.5;

// Passing lanes.

/// An interceptor or a defender who denies means to meet a pass at this share of its way, counted from the receiver.
/// (assumed)
pub const MEETS_PASS_SHARE: f32 = 0.35;
/// Share of the way from his anchor to the passing lane that an interceptor goes, within his carry distance. (assumed)
pub const INTERCEPTOR_LEAVES_SHARE: f32 = 0.8;
/// A reversal goes to a perimeter player who is at least this much nearer to the far side than the holder, m. (assumed)
pub const REVERSAL_FARTHER_M: f32 = 0.5;
/// From this height on the floor a perimeter player can reverse the ball, m. (assumed)
pub const REVERSAL_FROM_Y_M: f32 = 3.5;

// Going for a pass in the air.

/// Nobody leaves his place by more than this for a pass, m. (assumed)
pub const GAMBLES_WITHIN_M: f32 = 2.6;
/// Nobody goes for a pass that has less than this still to fly, m. (assumed)
pub const GAMBLE_SHORTEST_M: f32 = 1.0;
/// Who goes for a pass aims farther on than the nearest point of its way by this share of the way: the ball comes to
/// him. (assumed)
pub const GAMBLE_FARTHER_ON_SHARE: f32 = 0.1;
/// Nobody goes for a point beyond this share of a pass's way: there the receiver has it. (assumed)
pub const GAMBLE_LATEST_SHARE: f32 = 0.95;
