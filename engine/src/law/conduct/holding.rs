//! Keeping the ball: waiting for something better, bringing it up, stepping out of trouble, probing.

// --- What waiting is worth.

/// How far ahead waiting is weighed, s. (assumed)
pub const WAITS_AHEAD_S: f32 = 0.5;
/// Share of the worth of waiting that is left where a count runs against him or a post move is done. (assumed)
pub const WAITING_LEFT_SHARE: f32 = 0.2;
/// Closely guarded, he hurries once no more than this is left of the count, s. (assumed)
pub const GUARDED_HURRIES_S: f32 = 1.8;

// --- What he does meanwhile.

/// Top speed of small steps on the spot, m/s. (assumed)
pub const ON_THE_SPOT_M_S: f32 = 0.6;
/// A guard who is farther than this above his place (y) still brings the ball up, m. (assumed)
pub const BRINGS_UP_FROM_M: f32 = 2.0;
/// Top speed of a guard who brings the ball up, m/s. (assumed)
pub const BRINGS_UP_M_S: f32 = 4.0;
/// Top speed of a probing dribble, m/s. (assumed)
pub const PROBES_M_S: f32 = 2.4;
/// Top speed of a holder at the end of his way, where the rise by [`FASTER_PER_M`] starts, m/s. (assumed)
pub const LEAST_MOVE_M_S: f32 = 0.8;
/// Rise of that top speed above [`LEAST_MOVE_M_S`] for each metre that he still has to go, (m/s)/m. (assumed)
pub const FASTER_PER_M: f32 = 0.5;

/// A man in the lane leaves it with the ball this long before he must, s. (assumed)
pub const LEAVES_LANE_EARLY_S: f32 = 0.3;
/// Top speed of a dribble out of the lane, m/s. (assumed)
pub const LEAVES_LANE_M_S: f32 = 3.0;
/// Top speed of a step out from under the board, m/s. (assumed)
pub const STEPS_OUT_M_S: f32 = 2.0;
/// Nearer to the rim than this a holder stands, m; from farther out he probes. (assumed)
pub const STANDS_WITHIN_M: f32 = 4.6;

/// Farther from his place than this a holder dribbles back to it, m. (assumed)
pub const OFF_PLACE_M: f32 = 0.5;
/// A holder's place is taken to lie at least this far inside the lines, m. (assumed)
pub const PLACE_INSIDE_M: f32 = 0.5;
/// A holder steps no nearer to a line than this, m. (assumed)
pub const STEP_INSIDE_M: f32 = 0.4;
/// A probing step goes this far to the more open side of his place, m. (assumed)
pub const PROBES_ASIDE_M: f32 = 0.8;
/// Farther away than this a defender makes a side no less open, m. (assumed)
pub const OPEN_SIDE_M: f32 = 9.0;
/// With the nearest defender nearer than this a probing step goes back as well, m. (assumed)
pub const PRESSED_WITHIN_M: f32 = 1.3;
/// How far back a probing step goes when a defender is nearer than [`PRESSED_WITHIN_M`], m. (assumed)
pub const STEPS_BACK_M: f32 = 0.4;
/// A holder puts the ball on the floor for a way longer than this, m, once he has had it for longer than
/// [`DRIBBLES_AFTER_S`]. (assumed)
pub const DRIBBLES_FROM_M: f32 = 0.6;
/// A holder puts the ball on the floor for a step of his own only when he has had it for longer than this, s, and the
/// way is longer than [`DRIBBLES_FROM_M`]. (assumed)
pub const DRIBBLES_AFTER_S: f32 = 1.0;
