//! What players hold against an option beside its worth: a hasty shot from outside, a ball that stays in one man's
//! hands. Matters of taste and teaching: they lower an option's worth in the choice only.

use super::drive::POST_M;
use crate::decide::View;
use crate::decide::value::Prospect;
use crate::law::shot::WIDE_OPEN_M;
use crate::math::{Vec2, clamp};

/// With less than this on the shot clock a contested shot will do, s. (common practice, no source)
const LATE_S: f32 = 8.0;
/// With so much more than that any shot from outside has to be a good one, s. (assumed)
const EARLY_S: f32 = 6.0;
/// A defender no farther than this is as near as any, m. (assumed)
const NEAR_M: f32 = 0.9;
/// From here on a defender's hand comes into the shooter's face, and is there so much nearer, m; it is held against an
/// early shot so many times as much again as a defender near by. (assumed)
const HAND_UP_M: f32 = 1.4;
const HAND_UP_WIDTH_M: f32 = 0.25;
const IN_FACE: f32 = 1.5;
/// An early shot is brought down again where a defender gets nearer than this, m, and so much nearer than he was
/// expected, m. (assumed)
const SPOILT_M: f32 = 1.25;
const CLOSER_M: f32 = 0.2;
/// A ball that stays longer than this in one man's hands is held against him, s, by so much a second, points, up to so
/// much. (assumed; players are taught to have moved it by then, common practice, no source)
const STICKS_S: f32 = 2.0;
const STICKS_POINTS_PER_S: f32 = 0.15;
const STICKS_MOST_POINTS: f32 = 0.45;

/// What is held against a shot from `here` with `left_s` on the shot clock, points: the more so the nearer a hand is.
pub fn hasty(view: &View<'_>, here: Vec2, shot: &Prospect, left_s: f32) -> f32 {
    if here.len() <= POST_M {
        return 0.0;
    }
    let setup = &view.given.setup;
    let near = clamp((WIDE_OPEN_M - shot.space_m) / (WIDE_OPEN_M - NEAR_M), 0.0, 1.0);
    let in_face = clamp((HAND_UP_M - shot.space_m) / HAND_UP_WIDTH_M, 0.0, 1.0);
    let early = clamp((left_s - LATE_S) / EARLY_S, 0.0, 1.0);
    let contested = setup.attack.habits.contested_cost_points * (near + IN_FACE * in_face);
    (setup.attackers.head.patience_points + contested) * early
}

/// Whether a shot from `here` that promised so much space has lost what was good about it, with time for a better one.
pub fn spoilt(here: Vec2, space_m: f32, promised_m: f32, left_s: f32) -> bool {
    let early = here.len() > POST_M && left_s > LATE_S + EARLY_S;
    early && space_m < SPOILT_M && space_m < promised_m - CLOSER_M
}

/// What is held against keeping a ball that he has had at his place for so long, points.
pub fn sticks(held_s: f32) -> f32 {
    clamp((held_s - STICKS_S) * STICKS_POINTS_PER_S, 0.0, STICKS_MOST_POINTS)
}
