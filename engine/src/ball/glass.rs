//! A missed shot: where it comes down, and who gets it.

use super::Court;
use super::control::{How, gain};
use crate::math::{Vec2, clamp, max, min, to_segment, vec2};
use crate::random::Purpose;
use crate::record::Outcome;
use crate::slots::{ALL, Slot};
use crate::state::{BallState, News, Signal};

/// Share of misses that come down on the far side of the rim from the shooter. Corner threes fall on the far
/// block about five times as often as on the near one; other shots less so.
const FAR_SIDE: f32 = 0.62;
/// From nearer than this a miss falls on either side alike, m. (assumed)
const CLOSE_M: f32 = 3.05;
/// Radius of the ball, m. (circumference 0.76 m)
const BALL_RADIUS_M: f32 = 0.121;
/// Speed kept off the backboard. (from memory: rim and board 0.5-0.7)
const BOARD_RESTITUTION: f32 = 0.6;
/// Speed at which a player closes the last steps and goes up, m/s. (assumed)
const LAST_STEPS_M_S: f32 = 3.5;
/// A ball within so far is within reach of a standing reach of 2.4 m, m. (from memory: tracking counts a chance at a rebound
/// within 3.5 ft)
const REACH_M: f32 = 1.07;
/// Standard deviation of the race to the ball, s. (assumed)
const RACE_S: f32 = 0.16;
/// What an opponent's body in the way costs, s. (assumed)
const BOXED_S: f32 = 0.25;

/// The shot leaves the rim: mean distances 1.5-2 m for close shots, 2.5-3 m for threes.
pub fn bounce(c: &mut Court<'_>, by: Slot, rim_s: f32, far_m: f32) {
    let shooter = c.ball.last_shot;
    let away = (Vec2::RIM - shooter).unit_or(vec2(0.0, -1.0));
    let far_side = c.streams.coin(by, Purpose::ReboundWay, if far_m < CLOSE_M { 0.5 } else { FAR_SIDE });
    let lateral = c.streams.normal(by, Purpose::ReboundWay) * 0.75 * c.side;
    let base = if far_side { away } else { away * -1.0 };
    let way = (base + base.quarter() * lateral).unit_or(base);
    let mean = 1.5 + 0.16 * min(far_m, 8.0);
    let far = max(mean * (1.0 + 0.4 * c.streams.normal(by, Purpose::ReboundFar)), 0.4);
    let down = way * far;
    let down = off_the_board(&c.given.setup.court, down);
    let down = c.given.setup.court.inside(down, 0.2);
    c.ball.state = BallState::Rebound { down, down_s: rim_s + 0.5 + 0.1 * far };
    c.board.post(rim_s, News::Rebound { at: down });
}

/// What would fall behind the backboard comes back off it; past its edge it goes on.
fn off_the_board(court: &crate::setup::Court, down: Vec2) -> Vec2 {
    let face = court.markings.board_y_m + BALL_RADIUS_M;
    if down.y >= face {
        return down;
    }
    let at_face = down.x * (face / down.y);
    if max(at_face, -at_face) > 0.5 * court.markings.board_width_m {
        return down;
    }
    vec2(down.x, face + BOARD_RESTITUTION * (face - down.y))
}

/// One step of a rebound in the air.
pub fn step(c: &mut Court<'_>, down: Vec2, down_s: f32) {
    let now = c.clocks.now;
    let dt = c.given.setup.step_s;
    let left = max(down_s - now, 0.0);
    let at = c.bodies.ball().toward(down, clamp(dt / (left + dt), 0.0, 1.0));
    c.bodies.put_ball(at);
    c.ball.height = 2.6 + 1.2 * left;
    if down_s > now {
        return;
    }
    let mut first = (f32::INFINITY, ALL[0]);
    for slot in ALL {
        let here = c.bodies.at(slot);
        let off = here.distance(down);
        if off > 4.0 {
            continue;
        }
        let boxed = ALL.into_iter().any(|other| {
            other.attacks() != slot.attacks() && {
                let (beside, along) = to_segment(c.bodies.at(other), here, down);
                along > 0.05 && beside < 0.46 && c.bodies.at(other).distance(down) < off
            }
        });
        let reach = REACH_M + (c.traits.standing_reach[slot] - 2.4) * 0.5;
        let noise = c.streams.normal(slot, Purpose::ReboundRace) * RACE_S;
        let time = max(off - reach, 0.0) / LAST_STEPS_M_S + if boxed { BOXED_S } else { 0.0 } + noise;
        if time < first.0 {
            first = (time, slot);
        }
    }
    let by = if first.0.is_finite() { first.1 } else { nearest(c, down) };
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

fn nearest(c: &Court<'_>, to: Vec2) -> Slot {
    let mut best = (f32::INFINITY, ALL[0]);
    for slot in ALL {
        let d = (c.bodies.at(slot) - to).len2();
        if d < best.0 {
            best = (d, slot);
        }
    }
    best.1
}
