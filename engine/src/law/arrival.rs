//! How long a body needs to run through a point: a table over distance and velocity, read in a few nanoseconds.
//!
//! Built at start-up by running the motion kernel itself for every node: the body faces the point (cosine 1
//! throughout), aims anew at every step, never brakes for the point and is capped by its own ceiling. Each
//! value is the first time at which the body's centre is within [`CAPTURE_M`] of the point, with the distance
//! counted from that rim: distance 0 is arrival. Without velocity across, this is exactly the time to come to
//! a point that far away.
//!
//! Axes: distance 0 to 15 m, spaced and interpolated by its square root (from rest, time is nearly linear in
//! it); velocity along -6 to 7 m/s; velocity across 0 to 5 m/s. Trilinear; velocities outside are clamped,
//! distance beyond is run at `v_max`. Units: metres, seconds, m/s.
//!
//! Just outside distance 0 a body on the way out or swept past must come back, so time does not go to 0 there:
//! the first layer holds that limit, and 0 is given only at distance 0. For the same reason time rises with
//! distance everywhere only if there is no velocity across; a swept body may be later at a near point than at
//! one far enough ahead to be turned to (the brute force says so too), and between the hit and the miss of a
//! near point time jumps, which a table smooths over: below `along * across / lateral` it is only indicative.
//!
//! Source: trial kernels of this project. Known limits: running only, no reaction, no obstacles; a reach other than
//! [`CAPTURE_M`] is taken off the distance as if the body came straight.

use super::kernel::{Gait, GaitParams, Rows, Targets, advance};
use crate::math::{Vec2, clamp, max};
use crate::slots::ROW;

/// The body counts as arrived when its centre is this near, m. (assumed)
pub const CAPTURE_M: f32 = 0.15;

/// How many nodes there are over distance, velocity along, velocity across. (assumed; the tests hold the error of a
/// table of this size)
const NODES: (usize, usize, usize) = (18, 14, 8);
/// Distance of the last node, m; nodes lie closer the nearer they are. (assumed: about the longest way in a half court)
const FARTHEST_M: f32 = 15.0;
/// Velocity along the way at the first node, and the spacing of its nodes, m/s. (assumed: up to 7 m/s toward the point)
const ALONG_M_S: (f32, f32) = (-6.0, 1.0);
/// Spacing of the nodes of velocity across the way, from 0 to 5 m/s, m/s. (assumed)
const ACROSS_M_S: f32 = 5.0 / 7.0;
/// Step of the runs that fill the table, s. (assumed)
const BUILD_STEP_S: f32 = 0.01;
/// Distance of the first layer of nodes, which stands for "just outside", m. (assumed)
const JUST_OUTSIDE_M: f32 = 1e-4;
/// Longest run that fills a node, s; only a body that can hardly move needs it. (assumed)
const GIVE_UP_S: f32 = 30.0;

/// One start: distance from the rim (m), velocity along and across (m/s).
type Start = (f32, f32, f32);

/// Times of arrival of one class of body.
#[derive(Clone, Debug, PartialEq)]
pub struct ArrivalTable {
    /// Seconds by distance, velocity along, velocity across.
    seconds: Box<[[[f32; NODES.2]; NODES.1]; NODES.0]>,
    /// Time for a metre beyond the table, s/m.
    pace: f32,
}

impl ArrivalTable {
    /// Fills the table for a body by running the kernel from every node.
    pub fn new(params: &GaitParams) -> Self {
        let starts: Vec<Start> = (0..NODES.0 * NODES.1 * NODES.2).map(node).collect();
        let times = runs(params, BUILD_STEP_S, &starts);
        let mut seconds = Box::new([[[0.0; NODES.2]; NODES.1]; NODES.0]);
        for (n, time) in times.into_iter().enumerate() {
            seconds[n / (NODES.1 * NODES.2)][n / NODES.2 % NODES.1][n % NODES.2] = time;
        }
        Self { seconds, pace: 1.0 / params.v_max }
    }

    /// Seconds until the body's centre is at a point `distance` metres away (any reach already taken off), from
    /// a velocity of `along` toward it and `across` (absolute) m/s. At or below distance 0 the answer is 0.
    #[inline]
    pub fn time(&self, distance: f32, along: f32, across: f32) -> f32 {
        let at_distance = (clamp(distance * (1.0 / FARTHEST_M), 0.0, 1.0)).sqrt() * (NODES.0 - 1) as f32;
        let at_along = clamp((along - ALONG_M_S.0) * (1.0 / ALONG_M_S.1), 0.0, (NODES.1 - 1) as f32);
        let at_across = clamp(across * (1.0 / ACROSS_M_S), 0.0, (NODES.2 - 1) as f32);
        let (i, j, k) = (cell(at_distance, NODES.0), cell(at_along, NODES.1), cell(at_across, NODES.2));
        let (u, v, w) = (at_distance - i as f32, at_along - j as f32, at_across - k as f32);
        let line = |near: &[f32; NODES.2]| near[k] + (near[k + 1] - near[k]) * w;
        let plane = |i: usize| {
            let (low, high) = (line(&self.seconds[i][j]), line(&self.seconds[i][j + 1]));
            low + (high - low) * v
        };
        let (near, far) = (plane(i), plane(i + 1));
        let time = near + (far - near) * u + max(distance - FARTHEST_M, 0.0) * self.pace;
        if distance > 0.0 { time } else { 0.0 }
    }

    /// Seconds until a body at `from` with `velocity` (m, m/s) is within `within_m` of the point `to`.
    #[inline]
    pub fn time_to(&self, from: Vec2, velocity: Vec2, to: Vec2, within_m: f32) -> f32 {
        let way = to - from;
        let distance = way.len();
        // On the point itself the products are 0 and any finite factor will do.
        let inverse = 1.0 / max(distance, f32::MIN_POSITIVE);
        let cross = velocity.cross(way) * inverse;
        self.time(distance - within_m, velocity.dot(way) * inverse, max(cross, -cross))
    }
}

/// The cell of a coordinate in node units, at most the last one.
#[inline]
fn cell(at: f32, nodes: usize) -> usize {
    // Through 32 bits, which costs half as much; the coordinate is never negative.
    let n = at as i32 as usize;
    if n < nodes - 2 { n } else { nodes - 2 }
}

/// The start of node `n`, distance slowest.
fn node(n: usize) -> Start {
    let share = (n / (NODES.1 * NODES.2)) as f32 / (NODES.0 - 1) as f32;
    let (j, k) = (n / NODES.2 % NODES.1, n % NODES.2);
    let distance = max(FARTHEST_M * share * share, JUST_OUTSIDE_M);
    (distance, ALONG_M_S.0 + ALONG_M_S.1 * j as f32, ACROSS_M_S * k as f32)
}

/// Arrival times from each start, by kernel steps of `dt` seconds, a row of bodies at a time.
fn runs(params: &GaitParams, dt: f32, starts: &[Start]) -> Vec<f32> {
    let mut gait = Gait::default();
    (0..ROW).for_each(|slot| gait.set(slot, params, dt));
    starts.chunks(ROW).flat_map(|batch| run(&gait, params, dt, batch)).collect()
}

/// Arrival times of one batch; the point is the origin and every body comes down the y axis.
fn run(gait: &Gait, params: &GaitParams, dt: f32, batch: &[Start]) -> Vec<f32> {
    let targets = Targets { cap: [params.v_max; ROW], through: [1.0; ROW], ..Targets::default() };
    let mut rows = Rows::default();
    for (slot, &(distance, along, across)) in batch.iter().enumerate() {
        rows.py[slot] = distance + CAPTURE_M;
        (rows.vx[slot], rows.vy[slot]) = (across, -along);
    }
    let mut times = vec![GIVE_UP_S; batch.len()];
    let mut missing = batch.len();
    let mut step = 0;
    while missing > 0 && (step as f32) * dt < GIVE_UP_S {
        for slot in 0..batch.len() {
            let distance = (rows.px[slot] * rows.px[slot] + rows.py[slot] * rows.py[slot]).sqrt();
            (rows.fx[slot], rows.fy[slot]) = (-rows.px[slot] / distance, -rows.py[slot] / distance);
        }
        advance(dt, 1.0, gait, &targets, &mut rows);
        for (slot, time) in times.iter_mut().enumerate() {
            let share = rim_crossing(rows.px[slot], rows.py[slot], rows.dx[slot], rows.dy[slot]);
            if share <= 1.0 && *time == GIVE_UP_S {
                *time = (step as f32 + share) * dt;
                missing -= 1;
            }
            rows.px[slot] += rows.dx[slot];
            rows.py[slot] += rows.dy[slot];
        }
        step += 1;
    }
    times
}

/// Share of a straight step after which it crosses the rim inward; above 1 if it does not.
fn rim_crossing(px: f32, py: f32, dx: f32, dy: f32) -> f32 {
    let (a, b) = (dx * dx + dy * dy, px * dx + py * dy);
    let c = px * px + py * py - CAPTURE_M * CAPTURE_M;
    let root = b * b - a * c;
    if b >= 0.0 || root < 0.0 { 2.0 } else { max(c, 0.0) / (root.sqrt() - b) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::kernel::tests::{MAN, Noise};
    use crate::math::vec2;

    fn spread(errors: &mut [f32], share: f32) -> (f32, f32) {
        errors.sort_by(f32::total_cmp);
        let rms = (errors.iter().map(|e| e * e).sum::<f32>() / errors.len() as f32).sqrt();
        (rms, errors[(errors.len() as f32 * share) as usize])
    }

    #[test]
    fn table_agrees_with_fine_brute_force() {
        let (table, mut noise) = (ArrivalTable::new(&MAN), Noise(2));
        let mut starts = Vec::new();
        while starts.len() < 500 {
            let start = (noise.between(0.0, 15.0), noise.between(-6.0, 7.0), noise.between(0.0, 5.0));
            let fastest = 7.0;
            if start.1 * start.1 + start.2 * start.2 < fastest * fastest {
                starts.push(start);
            }
        }
        let truth = runs(&MAN, 0.001, &starts);
        let (mut all, mut turned) = (Vec::new(), Vec::new());
        for (&(distance, along, across), exact) in starts.iter().zip(truth) {
            let error = table.time(distance, along, across) - exact;
            let error = max(error, -error);
            all.push(error);
            // A body that is being swept past is late by a jump no table can place.
            if distance > max(along, 0.0) * across / MAN.lateral_m_s2 {
                turned.push(error);
            }
        }
        assert!(turned.len() > 450, "only {} states can turn in", turned.len());
        let ((rms, _), (whole, most)) = (spread(&mut turned, 0.9), spread(&mut all, 0.9));
        println!("rms {rms} s, with swept bodies {whole} s, 90 % within {most} s of {}", turned.len());
        assert!(rms <= 0.02, "rms {rms} s");
        assert!(whole <= 0.1 && most <= 0.02, "with swept bodies rms {whole} s, 90 % within {most} s");
    }

    #[test]
    fn time_rises_with_distance_unless_swept_across() {
        let table = ArrivalTable::new(&MAN);
        for n in 0..60 {
            let along = -6.5 + 0.25 * n as f32;
            for across in [0.0, 0.4, 0.9, 1.7, 2.6, 3.1] {
                let from = 3.0 * across * (max(along, 0.0) + across) / MAN.lateral_m_s2;
                let mut last = table.time(from, along, across);
                for step in 1..2000 {
                    let now = table.time(from + step as f32 * 0.01, along, across);
                    assert!(now >= last, "{along}, {across}: {now} after {last} at step {step}");
                    last = now;
                }
            }
        }
    }

    #[test]
    fn from_rest_the_time_is_the_sprints() {
        let table = ArrivalTable::new(&MAN);
        for t in [0.4, 0.8, 1.2, 1.6, 2.0] {
            let distance =
                f64::from(MAN.v_max) * (t + f64::from(MAN.tau_s) * libm::expm1(-t / f64::from(MAN.tau_s)));
            let told = table.time_to(Vec2::RIM, Vec2::RIM, vec2(0.0, distance as f32 + 0.8), 0.8);
            assert!((f64::from(told) - t).abs() < 0.01, "{told} for {t}");
        }
    }

    #[test]
    fn a_body_at_the_point_has_arrived_and_the_mirror_sees_the_same() {
        let (table, mut noise) = (ArrivalTable::new(&MAN), Noise(9));
        assert_eq!(table.time(0.0, -3.0, 2.0), 0.0);
        assert_eq!(table.time_to(vec2(1.0, 1.0), vec2(-4.0, 2.0), vec2(1.2, 1.0), 0.3), 0.0);
        for _ in 0..1000 {
            let mut point = |r: f32| vec2(noise.between(-r, r), noise.between(-r, r));
            let (from, velocity, to) = (point(7.0), point(5.0), point(7.0));
            let straight = table.time_to(from, velocity, to, 0.2);
            let mirrored = table.time_to(from.sided(-1.0), velocity.sided(-1.0), to.sided(-1.0), 0.2);
            assert_eq!(straight.to_bits(), mirrored.to_bits());
        }
    }
}
