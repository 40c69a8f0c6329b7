//! Bodies that may not pass through each other: a velocity-level Jacobi solver on ten discs.
//!
//! With `n` the unit vector from body i to j, `gap = distance - (r_i + r_j)` and `u = displacement / dt`, each
//! pair asks `(u_j - u_i).n >= -max(gap, 0) / dt`. In each iteration all pairs read the same velocities; the
//! change of impulse `-relaxation (approach + gap / dt) / (1/m_i + 1/m_j)` is accumulated, the accumulated
//! normal impulse held at 0 or above and the tangential one within `friction` times it (Coulomb). Impulses
//! change the step's velocity `u` and the velocity `v` alike, without restitution.
//!
//! A body with k active contacts counts as `relaxation k / 1.9` bodies that share its mass where that is above
//! 1: without this, corrections of one iteration add up to more than the motion they correct and a packed crowd
//! gained half its energy again in a step (measured). Overlap that remains is pushed out of positions alone.
//!
//! Units: metres, seconds, kg, N s. Nothing is hidden in the code but pure numbers.
//! Source: trial kernels of this project. Known limits: torsos are discs without arms; no falling, no rotation;
//! normals are those of the step's start (the error is always toward keeping apart).

use super::kernel::Rows;
use crate::math::{clamp, max, min};
use crate::slots::{PLAYERS, ROW, Row};

/// Pairs among the ten players. (derived from [`PLAYERS`])
const PAIRS: usize = PLAYERS * (PLAYERS - 1) / 2;
/// Most touches of one step that a log holds. (assumed)
const TOUCHES: usize = 16;
/// Sweeps that push remaining overlaps apart. (assumed)
const PUSHES: usize = 4;
/// Contacts of one body times relaxation up to which simultaneous corrections shrink the error. (derived: 2 is the
/// bound)
const STABLE: f32 = 1.9;
/// Two centres nearer than this share of the sum of their radii are on the same spot: the way from one to the other
/// gives no direction; a pure number. (assumed)
const SAME_SPOT_SHARE: f32 = 1e-6;

/// How contacts are solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ContactParams {
    /// Coulomb coefficient between bodies, 0.3 unless the setup says otherwise. (assumed)
    pub friction: f32,
    /// Jacobi iterations, 8 as a rule. (assumed)
    pub iterations: u32,
    /// Share of each correction that is applied, 0.7 as a rule. (assumed)
    pub relaxation: f32,
    /// Share of a remaining overlap that each sweep pushes apart without changing velocity, 0.3 as a rule. (assumed)
    pub push_share: f32,
}

impl Default for ContactParams {
    fn default() -> Self {
        Self { friction: 0.3, iterations: 8, relaxation: 0.7, push_share: 0.3 }
    }
}

/// What the solver reads and changes: rows with a body in each slot.
#[derive(Debug)]
pub struct ContactRows<'a> {
    /// Position, m; moved by the resolved step.
    pub px: &'a mut Row,
    /// Position, m; moved by the resolved step.
    pub py: &'a mut Row,
    /// Velocity, m/s; changed by impulses.
    pub vx: &'a mut Row,
    /// Velocity, m/s; changed by impulses.
    pub vy: &'a mut Row,
    /// Displacement of the step, m: wanted on entry, taken on return.
    pub dx: &'a mut Row,
    /// Displacement of the step, m: wanted on entry, taken on return.
    pub dy: &'a mut Row,
    /// Torso radius, m; a body of radius 0 touches nobody.
    pub radius: &'a Row,
    /// Inverse of the effective mass (bracing included), 1/kg; 0 cannot be moved.
    pub inv_mass: &'a Row,
}

impl<'a> ContactRows<'a> {
    /// The rows of moving bodies, with what contact needs to know besides.
    pub fn of(rows: &'a mut Rows, radius: &'a Row, inv_mass: &'a Row) -> Self {
        let Rows { px, py, vx, vy, dx, dy, .. } = rows;
        Self { px, py, vx, vy, dx, dy, radius, inv_mass }
    }
}

/// One pair that pushed on each other in a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Touch {
    /// Slot of body i, the lower one.
    pub i: u8,
    /// Slot of body j, the higher one.
    pub j: u8,
    /// Normal impulse, N s (kg m/s); above 0.
    pub impulse_ns: f32,
    /// Unit vector from body i to body j.
    pub nx: f32,
    /// Unit vector from body i to body j.
    pub ny: f32,
    /// Speed at which the two wanted to approach each other, m/s; 0 if pushed together by others.
    pub closing_m_s: f32,
}

/// The touches of one step in the order of the slots; those past the sixteenth are resolved but not listed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ContactLog {
    /// Touches listed.
    pub count: usize,
    /// The touches; only the first `count` mean anything.
    pub pairs: [Touch; TOUCHES],
}

impl ContactLog {
    /// The touches listed.
    pub fn touches(&self) -> &[Touch] {
        &self.pairs[..self.count]
    }
}

/// A pair near enough to matter in this step.
#[derive(Clone, Copy, Debug, Default)]
struct Pair {
    /// Slots of the two, the lower one first.
    i: u8,
    j: u8,
    /// The normal: unit vector from body i to body j.
    nx: f32,
    ny: f32,
    /// Speed of approach that still just closes the gap, m/s.
    allowed: f32,
    /// Velocity of j less that of i in this iteration, along the normal (with the allowance) and across, m/s.
    parting: f32,
    sliding: f32,
    /// Speed at which they came on at the start of the step, m/s.
    closing: f32,
    /// Impulses so far, along the normal and across, N s.
    normal: f32,
    tangent: f32,
}

impl Pair {
    /// Pushes, or is about to. Another pair's impulse stays 0 and so may be passed over.
    #[inline]
    fn active(&self) -> bool {
        self.normal > 0.0 || self.parting < 0.0
    }
}

/// Room for the pairs of a step, kept from step to step: to clear it each time would cost as much as a contact.
#[derive(Debug)]
pub struct Bench([Pair; PAIRS]);

impl Default for Bench {
    fn default() -> Self {
        Self([Pair::default(); PAIRS])
    }
}

/// Velocities of the step and what contacts have added to them, by slot, m/s.
struct Motion {
    ux: Row,
    uy: Row,
    jx: Row,
    jy: Row,
}

/// Resolves contacts in the step's displacements, moves the bodies by what is left of them and lists touches.
///
/// `side` (+1 or -1, changing with the mirror) gives two bodies on exactly the same spot a way apart.
pub fn resolve(
    rows: &mut ContactRows,
    dt: f32,
    side: f32,
    params: &ContactParams,
    bench: &mut Bench,
    log: &mut ContactLog,
) {
    log.count = 0;
    if any_may_touch(rows) {
        let count = near_pairs(rows, dt, side, &mut bench.0);
        let pairs = &mut bench.0[..count];
        solve(rows, dt, params, pairs);
        advance_all(rows);
        for _ in 0..PUSHES {
            if !push_apart(rows, params.push_share, side, pairs) {
                break;
            }
        }
        list(pairs, log);
    } else {
        advance_all(rows);
    }
}

/// Whether any pair is nearer than its radii and its relative displacement; if none is, nobody pushes anybody.
fn any_may_touch(rows: &ContactRows) -> bool {
    // Each slot is held against those one to five farther on, round the ten: so every pair is met in whole registers.
    /// Entries of a row that goes round once and a half. (derived from [`PLAYERS`])
    const TWICE: usize = ROW + PLAYERS / 2;
    let twice = |row: &Row| -> [f32; TWICE] { core::array::from_fn(|n| row[n % PLAYERS]) };
    let (px, py, dx, dy) = (twice(rows.px), twice(rows.py), twice(rows.dx), twice(rows.dy));
    let radius = twice(rows.radius);
    let mut excess = [-1.0; ROW];
    for apart in 1..=PLAYERS / 2 {
        for slot in 0..ROW {
            let other = slot + apart;
            let (x, y) = (px[other] - px[slot], py[other] - py[slot]);
            let (mx, my) = (dx[other] - dx[slot], dy[other] - dy[slot]);
            let reach = radius[slot] + radius[other] + max(mx, -mx) + max(my, -my);
            excess[slot] = max(excess[slot], reach * reach - (x * x + y * y));
        }
    }
    excess.iter().fold(false, |any, &e| any | (e > 0.0))
}

/// Lists the pairs that contacts of this step can reach, in the order of the slots, and returns how many they are.
fn near_pairs(rows: &ContactRows, dt: f32, side: f32, pairs: &mut [Pair; PAIRS]) -> usize {
    // A body at rest may be knocked on by the fastest: the margin is that of the fastest, for everybody.
    let mut margin = 0.0;
    for slot in 0..PLAYERS {
        let (x, y) = (rows.dx[slot], rows.dy[slot]);
        margin = max(margin, max(x, -x) + max(y, -y));
    }
    let mut count = 0;
    for i in 0..PLAYERS {
        for j in i + 1..PLAYERS {
            let (x, y) = (rows.px[j] - rows.px[i], rows.py[j] - rows.py[i]);
            let reach = rows.radius[i] + rows.radius[j] + 2.0 * margin;
            let solid = min(rows.radius[i], rows.radius[j]) > 0.0;
            let movable = rows.inv_mass[i] + rows.inv_mass[j] > 0.0;
            if x * x + y * y < reach * reach && solid && movable {
                let (nx, ny, gap) = direction(rows, i, j, side);
                let allowed = max(gap, 0.0) / dt;
                let (mx, my) = (rows.dx[j] - rows.dx[i], rows.dy[j] - rows.dy[i]);
                let closing = -(mx * nx + my * ny) / dt;
                let (i, j) = (i as u8, j as u8);
                pairs[count] = Pair { i, j, nx, ny, allowed, closing: max(closing, 0.0), ..Pair::default() };
                count += 1;
            }
        }
    }
    count
}

/// Unit vector from body i to body j and the gap between their rims (m); on the same spot, along x by `side`.
fn direction(rows: &ContactRows, i: usize, j: usize, side: f32) -> (f32, f32, f32) {
    let (x, y) = (rows.px[j] - rows.px[i], rows.py[j] - rows.py[i]);
    let reach = rows.radius[i] + rows.radius[j];
    let distance = (x * x + y * y).sqrt();
    if distance > SAME_SPOT_SHARE * reach {
        (x / distance, y / distance, distance - reach)
    } else {
        (side, 0.0, -reach)
    }
}

/// The Jacobi iterations; changes velocities and the displacements still to be taken.
fn solve(rows: &mut ContactRows, dt: f32, params: &ContactParams, pairs: &mut [Pair]) {
    let step = |d: &Row| d.map(|d| d / dt);
    let mut motion = Motion { ux: step(rows.dx), uy: step(rows.dy), jx: [0.0; ROW], jy: [0.0; ROW] };
    for _ in 0..params.iterations {
        if !iterate(rows.inv_mass, params, pairs, &mut motion) {
            break;
        }
    }
    for slot in 0..PLAYERS {
        rows.vx[slot] += motion.jx[slot];
        rows.vy[slot] += motion.jy[slot];
        rows.dx[slot] += motion.jx[slot] * dt;
        rows.dy[slot] += motion.jy[slot] * dt;
    }
}

/// One Jacobi iteration; false when no impulse changed, after which none ever will.
fn iterate(inv_mass: &Row, params: &ContactParams, pairs: &mut [Pair], motion: &mut Motion) -> bool {
    let mut contacts = [0.0; ROW];
    let ux: Row = core::array::from_fn(|slot| motion.ux[slot] + motion.jx[slot]);
    let uy: Row = core::array::from_fn(|slot| motion.uy[slot] + motion.jy[slot]);
    let mut busy = false;
    for pair in pairs.iter_mut() {
        let (i, j, nx, ny) = (usize::from(pair.i), usize::from(pair.j), pair.nx, pair.ny);
        let (x, y) = (ux[j] - ux[i], uy[j] - uy[i]);
        pair.parting = x * nx + y * ny + pair.allowed;
        pair.sliding = y * nx - x * ny;
        // Only pairs about to change their impulse share out a body.
        if pair.active() {
            contacts[i] += 1.0;
            contacts[j] += 1.0;
            busy = true;
        }
    }
    if !busy {
        return false;
    }
    let split: Row =
        core::array::from_fn(|slot| inv_mass[slot] * max(contacts[slot] * (params.relaxation / STABLE), 1.0));
    let (mut ax, mut ay) = ([0.0; ROW], [0.0; ROW]);
    let mut changed = false;
    for pair in pairs.iter_mut().filter(|pair| pair.active()) {
        let (i, j, nx, ny) = (usize::from(pair.i), usize::from(pair.j), pair.nx, pair.ny);
        let gain = params.relaxation / (split[i] + split[j]);
        let normal = max(pair.normal - gain * pair.parting, 0.0);
        let limit = params.friction * normal;
        let tangent = clamp(pair.tangent - gain * pair.sliding, -limit, limit);
        let (by, across) = (normal - pair.normal, tangent - pair.tangent);
        (pair.normal, pair.tangent) = (normal, tangent);
        changed |= by != 0.0 || across != 0.0;
        let (x, y) = (by * nx - across * ny, by * ny + across * nx);
        ax[i] -= x;
        ay[i] -= y;
        ax[j] += x;
        ay[j] += y;
    }
    for slot in 0..ROW {
        motion.jx[slot] += ax[slot] * inv_mass[slot];
        motion.jy[slot] += ay[slot] * inv_mass[slot];
    }
    changed
}

/// Takes the step.
fn advance_all(rows: &mut ContactRows) {
    for slot in 0..ROW {
        rows.px[slot] += rows.dx[slot];
        rows.py[slot] += rows.dy[slot];
    }
}

/// Pushes a share of each remaining overlap out of the positions, the lighter body giving way more; false where
/// nothing overlaps.
fn push_apart(rows: &mut ContactRows, share: f32, side: f32, pairs: &[Pair]) -> bool {
    let (mut ax, mut ay) = ([0.0; ROW], [0.0; ROW]);
    let mut pushed = false;
    for pair in pairs {
        let (i, j) = (usize::from(pair.i), usize::from(pair.j));
        let (x, y) = (rows.px[j] - rows.px[i], rows.py[j] - rows.py[i]);
        let reach = rows.radius[i] + rows.radius[j];
        if x * x + y * y >= reach * reach {
            continue;
        }
        let (nx, ny, gap) = direction(rows, i, j, side);
        let push = share * max(-gap, 0.0) / (rows.inv_mass[i] + rows.inv_mass[j]);
        ax[i] -= push * nx;
        ay[i] -= push * ny;
        ax[j] += push * nx;
        ay[j] += push * ny;
        pushed = true;
    }
    if pushed {
        for slot in 0..PLAYERS {
            let (x, y) = (ax[slot] * rows.inv_mass[slot], ay[slot] * rows.inv_mass[slot]);
            rows.px[slot] += x;
            rows.py[slot] += y;
            rows.dx[slot] += x;
            rows.dy[slot] += y;
        }
    }
    pushed
}

/// Writes the pairs that pushed into the log.
fn list(pairs: &[Pair], log: &mut ContactLog) {
    for pair in pairs.iter().filter(|pair| pair.normal > 0.0).take(TOUCHES) {
        let (i, j) = (pair.i, pair.j);
        log.pairs[log.count] =
            Touch { i, j, impulse_ns: pair.normal, nx: pair.nx, ny: pair.ny, closing_m_s: pair.closing };
        log.count += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::kernel::tests::{MAN, Noise, bits};
    use crate::law::kernel::{Gait, Targets, advance};

    /// Step of the tests, s. (assumed)
    const DT: f32 = 0.05;

    fn discs(radius: f32, noise: &mut Noise) -> (Row, Row) {
        ([radius; ROW], core::array::from_fn(|_| 1.0 / noise.between(60.0, 110.0)))
    }

    /// Ten bodies at random in a box, each with a random velocity and a step that follows it.
    fn scrum(noise: &mut Noise, half: f32) -> Rows {
        let mut rows = Rows::default();
        for slot in 0..PLAYERS {
            (rows.px[slot], rows.py[slot]) = (noise.between(-half, half), noise.between(-half, half));
            (rows.vx[slot], rows.vy[slot]) = (noise.between(-5.0, 5.0), noise.between(-5.0, 5.0));
        }
        rows
    }

    fn coast(rows: &mut Rows) {
        (rows.dx, rows.dy) = (rows.vx.map(|v| v * DT), rows.vy.map(|v| v * DT));
    }

    fn settle(rows: &mut Rows, radius: &Row, inv_mass: &Row, side: f32) -> ContactLog {
        let mut log = ContactLog::default();
        resolve(
            &mut ContactRows::of(rows, radius, inv_mass),
            DT,
            side,
            &ContactParams::default(),
            &mut Bench::default(),
            &mut log,
        );
        log
    }

    fn deepest(rows: &Rows, radius: f32) -> f32 {
        let mut deepest = 0.0;
        for i in 0..PLAYERS {
            for j in i + 1..PLAYERS {
                let (x, y) = (rows.px[j] - rows.px[i], rows.py[j] - rows.py[i]);
                deepest = max(deepest, 2.0 * radius - (x * x + y * y).sqrt());
            }
        }
        deepest
    }

    #[test]
    fn dense_crowds_hardly_overlap() {
        let mut noise = Noise(77);
        let (mut gait, radius) = (Gait::default(), 0.23);
        (0..ROW).for_each(|slot| gait.set(slot, &MAN, DT));
        let (radii, inv_mass) = discs(radius, &mut noise);
        let mut rows = Rows { fy: [1.0; ROW], ..Rows::default() };
        let mut targets = Targets { cap: [7.0; ROW], ..Targets::default() };
        for slot in 0..PLAYERS {
            (rows.px[slot], rows.py[slot]) = (0.7 * (slot % 4) as f32 - 1.0, 0.7 * (slot / 4) as f32 - 1.0);
        }
        let mut depths = Vec::new();
        for step in 0..100_000 {
            for slot in 0..PLAYERS {
                if noise.between(0.0, 1.0) < 0.05 {
                    (targets.tx[slot], targets.ty[slot]) =
                        (noise.between(-1.5, 1.5), noise.between(-1.5, 1.5));
                    (targets.look_x[slot], targets.look_y[slot]) = noise.unit();
                    targets.through[slot] = if noise.between(0.0, 1.0) < 0.5 { 1.0 } else { 0.0 };
                }
            }
            advance(DT, 1.0, &gait, &targets, &mut rows);
            settle(&mut rows, &radii, &inv_mass, 1.0);
            if step > 100 {
                depths.push(deepest(&rows, radius));
            }
        }
        depths.sort_by(f32::total_cmp);
        let (usual, worst) = (depths[depths.len() * 99 / 100], depths[depths.len() - 1]);
        println!(
            "deepest pair of a step: median {}, 99th {usual}, worst {worst} m",
            depths[depths.len() / 2]
        );
        assert!(usual <= 0.02 && worst <= 0.08, "99th percentile {usual} m, largest {worst} m");
    }

    #[test]
    fn undriven_bodies_keep_momentum_and_gain_no_energy() {
        let mut noise = Noise(3);
        for _ in 0..2000 {
            let (radii, inv_mass) = discs(0.23, &mut noise);
            let mut rows = scrum(&mut noise, 1.0);
            let sums = |rows: &Rows| {
                let (mut x, mut y, mut energy, mut size) = (0.0, 0.0, 0.0, 0.0);
                for (slot, inverse) in inv_mass.iter().enumerate().take(PLAYERS) {
                    let mass = 1.0 / f64::from(*inverse);
                    let (vx, vy) = (f64::from(rows.vx[slot]), f64::from(rows.vy[slot]));
                    (x, y) = (x + mass * vx, y + mass * vy);
                    energy += 0.5 * mass * (vx * vx + vy * vy);
                    size += mass * (vx * vx + vy * vy).sqrt();
                }
                (x, y, energy, size)
            };
            let start = sums(&rows);
            let mut energy = start.2;
            for _ in 0..30 {
                coast(&mut rows);
                settle(&mut rows, &radii, &inv_mass, 1.0);
                let now = sums(&rows);
                assert!(now.2 <= energy * (1.0 + 1e-6), "energy {} after {energy}", now.2);
                energy = now.2;
            }
            let end = sums(&rows);
            let lost = (end.0 - start.0).abs() + (end.1 - start.1).abs();
            assert!(lost <= 1e-4 * start.3, "momentum off by {lost} of {}", start.3);
        }
    }

    #[test]
    fn mirrored_scrums_resolve_as_mirror_images_to_the_bit() {
        let mut noise = Noise(41);
        for scene in 0..1000 {
            let (radii, inv_mass) = discs(0.23, &mut noise);
            let mut rows = scrum(&mut noise, 1.0);
            if scene % 4 == 0 {
                (rows.px[6], rows.py[6]) = (rows.px[2], rows.py[2]);
            }
            let mut other = rows.clone();
            (other.px, other.vx) = (rows.px.map(|x| -x), rows.vx.map(|x| -x));
            for _ in 0..5 {
                coast(&mut rows);
                coast(&mut other);
                let log = settle(&mut rows, &radii, &inv_mass, 1.0);
                let other_log = settle(&mut other, &radii, &inv_mass, -1.0);
                for (a, b) in [(&rows.px, &other.px), (&rows.vx, &other.vx), (&rows.dx, &other.dx)] {
                    assert_eq!(bits(a, 1.0), bits(b, -1.0));
                }
                for (a, b) in [(&rows.py, &other.py), (&rows.vy, &other.vy), (&rows.dy, &other.dy)] {
                    assert_eq!(bits(a, 1.0), bits(b, 1.0));
                }
                assert_eq!(log.count, other_log.count);
                for (a, b) in log.touches().iter().zip(other_log.touches()) {
                    assert_eq!(*a, Touch { nx: -b.nx, ..*b });
                }
            }
        }
    }

    #[test]
    fn bodies_without_radius_never_touch() {
        let mut noise = Noise(8);
        for _ in 0..1000 {
            let (radii, inv_mass) = discs(0.0, &mut noise);
            let mut rows = scrum(&mut noise, 0.3);
            (rows.px[1], rows.py[1]) = (rows.px[0], rows.py[0]);
            coast(&mut rows);
            let free = rows.clone();
            assert_eq!(settle(&mut rows, &radii, &inv_mass, 1.0).count, 0);
            assert_eq!((rows.vx, rows.vy, rows.dx, rows.dy), (free.vx, free.vy, free.dx, free.dy));
        }
    }

    #[test]
    fn a_runner_gives_a_standing_screener_what_momentum_demands() {
        let (radii, inv_mass) = ([0.23; ROW], [0.01; ROW]);
        let mut rows = Rows { py: core::array::from_fn(|slot| slot as f32 * 3.0), ..Rows::default() };
        (rows.px[1], rows.py[1], rows.vx[0]) = (0.5, 0.0, 4.0);
        coast(&mut rows);
        let log = settle(&mut rows, &radii, &inv_mass, 1.0);
        assert_eq!(log.count, 1);
        let touch = log.pairs[0];
        assert_eq!((touch.i, touch.j, touch.nx, touch.ny, touch.closing_m_s), (0, 1, 1.0, 0.0, 4.0));
        // They may close the gap of 4 cm in the step, 0.8 m/s of the approach; half the rest changes hands.
        assert!((touch.impulse_ns - 160.0).abs() < 0.5, "{}", touch.impulse_ns);
        assert!((rows.px[1] - rows.px[0] - 0.46).abs() < 1e-3, "{}", rows.px[1] - rows.px[0]);
    }
}
