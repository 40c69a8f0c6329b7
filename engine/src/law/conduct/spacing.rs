//! Standing where one can be found: what a step about home is worth, corners filled, slides along the arc.
//!
//! The score of a step is in metres of room in the passing lane, or in points, which weigh alike.

/// Shortest time between two looks for a better place, s. (assumed)
pub const RESTLESS_LEAST_S: f32 = 0.6;
/// The longest is longer by so much, s. (assumed)
pub const RESTLESS_SPREAD_S: f32 = 0.6;
/// Nobody waits nearer to a line than this, m. (assumed)
pub const HOME_EDGE_M: f32 = 0.4;
/// Who is farther than this from his place looks where he goes instead of at the ball, m. (assumed)
pub const LOOKS_AT_WAY_M: f32 = 3.0;
/// Who is farther than this from his place jogs there, m. (assumed)
pub const JOGS_FROM_M: f32 = 2.5;
/// Speed of that, m/s. (assumed)
pub const JOGS_M_S: f32 = 4.5;
/// Nearer to it he steps: this fast at the place itself, m/s. (assumed)
pub const STEPS_M_S: f32 = 1.2;
/// And faster by so much for each metre from it, m/s per m. (assumed)
pub const STEPS_PER_M: f32 = 0.9;
/// So near his place he stands braced, m. (assumed)
pub const STANDS_M: f32 = 0.4;

/// A short step along the arc, m. (assumed)
pub const SHORT_STEP_M: f32 = 0.9;
/// A long one, m. (assumed)
pub const LONG_STEP_M: f32 = 1.7;
/// How far he steps in toward a gap, m. (assumed)
pub const STEP_IN_M: f32 = 0.9;
/// How far a man makes way for a team-mate who comes to his place, m. (assumed)
pub const MAKE_WAY_M: f32 = 2.6;
/// Nobody steps farther out than so far beyond the arc, m: there he draws no defender. (assumed)
pub const FAR_OUT_M: f32 = 1.6;

/// Most room in a passing lane that counts, m. (assumed)
pub const LANE_ROOM_MOST_M: f32 = 2.0;
/// A defender nearer to the ball than this share of the passing lane is the passer's concern. (assumed)
pub const LANE_SHARE_LEAST: f32 = 0.1;
/// What the receiver's own body is worth of room in the passing lane against a man behind him, m. (assumed)
pub const SHIELD_M: f32 = 0.6;
/// Most room about a place that counts, m. (assumed)
pub const PLACE_ROOM_MOST_M: f32 = 3.0;
/// What a metre of room about a place is worth. (assumed)
pub const PLACE_ROOM_WORTH: f32 = 0.35;
/// Room with which a shot from a place is weighed, m. (assumed)
pub const SHOT_ROOM_M: f32 = 1.5;
/// Nearer to a team-mate than this is crowding, the more the nearer, m. (common practice, no source)
pub const CROWDS_WITHIN_M: f32 = 4.5;
/// So much nearer it is full crowding, m. (assumed)
pub const CROWD_WIDTH_M: f32 = 3.0;
/// What full crowding costs. (assumed)
pub const CROWD_COST: f32 = 1.2;
/// Nearer to a team-mate than this two men share a place, m. (common practice, no source)
pub const SHARED_M: f32 = 2.2;
/// So much nearer they share it fully, m. (assumed)
pub const SHARED_WIDTH_M: f32 = 1.0;
/// What sharing a place fully costs. (assumed)
pub const SHARED_COST: f32 = 2.5;
/// What a metre off the place where the ball wants him costs. (assumed)
pub const OFF_SLIDE_PER_M: f32 = 0.22;
/// What staying where he is is worth. (assumed)
pub const STAYS_WORTH: f32 = 0.08;
/// Two steps this near one another are the same, m2. (assumed: a tenth of a metre)
pub const SAME_STEP_M2: f32 = 0.01;

/// A post who posts up stands so far on the ball's side of his man, centre to centre, m. (assumed: bodies nearly touching)
pub const POSTS_UP_BODY_M: f32 = 0.55;
/// He goes so far from home for it, m, while the ball is so near that it can be fed. (assumed)
pub const POSTS_UP_M: f32 = 1.8;

/// A corner with a team-mate within this distance is filled, m. (common practice, no source)
pub const FILLED_M: f32 = 3.2;
/// The ball has gone over to the other side when it is this far beyond the middle, m. (assumed)
pub const OVER_M: f32 = 3.4;
/// It is back when it is not so far beyond the middle, m. (assumed)
pub const BACK_M: f32 = 2.8;
/// A ball nearer to the rim than this is inside: the off guard fills the corner, m. (assumed)
pub const FILL_INSIDE_M: f32 = 4.6;
/// A home at least this far from the rim is a perimeter player's, m. (assumed)
pub const PERIMETER_M: f32 = 5.5;
/// A holder who comes at the rim at this speed drives, m/s. (assumed)
pub const DRIVEN_M_S: f32 = 2.0;
/// He does so from within this distance of the rim, m. (assumed)
pub const DRIVEN_WITHIN_M: f32 = 8.0;
/// Who is this far from a driver drifts, m. (assumed)
pub const DRIFT_FROM_M: f32 = 7.0;

/// So far from the ball along the arc a perimeter player is the next pass, m. (common practice, no source)
pub const NEXT_PASS_M: f32 = 5.0;
/// He makes up this share of what is amiss. (assumed)
pub const SLIDE_SHARE: f32 = 0.4;
/// He slides at most so far, m. (assumed)
pub const SLIDE_MOST_M: f32 = 1.6;
