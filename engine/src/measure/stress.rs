//! Stress of the zone: back-line lateness, unguarded threats, two-on-ones, stretch, help and hand-offs.

use super::Seen;
use crate::law::conduct::deciding::HALF_DECISION_S;
use crate::law::counting::{
    ALONE_S, BACK_LINES_BELOW_Y_M, CUT_INSIDE_ARC_M, CUTS_FROM_M_S, GUARDED_WITHIN_M, HAS_HIM_WITHIN_M,
    HELPER_DOWN_WITHIN_M, LATENESS_PASS_M_S, LATENESS_RELEASE_S, TWO_ON_ONE_WITHIN_M,
};
use crate::law::floor::side_of;
use crate::law::shape;
use crate::math::{Vec2, max, min};
use crate::measures::Measure as M;
use crate::setup::{BallPlace, Line, Zone};
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::{BallState, Stress, Tally};

/// What several of the counts need of a step, worked out once.
struct Floor {
    /// The man with the ball or whom a pass is meant for.
    holder: Slot,
    /// The ball.
    ball: Vec2,
    /// Sign of the side that the ball is on.
    ball_side: f32,
    /// That side is the rover's starting side.
    first_side: bool,
    /// The front line and the back line, in the order of the slots, and how many they are.
    lines: [([Slot; 5], usize); 2],
    /// Squared distance of each attacker from each defender, m2.
    apart: [[f32; 5]; 5],
}

impl Floor {
    fn of(seen: &Seen<'_>) -> Option<Self> {
        let holder = match seen.ball.state {
            BallState::Held { by } => by,
            BallState::Pass(flight) => flight.to,
            _ => return None,
        };
        let ball = seen.bodies.ball();
        let ball_side = side_of(ball, seen.side);
        let first_side = ball_side == seen.side;
        let zone = &seen.given.setup.zone;
        let mut lines = [([DEFENCE[0]; 5], 0); 2];
        for slot in DEFENCE {
            let position = shape::position_of(zone, slot, first_side);
            let (line, count) = &mut lines[usize::from(zone.positions[position].line == Line::Back)];
            line[*count] = slot;
            *count += 1;
        }
        let rows = &seen.bodies.0;
        let apart = core::array::from_fn(|a| {
            core::array::from_fn(|d| {
                let (x, y) = (rows.px[5 + d] - rows.px[a], rows.py[5 + d] - rows.py[a]);
                x * x + y * y
            })
        });
        Some(Self { holder, ball, ball_side, first_side, lines, apart })
    }

    fn front(&self) -> &[Slot] {
        &self.lines[0].0[..self.lines[0].1]
    }

    fn back(&self) -> &[Slot] {
        &self.lines[1].0[..self.lines[1].1]
    }
}

/// Counts the step; `None` where the ball is nobody's.
pub fn count(seen: &Seen<'_>, tally: &mut Tally) -> Option<Stress> {
    let floor = Floor::of(seen)?;
    let line_gap_m = line_gap(seen, &floor);
    let widest_seam_m = widest_seam(seen, &floor);
    tally.line_gap_sum += f64::from(line_gap_m);
    tally.seam_sum += f64::from(widest_seam_m);
    let (latest, late_for) = lateness(seen, &floor);
    tally.lateness_sum += f64::from(latest);
    tally.lateness_peak = max(tally.lateness_peak, latest);
    tally.stress_steps += 1;
    if latest > 0.0 {
        tally.unguarded_steps += 1;
    }
    two_on_one(seen, &floor, tally);
    help(seen, &floor, tally);
    hand_offs(seen, &floor, tally);
    Some(Stress { late_s: latest, late_for, line_gap_m, widest_seam_m })
}

/// The stress of the step.
pub fn of(seen: &Seen<'_>) -> Option<Stress> {
    let floor = Floor::of(seen)?;
    let (late_s, late_for) = lateness(seen, &floor);
    Some(Stress {
        late_s,
        late_for,
        line_gap_m: line_gap(seen, &floor),
        widest_seam_m: widest_seam(seen, &floor),
    })
}

/// The distance between the lines along the floor's length, m.
fn line_gap(seen: &Seen<'_>, floor: &Floor) -> f32 {
    let mean_y = |line: &[Slot]| {
        let sum = line.iter().fold(0.0, |sum, slot| sum + seen.bodies.at(*slot).y);
        sum / max(line.len() as f32, 1.0)
    };
    mean_y(floor.front()) - mean_y(floor.back())
}

/// Whether an attacker is the back line's to guard: low on the floor or in the lane's lower half.
fn back_lines(at: Vec2) -> bool {
    at.y < BACK_LINES_BELOW_Y_M
}

/// The largest lateness over the attackers without the ball whom the back line should guard, s, and for whom.
fn lateness(seen: &Seen<'_>, floor: &Floor) -> (f32, Option<Slot>) {
    let mut worst = (0.0, None);
    for slot in ATTACK {
        let at = seen.bodies.at(slot);
        if slot == floor.holder || !back_lines(at) {
            continue;
        }
        let flight = LATENESS_RELEASE_S
            + floor.ball.distance(at) / LATENESS_PASS_M_S
            + seen.traits.catch_to_release[slot];
        let late = |d: Slot| {
            let here = seen.bodies.at(d);
            let run = seen.given.arrival(d).time_to(here, seen.bodies.velocity(d), at, HAS_HIM_WITHIN_M);
            let reacts = if run > 0.0 { seen.traits.reaction[d] + HALF_DECISION_S } else { 0.0 };
            run + reacts - flight
        };
        // One defender in time is enough, and that is nearly always the nearest: he is asked first.
        let mut nearest = (f32::INFINITY, DEFENCE[0]);
        for d in floor.back() {
            let d2 = floor.apart[slot][d.in_team()];
            if d2 < nearest.0 {
                nearest = (d2, *d);
            }
        }
        if nearest.0.is_finite() && late(nearest.1) <= worst.0 {
            continue;
        }
        let soonest = floor.back().iter().fold(f32::INFINITY, |least, d| min(least, late(*d)));
        if soonest > worst.0 {
            worst = (soonest, Some(slot));
        }
    }
    worst
}

/// The widest gap between neighbours of the front line and of the back line, m.
fn widest_seam(seen: &Seen<'_>, floor: &Floor) -> f32 {
    let mut widest = 0.0;
    for line in [floor.front(), floor.back()] {
        // Every defender's gap to the next one to his right; the largest is the widest seam.
        for a in line {
            let from = seen.bodies.at(*a);
            let mut next = f32::INFINITY;
            for b in line {
                let way = seen.bodies.at(*b) - from;
                if way.x * seen.side > 0.0 {
                    next = min(next, way.len2());
                }
            }
            if next.is_finite() {
                widest = max(widest, next);
            }
        }
    }
    widest.sqrt()
}

/// Whether a squared distance is one at which a defender guards an attacker.
fn guarded(d2: f32) -> bool {
    d2 < GUARDED_WITHIN_M * GUARDED_WITHIN_M
}

/// Two attackers near one back-line defender and no other defender guards either.
fn two_on_one(seen: &Seen<'_>, floor: &Floor, tally: &mut Tally) {
    let mut alone = [0; 5];
    for slot in ATTACK {
        if slot == floor.holder || !back_lines(seen.bodies.at(slot)) {
            continue;
        }
        let apart = &floor.apart[slot];
        let near = apart.iter().filter(|d2| guarded(**d2)).count();
        for d in floor.back() {
            let d2 = apart[d.in_team()];
            let others = near - usize::from(guarded(d2));
            alone[d.in_team()] += i32::from(d2 <= TWO_ON_ONE_WITHIN_M * TWO_ON_ONE_WITHIN_M && others == 0);
        }
    }
    let found = alone.iter().any(|count| *count >= 2);
    tally.add(M::TwoOnOne, i64::from(found && !tally.two_on_one));
    tally.two_on_one = found;
}

/// The post helper down at the ball-side low post with the ball in the corner.
fn help(seen: &Seen<'_>, floor: &Floor, tally: &mut Tally) {
    let zone = &seen.given.setup.zone;
    let Some(helper) = zone.helper else { return };
    let slot = shape::slot_of(zone, usize::from(helper), floor.first_side);
    let post = zone.ball_places[BallPlace::LowPost as usize].sided(floor.ball_side);
    let there = (seen.bodies.at(slot) - post).len2() < HELPER_DOWN_WITHIN_M * HELPER_DOWN_WITHIN_M;
    let down = there && in_corner(zone, floor.ball.sided(floor.ball_side));
    tally.add(M::HelpUses, i64::from(down && !tally.helper_down));
    tally.helper_down = down;
}

/// Whether the corner is the nearest of the ball places to a ball on the right.
fn in_corner(zone: &Zone, ball: Vec2) -> bool {
    let mut nearest = (f32::INFINITY, 0);
    for (place, there) in zone.ball_places.iter().enumerate() {
        let d2 = (ball - *there).len2();
        if d2 < nearest.0 {
            nearest = (d2, place);
        }
    }
    nearest.1 == BallPlace::Corner as usize
}

/// A cutter inside the arc whom nobody has guarded for a while.
fn hand_offs(seen: &Seen<'_>, floor: &Floor, tally: &mut Tally) {
    let dt = seen.given.setup.step_s;
    let arc = seen.given.setup.court.three_radius_m - CUT_INSIDE_ARC_M;
    for slot in ATTACK {
        let inside = seen.bodies.at(slot).len2() < arc * arc;
        let moves = seen.bodies.velocity(slot).len2() > CUTS_FROM_M_S * CUTS_FROM_M_S;
        let had = floor.apart[slot].iter().any(|d2| guarded(*d2));
        if slot == floor.holder || !inside || had || !(moves || tally.alone_s[slot] > 0.0) {
            tally.alone_s[slot] = 0.0;
            continue;
        }
        let before = tally.alone_s[slot];
        tally.alone_s[slot] += dt;
        if before < ALONE_S && tally.alone_s[slot] >= ALONE_S {
            tally.add(M::HandOffFailures, 1);
        }
    }
}
