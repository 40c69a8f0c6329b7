//! A pass as it is thrown and told apart: its error in direction, its least length, when it is a skip.

/// A pass has at least this length, m: from hands to hands. (assumed)
pub const SHORTEST_M: f32 = 0.3;
/// The error in direction is at most this many standard deviations. (assumed)
pub const WIDEST_ERROR_SD: f32 = 3.0;

/// A place is on the perimeter from so much inside the three-point line on, m. (by definition of the measures)
pub const PERIMETER_INSIDE_ARC_M: f32 = 0.9;
/// A pass from perimeter to perimeter of this length or more is a skip, a shorter one a swing, m. (by definition of the
/// measures)
pub const SKIP_FROM_M: f32 = 7.5;
