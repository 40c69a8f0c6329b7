//! Stage 8, `measure`: counts what the measures define, on the true state, and nothing else does.

mod finish;
mod looks;
mod marks;
mod signals;
mod stress;
mod touch;
mod trail;

use crate::law::counting::MILLIONTHS;
use crate::measures::Measure;
use crate::slots::{PLAYERS, Row};
use crate::state::Given;
use crate::state::places::Places;
use crate::state::returns::Returns;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res, ResMut};

impl Tally {
    /// Adds to a count.
    pub(crate) fn add(&mut self, m: Measure, n: i64) {
        self.values[m as usize] += n;
    }
    /// Sets a flag.
    pub(crate) fn flag(&mut self, m: Measure) {
        self.values[m as usize] = 1;
    }
    /// Sets a real value in millionths.
    pub(crate) fn real(&mut self, m: Measure, value: f64) {
        self.values[m as usize] = millionths(value);
    }
    /// Adds a real value in millionths.
    pub(crate) fn add_real(&mut self, m: Measure, value: f64) {
        let before = self.values[m as usize];
        self.real(m, value);
        self.values[m as usize] += before;
    }
}

/// A real value in millionths, rounded half away from zero: a cast of the sum, the same on every machine.
fn millionths(value: f64) -> i64 {
    let value = value * MILLIONTHS;
    (value + if value < 0.0 { -0.5 } else { 0.5 }) as i64
}

/// What the measures read of a possession.
pub(crate) struct Seen<'a> {
    pub given: &'a Given,
    pub clocks: &'a Clocks,
    pub bodies: &'a Bodies,
    pub traits: &'a Traits,
    pub ball: &'a Ball,
    pub side: f32,
}

/// What is counted of looks and stress in this step, for a film.
pub(crate) fn shown(seen: &Seen<'_>) -> (Option<Look>, Option<Stress>) {
    (looks::of(seen), stress::of(seen))
}

/// Counts the step.
pub fn measure(
    given: Res<Given>,
    mut places: ResMut<Places>,
    mut returns: ResMut<Returns>,
    mut slots: Query<(&mut Clocks, &Bodies, &Traits, &Ball, &Side, &Plans, &Signals, &mut Tally)>,
) {
    for (mut clocks, bodies, traits, ball, side, plans, signals, mut tally) in &mut slots {
        if clocks.status == Status::Idle || clocks.counted {
            continue;
        }
        let seen = Seen { given: &given, clocks: &clocks, bodies, traits, ball, side: side.0 };
        move_digest(bodies, &mut tally);
        let (dx, dy) = (&bodies.0.dx, &bodies.0.dy);
        // All roots first: they are then taken four at a time.
        let ways: Row = core::array::from_fn(|slot| (dx[slot] * dx[slot] + dy[slot] * dy[slot]).sqrt());
        for (metres, way) in tally.metres.iter_mut().zip(ways) {
            *metres += way;
        }
        for (_, at, signal) in signals.all() {
            signals::count(&seen, plans, *at, *signal, &mut tally);
            marks::signal(&seen, *at, *signal, &mut tally, &mut places);
            if returns.on() {
                trail::signal(*signal, &mut tally);
            }
        }
        if let Status::Done(outcome) = clocks.status {
            finish::close(&seen, outcome, &mut tally);
            marks::close(&tally, outcome, &mut places);
            if returns.on() {
                trail::close(&mut tally, outcome, &mut returns);
            }
            clocks.counted = true;
            continue;
        }
        touch::count(&seen, &mut tally);
        looks::count(&seen, &mut tally);
        let stress = stress::count(&seen, &mut tally);
        marks::step(&seen, plans, stress, &mut tally, &mut places);
        if returns.on() {
            trail::step(&seen, &mut tally);
        }
    }
}

/// Folds the positions of the step into the possession's digest. Mirrored zeros fold alike.
fn move_digest(bodies: &Bodies, tally: &mut Tally) {
    let mut h = tally.digest ^ 0x51_7C_C1_B7_27_22_0A_95;
    for slot in 0..=PLAYERS {
        let x = (bodies.0.px[slot] + 0.0).to_bits();
        let y = (bodies.0.py[slot] + 0.0).to_bits();
        h = (h ^ (u64::from(x) | u64::from(y) << 32)).wrapping_mul(0x9E37_79B9_7F4A_7C15);
        h ^= h >> 29;
    }
    tally.digest = h;
}
