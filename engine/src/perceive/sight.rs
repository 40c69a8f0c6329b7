//! What a player sees: others as they were one reaction ago, within his field of view.
//!
//! In sharp sight a player is followed; in the outer field he is followed only while noticed; a body within
//! arm's length is felt. Whoever is not seen is carried on from the last look with a velocity that dies away.
//! Known limit: bodies in between do not hide anyone.

use super::Scene;
use crate::components::{Belief, History};
use crate::lanes::LANES;

/// Distance at which a body is felt rather than seen, m. (assumed)
const FELT_M: f32 = 0.8;

/// Updates one player's beliefs of all the others. Branch-free over the lanes.
pub fn see(scene: &Scene<'_>, lane: usize, mind: &mut Belief) {
    let dt = scene.given.setup.step_s;
    let head = &scene.given.team(lane).head;
    let all = scene.knows_all(lane);
    let delay = if all { 0.0 } else { scene.traits.reaction[lane] };
    let steps = delay / 0.05;
    let most = (History::LENGTH - 2) as f32;
    let steps = if steps > most { most } else { steps };
    let back = steps as usize;
    let part = steps - back as f32;
    let length = History::LENGTH;
    let newer = &scene.history.ring[(scene.history.newest + length - back) % length];
    let older = &scene.history.ring[(scene.history.newest + length - back - 1) % length];
    let here = scene.bodies.at(lane);
    let (gx, gy) = (mind.gaze.x, mind.gaze.y);
    let sharp = head.sharp_cos * head.sharp_cos;
    let whole = head.whole_cos * head.whole_cos;
    let everything = if all { 1.0_f32 } else { 0.0 };
    let fade = 1.0 - dt / head.memory_s;
    let fade = if fade > 0.0 { fade } else { 0.0 };
    for other in 0..LANES {
        let x = newer.x[other] + (older.x[other] - newer.x[other]) * part;
        let y = newer.y[other] + (older.y[other] - newer.y[other]) * part;
        let vx = newer.vx[other] + (older.vx[other] - newer.vx[other]) * part;
        let vy = newer.vy[other] + (older.vy[other] - newer.vy[other]) * part;
        let (rx, ry) = (x - here.x, y - here.y);
        let d2 = rx * rx + ry * ry;
        let dot = rx * gx + ry * gy;
        let dot2 = dot * dot;
        let in_sharp = (dot > 0.0) & (dot2 >= sharp * d2);
        // Half angles of the whole field lie beyond 90 degrees: its cosine is negative.
        let in_whole = (dot >= 0.0) | (dot2 <= whole * d2);
        let felt = d2 < FELT_M * FELT_M;
        let seen = in_sharp | felt | (in_whole & (mind.noticed[other] > 0.0)) | (everything > 0.0);
        let (ox, oy) = (mind.x[other] + mind.vx[other] * dt, mind.y[other] + mind.vy[other] * dt);
        let (ovx, ovy) = (mind.vx[other] * fade, mind.vy[other] * fade);
        let aged = mind.age[other] + dt;
        mind.x[other] = if seen { x } else { ox };
        mind.y[other] = if seen { y } else { oy };
        mind.vx[other] = if seen { vx } else { ovx };
        mind.vy[other] = if seen { vy } else { ovy };
        mind.age[other] = if seen { delay } else { aged };
    }
    mind.sees_ball = mind.age[crate::lanes::BALL] <= delay;
}
