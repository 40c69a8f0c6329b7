//! How the man with the ball chooses: the noise in his judgement, how long it lasts, and the penalties that lower an
//! option's worth in the choice beside the points that it promises.

/// How long one stretch of thought lasts: for so long the same noise stands beside the same options, and a dribble at
/// a team-mate is carried through, s. (assumed)
pub const STRETCH_OF_THOUGHT_S: f32 = 0.8;
/// Mean of a standard Gumbel draw: Euler's constant. (by definition of the distribution)
pub const GUMBEL_MEAN: f32 = 0.577_215_7;
/// Largest noise beside an option, in units of the level's temperature: a player misjudges, he does not do just
/// anything once he has thought often enough. (assumed)
pub const LARGEST_NOISE: f32 = 2.2;
/// What is left to an attack that has lost its patience (there is no shot clock) of the worth of keeping the
/// possession going, as a share. (assumed)
pub const IMPATIENT_SHARE: f32 = 0.5;

/// The penalty on an early shot starts with 0 at this much left on the shot clock (with less any shot will do), and
/// rises evenly to the whole over [`EARLY_RISES_OVER_S`] more, s. (common practice, no source)
pub const SHOT_CLOCK_LATE_S: f32 = 8.0;
/// Width over which the penalty on an early shot rises from 0 to the whole, from [`SHOT_CLOCK_LATE_S`] up, s of the
/// shot clock. (assumed)
pub const EARLY_RISES_OVER_S: f32 = 6.0;

/// A defender so near at the release counts fully as near by in the penalty on a contested early shot, centre to
/// centre, m; from a wide-open distance in to here it rises evenly. (assumed)
pub const FULLY_CONTESTED_M: f32 = 0.9;
/// A hand in the shooter's face starts with a defender at this distance with 0, and rises evenly to 1 over
/// [`HAND_IN_FACE_RISES_OVER_M`] nearer, m. (assumed)
pub const HAND_IN_FACE_FROM_M: f32 = 1.4;
/// Width over which a hand in the face rises from 0 to 1, from [`HAND_IN_FACE_FROM_M`] inward, m. (assumed)
pub const HAND_IN_FACE_RISES_OVER_M: f32 = 0.25;
/// Penalty for a hand fully in the face, in units of the penalty for a defender fully near by, on top of it. (assumed)
pub const HAND_IN_FACE_WEIGHT: f32 = 1.5;

/// The penalty on keeping the ball starts with 0 once a player has had it at his place for this long, and grows by
/// [`KEPT_POINTS_PER_S`], s. (assumed; players are taught to have moved it by then, common practice, no source)
pub const KEPT_TOO_LONG_S: f32 = 2.0;
/// Growth of the penalty on keeping the ball with every second beyond [`KEPT_TOO_LONG_S`], up to [`KEPT_MOST_POINTS`],
/// points/s. (assumed)
pub const KEPT_POINTS_PER_S: f32 = 0.15;
/// Largest penalty on keeping the ball, points. (assumed)
pub const KEPT_MOST_POINTS: f32 = 0.45;

/// A guard reverses the ball at once: the habit's bonus on a pass to the other guard lasts for this long at his place,
/// s. (assumed)
pub const REVERSES_WITHIN_S: f32 = 1.2;
/// A pass that came from at least so far away and from farther out to the side brought the ball from the side, m.
/// (assumed)
pub const CAME_FROM_SIDE_M: f32 = 2.0;
