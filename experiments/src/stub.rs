//! A player that makes up seeded records: what the runner, the tables and the writers are tested with.

use std::ops::Range;

use engine::random::mixed;
use engine::{Measure, Outcome, Places, PossessionRecord};

use crate::run::{Player, Watch};

/// Makes records from (seed, possession) with a little chance of its own for each variant.
pub(crate) struct Stub {
    seed: u64,
    /// Possessions (variant, number) that panic.
    pub panics: Vec<(usize, u64)>,
    /// A possession whose record is never handed over.
    pub loses: Option<(usize, u64)>,
}

/// Hears nothing.
pub(crate) struct Unwatched;

impl Watch for Unwatched {
    fn played(&self, _: u64) {}
}

impl Stub {
    pub(crate) fn new(seed: u64) -> Self {
        Self { seed, panics: Vec::new(), loses: None }
    }

    fn record(&self, variant: usize, possession: u64) -> PossessionRecord {
        let shared = mixed(self.seed ^ mixed(possession));
        let own = mixed(shared ^ variant as u64);
        let chance = |draw: u64, percent: u64| draw % 100 < percent;
        let open = chance(shared, 30) || chance(own, 4 * variant as u64);
        let outcome = match (own >> 8) % 10 {
            0..=3 => Outcome::Made,
            4..=7 => Outcome::Missed,
            8 => Outcome::Turnover,
            _ => Outcome::FreeThrows,
        };
        let mut record =
            PossessionRecord { possession, outcome, values: [0; Measure::COUNT], digest: own, forced: false };
        let mut set = |measure: Measure, value: i64| record.values[measure as usize] = value;
        let (made, missed) = (outcome == Outcome::Made, outcome == Outcome::Missed);
        let points = if made { 2 + i64::from(open) } else { 0 };
        set(Measure::ALL[outcome as usize], 1);
        set(Measure::OpenLookTaken, i64::from(open && (made || missed)));
        set(Measure::GoodLook, i64::from(open && (made || missed)));
        set(Measure::OpenLookAvailable, i64::from(open));
        set(Measure::PaintTouch, i64::from(chance(shared >> 16, 40)));
        set(Measure::Shots, i64::from(made || missed));
        set(Measure::ShotsMade, i64::from(made));
        set(Measure::Threes, i64::from(open && (made || missed)));
        set(Measure::ThreesMade, i64::from(open && made));
        set(Measure::Points, points * 1_000_000);
        set(Measure::ExpectedPoints, 900_000 + (shared % 200_000) as i64 + 10_000 * variant as i64);
        let noise = (own >> 16) % 100_000;
        set(
            Measure::ExpectedNetPoints,
            800_000 + (shared % 200_000 + noise) as i64 + 10_000 * variant as i64,
        );
        set(Measure::BreakExposure, (own % 300_000) as i64);
        set(Measure::BreakPoints, (own % 300_000) as i64);
        set(Measure::Passes, 2 + (shared % 6) as i64);
        set(Measure::Rebounds, i64::from(missed) + i64::from(chance(own >> 24, 10 + 8 * variant as u64)));
        set(Measure::OffensiveRebounds, i64::from(chance(own >> 24, 10 + 8 * variant as u64)));
        record
    }
}

impl Player for Stub {
    type Seat = ();

    fn seat(&self, _: usize) -> Self::Seat {}

    fn play(
        &self,
        (): &mut (),
        variant: usize,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord),
    ) {
        // Last first, as records come in order of finishing, not of number.
        for possession in possessions.rev() {
            let this = (variant, possession);
            assert!(!self.panics.contains(&this), "stub: told to panic at {this:?}");
            if self.loses != Some(this) {
                each(&self.record(variant, possession));
            }
        }
    }

    fn add_places(&self, (): &(), _: &mut Places) {}
}
