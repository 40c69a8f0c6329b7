//! Driving: whether a way to the rim is open, as the ball-handler believes, and where it leads.
//!
//! Where a team-mate stands beside the man on the ball there is one more way: past the screener's far shoulder. A
//! defender whose straight way to the drive is barred by a team-mate's body needs longer, as the driver sees it; in
//! truth he runs round that body, or into it.

use crate::decide::{View, nearest_defender};
use crate::law::floor::side_of;
use crate::math::{Vec2, logistic, max, to_segment, vec2};
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::{Belief, Way};

/// The three lines of a drive: past the rim's near side, at it, past its far side.
pub const WAYS: [Way; 3] = [Way::Straight, Way::RoverSide, Way::OtherSide];

/// Within this distance of the rim a drive is a post move: to the rim's side by a turn either way, m.
pub const POST_M: f32 = 3.6;

/// A screen is set this near to the man on the ball, who is this near to the ball, m. (assumed)
const SCREEN_M: f32 = 1.2;
const ON_BALL_M: f32 = 2.2;
/// How far outside of the screener the driver turns the corner, m. (assumed)
const SHOULDER_M: f32 = 0.65;
/// Once so near to the corner that he turns, a driver goes for the rim, m. (assumed)
const TURNED_M: f32 = 0.7;
/// A defender no farther than this and no more than 37 degrees off the way stands squarely in it, m. (assumed)
const STRIDE_M: f32 = 1.4;
const SQUARE_COS: f32 = 0.8;
/// Who comes at the driver faster than this does not stand in his way, m/s. (assumed)
const STANDS_M_S: f32 = 1.5;
/// What a body squarely in the way costs a defender, s. (assumed: between the 0.15 s that a blind screen costs at
/// least and a full stop and start)
const BARRED_S: f32 = 0.5;

/// A way to the rim ends no farther back than this, m: in front of the board's face by a shoulder. (assumed)
pub const FRONT_Y_M: f32 = -0.2;
/// Where a move along the baseline ends on its own side of the rim, m: at arm's length.
const BESIDE_M: f32 = 0.98;
/// Where a reverse lay-up ends, under the board and out on the other side, m. (assumed)
const REVERSE_X_M: f32 = 0.9;
const REVERSE_Y_M: f32 = 0.1;

/// Where a drive on a way ends, m: past the rim's sides from outside; from the post at arm's length of the
/// rim, straight or turned by half a right angle toward the baseline or the middle. What would end behind the board
/// ends in front of it, on the near side, or by a reverse on the far one.
pub fn goal(side: f32, here: Vec2, way: Way) -> Vec2 {
    if here.len2() < POST_M * POST_M {
        let out = here.unit_or(vec2(0.0, 1.0));
        let turned = (out + out.quarter() * (0.8 * way.lateral() * side)).unit_or(out);
        if turned.y >= FRONT_Y_M {
            return turned;
        }
        let sign = side_of(here, side);
        let crosses = (turned.x - out.x) * sign < 0.0;
        return if crosses {
            vec2(-sign * REVERSE_X_M, REVERSE_Y_M)
        } else {
            vec2(sign * BESIDE_M, FRONT_Y_M)
        };
    }
    vec2(way.lateral() * side, 0.55)
}

/// Where a driver off a screen turns the corner, m: beside the screener, on the side away from the man on the ball.
pub fn corner(view: &View<'_>) -> Option<Vec2> {
    let here = view.me.at;
    let (guard, off) = nearest_defender(view.mind, here);
    if here.len() < POST_M || off > ON_BALL_M {
        return None;
    }
    let guard = view.mind.at(guard);
    let rim = (Vec2::RIM - here).unit_or(vec2(0.0, -1.0));
    let mut best = (SCREEN_M, None);
    for mate in ATTACK {
        let at = view.mind.at(mate);
        let beside = at - guard;
        let near = beside.len();
        let radii = view.radius_m(view.me.slot) + view.radius_m(mate);
        // A body that takes up room, standing, no farther from the rim than the ball.
        if mate != view.me.slot
            && radii > 0.0
            && near < best.0
            && view.mind.velocity(mate).len2() < 1.0
            && (at - here).dot(rim) > -0.3
        {
            let across = beside - rim * beside.dot(rim);
            best = (near, Some(at + across.unit_or(rim.quarter() * view.side) * SHOULDER_M));
        }
    }
    best.1
}

/// Whether a driver on his way past a screener has turned the corner.
pub fn turned(here: Vec2, corner: Vec2) -> bool {
    here.distance(corner) < TURNED_M || here.len() < corner.len()
}

/// What team-mates' bodies in a defender's straight way cost him, as the driver believes, s.
fn barred(view: &View<'_>, defender: Slot, to: Vec2) -> f32 {
    let from = view.mind.at(defender);
    let mut cost = 0.0;
    for mate in ATTACK {
        let clear = view.radius_m(mate) + view.radius_m(defender);
        if mate == view.me.slot || clear <= 0.0 {
            continue;
        }
        let (off, share) = to_segment(view.mind.at(mate), from, to);
        if share > 0.0 && share < 1.0 && off < clear {
            cost = max(cost, BARRED_S * (1.0 - off / clear));
        }
    }
    cost
}

/// Chance that the driver gets there, judged by every defender's race to his way.
pub fn chance(view: &View<'_>, way: Way) -> f32 {
    let here = view.me.at;
    leg_chance(view, (here, goal(view.side, here, way)), 0.0)
}

/// Chance that he gets round the corner and on to the rim, m.
pub fn chance_round(view: &View<'_>, corner: Vec2) -> f32 {
    let here = view.me.at;
    let body = &view.given.setup.attackers.body;
    let first = here.distance(corner) / (0.55 * body.sprint_m_s * body.dribble_share);
    let round = leg_chance(view, (here, corner), 0.0);
    round * leg_chance(view, (corner, goal(view.side, corner, Way::Straight)), first)
}

/// Chance that he gets along one straight leg that he begins in `later_s`.
fn leg_chance(view: &View<'_>, (here, to): (Vec2, Vec2), later_s: f32) -> f32 {
    let length = here.distance(to);
    let body = &view.given.setup.attackers.body;
    let speed = max(view.me.velocity.dot((to - here).unit_or(vec2(0.0, -1.0))), 0.0);
    let top = body.sprint_m_s * body.dribble_share;
    let mut chance = 1.0;
    for slot in DEFENCE {
        let at = view.mind.at(slot);
        if (at - here).len2() > 64.0 {
            continue;
        }
        let (off, share) = to_segment(at, here, to);
        if share <= 0.0 && (at - here).dot(to - here) < 0.0 && later_s == 0.0 {
            // Behind him: he has been beaten.
            continue;
        }
        let way = max(share * length, 0.3);
        // Time to cover the way from the present speed, roughly half a time constant lost from rest.
        let mine = later_s + way / (0.55 * (top + speed)) + 0.15 * (1.0 - speed / max(top, 0.1));
        let there = here.toward(to, share);
        let theirs = if off < 0.55 {
            0.0
        } else {
            let free = view.given.arrival(slot).time_to(at, view.mind.velocity(slot), there, 0.6) + 0.2;
            // Only where it matters to the race.
            if free < mine + 0.3 { free + barred(view, slot, there) } else { free }
        };
        chance *= logistic((theirs - mine) / 0.15);
    }
    chance
}

/// The best way, its chance, and the value of a shot at its end if he gets there, points.
pub fn best(view: &View<'_>) -> (Way, f32) {
    let mut best = (Way::Straight, -1.0);
    for way in WAYS {
        let c = chance(view, way);
        if c > best.1 {
            best = (way, c);
        }
    }
    best
}

/// True where a defender stands squarely in the way to `to`, a stride off: nobody starts at him.
pub fn squarely(mind: &Belief, here: Vec2, to: Vec2) -> bool {
    let way = (to - here).unit_or(vec2(0.0, -1.0));
    DEFENCE.into_iter().any(|slot| {
        let off = mind.at(slot) - here;
        // One who comes out too fast to stop stands nowhere.
        let stands = -mind.velocity(slot).dot(off) < STANDS_M_S * off.len();
        stands && off.len2() < STRIDE_M * STRIDE_M && off.dot(way) > SQUARE_COS * off.len()
    })
}

/// True where a defender stands close in the way of a driver to `to`.
pub fn blocked(view: &View<'_>, to: Vec2) -> bool {
    let here = view.me.at;
    let way = (to - here).unit_or(vec2(0.0, -1.0));
    let slow = view.me.velocity.dot(way) < 1.2;
    slow && DEFENCE.into_iter().any(|slot| {
        let off = view.mind.at(slot) - here;
        off.dot(way) > 0.0 && off.len2() < 0.95 * 0.95
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From everywhere about the rim, on every way, on both sides: a way to the rim ends in front of the board, and
    /// left is right's mirror image.
    #[test]
    fn every_way_to_the_rim_ends_where_a_shot_exists() {
        for (x, y) in (-24..25).flat_map(|x| (-12..30).map(move |y| (x, y))) {
            let here = vec2(x as f32 * 0.125, y as f32 * 0.125);
            for way in WAYS {
                let to = goal(1.0, here, way);
                assert!(to.y >= FRONT_Y_M && to.len() < 1.2, "{here:?} by {way:?} to {to:?}");
                let mirrored = goal(-1.0, here.sided(-1.0), way);
                assert_eq!((to.x, to.y), (-mirrored.x, mirrored.y), "{here:?} by {way:?}");
            }
        }
    }

    #[test]
    fn from_the_short_corner_one_line_goes_under_the_board_to_the_other_side() {
        let ends = WAYS.map(|way| goal(1.0, vec2(2.4, -1.0), way).x);
        assert!(ends.iter().any(|x| *x < 0.0) && ends.iter().any(|x| *x > 0.0), "{ends:?}");
    }
}
