//! Drives and post moves: which are thought of and refused, where they lead, how a race to the rim is judged, and when
//! they end.

// --- When a drive is thought of.

/// Within this distance of the rim a drive is a post move: to the rim's side, by a turn either way, m. (assumed)
pub const POST_MOVE_M: f32 = 3.6;
/// Nearer to the rim than this there is nothing left to drive, m. (assumed)
pub const LEAST_DRIVE_M: f32 = 1.5;
/// Nobody starts a drive from this far away, m. (assumed)
pub const LONGEST_DRIVE_M: f32 = 9.5;
/// Least believed chance of getting through at which who is offered the drive of an open way takes it for open.
/// (assumed)
pub const WAY_OPEN_CHANCE: f32 = 0.6;
/// For how long a defender who came out too fast can be driven past, s. (assumed)
pub const OFF_BALANCE_S: f32 = 0.4;

// --- Who stands in the way.

/// A defender no farther from the driver than this can stand squarely in his way: a stride, m. (assumed)
pub const STRIDE_M: f32 = 1.4;
/// Cosine of the largest angle off the way at which he stands squarely in it (37 degrees). (assumed)
pub const SQUARE_COS: f32 = 0.8;
/// A defender who comes at the driver slower than this can stand squarely in his way; faster, he is driven past, m/s.
/// (assumed)
pub const STANDS_IN_WAY_BELOW_M_S: f32 = 1.5;
/// A defender in front of the driver and nearer than this blocks him, m. (assumed)
pub const BLOCKS_WITHIN_M: f32 = 0.95;
/// Only a driver slower than this along his way is blocked, m/s. (assumed)
pub const BLOCKED_BELOW_M_S: f32 = 1.2;

// --- Where a drive leads.

/// A way to the rim ends no farther back than this (y), m: in front of the board's face by a shoulder. (assumed)
pub const FARTHEST_BACK_Y_M: f32 = -0.2;
/// A drive from outside ends this far in front of the rim's centre (y), m. (assumed)
pub const DRIVE_ENDS_Y_M: f32 = 0.55;
/// How far a post move turns from the straight way out of the rim: tangent of the angle (39 degrees). (assumed)
pub const POST_TURN: f32 = 0.8;
/// Where a move along the baseline ends on its own side of the rim (x), m: at arm's length. (assumed)
pub const BESIDE_RIM_M: f32 = 0.98;
/// Where a reverse lay-up ends, under the board and out on the other side: distance from the middle of the floor (x),
/// m. (assumed)
pub const REVERSE_X_M: f32 = 0.9;
/// Where a reverse lay-up ends: distance in front of the rim's centre (y), m. (assumed)
pub const REVERSE_Y_M: f32 = 0.1;

// --- Off a screen.

/// A team-mate nearer than this to the man on the ball screens him, m. (assumed)
pub const SCREENS_WITHIN_M: f32 = 1.2;
/// Farther from the ball than this nobody is a man on the ball who could be screened, m. (assumed)
pub const SCREENED_WITHIN_M: f32 = 2.2;
/// A screener stands: he moves no faster than this, m/s. (assumed)
pub const SCREENER_STANDS_M_S: f32 = 1.0;
/// A screener stands no farther behind the ball than this, seen toward the rim (below 0: behind), m. (assumed)
pub const SCREENER_BEHIND_M: f32 = -0.3;
/// How far outside of the screener the driver turns the corner, m. (assumed)
pub const SHOULDER_M: f32 = 0.65;
/// Once so near to the corner a driver turns and goes for the rim, m. (assumed)
pub const TURNED_WITHIN_M: f32 = 0.7;
/// What a team-mate's body squarely in a defender's way costs him, as the driver believes, s. (assumed: between the
/// 0.15 s that a blind screen costs at least and a full stop and start)
pub const BARRED_S: f32 = 0.5;

// --- The race of driver and defender, as the driver judges it.

/// Share of top speed that a driver makes on average over a way that he begins at rest, and of the sum of top and
/// present speed that he makes on the move. (assumed)
pub const AVERAGE_SPEED_SHARE: f32 = 0.55;
/// What a start from rest costs a driver, s; the less the faster he is already. (assumed: half a time constant)
pub const START_COSTS_S: f32 = 0.15;
/// Least top speed by which the cost of a start is judged, m/s. (assumed: it only keeps a quotient finite)
pub const LEAST_TOP_M_S: f32 = 0.1;
/// Shortest way that is judged in a race, m. (assumed)
pub const SHORTEST_RACE_M: f32 = 0.3;
/// Defenders farther from the driver than this are not in the race, m. (assumed)
pub const NOT_IN_RACE_M: f32 = 8.0;
/// A defender nearer to the way than this stands in it already, m. (assumed)
pub const IN_THE_WAY_M: f32 = 0.55;
/// A defender has won the race where he is within this distance of the way, m. (assumed)
pub const RACE_WON_WITHIN_M: f32 = 0.6;
/// What bars a defender is asked for only where he would be no more than this behind the driver, s. (assumed; later
/// than that the race is decided)
pub const RACE_DECIDED_S: f32 = 0.3;
/// How sure a driver is of the race: logistic scale of the times' difference, s. (assumed)
pub const RACE_DOUBT_S: f32 = 0.15;

// --- What a drive is worth.

/// Distance of the nearest defender at a shot at the end of a drive that got through, m. (assumed)
pub const SPACE_AT_RIM_M: f32 = 0.9;
/// Share of the way at which a drive that fails is stopped. (assumed)
pub const STOPPED_AT_SHARE: f32 = 0.45;
/// Time that a drive from outside takes that is stopped, s. (assumed)
pub const STOPPED_AFTER_S: f32 = 1.2;
/// What a drive from outside that is stopped costs beside its time, points: two men's hands are at a dribbled ball for
/// about a second, four times the hazard of a held one, and a charge may be called. (assumed)
pub const STOPPED_COST_POINTS: f32 = 0.16;

// --- When it ends.

/// The first step of a drive from outside is carried through for this long, s. (assumed)
pub const FIRST_STEP_S: f32 = 0.6;
/// A driver has arrived within this distance of where his way ends, m. (assumed)
pub const ARRIVED_WITHIN_M: f32 = 0.35;
/// A post move is not stopped by a body in the way before this time, s. (assumed)
pub const POST_MOVE_LEAST_S: f32 = 0.4;
/// A post move ends after this time, s. (assumed)
pub const POST_MOVE_LONGEST_S: f32 = 0.8;
/// A post move that brought him so much farther has got him somewhere: he goes up with it or gives it away, m.
/// (assumed)
pub const POST_MOVE_GAINS_M: f32 = 0.5;
