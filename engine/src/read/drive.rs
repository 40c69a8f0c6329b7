//! Driving: whether a way to the rim is open, as the ball-handler believes, and where it leads.

use super::Scene;
use crate::components::Belief;
use crate::lanes::DEFENCE;
use crate::math::{Vec2, logistic, max, to_segment, vec2};

/// The three lines of a drive: past the rim's near side, at it, past its far side.
pub const LINES: [f32; 3] = [0.0, 1.0, -1.0];

/// Within this distance of the rim a drive is a post move: to the rim's side by a turn either way, m.
pub const POST_M: f32 = 3.6;

/// Where a drive on a line ends, m: past the rim's sides from outside; from the post at arm's length of the
/// rim, straight or turned by half a right angle toward the baseline or the middle.
pub fn goal(side: f32, here: Vec2, line: f32) -> Vec2 {
    if here.len2() < POST_M * POST_M {
        let out = here.unit_or(vec2(0.0, 1.0));
        let turned = out + out.quarter() * (0.8 * line * side);
        return turned.unit_or(out) * 1.0;
    }
    vec2(line * 1.0 * side, 0.55)
}

/// Chance that the driver gets there, judged by every defender's race to his way.
pub fn chance(scene: &Scene<'_>, me: usize, mind: &Belief, line: f32) -> f32 {
    let here = scene.bodies.at(me);
    let to = goal(scene.side, here, line);
    let length = here.distance(to);
    let body = &scene.given.setup.attackers.body;
    let speed = max(scene.bodies.velocity(me).dot((to - here).unit_or(vec2(0.0, -1.0))), 0.0);
    let top = body.sprint_m_s * body.dribble_share;
    let mut chance = 1.0;
    for lane in DEFENCE {
        let at = mind.at(lane);
        if (at - here).len2() > 64.0 {
            continue;
        }
        let (off, share) = to_segment(at, here, to);
        if share <= 0.0 && (at - here).dot(to - here) < 0.0 {
            // Behind him: he has been beaten.
            continue;
        }
        let way = max(share * length, 0.3);
        // Time to cover the way from the present speed, roughly half a time constant lost from rest.
        let mine = way / (0.55 * (top + speed)) + 0.15 * (1.0 - speed / max(top, 0.1));
        let there = here.toward(to, share);
        let theirs = if off < 0.55 {
            0.0
        } else {
            scene.given.arrival(lane).time_to(at, mind.velocity(lane), there, 0.6) + 0.2
        };
        chance *= logistic((theirs - mine) / 0.15);
    }
    chance
}

/// The best line, its chance, and the value of a shot at its end if he gets there, points.
pub fn best(scene: &Scene<'_>, me: usize, mind: &Belief) -> (f32, f32) {
    let mut best = (0.0, -1.0);
    for line in LINES {
        let c = chance(scene, me, mind, line);
        if c > best.1 {
            best = (line, c);
        }
    }
    best
}

/// True where a defender stands in the driver's way, close.
pub fn blocked(scene: &Scene<'_>, me: usize, mind: &Belief, line: f32) -> bool {
    let here = scene.bodies.at(me);
    let way = (goal(scene.side, here, line) - here).unit_or(vec2(0.0, -1.0));
    let slow = scene.bodies.velocity(me).dot(way) < 1.2;
    slow && DEFENCE.into_iter().any(|lane| {
        let off = mind.at(lane) - here;
        off.dot(way) > 0.0 && off.len2() < 0.95 * 0.95
    })
}
