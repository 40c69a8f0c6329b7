//! Going round bodies: a player steers past those whom he believes in his way. A body he has not seen is not
//! avoided, so a blind screen hits.

use super::Scene;
use crate::components::{Belief, Wishes};
use crate::lanes::PLAYERS;
use crate::math::{Vec2, vec2};

/// How far ahead a player looks for bodies in his way, m. (assumed)
const AHEAD_M: f32 = 1.7;
/// Room that he leaves beyond the two bodies' radii, m. (assumed)
const ROOM_M: f32 = 0.10;
/// What is believed longer than this ago is not steered round, s. (assumed)
const FRESH_S: f32 = 0.7;

/// Turns a wish aside where a believed body stands in the way.
pub fn steer_round(scene: &Scene<'_>, lane: usize, mind: &Belief, wishes: &mut Wishes) {
    let here = scene.bodies.at(lane);
    let to = vec2(wishes.wish.tx[lane], wishes.wish.ty[lane]);
    let way = to - here;
    let length = way.len();
    if length < 0.8 {
        return;
    }
    let u = way * (1.0 / length);
    let mut first = (AHEAD_M, 0.0, Vec2::RIM, 0.0);
    for other in 0..PLAYERS {
        if other == lane || mind.age[other] > FRESH_S {
            continue;
        }
        let off = mind.at(other) - here;
        let along = off.dot(u);
        let beside = u.cross(off);
        let clear = scene.traits.radius[lane] + scene.traits.radius[other] + ROOM_M;
        // One who stands where he is going is not in the way: he is the reason for going.
        if along > 0.2 && along < first.0 && along < length - 0.3 && beside < clear && beside > -clear {
            first = (along, beside, mind.at(other), clear);
        }
    }
    let (along, beside, at, clear) = first;
    if along >= AHEAD_M || clear <= ROOM_M {
        return;
    }
    // Past him on the side that is nearer; dead ahead, on the possession's side.
    let sign = if beside > 0.0 || (beside == 0.0 && scene.side > 0.0) { -1.0 } else { 1.0 };
    let past = at + u.quarter() * (sign * clear);
    wishes.wish.tx[lane] = past.x;
    wishes.wish.ty[lane] = past.y;
    wishes.wish.through[lane] = 1.0;
}
