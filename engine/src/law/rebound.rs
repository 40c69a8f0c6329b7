//! A missed shot: where it comes down and when, and how soon a player is at it.
//!
//! From memory, tracking has mean distances of 1.5 to 2 m for close shots and of 2.5 to 3 m for threes. Here it is 1.8 and
//! 2.6 m where the board is not in the way; with what comes back off it 1.5 and 2.1 m.

use crate::math::{Vec2, max, min, to_segment, vec2};
use crate::setup::Court;

/// Share of misses that come down on the far side of the rim from the shooter. (assumed: corner threes fall on the far
/// block about five times as often as on the near one, other shots less so)
pub const FAR_SIDE_SHARE: f32 = 0.62;
/// From nearer than this a miss falls on either side alike, m. (assumed)
pub const EITHER_SIDE_WITHIN_M: f32 = 3.05;
/// How far a miss strays from the straight way on, standard deviation of the tangent. (assumed)
pub const STRAYS: f32 = 0.75;

/// Mean distance at which a shot from the rim itself comes down, m. (assumed)
const MEAN_M: f32 = 1.5;
/// A miss comes down farther by this much for each metre of the shot, m/m. (assumed)
const MEAN_M_PER_M: f32 = 0.16;
/// Shots from beyond this distance come down no farther, m. (assumed)
const LONGEST_SHOT_M: f32 = 8.0;
/// Standard deviation of the distance at which a miss comes down, as a share of its mean. (assumed)
const SPREAD_SHARE: f32 = 0.4;
/// No miss comes down nearer to the rim's centre than this, m. (assumed)
const NEAREST_M: f32 = 0.4;
/// What comes down is had at least this far inside the lines, m. (assumed)
pub const INSIDE_LINES_M: f32 = 0.2;

/// A miss comes down no sooner than this after it was at the rim, s. (assumed)
pub const UP_S: f32 = 0.5;
/// A miss stays up longer by this much for each metre from the rim to where it comes down, s/m. (assumed)
pub const UP_S_PER_M: f32 = 0.1;

/// Distance of the ball's centre from the board's face as it comes off it: the ball's radius, m. (source: rule books,
/// circumference 0.76 m)
const OFF_BOARD_FACE_M: f32 = 0.121;
/// Speed kept off the backboard, as a share. (from memory: rim and board 0.5-0.7)
const BOARD_RESTITUTION: f32 = 0.6;

/// Who is farther than this from where it comes down is out of the race, m. (assumed)
pub const RACE_WITHIN_M: f32 = 4.0;
/// Speed at which a player closes the last steps and goes up, m/s. (assumed)
const LAST_STEPS_M_S: f32 = 3.5;
/// A ball within this distance is within reach of a man of the mean standing reach, m. (from memory: tracking counts a
/// chance at a rebound within 3.5 ft)
const REACH_M: f32 = 1.07;
/// Standing reach of the man for whom [`REACH_M`] holds, m. (assumed)
const MEAN_STANDING_REACH_M: f32 = 2.4;
/// Reach toward a rebound gained for each metre of standing reach, m/m. (assumed)
const REACH_PER_STANDING_M: f32 = 0.5;
/// Standard deviation of the race to the ball, s. (assumed)
pub const RACE_SPREAD_S: f32 = 0.16;
/// What an opponent's body in the way costs, s. (assumed)
const BOXED_OUT_S: f32 = 0.25;
/// An opponent boxes out who is nearer than this to the straight way to the ball, m: two torsos. (assumed)
const BOXES_OUT_M: f32 = 0.46;
/// An opponent boxes out only from this share of the way to the ball on: beside or behind his man he is in nobody's
/// way. (assumed)
const BOXES_OUT_FROM_SHARE: f32 = 0.05;

/// How far from the rim misses of shots from `shot_m` come down on average, the board aside, m.
pub fn mean_distance_m(shot_m: f32) -> f32 {
    MEAN_M + MEAN_M_PER_M * min(shot_m, LONGEST_SHOT_M)
}

/// How far from the rim a miss of a shot from `shot_m` comes down, m; `deviates` is a standard normal draw.
pub fn distance_m(shot_m: f32, deviates: f32) -> f32 {
    max(mean_distance_m(shot_m) * (1.0 + SPREAD_SHARE * deviates), NEAREST_M)
}

/// What would fall behind the backboard comes back off it; past its edge it goes on.
pub fn off_the_board(court: &Court, down: Vec2) -> Vec2 {
    let face = court.markings.board_y_m + OFF_BOARD_FACE_M;
    if down.y >= face {
        return down;
    }
    let at_face = down.x * (face / down.y);
    if max(at_face, -at_face) > 0.5 * court.markings.board_width_m {
        return down;
    }
    vec2(down.x, face + BOARD_RESTITUTION * (face - down.y))
}

/// Time that a player `off_m` away from where the ball comes down needs to it, s.
pub fn race_s(off_m: f32, standing_reach_m: f32, boxed_out: bool) -> f32 {
    let reach = REACH_M + (standing_reach_m - MEAN_STANDING_REACH_M) * REACH_PER_STANDING_M;
    max(off_m - reach, 0.0) / LAST_STEPS_M_S + if boxed_out { BOXED_OUT_S } else { 0.0 }
}

/// Whether an opponent at `opponent` keeps a player at `from` off a ball that comes down at `down`.
pub fn boxes_out(opponent: Vec2, from: Vec2, down: Vec2) -> bool {
    let (beside, along) = to_segment(opponent, from, down);
    along > BOXES_OUT_FROM_SHARE && beside < BOXES_OUT_M && opponent.distance(down) < from.distance(down)
}
