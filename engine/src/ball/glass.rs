//! A missed shot: where it comes down, and who gets it.

use super::control::{How, gain};
use super::{Play, share_in_step};
use crate::law::ball_height::of_rebound_m;
use crate::law::rebound::{
    EITHER_SIDE_WITHIN_M, FAR_SIDE_SHARE, INSIDE_LINES_M, RACE_SPREAD_S, RACE_WITHIN_M, STRAYS, UP_S,
    UP_S_PER_M, boxes_out, distance_m, off_the_board, race_s,
};
use crate::math::{Vec2, max, vec2};
use crate::random::Purpose;
use crate::record::Outcome;
use crate::slots::{ALL, Slot};
use crate::state::{BallEvent, BallState, Signal};

/// The shot leaves the rim.
pub fn bounce(c: &mut Play<'_>, by: Slot, shooter: Vec2, rim_s: f32) {
    let court = &c.given.setup.court;
    let shot_m = shooter.len();
    let away = (Vec2::RIM - shooter).unit_or(vec2(0.0, -1.0));
    let far_share = if shot_m < EITHER_SIDE_WITHIN_M { 0.5 } else { FAR_SIDE_SHARE };
    let far_side = c.streams.coin(by, Purpose::ReboundWay, far_share);
    let lateral = c.streams.normal(by, Purpose::ReboundWay) * STRAYS * c.side;
    let base = if far_side { away } else { away * -1.0 };
    let way = (base + base.quarter() * lateral).unit_or(base);
    let far_m = distance_m(shot_m, c.streams.normal(by, Purpose::ReboundFar));
    let down = court.inside(off_the_board(court, way * far_m), INSIDE_LINES_M);
    c.ball.state = BallState::Rebound { down, down_s: rim_s + UP_S + UP_S_PER_M * far_m };
    c.events.post(rim_s, BallEvent::Rebound { at: down });
}

/// One step of a rebound in the air.
pub fn step(c: &mut Play<'_>, down: Vec2, down_s: f32) {
    let now = c.clocks.now;
    let left = max(down_s - now, 0.0);
    let at = c.bodies.ball().toward(down, share_in_step(c, left));
    c.bodies.put_ball(at);
    c.ball.height = of_rebound_m(left);
    if down_s > now {
        return;
    }
    let by = first_to(c, down);
    if by.attacks() {
        c.clocks.first_chance = false;
        if c.clocks.shot_clock.is_finite() {
            c.clocks.shot_clock = c.given.setup.officials.shot_clock_rebound_s;
        }
        gain(c, by, down_s, 0.0, How::Rebound);
    } else {
        c.say(down_s, down, Signal::Rebound { by, offensive: false });
        c.ball.state = BallState::Dead;
        c.end(Outcome::Missed);
    }
}

/// Who wins the race to it: the nearest where nobody is near enough to race.
fn first_to(c: &mut Play<'_>, down: Vec2) -> Slot {
    let mut first = (f32::INFINITY, None);
    for slot in ALL {
        let here = c.bodies.at(slot);
        let off = here.distance(down);
        if off > RACE_WITHIN_M {
            continue;
        }
        let boxed_out = ALL
            .into_iter()
            .any(|other| other.attacks() != slot.attacks() && boxes_out(c.bodies.at(other), here, down));
        let chance = c.streams.normal(slot, Purpose::ReboundRace) * RACE_SPREAD_S;
        let time = race_s(off, c.traits.standing_reach[slot], boxed_out) + chance;
        if time < first.0 {
            first = (time, Some(slot));
        }
    }
    first.1.unwrap_or_else(|| nearest(c, down))
}

fn nearest(c: &Play<'_>, to: Vec2) -> Slot {
    let mut best = (f32::INFINITY, ALL[0]);
    for slot in ALL {
        let d = (c.bodies.at(slot) - to).len2();
        if d < best.0 {
            best = (d, slot);
        }
    }
    best.1
}
