//! Stress of the zone: back-line lateness, unguarded threats, two-on-ones, stretch, help and hand-offs.

use super::Seen;
use crate::components::{BallState, Tally};
use crate::lanes::{ATTACK, DEFENCE};
use crate::math::{Vec2, max, min, vec2};
use crate::measures::Measure as M;
use crate::read::shape;
use crate::setup::{BallPlace, Line};

/// The ball if thrown now: release, then a flight at this speed.
const RELEASE_S: f32 = 0.3;
const FLIGHT_M_S: f32 = 10.0;
/// A defender this near has his man, m.
const HAS_HIM_M: f32 = 0.9;

/// Counts the step.
pub fn count(seen: &Seen<'_>, tally: &mut Tally) {
    let ball = seen.bodies.at(crate::lanes::BALL);
    let holder = match seen.ball.state {
        BallState::Held { by } => usize::from(by),
        BallState::Pass(flight) => usize::from(flight.to),
        _ => return,
    };
    let zone = &seen.given.setup.zone;
    let ball_side = if ball.x < 0.0 { -1.0 } else { 1.0 };
    let first_side = ball_side == seen.side;
    let (mut front_y, mut fronts, mut back_y) = (0.0, 0.0, 0.0);
    let mut back = [0_usize; 5];
    let mut backs = 0;
    for lane in DEFENCE {
        let column = shape::column_of(zone, lane - 5, first_side);
        if zone.columns[column].line == Line::Back {
            back[backs] = lane;
            backs += 1;
            back_y += seen.bodies.at(lane).y;
        } else {
            fronts += 1.0;
            front_y += seen.bodies.at(lane).y;
        }
    }
    let gap = front_y / max(fronts, 1.0) - back_y / max(backs as f32, 1.0);
    tally.line_gap_sum += f64::from(gap);
    tally.seam_sum += f64::from(widest_seam(seen, first_side));
    let back = &back[..backs];
    let latest = lateness(seen, back, holder, ball);
    tally.lateness_sum += f64::from(latest);
    tally.lateness_peak = max(tally.lateness_peak, latest);
    tally.stress_steps += 1;
    if latest > 0.0 {
        tally.unguarded_steps += 1;
    }
    two_on_one(seen, back, holder, tally);
    help(seen, ball, ball_side, first_side, tally);
    hand_offs(seen, holder, tally);
}

/// Whether an attacker is the back line's to guard: low on the floor or in the lane's lower half.
fn back_lines(at: Vec2) -> bool {
    at.y < 2.9
}

/// The largest lateness over the attackers without the ball whom the back line should guard, s.
fn lateness(seen: &Seen<'_>, back: &[usize], holder: usize, ball: Vec2) -> f32 {
    let mut worst = 0.0;
    for lane in ATTACK {
        let at = seen.bodies.at(lane);
        if lane == holder || !back_lines(at) {
            continue;
        }
        let flight = RELEASE_S + ball.distance(at) / FLIGHT_M_S + seen.traits.catch_to_release[lane];
        let mut soonest = f32::INFINITY;
        for d in back {
            let here = seen.bodies.at(*d);
            let run = seen.given.arrival(*d).time_to(here, seen.bodies.velocity(*d), at, HAS_HIM_M);
            let reacts = if run > 0.0 { seen.traits.reaction[*d] + 0.05 } else { 0.0 };
            soonest = min(soonest, run + reacts);
        }
        worst = max(worst, soonest - flight);
    }
    worst
}

/// The widest gap between neighbours of the front line and of the back line, m.
fn widest_seam(seen: &Seen<'_>, first_side: bool) -> f32 {
    let zone = &seen.given.setup.zone;
    let mut widest = 0.0;
    for line in [Line::Front, Line::Back] {
        // Every defender's gap to the next one to his right; the largest is the widest seam.
        for a in DEFENCE {
            if zone.columns[shape::column_of(zone, a - 5, first_side)].line != line {
                continue;
            }
            let mut next = f32::INFINITY;
            for b in DEFENCE {
                let same = zone.columns[shape::column_of(zone, b - 5, first_side)].line == line;
                let ahead = (seen.bodies.at(b).x - seen.bodies.at(a).x) * seen.side;
                if a != b && same && ahead > 0.0 {
                    next = min(next, seen.bodies.at(a).distance(seen.bodies.at(b)));
                }
            }
            if next.is_finite() {
                widest = max(widest, next);
            }
        }
    }
    widest
}

/// Two attackers within 3 m of one back-line defender and no other defender within 2 m of either.
fn two_on_one(seen: &Seen<'_>, back: &[usize], holder: usize, tally: &mut Tally) {
    let mut found = false;
    for d in back {
        let here = seen.bodies.at(*d);
        let mut alone = 0;
        for lane in ATTACK {
            let at = seen.bodies.at(lane);
            if lane == holder || !back_lines(at) || (at - here).len2() > 9.0 {
                continue;
            }
            let other = DEFENCE.into_iter().any(|o| o != *d && (seen.bodies.at(o) - at).len2() < 4.0);
            alone += i32::from(!other);
        }
        found |= alone >= 2;
    }
    tally.add(M::TwoOnOne, i64::from(found && !tally.two_on_one));
    tally.two_on_one = found;
}

/// The post helper down at the ball-side low post with the ball in the corner.
fn help(seen: &Seen<'_>, ball: Vec2, ball_side: f32, first_side: bool, tally: &mut Tally) {
    let zone = &seen.given.setup.zone;
    let place = shape::place_of(zone, ball, ball_side, u8::MAX, 0.0);
    let mut down = false;
    if place == BallPlace::Corner as u8 {
        let lane = 5 + shape::lane_of(zone, usize::from(zone.helper), first_side);
        let post = zone.ball_places[BallPlace::LowPost as usize];
        let post = vec2(post.x * ball_side, post.y);
        down = seen.bodies.at(lane).distance(post) < 1.5;
    }
    tally.add(M::HelpUses, i64::from(down && !tally.helper_down));
    tally.helper_down = down;
}

/// A cutter whom nobody has had within 2 m for half a second inside the arc.
fn hand_offs(seen: &Seen<'_>, holder: usize, tally: &mut Tally) {
    let dt = seen.given.setup.step_s;
    for lane in ATTACK {
        let at = seen.bodies.at(lane);
        let inside = at.len() < seen.given.setup.court.three_radius_m - 0.5;
        let moves = seen.bodies.velocity(lane).len2() > 1.0;
        let had = DEFENCE.into_iter().any(|d| (seen.bodies.at(d) - at).len2() < 4.0);
        if lane == holder || !inside || had || !(moves || tally.alone_s[lane] > 0.0) {
            tally.alone_s[lane] = 0.0;
            continue;
        }
        let before = tally.alone_s[lane];
        tally.alone_s[lane] += dt;
        if before < 0.5 && tally.alone_s[lane] >= 0.5 {
            tally.add(M::HandOffFailures, 1);
        }
    }
}
