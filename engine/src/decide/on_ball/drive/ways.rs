//! Ways to the rim: where each one ends, the corner off a screen, and who stands in the way, as the driver believes.

use crate::decide::{View, nearest_defender};
use crate::law::conduct::deciding::DECIDES_EVERY_S;
use crate::law::conduct::driving::{
    BESIDE_RIM_M, BLOCKED_BELOW_M_S, BLOCKS_WITHIN_M, DRIVE_ENDS_Y_M, FARTHEST_BACK_Y_M, POST_MOVE_M,
    POST_TURN, REVERSE_X_M, REVERSE_Y_M, SCREENED_WITHIN_M, SCREENER_BEHIND_M, SCREENER_STANDS_M_S,
    SCREENS_WITHIN_M, SHOULDER_M, SQUARE_COS, STANDS_IN_WAY_BELOW_M_S, STRIDE_M, TURNED_WITHIN_M,
};
use crate::law::floor::side_of;
use crate::law::floor::way_to_rim;
use crate::law::officiating::SET_M_S;
use crate::math::{Vec2, max, vec2};
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::{Belief, Dribble, Way};

/// The three straight lines of a drive: at the rim, past its one side, past its other side.
pub const STRAIGHT_WAYS: [Way; 3] = [Way::Straight, Way::RoverSide, Way::OtherSide];

/// A way, with the corner that it turns if it is one off a screen, m.
#[derive(Clone, Copy, Debug)]
pub struct Route {
    pub way: Way,
    pub corner: Vec2,
}

impl Route {
    /// The route of a drive.
    pub fn of(dribble: &Dribble) -> Self {
        Self { way: dribble.way, corner: dribble.corner }
    }

    /// Where it leads from where the viewer is, m: to the corner first, else to where the way ends.
    pub fn leads_to(self, view: &View<'_>) -> Vec2 {
        if self.way == Way::OffScreen { self.corner } else { goal(view.side, view.me.at, self.way) }
    }
}

/// Where a drive on a way ends, m: past the rim's sides from outside; from the post at arm's length of the
/// rim, straight or turned toward the baseline or the middle. What would end behind the board ends in front of it, on
/// the near side, or by a reverse on the far one.
pub fn goal(side: f32, here: Vec2, way: Way) -> Vec2 {
    if here.len2() < POST_MOVE_M * POST_MOVE_M {
        let out = here.unit_or(vec2(0.0, 1.0));
        let turned = (out + out.quarter() * (POST_TURN * way.lateral() * side)).unit_or(out);
        if turned.y >= FARTHEST_BACK_Y_M {
            return turned;
        }
        let sign = side_of(here, side);
        let crosses = (turned.x - out.x) * sign < 0.0;
        return if crosses {
            vec2(-sign * REVERSE_X_M, REVERSE_Y_M)
        } else {
            vec2(sign * BESIDE_RIM_M, FARTHEST_BACK_Y_M)
        };
    }
    vec2(way.lateral() * side, DRIVE_ENDS_Y_M)
}

/// Where a driver off a screen turns the corner, m: beside the screener, on the side away from the man on the ball.
pub fn corner(view: &View<'_>) -> Option<Vec2> {
    let here = view.me.at;
    let (guard, off) = nearest_defender(view.mind, here);
    if here.len() < POST_MOVE_M || off > SCREENED_WITHIN_M {
        return None;
    }
    let guard = view.mind.at(guard);
    let rim = way_to_rim(here);
    let mut best = (SCREENS_WITHIN_M, None);
    for mate in ATTACK {
        let at = view.mind.at(mate);
        let beside = at - guard;
        let near = beside.len();
        let radii = view.radius_m(view.me.slot) + view.radius_m(mate);
        // A body that takes up room, standing, no farther from the rim than the ball.
        if mate != view.me.slot
            && radii > 0.0
            && near < best.0
            && view.mind.velocity(mate).len2() < SCREENER_STANDS_M_S * SCREENER_STANDS_M_S
            && (at - here).dot(rim) > SCREENER_BEHIND_M
        {
            let across = beside - rim * beside.dot(rim);
            best = (near, Some(at + across.unit_or(rim.quarter() * view.side) * SHOULDER_M));
        }
    }
    best.1
}

/// Whether a driver on his way past a screener has turned the corner.
pub fn turned(here: Vec2, corner: Vec2) -> bool {
    here.distance(corner) < TURNED_WITHIN_M || here.len() < corner.len()
}

/// True where a defender stands squarely in the way to `to`, a stride off: nobody starts at him.
pub fn squarely(mind: &Belief, here: Vec2, to: Vec2) -> bool {
    let way = (to - here).unit_or(vec2(0.0, -1.0));
    DEFENCE.into_iter().any(|slot| {
        let off = mind.at(slot) - here;
        // One who comes out too fast to stop stands nowhere.
        let stands = -mind.velocity(slot).dot(off) < STANDS_IN_WAY_BELOW_M_S * off.len();
        stands && off.len2() < STRIDE_M * STRIDE_M && off.dot(way) > SQUARE_COS * off.len()
    })
}

/// True where a defender bars a driver's way to `to`: close in front of one who has been slowed down, or standing in
/// the way of one who cannot stop before him later than now.
pub fn blocked(view: &View<'_>, to: Vec2) -> bool {
    let here = view.me.at;
    let way = (to - here).unit_or(vec2(0.0, -1.0));
    let speed = max(view.me.velocity.dot(way), 0.0);
    let stops_within = stopping_way(view, speed);
    DEFENCE.into_iter().any(|slot| {
        let off = view.mind.at(slot) - here;
        let ahead = off.dot(way);
        let close = speed < BLOCKED_BELOW_M_S && off.len2() < BLOCKS_WITHIN_M * BLOCKS_WITHIN_M;
        ahead > 0.0 && (close || bars(view, slot, (off, way), stops_within))
    })
}

/// How far a driver at this speed gets before he stands, who thinks of stopping one decision later, m.
fn stopping_way(view: &View<'_>, speed: f32) -> f32 {
    let body = &view.given.player(view.me.slot).body;
    speed * (DECIDES_EVERY_S + 0.5 * speed / body.braking_m_s2)
}

/// Whether a defender stands where the driver, `off` from him, would run into him within this way.
fn bars(view: &View<'_>, slot: Slot, (off, way): (Vec2, Vec2), stops_within: f32) -> bool {
    let bodies = view.radius_m(view.me.slot) + view.radius_m(slot);
    let stands = view.mind.velocity(slot).len2() < SET_M_S * SET_M_S;
    let beside = off - way * off.dot(way);
    stands && beside.len2() < bodies * bodies && off.dot(way) < bodies + stops_within
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
            for way in STRAIGHT_WAYS {
                let to = goal(1.0, here, way);
                assert!(to.y >= FARTHEST_BACK_Y_M && to.len() < 1.2, "{here:?} by {way:?} to {to:?}");
                let mirrored = goal(-1.0, here.sided(-1.0), way);
                assert_eq!((to.x, to.y), (-mirrored.x, mirrored.y), "{here:?} by {way:?}");
            }
        }
    }

    #[test]
    fn from_the_short_corner_one_line_goes_under_the_board_to_the_other_side() {
        let ends = STRAIGHT_WAYS.map(|way| goal(1.0, vec2(2.4, -1.0), way).x);
        assert!(ends.iter().any(|x| *x < 0.0) && ends.iter().any(|x| *x > 0.0), "{ends:?}");
    }
}
