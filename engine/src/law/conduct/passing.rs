//! Which passes a player would think of, and when one is pulled back.

/// A receiver not seen for longer than this is not thrown to, s. (assumed)
pub const RECEIVER_SEEN_WITHIN_S: f32 = 1.2;
/// A pass is pulled back when its believed chance has fallen by this much before it left the hands, as a difference of
/// chances. (assumed)
pub const PULLED_BACK_FALL: f32 = 0.28;
/// What is taken to be left until the release of a pass that is already on its way out of the hands, s. (assumed)
pub const LEFT_OF_RELEASE_S: f32 = 0.1;

/// Shorter than this nobody throws a chest or bounce pass, m. (assumed)
pub const SHORTEST_PASS_M: f32 = 1.2;
/// Longest bounce pass, m. (assumed)
pub const LONGEST_BOUNCE_M: f32 = 6.0;
/// A bounce pass goes to a man no farther from the rim than this, m. (assumed)
pub const BOUNCE_ENDS_WITHIN_M: f32 = 6.5;

/// A pass that ends nearer to the rim than this (lane about the rim, short corner) is a feed, and goes overhead, m.
/// (common practice, no source)
pub const FEED_ENDS_WITHIN_M: f32 = 4.2;
/// Longest feed, m. (common practice, no source: from the wing, the corner or the high post)
pub const FEED_M: f32 = 6.5;
/// Longest overhead pass that is no feed, m. (assumed)
pub const LONGEST_OVERHEAD_M: f32 = 14.0;
/// An overhead pass that ends nearer to the rim than this goes over the front line into the middle, m. (assumed)
pub const OVERHEAD_MIDDLE_M: f32 = 5.0;
/// Shortest overhead pass into the middle, m. (assumed)
pub const SHORTEST_OVERHEAD_IN_M: f32 = 4.0;
/// Shortest overhead pass that stays outside, m; round the perimeter the chest pass is the quicker. (assumed)
pub const SHORTEST_OVERHEAD_M: f32 = 5.8;

/// Shortest lob, m. (common practice, no source)
pub const SHORTEST_LOB_M: f32 = 3.5;
/// Longest lob, m. (assumed)
pub const LONGEST_LOB_M: f32 = 7.0;
/// A lob comes down no farther from the rim than this, m. (assumed)
pub const LOB_ENDS_WITHIN_M: f32 = 4.0;
/// A lob comes down no farther behind the rim than this (y), m. (assumed)
pub const LOB_ENDS_FROM_Y_M: f32 = -0.4;
/// Nobody throws a lob from nearer to the rim than this, m. (assumed)
pub const LOB_FROM_M: f32 = 3.0;
/// Nobody throws a lob to a man who walks away faster than this, m/s. (assumed)
pub const WALKS_AWAY_M_S: f32 = 1.5;
/// A receiver is fronted by a defender nearer to him than this, m (arm's length), and within the angle of
/// [`FRONTED_COS2`]. (assumed)
pub const FRONTED_WITHIN_M: f32 = 0.9;
/// Largest angle at the receiver between the way back to the passer and the way to a defender who fronts him, 45
/// degrees, as the square of its cosine; a pure number. (assumed)
pub const FRONTED_COS2: f32 = 0.5;
