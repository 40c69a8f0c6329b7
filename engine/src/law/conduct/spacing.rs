//! Standing where one can be found: what a step about home is worth, corners filled, slides along the arc.
//!
//! The score of a step is in points. A metre of room in the passing lane counts as a point. (assumed)

/// Shortest time between two looks for a better place, s. (assumed)
pub const RESTLESS_LEAST_S: f32 = 0.6;
/// Width of the even spread of that time: from [`RESTLESS_LEAST_S`] up to this much longer, s. (assumed)
pub const RESTLESS_SPREAD_S: f32 = 0.6;
/// Nobody waits nearer to a line than this, m. (assumed)
pub const HOME_EDGE_M: f32 = 0.4;
/// Who is farther than this from his place looks where he goes instead of at the ball, m. (assumed)
pub const LOOKS_AT_WAY_M: f32 = 3.0;
/// Who is farther than this from his place hurries there, at [`HURRIES_HOME_M_S`], m. (assumed)
pub const HURRIES_HOME_FROM_M: f32 = 2.5;
/// Top speed of a player who hurries back to his place, m/s. (assumed)
pub const HURRIES_HOME_M_S: f32 = 4.5;
/// Within [`HURRIES_HOME_FROM_M`] of his place a player steps there: top speed at the place itself, where the rise by
/// [`STEPS_FASTER_PER_M`] starts, m/s. (assumed)
pub const STEPS_M_S: f32 = 1.2;
/// Rise of that top speed above [`STEPS_M_S`] for each metre from the place, (m/s)/m. (assumed)
pub const STEPS_FASTER_PER_M: f32 = 0.9;
/// Nearer to his place than this a player stands braced, m. (assumed)
pub const BRACES_WITHIN_M: f32 = 0.4;

/// A short step along the arc, m. (assumed)
pub const SHORT_STEP_M: f32 = 0.9;
/// A long step along the arc, m. (assumed)
pub const LONG_STEP_M: f32 = 1.7;
/// How far he steps in toward a gap, m. (assumed)
pub const STEP_IN_M: f32 = 0.9;
/// How far a man makes way for a team-mate who comes to his place, m. (assumed)
pub const MAKE_WAY_M: f32 = 2.6;
/// Nobody steps out farther beyond the arc than this, m: there he draws no defender. (assumed)
pub const FAR_OUT_M: f32 = 1.6;

/// Most room in a passing lane that counts, m. (assumed)
pub const LANE_ROOM_MOST_M: f32 = 2.0;
/// Share of the passing lane from the ball on: a defender nearer to the ball than that is the passer's concern and does
/// not count in the lane's room. (assumed)
pub const LANE_SHARE_LEAST: f32 = 0.1;
/// What the receiver's own body is worth of room in the passing lane against a man behind him, m. (assumed)
pub const SHIELD_M: f32 = 0.6;
/// Most room about a place that counts, m. (assumed)
pub const PLACE_ROOM_MOST_M: f32 = 3.0;
/// What each metre of room about a place is worth, up to [`PLACE_ROOM_MOST_M`], points/m. (assumed)
pub const PLACE_ROOM_POINTS_PER_M: f32 = 0.35;
/// Room with which a shot from a place is weighed, m. (assumed)
pub const SHOT_ROOM_M: f32 = 1.5;
/// Crowding starts at this distance from the nearest team-mate with 0, and rises evenly to 1 over [`CROWD_WIDTH_M`]
/// nearer, m. (common practice, no source)
pub const CROWDS_WITHIN_M: f32 = 4.5;
/// Width over which crowding rises from 0 to 1, from [`CROWDS_WITHIN_M`] inward, m. (assumed)
pub const CROWD_WIDTH_M: f32 = 3.0;
/// What full crowding (1) costs, points. (assumed)
pub const CROWD_COST_POINTS: f32 = 1.2;
/// Sharing a place starts at this distance from the nearest team-mate with 0, and rises evenly to 1 over
/// [`SHARED_WIDTH_M`] nearer, m. (common practice, no source)
pub const SHARED_WITHIN_M: f32 = 2.2;
/// Width over which sharing a place rises from 0 to 1, from [`SHARED_WITHIN_M`] inward, m. (assumed)
pub const SHARED_WIDTH_M: f32 = 1.0;
/// What sharing a place fully (1) costs, points. (assumed)
pub const SHARED_COST_POINTS: f32 = 2.5;
/// What each metre off the place where the ball wants him costs, points/m. (assumed)
pub const OFF_SLIDE_POINTS_PER_M: f32 = 0.22;
/// Bonus of the place that he has already chosen over another, points. (assumed)
pub const STAYS_POINTS: f32 = 0.08;
/// Two steps that end nearer to one another than 0.1 m are the same; the constant is that distance squared, m2.
/// (assumed)
pub const SAME_STEP_M2: f32 = 0.01;

/// A post who posts up stands this far on the ball's side of his man, centre to centre, m. (assumed: bodies nearly
/// touching)
pub const POSTS_UP_BODY_M: f32 = 0.55;
/// A post goes no farther than this from his block to post up, and only while the ball is near enough to feed him, m.
/// (assumed: a step)
pub const POSTS_UP_M: f32 = 0.6;

/// A corner with a team-mate within this distance is filled, m. (common practice, no source)
pub const FILLED_M: f32 = 3.2;
/// Nobody runs farther than this to fill a place, m. (assumed: within two seconds)
pub const FILLS_WITHIN_M: f32 = 8.0;
/// The ball has gone over to the other side once it is this far beyond the middle of the floor, m; it is back at
/// [`BACK_WITHIN_X_M`]. (assumed)
pub const OVER_BEYOND_X_M: f32 = 3.4;
/// The ball is back from the other side once it is less than this far beyond the middle of the floor, m; it went over
/// at [`OVER_BEYOND_X_M`]. (assumed)
pub const BACK_WITHIN_X_M: f32 = 2.8;
/// A ball nearer to the rim than this is inside: the off guard fills the corner, m. (assumed)
pub const FILL_INSIDE_M: f32 = 4.6;
/// A home at least this far from the rim is a perimeter player's, m. (assumed)
pub const PERIMETER_M: f32 = 5.5;
/// A holder who comes at the rim faster than this drives, m/s: the same as for a defender who helps. (derived from
/// [`super::help::DRIVE_FROM_M_S`])
pub const DRIVEN_M_S: f32 = super::help::DRIVE_FROM_M_S;
/// A holder farther from the rim than this is not taken to drive, however fast he comes, m. (assumed)
pub const DRIVEN_WITHIN_M: f32 = 8.0;
/// A perimeter player whose home is nearer to a driver than this drifts, m. (assumed)
pub const DRIFTS_WITHIN_M: f32 = 7.0;

/// Distance along the arc from the ball at which a perimeter player is the next pass and slides nowhere, m. Nearer he
/// slides away from the ball, farther toward it. (common practice, no source)
pub const NEXT_PASS_M: f32 = 5.0;
/// How far a perimeter player slides: this share of his distance from the ball along the arc, times the excess of that
/// distance over [`NEXT_PASS_M`] in units of it, m/m. (assumed)
pub const SLIDE_SHARE: f32 = 0.4;
/// Longest slide either way, m. (assumed)
pub const SLIDE_MOST_M: f32 = 1.6;
