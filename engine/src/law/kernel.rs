//! The law of motion of the ten bodies: one step of run, slide, backpedal, brake and turn, all slots of
//! the rows at once.
//!
//! Along the unit vector `u` to the target the motor follows the mono-exponential sprint
//! `v' = (v_cap - v) / tau`, integrated exactly: `v <- v + (v_cap - v) gain`, with `gain = 1 - e^(-dt/tau)`
//! and displacement `v_cap dt - (v_cap - v) tau gain`. With `c` the cosine between facing and `u`, the ceiling
//! is `v_max (c+^2 + slide (1 - c^2) + backpedal c-^2)`; `gain` is mixed from running to sliding by `c+^2`.
//! Braking is constant, `brake` along `u` and `lateral` across it; a body going the wrong way brakes first and
//! pushes off in what is left of the step. Arriving at rest, the speed at the end of a step is the largest from
//! which constant braking still stops on the target: `v'^2 / 2 brake + (v + v') dt / 2 = distance`. Running
//! through a target, a body swept across its way at `w` keeps to `lateral distance / 2 w`: half of its sideways
//! braking goes into the turn of the way, half into the sweep, and it hits instead of circling at full speed.
//!
//! Units: metres, seconds, m/s, m/s^2; facing and look are unit vectors. Positions are read only: contact
//! decides where a step ends. No length, speed or time is hidden in the code, so that rescaled data give
//! exactly rescaled paths; negated x gives negated x and the same y, bit for bit (up to the sign of zero).
//!
//! Source: sprint of Furusawa, Hill and Parkinson 1927, fitted to Haugen, Breitschädel and Seiler 2019; caps on
//! braking and cornering from memory.
//! Known limits: forward push and lateral braking do not share one friction budget; facing does not slow the
//! turn of the run itself, only its speed; a push let go at the wanted speed counts the mean of its end speeds.

use crate::math::{max, min};
use crate::slots::{ROW, Row};

/// A target nearer than this share of `brake * dt^2` (about 0.1 mm at 5 m/s^2 and 0.05 s) has no direction worth
/// keeping; a pure number. (assumed)
const NEAR_SHARE: f32 = 0.01;

/// Share of the lateral braking that running on may use up by turning the way to the target: a body swept across its
/// way keeps to the speed at which the rest still takes the sweep off before the target is reached. (assumed: half and
/// half)
const TURN_SHARE: f32 = 0.5;

/// What one body can do, before any time step is chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GaitParams {
    /// Ceiling of forward running, m/s.
    pub v_max: f32,
    /// Time constant of the sprint, s.
    pub tau_s: f32,
    /// Sideways ceiling as a share of `v_max`.
    pub slide_fraction: f32,
    /// Time constant of sliding and backpedalling, s.
    pub slide_tau_s: f32,
    /// Backward ceiling as a share of `v_max`.
    pub backpedal_fraction: f32,
    /// Braking along the way of travel, m/s^2.
    pub braking_m_s2: f32,
    /// Braking of the velocity across the wanted way, m/s^2.
    pub lateral_m_s2: f32,
    /// Fastest turn of the facing, rad/s.
    pub turn_rad_s: f32,
}

/// [`GaitParams`] by slot, made ready for one fixed step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gait {
    /// Ceiling of forward running, m/s.
    pub v_max: Row,
    /// Share of the missing speed gained in a step of running, `1 - e^(-dt/tau)`.
    pub gain_run: Row,
    /// The same for sliding and backpedalling.
    pub gain_slide: Row,
    /// Distance lost in a step of running per missing m/s, `tau (1 - e^(-dt/tau))`, s.
    pub glide_run: Row,
    /// The same for sliding and backpedalling, s.
    pub glide_slide: Row,
    /// Sideways ceiling as a share of `v_max`.
    pub slide: Row,
    /// Backward ceiling as a share of `v_max`.
    pub backpedal: Row,
    /// Braking along the way of travel, m/s^2.
    pub brake: Row,
    /// Braking across it, m/s^2.
    pub lateral: Row,
    /// `1 / brake`, s^2/m.
    pub brake_inverse: Row,
    /// `1 / lateral`, s^2/m.
    pub lateral_inverse: Row,
    /// Cosine of the largest turn of the facing in a step.
    pub turn_cos: Row,
    /// Sine of the largest turn of the facing in a step.
    pub turn_sin: Row,
}

impl Gait {
    /// Sets the gait of one slot for steps of `dt` seconds; `dt` must be the one given to [`advance`].
    pub fn set(&mut self, slot: usize, params: &GaitParams, dt: f32) {
        // In double precision: an error of the gain here would add up over every step of a sprint.
        let gain = |tau_s: f32| -libm::expm1(-f64::from(dt) / f64::from(tau_s));
        let turn = f64::from(params.turn_rad_s) * f64::from(dt);
        let turn = if turn < core::f64::consts::PI { turn } else { core::f64::consts::PI };
        self.v_max[slot] = params.v_max;
        self.gain_run[slot] = gain(params.tau_s) as f32;
        self.gain_slide[slot] = gain(params.slide_tau_s) as f32;
        self.glide_run[slot] = (f64::from(params.tau_s) * gain(params.tau_s)) as f32;
        self.glide_slide[slot] = (f64::from(params.slide_tau_s) * gain(params.slide_tau_s)) as f32;
        self.slide[slot] = params.slide_fraction;
        self.backpedal[slot] = params.backpedal_fraction;
        self.brake[slot] = params.braking_m_s2;
        self.lateral[slot] = params.lateral_m_s2;
        self.brake_inverse[slot] = 1.0 / params.braking_m_s2;
        self.lateral_inverse[slot] = 1.0 / params.lateral_m_s2;
        self.turn_cos[slot] = libm::cos(turn) as f32;
        self.turn_sin[slot] = libm::sin(turn) as f32;
    }
}

/// What each body wants of this step, by slot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Targets {
    /// Target point, m.
    pub tx: Row,
    /// Target point, m.
    pub ty: Row,
    /// Speed not to be exceeded, m/s.
    pub cap: Row,
    /// 1 to run through the target without braking, 0 to arrive at rest.
    pub through: Row,
    /// Unit vector the body wants to face; zero keeps the facing.
    pub look_x: Row,
    /// Unit vector the body wants to face; zero keeps the facing.
    pub look_y: Row,
}

/// The state of the bodies by slot, and the step they would take were nobody in the way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rows {
    /// Position, m; only read here.
    pub px: Row,
    /// Position, m; only read here.
    pub py: Row,
    /// Velocity, m/s.
    pub vx: Row,
    /// Velocity, m/s.
    pub vy: Row,
    /// Facing, unit vector.
    pub fx: Row,
    /// Facing, unit vector.
    pub fy: Row,
    /// Displacement of the step, m.
    pub dx: Row,
    /// Displacement of the step, m.
    pub dy: Row,
}

/// Advances velocity and facing by one step of `dt` seconds and writes the step's displacement.
///
/// `side` (+1 or -1, changing with the mirror) says which way a body turns that wants to face exactly backward.
pub fn advance(dt: f32, side: f32, gait: &Gait, targets: &Targets, rows: &mut Rows) {
    stride(dt, gait, targets, rows);
    turn(side, gait, targets, rows);
}

/// The velocity and displacement half of [`advance`]; reads the facing of the step's start.
fn stride(dt: f32, gait: &Gait, targets: &Targets, rows: &mut Rows) {
    let per_dt = 1.0 / dt;
    for slot in 0..ROW {
        let (vx, vy) = (rows.vx[slot], rows.vy[slot]);
        let (fx, fy) = (rows.fx[slot], rows.fy[slot]);
        let brake = gait.brake[slot];

        // Quotients are formed before they are chosen, so that the loop has no branches.
        let (rx, ry) = (targets.tx[slot] - rows.px[slot], targets.ty[slot] - rows.py[slot]);
        let distance = (rx * rx + ry * ry).sqrt();
        let far = distance > NEAR_SHARE * brake * dt * dt;
        let (qx, qy) = (rx / distance, ry / distance);
        let ux = if far { qx } else { fx };
        let uy = if far { qy } else { fy };

        // At c = 1 the weights are 1, 0, 0 and the sums below are the pure sprint to the last bit.
        let c = fx * ux + fy * uy;
        let (ahead, behind) = (max(c, 0.0), max(-c, 0.0));
        let run = ahead * ahead;
        let v_cap = gait.v_max[slot]
            * (run + (1.0 - c * c) * gait.slide[slot] + behind * behind * gait.backpedal[slot]);
        let gain = gait.gain_run[slot] * run + gait.gain_slide[slot] * (1.0 - run);
        let glide = gait.glide_run[slot] * run + gait.glide_slide[slot] * (1.0 - run);

        let along = vx * ux + vy * uy;
        let half = 0.5 * brake * dt;
        let room = half * half + brake * (2.0 * distance - max(along, 0.0) * dt);
        let stopping = max(max(room, 0.0).sqrt() - half, 0.0);
        // At rest across its way the quotient is infinite: the turn sets no bound.
        let (wx, wy) = (vx - along * ux, vy - along * uy);
        let across = (wx * wx + wy * wy).sqrt();
        let turning = TURN_SHARE * gait.lateral[slot] * distance / across;
        let bound = if targets.through[slot] > 0.5 { turning } else { stopping };
        // In this order a bound that is no number (that of a slot without any gait) is passed over.
        let wanted = min(bound, min(targets.cap[slot], v_cap));
        let wanted = if far { wanted } else { 0.0 };

        // Already fast enough: brake down to the wanted speed, then hold it for the rest of the step.
        let eased = max(wanted, along - brake * dt);
        let eased_by = eased * dt + 0.5 * (along - eased) * ((along - eased) * gait.brake_inverse[slot]);
        // Too slow: the motor pulls toward its own ceiling and is let go at the wanted speed.
        let pushed = along + (v_cap - along) * gain;
        let glided = v_cap * dt - (v_cap - along) * glide;
        let held = min(wanted, pushed);
        let held_by = if pushed <= wanted { glided } else { 0.5 * (along + held) * dt };
        // The wrong way: brake to rest, then push for the share of the step that is left.
        let reversing = min(along + brake * dt, 0.0);
        let left = max(1.0 + along * gait.brake_inverse[slot] * per_dt, 0.0);
        let restarted = min(wanted, v_cap * gain * left);
        let back_by = 0.5 * dt * ((along + reversing) * (1.0 - left) + restarted * left);

        let fast = along >= wanted;
        let forward = if fast { eased } else { held };
        let forward_by = if fast { eased_by } else { held_by };
        let away = along < 0.0;
        let speed = if away { reversing + restarted } else { forward };
        let by = if away { back_by } else { forward_by };

        let shed = gait.lateral[slot] * dt;
        let kept_share = (across - shed) / across;
        let kept = if across > shed { kept_share } else { 0.0 };
        let shedding_for = min(across * gait.lateral_inverse[slot], dt);
        let mean = 0.5 * (1.0 + kept) * shedding_for;

        rows.vx[slot] = speed * ux + kept * wx;
        rows.vy[slot] = speed * uy + kept * wy;
        rows.dx[slot] = by * ux + mean * wx;
        rows.dy[slot] = by * uy + mean * wy;
    }
}

/// The facing half of [`advance`]: toward the look by at most what each body can turn in a step.
fn turn(side: f32, gait: &Gait, targets: &Targets, rows: &mut Rows) {
    for slot in 0..ROW {
        let (fx, fy) = (rows.fx[slot], rows.fy[slot]);
        let (lx, ly) = (targets.look_x[slot], targets.look_y[slot]);
        let (cos, sin) = (gait.turn_cos[slot], gait.turn_sin[slot]);
        let looks = lx * lx + ly * ly > 0.5;
        let lx = if looks { lx } else { fx };
        let ly = if looks { ly } else { fy };
        // Exactly behind the cross product is zero in both mirror images: the side decides.
        let cross = fx * ly - fy * lx;
        let sign = if cross > 0.0 { 1.0 } else { side };
        let sign = if cross < 0.0 { -1.0 } else { sign };
        let (tx, ty) = (fx * cos - fy * (sign * sin), fy * cos + fx * (sign * sin));
        // Weights of 0 and 1 and not a choice of vectors: the compiler would make that choice a branch.
        let snap = if fx * lx + fy * ly >= cos { 1.0 } else { 0.0 };
        let (nx, ny) = (snap * lx + (1.0 - snap) * tx, snap * ly + (1.0 - snap) * ty);
        // A slot of padding has no facing; the tiny number keeps it at zero.
        let scale = 1.0 / max((nx * nx + ny * ny).sqrt(), f32::MIN_POSITIVE);
        rows.fx[slot] = nx * scale;
        rows.fy[slot] = ny * scale;
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// Test randomness: a xorshift generator, so that no test depends on the engine's streams.
    pub(crate) struct Noise(pub u64);

    impl Noise {
        /// A number between `low` and `high`.
        pub(crate) fn between(&mut self, low: f32, high: f32) -> f32 {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
            low + (high - low) * ((self.0 >> 40) as f32 / (1u64 << 24) as f32)
        }

        /// A unit vector.
        pub(crate) fn unit(&mut self) -> (f32, f32) {
            loop {
                let (x, y) = (self.between(-1.0, 1.0), self.between(-1.0, 1.0));
                let l = (x * x + y * y).sqrt();
                if l > 0.1 && l < 1.0 {
                    return (x / l, y / l);
                }
            }
        }
    }

    /// The national-team man of Haugen, Breitschaedel & Seiler 2019, PLoS ONE 0215551.
    pub(crate) const MAN: GaitParams = GaitParams {
        v_max: 8.48,
        tau_s: 1.03,
        slide_fraction: 0.6,
        slide_tau_s: 0.4,
        backpedal_fraction: 0.65,
        braking_m_s2: 5.0,
        lateral_m_s2: 4.5,
        turn_rad_s: 6.0,
    };

    fn gait(params: &GaitParams, dt: f32) -> Gait {
        let mut gait = Gait::default();
        (0..ROW).for_each(|slot| gait.set(slot, params, dt));
        gait
    }

    /// All bodies at the origin facing +y and looking the same way, with a target `far` metres ahead.
    fn ahead(far: f32, through: f32) -> (Targets, Rows) {
        let targets =
            Targets { ty: [far; ROW], cap: [20.0; ROW], through: [through; ROW], ..Targets::default() };
        (targets, Rows { fy: [1.0; ROW], ..Rows::default() })
    }

    fn step(dt: f32, gait: &Gait, targets: &Targets, rows: &mut Rows) {
        advance(dt, 1.0, gait, targets, rows);
        for slot in 0..ROW {
            rows.px[slot] += rows.dx[slot];
            rows.py[slot] += rows.dy[slot];
        }
    }

    #[test]
    fn sprint_is_the_closed_form_at_any_step() {
        for dt in [0.0125_f32, 0.025, 0.05, 0.1] {
            let (gait, (targets, mut rows)) = (gait(&MAN, dt), ahead(1000.0, 1.0));
            for n in 1..=(6.0 / f64::from(dt)).round() as u32 {
                step(dt, &gait, &targets, &mut rows);
                let t = f64::from(dt) * f64::from(n);
                let (v_max, tau) = (f64::from(MAN.v_max), f64::from(MAN.tau_s));
                let exact = v_max * (t + tau * libm::expm1(-t / tau));
                let error = (f64::from(rows.py[3]) - exact).abs();
                assert!(error < 1e-4, "step {dt}: {error} m off at {t} s");
            }
        }
    }

    #[test]
    fn sprint_splits_are_the_national_teams() {
        let (dt, gait, (targets, mut rows)) = (0.05, gait(&MAN, 0.05), ahead(1000.0, 1.0));
        let mut t = 0.0;
        for (metres, split) in [(10.0, 2.06), (20.0, 3.36), (30.0, 4.55), (40.0, 5.74)] {
            while rows.py[0] < metres {
                step(dt, &gait, &targets, &mut rows);
                t += dt;
            }
            let crossed = t - (rows.py[0] - metres) / rows.vy[0];
            assert!((crossed - split).abs() < 0.05, "{metres} m in {crossed} s");
        }
    }

    #[test]
    fn arriving_body_stops_on_its_target() {
        for (far, dt) in [(0.05, 0.05), (0.6, 0.05), (3.0, 0.05), (9.0, 0.025), (14.0, 0.05), (6.0, 0.1)] {
            let (gait, (targets, mut rows)) = (gait(&MAN, dt), ahead(far, 0.0));
            let mut furthest = 0.0;
            for _ in 0..200 {
                step(dt, &gait, &targets, &mut rows);
                furthest = max(rows.py[0], furthest);
            }
            assert!(rows.vy[0].abs() < 1e-3, "still moving at {} m/s", rows.vy[0]);
            assert!((rows.py[0] - far).abs() < 0.02, "stopped at {} for {far}", rows.py[0]);
            assert!(furthest < far + 0.001, "overshot to {furthest} for {far}");
        }
    }

    #[test]
    fn sliding_and_backpedalling_reach_their_share_of_running() {
        for ((fx, fy), share) in [((0.0, 1.0), 1.0), ((1.0, 0.0), 0.6), ((0.0, -1.0), 0.65)] {
            let (gait, (targets, mut rows)) = (gait(&MAN, 0.05), ahead(1000.0, 1.0));
            (rows.fx, rows.fy) = ([fx; ROW], [fy; ROW]);
            (0..400).for_each(|_| step(0.05, &gait, &targets, &mut rows));
            assert!((rows.vy[0] / MAN.v_max - share).abs() < 1e-4, "{} for {share}", rows.vy[0] / MAN.v_max);
        }
    }

    #[test]
    fn braking_distance_is_v_squared_over_twice_the_braking() {
        for v in [2.0_f32, 5.0, 7.5] {
            let (gait, (mut targets, mut rows)) = (gait(&MAN, 0.05), ahead(1000.0, 1.0));
            (targets.cap, rows.vy) = ([0.0; ROW], [v; ROW]);
            (0..60).for_each(|_| step(0.05, &gait, &targets, &mut rows));
            let exact = v * v / (2.0 * MAN.braking_m_s2);
            assert!(rows.vy[0] == 0.0 && (rows.py[0] - exact).abs() < v * 0.05, "{} for {exact}", rows.py[0]);
        }
    }

    #[test]
    fn facing_turns_at_its_rate_and_by_the_side_when_reversed() {
        for side in [1.0, -1.0] {
            let (gait, (mut targets, mut rows)) = (gait(&MAN, 0.05), ahead(0.0, 0.0));
            targets.look_y = [-1.0; ROW];
            advance(0.05, side, &gait, &targets, &mut rows);
            let turned = libm::atan2(f64::from(rows.fx[0]), f64::from(rows.fy[0]));
            assert!((turned + f64::from(side) * 0.3).abs() < 1e-5, "turned {turned}");
            (0..10).for_each(|_| advance(0.05, side, &gait, &targets, &mut rows));
            assert_eq!((rows.fx[0], rows.fy[0]), (0.0, -1.0));
        }
    }

    /// A scene of random bodies and intents, some of them at or opposite to their goals.
    fn scene(noise: &mut Noise) -> (Targets, Rows) {
        let (mut targets, mut rows) = (Targets::default(), Rows::default());
        for slot in 0..10 {
            (rows.px[slot], rows.py[slot]) = (noise.between(-7.0, 7.0), noise.between(-1.0, 12.0));
            (rows.vx[slot], rows.vy[slot]) = (noise.between(-5.0, 5.0), noise.between(-5.0, 5.0));
            (rows.fx[slot], rows.fy[slot]) = noise.unit();
            let reach = if noise.between(0.0, 1.0) < 0.3 { 0.1 } else { 6.0 };
            targets.tx[slot] = rows.px[slot] + noise.between(-reach, reach);
            targets.ty[slot] = rows.py[slot] + noise.between(-reach, reach);
            targets.cap[slot] = noise.between(1.0, 9.0);
            targets.through[slot] = if noise.between(0.0, 1.0) < 0.5 { 1.0 } else { 0.0 };
            let opposite = noise.between(0.0, 1.0) < 0.2;
            let look = if opposite { (-rows.fx[slot], -rows.fy[slot]) } else { noise.unit() };
            (targets.look_x[slot], targets.look_y[slot]) = look;
        }
        (targets, rows)
    }

    /// Bits of a row, with the two zeros taken as one.
    pub(crate) fn bits(row: &Row, sign: f32) -> [u32; ROW] {
        row.map(|x| (sign * x + 0.0).to_bits())
    }

    #[test]
    fn mirrored_scenes_move_as_mirror_images_to_the_bit() {
        let (gait, mut noise) = (gait(&MAN, 0.05), Noise(11));
        for _ in 0..1000 {
            let (targets, mut rows) = scene(&mut noise);
            let (mut other_intent, mut other) = (targets.clone(), rows.clone());
            for row in
                [&mut other_intent.tx, &mut other_intent.look_x, &mut other.px, &mut other.vx, &mut other.fx]
            {
                *row = row.map(|x| -x);
            }
            for _ in 0..20 {
                advance(0.05, 1.0, &gait, &targets, &mut rows);
                advance(0.05, -1.0, &gait, &other_intent, &mut other);
                for slot in 0..ROW {
                    (rows.px[slot], rows.py[slot]) =
                        (rows.px[slot] + rows.dx[slot], rows.py[slot] + rows.dy[slot]);
                    (other.px[slot], other.py[slot]) =
                        (other.px[slot] + other.dx[slot], other.py[slot] + other.dy[slot]);
                }
                for (a, b) in [(&rows.px, &other.px), (&rows.vx, &other.vx), (&rows.fx, &other.fx)] {
                    assert_eq!(bits(a, 1.0), bits(b, -1.0));
                }
                for (a, b) in [(&rows.py, &other.py), (&rows.vy, &other.vy), (&rows.fy, &other.fy)] {
                    assert_eq!(bits(a, 1.0), bits(b, 1.0));
                }
            }
        }
    }

    #[test]
    fn rescaled_data_give_exactly_rescaled_paths() {
        // Lengths x 4 and times x 2: speeds x 2, accelerations x 1, turn rates / 2.
        let large = GaitParams { v_max: MAN.v_max * 2.0, tau_s: MAN.tau_s * 2.0, ..MAN };
        let large =
            GaitParams { slide_tau_s: MAN.slide_tau_s * 2.0, turn_rad_s: MAN.turn_rad_s / 2.0, ..large };
        let (small_gait, large_gait, mut noise) = (gait(&MAN, 0.05), gait(&large, 0.1), Noise(5));
        for _ in 0..200 {
            let (targets, mut rows) = scene(&mut noise);
            let (mut big_intent, mut big) = (targets.clone(), rows.clone());
            for row in [&mut big_intent.tx, &mut big_intent.ty, &mut big.px, &mut big.py] {
                *row = row.map(|x| x * 4.0);
            }
            for row in [&mut big_intent.cap, &mut big.vx, &mut big.vy] {
                *row = row.map(|x| x * 2.0);
            }
            for _ in 0..60 {
                step(0.05, &small_gait, &targets, &mut rows);
                step(0.1, &large_gait, &big_intent, &mut big);
            }
            assert_eq!((rows.px.map(|x| x * 4.0), rows.py.map(|x| x * 4.0)), (big.px, big.py));
            assert_eq!((rows.vx.map(|x| x * 2.0), rows.fy), (big.vx, big.fy));
        }
    }
}
