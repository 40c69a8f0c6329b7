//! Defence on the ball: who guards it, how he closes out and stands, when he runs past a shooter, and the trap.

// Who guards the ball. Defenders are compared by their rough time to the ball, with bonuses and penalties in seconds.

/// A defender is there once he is this near to a point, for rough comparisons of who is there first, m. (assumed)
pub const ARRIVES_WITHIN_M: f32 = 0.9;
/// Bonus of the present on-ball defender while the same man has the ball, s: another has to be quicker by more than
/// this. With a pass the question is open again. (assumed)
pub const PRESENT_BONUS_S: f32 = 0.25;
/// Bonus of the first of the positions that the zone's table names for the ball's place, s. (assumed)
pub const FIRST_NAMED_BONUS_S: f32 = 0.1;
/// A man with the ball inside is met this far in front of him, on his way to the rim, m. (assumed: a step)
pub const MEETS_AHEAD_M: f32 = 0.8;
/// Penalty of a defender whose position the table does not name, s; he is considered with the ball inside. (assumed)
pub const UNNAMED_PENALTY_S: f32 = 0.25;
/// Where the table names two, the first takes the ball over from the second once he is this near to the holder, m; the
/// second goes back to his own area. Twin of [`BUMPED_OFF_WITHIN_M`]. (common practice, no source; figure assumed)
pub const TAKES_OVER_WITHIN_M: f32 = 1.7;
/// Bonus of the first named once he is that near, s. (assumed)
pub const TAKES_OVER_BONUS_S: f32 = 0.5;
/// Where a place has a bump (after a delay another position takes the ball from the one who went first), the first
/// leaves once the other is this near to the ball, m. Twin of [`TAKES_OVER_WITHIN_M`]. (assumed)
pub const BUMPED_OFF_WITHIN_M: f32 = 1.6;

// A team-mate who is seen not to go counts as slower. Two who wait for one another would leave the ball to nobody.

/// A team-mate is given this long after the catch became known to start for the ball, s. (assumed)
pub const STARTS_WITHIN_S: f32 = 0.45;
/// Only one who is farther from the holder than guarding distance by more than this can count as not coming, m.
/// (assumed)
pub const NOT_COMING_BEYOND_M: f32 = 0.7;
/// One who closes on the holder more slowly than this counts as not coming, m/s. (assumed)
pub const NOT_COMING_BELOW_M_S: f32 = 0.7;
/// Penalty of a team-mate who is not coming, s. (assumed)
pub const NOT_COMING_PENALTY_S: f32 = 0.6;

// How he guards it.

/// However good a shooter, the room that respect takes away brings no guard nearer than this, m. (assumed)
pub const NEVER_NEARER_M: f32 = 0.6;
/// Room between the torsos of a guard and a man with the ball inside, m: in touch. (assumed)
pub const IN_TOUCH_ROOM_M: f32 = 0.08;
/// From this speed toward the rim the holder is guarded where he will be, m/s: what a defender sees is a reaction old.
/// (assumed)
pub const LEADS_FROM_M_S: f32 = 1.5;
/// How far ahead in time a holder who comes at the rim is guarded, s. (assumed)
pub const LEADS_BY_S: f32 = 0.3;

// The fly-by: a closer who would come too late if he stopped runs past the shooter.

/// Time from catch to release that a closer expects, s. (assumed: middle of the levels' 0.7 to 1.2)
pub const EXPECTED_RELEASE_S: f32 = 0.95;
/// Mean speed that a defender expects of a pass, m/s. (assumed)
pub const EXPECTED_PASS_M_S: f32 = 10.0;
/// Coming to a stop at a shooter takes this much longer than running through, s. (assumed)
pub const BRAKING_TAKES_S: f32 = 0.35;
/// How late a closer must be to run past the shooter: this at a fly-by share of 0, evenly less to 0 at a share of 1, s.
/// Who would be later than twice this closes out all the same. (assumed)
pub const FLY_BY_LATE_S: f32 = 0.8;
/// How far beside the shooter he passes, m. (assumed)
pub const FLY_BY_BESIDE_M: f32 = 0.8;
/// How far beyond the shooter he aims to run, m. (assumed)
pub const FLY_BY_BEYOND_M: f32 = 2.5;
/// A closer nearer to the shooter than this is there already and runs past nobody, m. (assumed)
pub const FLY_BY_THERE_M: f32 = 1.6;
/// A fly-by is given up after this long, s. (assumed)
pub const FLY_BY_LONGEST_S: f32 = 1.5;
/// A closer has run past once he is this far beyond the shooter along his way, m; from there he has to stop and turn.
/// (assumed)
pub const FLY_BY_PAST_M: f32 = 0.2;

// The trap: a second man comes.

/// A ball farther than this from the middle of the place at which the zone traps is not trapped, m: it only passes by,
/// or lies between two places. (assumed)
pub const TRAP_WITHIN_M: f32 = 2.2;
/// How near the two come to the ball, m. (assumed)
pub const TRAP_ON_BALL_M: f32 = 0.75;
/// The second man closes the side from which he comes, 65 degrees off the line from the ball to the rim: its cosine.
/// (assumed)
pub const TRAP_ANGLE_COSINE: f32 = 0.42;
/// The sine of the same angle. (assumed)
pub const TRAP_ANGLE_SINE: f32 = 0.91;
