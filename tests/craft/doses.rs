//! What tests of dials share: the setups that they start from, and claims of more or less at one dose than at another.

use std::sync::Arc;

use engine::film::Film;
use engine::setup::Setup;
use engine::{Arena, Measure, PossessionRecord};
use rayon::prelude::*;

use crate::looks::{Demand, Seen, Z_3_ERRORS, Z_3_ERRORS_IN_3};
use crate::played::keeping;
use crate::studied::GLANCE;
use crate::support::{matchup, paired, records};
use crate::trade::estimate::{Series, difference};

/// The seed of these tests. What is asked for was chosen on others; after a first look at this one the fouls of the
/// fly-by are asked for over its whole dial, more possessions of the trap and of the fly-by are played, and no price of
/// the match-up degree is claimed.
pub const SEED: u64 = 211;

pub type Set = (&'static str, &'static str);

pub const SEAM: Set = ("attack.rover.route", "\"seam-cross\"");
pub const HOLD: Set = ("attack.rover.route", "\"hold-wing\"");
pub const RUN: Set = ("attack.rover.route", "\"baseline-run\"");
pub const FLAT: Set = ("zone.sink_back_m", "0.0");

pub fn setup(base: &[Set], own: &[Set]) -> Arc<Setup> {
    let sink = if base.iter().any(|(key, _)| *key == FLAT.0) { None } else { Some(FLAT) };
    matchup(&[sink.as_slice(), base, own].concat())
}

pub fn played(base: &[Set], own: &[Set], count: u64) -> Vec<PossessionRecord> {
    records(&setup(base, own), SEED, count)
}

/// More or less of a measure at one dose than at another, by their order.
#[derive(Clone, Copy, Debug)]
pub struct Claim {
    from: usize,
    to: usize,
    measure: Measure,
    /// 1 for more, -1 for less.
    sign: f64,
    /// So much the other way would still do.
    slack: f64,
}

pub fn more(from: usize, to: usize, measure: Measure) -> Claim {
    Claim { from, to, measure, sign: 1.0, slack: 0.0 }
}

pub fn less(from: usize, to: usize, measure: Measure) -> Claim {
    Claim { sign: -1.0, ..more(from, to, measure) }
}

/// What a look at a claim found.
pub struct Found {
    /// What is claimed, in words.
    pub effect: String,
    /// The difference, a possession.
    pub difference: f64,
    /// How many standard errors it lies on the claimed side of what would do.
    pub errors: f64,
    /// Possessions of each of the two doses.
    pub possessions: u64,
    /// By three standard errors over three looks.
    pub seen: Seen,
}

impl Claim {
    /// The claim holds, too, where the difference goes less than this the other way.
    pub fn but_for(self, slack: f64) -> Claim {
        Claim { slack, ..self }
    }

    fn look(&self, doses: &[Arc<Setup>], possessions: u64) -> Found {
        let [from, to] = [self.from, self.to].map(|dose| records(&doses[dose], SEED, possessions));
        let (difference, error) = paired(&from, &to, self.measure);
        let errors = (self.sign * difference + self.slack) / error;
        let seen = Seen::within((errors - Z_3_ERRORS_IN_3, errors + Z_3_ERRORS_IN_3), 0.0, f64::INFINITY);
        Found { effect: self.words(), difference, errors, possessions, seen }
    }

    fn words(&self) -> String {
        let Claim { from, to, measure, slack, .. } = self;
        let way = if self.sign > 0.0 { "more" } else { "less" };
        let slack =
            if *slack > 0.0 { format!(", or less than {slack} the other way") } else { String::new() };
        format!("{way} {} from dose {} to dose {}{slack}", measure.key(), from + 1, to + 1)
    }
}

/// From each of so many doses to the next there is more of the first measures and less of the others.
pub fn steps(doses: usize, all_more: &[Measure], all_less: &[Measure]) -> Vec<Claim> {
    let step = |to: usize| {
        let risen = all_more.iter().map(move |measure| more(to - 1, to, *measure));
        risen.chain(all_less.iter().map(move |measure| less(to - 1, to, *measure)))
    };
    (1..doses).flat_map(step).collect()
}

/// The claims as they were looked at last: at so many possessions, or at two or four times as many where that leaves one open.
pub fn looked(first: u64, claims: &[Claim], doses: Vec<Arc<Setup>>) -> Vec<Found> {
    let whole = |claim: &Claim| {
        let mut found = claim.look(&doses, first);
        for many in [2 * first, 4 * first] {
            if found.seen == Seen::Open {
                found = claim.look(&doses, many);
            }
        }
        found
    };
    keeping(|| claims.iter().map(whole).collect())
}

/// The claims at a fifth of their first look.
pub fn glanced(first: u64, claims: &[Claim], doses: Vec<Arc<Setup>>) -> Vec<Found> {
    keeping(|| claims.iter().map(|claim| claim.look(&doses, first.div_ceil(GLANCE))).collect())
}

/// The base with one key at each of these values.
pub fn doses(base: &[Set], key: &'static str, values: &[&'static str]) -> Vec<Arc<Setup>> {
    values.iter().map(|value| setup(base, &[(key, value)])).collect()
}

/// From each dose to the next a distance falls by more than this, by three standard errors over two looks.
pub fn nearer(
    by_m: [f64; 2],
    doses: [&'static str; 3],
    metres: impl Fn(&'static str) -> Series,
) -> Vec<Demand> {
    let found = doses.map(metres);
    let steps = found.windows(2).zip(by_m);
    let step = |(pair, by_m): (&[Series], f64)| {
        Demand::at_least("nearer, m", difference(&pair[1], &pair[0]).interval(Z_3_ERRORS), by_m)
    };
    steps.map(step).collect()
}

/// Adds up what one film shows, possession by possession.
pub fn filmed(setup: &Arc<Setup>, count: u64, of: impl Fn(&Film) -> (f64, f64) + Sync) -> Series {
    let one = |arena: &mut Arena, possession| of(&arena.film(setup, SEED, possession));
    (0..count).into_par_iter().map_init(|| Arena::new(1), one).collect()
}
