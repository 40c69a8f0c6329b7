//! What a player sees: others as they were one reaction ago, within his field of view.
//!
//! In sharp sight a player is followed; in the outer field he is followed only while noticed; a body within
//! arm's length is felt. Whoever is not seen is carried on from the last look with a velocity that dies away.
//! Known limit: bodies in between do not hide anyone.

use super::Scene;
use crate::law::conduct::attention::FELT_M;
use crate::slots::{BALL, ROW, Row, Slot};
use crate::state::{Belief, History};

/// `a` where the mask is all ones, `b` where it is 0: a choice by bits, which cannot become a branch.
#[inline]
fn pick(mask: u32, a: f32, b: f32) -> f32 {
    f32::from_bits((a.to_bits() & mask) | (b.to_bits() & !mask))
}

/// All ones for true.
#[inline]
fn mask(yes: bool) -> u32 {
    u32::from(yes).wrapping_neg()
}

/// So many whole steps back a delay reaches into the history, and what share of a step beyond.
fn steps_back(delay_s: f32, step_s: f32) -> (usize, f32) {
    let steps = delay_s / step_s;
    let most = (History::LENGTH - 2) as f32;
    let steps = if steps > most { most } else { steps };
    let back = steps as usize;
    (back, steps - back as f32)
}

/// At each decision of an attacker: which way those whom he sees were turned, no less than one reaction ago. It is read when he decides,
/// so it need not be kept up in between.
pub fn see_turns(scene: &Scene<'_>, slot: Slot, mind: &mut Belief) {
    let delay = if scene.knows_all(slot) { 0.0 } else { scene.traits.reaction[slot] };
    let sample = scene.history.ago(steps_back(delay, scene.given.setup.step_s).0 + 1);
    for other in 0..ROW {
        let m = mask(mind.age[other] <= delay);
        mind.fx[other] = pick(m, sample.fx[other], mind.fx[other]);
        mind.fy[other] = pick(m, sample.fy[other], mind.fy[other]);
    }
}

/// Updates one player's beliefs of all the others. Branch-free over the entries of a row.
pub fn see(scene: &Scene<'_>, slot: Slot, mind: &mut Belief) {
    let dt = scene.given.setup.step_s;
    let head = &scene.given.player(slot).head;
    let all = scene.knows_all(slot);
    let delay = if all { 0.0 } else { scene.traits.reaction[slot] };
    let (back, part) = steps_back(delay, dt);
    let (newer, older) = (scene.history.ago(back), scene.history.ago(back + 1));
    let here = scene.bodies.at(slot);
    let (gx, gy) = (mind.gaze.x, mind.gaze.y);
    let sharp = head.sharp_cos * head.sharp_cos;
    let whole = head.whole_cos * head.whole_cos;
    let wide = mask(head.whole_cos < 0.0);
    let everything = mask(all);
    let fade = 1.0 - dt / head.memory_s;
    let fade = if fade > 0.0 { fade } else { 0.0 };

    // A delay is read by interpolation between two samples.
    let between = |newer: &Row, older: &Row| -> Row {
        core::array::from_fn(|other| newer[other] + (older[other] - newer[other]) * part)
    };
    let x = between(&newer.x, &older.x);
    let y = between(&newer.y, &older.y);
    let noticed = mind.noticed;
    let mut seen = [0_u32; ROW];
    for other in 0..ROW {
        let (rx, ry) = (x[other] - here.x, y[other] - here.y);
        let d2 = rx * rx + ry * ry;
        let dot = rx * gx + ry * gy;
        let dot2 = dot * dot;
        let in_sharp = mask(dot > 0.0) & mask(dot2 >= sharp * d2);
        // Beyond 90 degrees to either side all that lies ahead is in the field, and some behind; else only
        // what lies ahead and near enough to the gaze.
        let ahead = mask(dot >= 0.0);
        let in_whole =
            (wide & (ahead | mask(dot2 <= whole * d2))) | (!wide & ahead & mask(dot2 >= whole * d2));
        let felt = mask(d2 < FELT_M * FELT_M);
        seen[other] = in_sharp | felt | (in_whole & mask(noticed[other] > 0.0)) | everything;
    }
    let (vx, vy) = (between(&newer.vx, &older.vx), between(&newer.vy, &older.vy));
    // Copied out: the compiler then knows that no store below can change a load, and does four entries at once.
    let (ox, oy, ovx, ovy, age) = (mind.x, mind.y, mind.vx, mind.vy, mind.age);
    for other in 0..ROW {
        let m = seen[other];
        mind.x[other] = pick(m, x[other], ox[other] + ovx[other] * dt);
        mind.y[other] = pick(m, y[other], oy[other] + ovy[other] * dt);
        mind.vx[other] = pick(m, vx[other], ovx[other] * fade);
        mind.vy[other] = pick(m, vy[other], ovy[other] * fade);
        mind.age[other] = pick(m, delay, age[other] + dt);
    }
    mind.sees_ball = mind.age[BALL] <= delay;
}
