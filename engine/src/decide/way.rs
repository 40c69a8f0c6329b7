//! Going round bodies: a player steers past those whom he believes in his way. A body he has not seen is not
//! avoided, so a blind screen hits.

use super::intent::Intent;
use super::view::{Me, View};
use crate::law::conduct::attention::CARRIED_ON_S;
use crate::law::conduct::deciding::DECIDES_EVERY_S;
use crate::law::conduct::walking::*;
use crate::law::floor::FOOT_M;
use crate::math::{Vec2, max, min};
use crate::slots::{ALL, ROW, Slot, ZERO};

/// Turns an intent aside where a believed body stands in the way.
pub fn steer_round(view: &View<'_>, intent: &mut Intent<'_>) {
    let here = view.me.at;
    let way = intent.to() - here;
    let length = way.len();
    if length < STEER_SHORTEST_M {
        return;
    }
    let u = way * (1.0 / length);
    let Some(other) = first_in_way(view, u, min(LOOKS_AHEAD_M, length - STEER_END_M)) else { return };
    let bodies_m = view.radius_m(view.me.slot) + view.radius_m(other);
    if bodies_m <= 0.0 {
        // Nothing is in the way of nothing.
        return;
    }
    let clear = bodies_m + STEER_ROOM_M;
    let at = view.mind.at(other);
    let beside = u.cross(at - here);
    // Past him on the side that is nearer; dead ahead, on the possession's side.
    let sign = if beside > 0.0 || (beside == 0.0 && view.side > 0.0) { -1.0 } else { 1.0 };
    intent.turn_aside(at + u.quarter() * (sign * clear));
}

/// The first body believed in the way `u`, a unit vector, up to `nearest` metres from here.
fn first_in_way(view: &View<'_>, u: Vec2, nearest: f32) -> Option<Slot> {
    let (here, mind) = (view.me.at, view.mind);
    let (radius, mine) = (view.radii_m(), view.radius_m(view.me.slot));
    // How far along the way each believed body stands, and by how much it is out of the way, m. Every place by the
    // same operations without a choice, so that four are done at once: nearly always nobody is in the way.
    let (mut along, mut misses) = (ZERO, ZERO);
    for other in 0..ROW {
        let lead = min(mind.age[other], CARRIED_ON_S);
        let x = mind.x[other] + mind.vx[other] * lead - here.x;
        let y = mind.y[other] + mind.vy[other] * lead - here.y;
        let (ahead, beside) = (x * u.x + y * u.y, u.x * y - u.y * x);
        let clear = mine + radius[other] + STEER_ROOM_M;
        // One who stands where he is going is not in the way: he is the reason for going.
        let off_the_end = max(STEER_BESIDE_M - ahead, ahead - nearest);
        along[other] = ahead;
        misses[other] = max(max(beside, -beside) - clear, off_the_end);
    }
    let mut first = (LOOKS_AHEAD_M, None);
    for other in ALL {
        let in_way = misses[other] < 0.0 && mind.age[other] <= STEER_FRESH_S;
        if in_way && along[other] < first.0 && other != view.me.slot {
            first = (along[other], Some(other));
        }
    }
    first.1
}

/// Keeps a player on the floor: he goes nowhere outside, and stops where with his next decision he could not stop any
/// more before a foot is on the line that he runs at. Who is over a line comes back.
pub fn keep_in(view: &View<'_>, intent: &mut Intent<'_>) {
    let to = intent.to();
    let inside = view.given.setup.court.inside(to, LINE_CLEAR_M);
    if inside != to {
        intent.go_instead(inside);
    }
    if cannot_stop_later(view) {
        intent.slow_to(0.0);
    }
}

/// True where he has to brake now, or a foot gets on a line before he stands.
fn cannot_stop_later(view: &View<'_>) -> bool {
    let Me { at, velocity, slot, .. } = view.me;
    let body = &view.given.player(slot).body;
    // Swept across his way he brakes as he turns.
    let brakes = min(body.braking_m_s2, body.lateral_m_s2);
    // On the way to a standstill he gets by v / (2 brakes) times his speed toward the line nearer to it. Squared, which
    // spares a root: nearly always he is far away.
    let needs = |outward: f32, room: f32| {
        let has = 2.0 * brakes * max(room - outward * DECIDES_EVERY_S, 0.0);
        outward * outward * velocity.len2() > has * has
    };
    let room = view.given.setup.court.room(at, velocity, FOOT_M);
    needs(max(velocity.x, -velocity.x), room.x) || needs(max(velocity.y, -velocity.y), room.y)
}
