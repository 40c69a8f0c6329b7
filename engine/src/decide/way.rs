//! Going round bodies: a player steers past those whom he believes in his way. A body he has not seen is not
//! avoided, so a blind screen hits.

use super::View;
use crate::math::{min, vec2};
use crate::slots::{ALL, Row};
use crate::state::Wishes;

/// How far ahead a player looks for bodies in his way, m. (assumed)
const AHEAD_M: f32 = 1.7;
/// Room that he leaves beyond the two bodies' radii, m. (assumed)
const ROOM_M: f32 = 0.10;
/// What is believed longer than this ago is not steered round, s. (assumed)
const FRESH_S: f32 = 0.7;

/// Turns a wish aside where a believed body stands in the way.
pub fn steer_round(view: &View<'_>, wishes: &mut Wishes) {
    let here = view.me.at;
    let to = vec2(wishes.wish.tx[view.me.slot], wishes.wish.ty[view.me.slot]);
    let way = to - here;
    let length = way.len();
    if length < 0.8 {
        return;
    }
    let u = way * (1.0 / length);
    // How far along the way each believed body stands in it; beyond reach where it does not. Every place by the
    // same operations, so that four are done at once: nearly always nobody is in the way.
    let (radius, mine) = (view.radii_m(), view.radius_m(view.me.slot));
    let nearest = min(AHEAD_M, length - 0.3);
    let in_way: Row = core::array::from_fn(|other| {
        let lead = min(view.mind.age[other], 0.25);
        let x = view.mind.x[other] + view.mind.vx[other] * lead - here.x;
        let y = view.mind.y[other] + view.mind.vy[other] * lead - here.y;
        let (along, beside) = (x * u.x + y * u.y, u.x * y - u.y * x);
        let clear = mine + radius[other] + ROOM_M;
        // One who stands where he is going is not in the way: he is the reason for going.
        let blocks = (along > 0.2)
            & (along < nearest)
            & (beside < clear)
            & (beside > -clear)
            & (view.mind.age[other] <= FRESH_S);
        if blocks { along } else { AHEAD_M }
    });
    let mut first = (AHEAD_M, view.me.slot);
    for other in ALL {
        if in_way[other] < first.0 && other != view.me.slot {
            first = (in_way[other], other);
        }
    }
    let (along, other) = first;
    let clear = mine + radius[other] + ROOM_M;
    if along >= AHEAD_M || clear <= ROOM_M {
        return;
    }
    let at = view.mind.at(other);
    let beside = u.cross(at - here);
    // Past him on the side that is nearer; dead ahead, on the possession's side.
    let sign = if beside > 0.0 || (beside == 0.0 && view.side > 0.0) { -1.0 } else { 1.0 };
    let past = at + u.quarter() * (sign * clear);
    wishes.wish.tx[view.me.slot] = past.x;
    wishes.wish.ty[view.me.slot] = past.y;
    wishes.wish.through[view.me.slot] = 1.0;
}

/// Who would stop beyond a line by so much, m, braking from now on at this, m/s2, slows down to this, m/s. (assumed)
const OVER_M: f32 = 0.5;
const BRAKES_M_S2: f32 = 4.0;
const SLOWS_TO_M_S: f32 = 1.5;

/// Holds a player who runs out of the floor.
pub fn keep_in(view: &View<'_>, wishes: &mut Wishes) {
    let court = &view.given.setup.court;
    let velocity = view.me.velocity;
    let stops = view.me.at + velocity * (velocity.len() / (2.0 * BRAKES_M_S2));
    if (court.inside(stops, -OVER_M) - stops).len2() > 0.0 {
        wishes.wish.through[view.me.slot] = 0.0;
        wishes.wish.cap[view.me.slot] = min(wishes.wish.cap[view.me.slot], SLOWS_TO_M_S);
    }
}
