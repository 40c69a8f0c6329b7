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
use crate::record::{POSITION_SHIFT, STEP_MARK, fold};
use crate::slots::{PLAYERS, Row};
use crate::state::Given;
use crate::state::places::Places;
use crate::state::returns::Returns;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res, ResMut};
use bevy_ecs::query::QueryData;

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
    pub hold: &'a Hold,
    pub progress: &'a Progress,
    pub side: f32,
}

/// What is counted of looks and stress in this step, for a film.
pub(crate) fn shown(seen: &Seen<'_>) -> (Option<Look>, Option<Stress>) {
    (looks::of(seen), stress::of(seen))
}

/// What the measures read and change.
#[derive(QueryData)]
#[query_data(mutable)]
pub(crate) struct Possession {
    clocks: &'static mut Clocks,
    bodies: &'static Bodies,
    traits: &'static Traits,
    ball: &'static Ball,
    hold: &'static Hold,
    progress: &'static Progress,
    side: &'static Side,
    plans: &'static Plans,
    signals: &'static Signals,
    tally: &'static mut Tally,
}

/// Counts the step.
pub fn measure(
    given: Res<Given>,
    mut places: ResMut<Places>,
    mut returns: ResMut<Returns>,
    mut possessions: Query<Possession>,
) {
    for mut p in &mut possessions {
        if p.clocks.status == Status::Idle || p.clocks.counted {
            continue;
        }
        let (bodies, plans, signals, tally) = (p.bodies, p.plans, p.signals, &mut *p.tally);
        let seen = Seen {
            given: &given,
            clocks: &p.clocks,
            bodies,
            traits: p.traits,
            ball: p.ball,
            hold: p.hold,
            progress: p.progress,
            side: p.side.0,
        };
        move_digest(bodies, tally);
        let (dx, dy) = (&bodies.0.dx, &bodies.0.dy);
        // The roots of a whole row first: they are then taken four at a time.
        let ways: Row = core::array::from_fn(|slot| (dx[slot] * dx[slot] + dy[slot] * dy[slot]).sqrt());
        for (metres, way) in tally.metres.iter_mut().zip(ways) {
            *metres += way;
        }
        for (_, at, signal) in signals.all() {
            signals::count(&seen, plans, *at, *signal, tally);
            marks::signal(&seen, *at, *signal, tally, &mut places);
            if returns.on() {
                trail::signal(*signal, tally);
            }
        }
        if let Status::Done(outcome) = p.clocks.status {
            finish::close(&seen, outcome, tally);
            marks::close(tally, outcome, &mut places);
            if returns.on() {
                trail::close(tally, outcome, &mut returns);
            }
            p.clocks.counted = true;
            continue;
        }
        touch::count(&seen, tally);
        looks::count(&seen, tally);
        let stress = stress::count(&seen, tally);
        marks::step(&seen, plans, stress, tally, &mut places);
        if returns.on() {
            trail::step(&seen, tally);
        }
    }
}

/// Folds the positions of the step into the possession's digest. Mirrored zeros fold alike.
fn move_digest(bodies: &Bodies, tally: &mut Tally) {
    let mut digest = tally.digest ^ STEP_MARK;
    for slot in 0..=PLAYERS {
        let x = (bodies.0.px[slot] + 0.0).to_bits();
        let y = (bodies.0.py[slot] + 0.0).to_bits();
        digest = fold(digest, u64::from(x) | u64::from(y) << 32, POSITION_SHIFT);
    }
    tally.digest = digest;
}
