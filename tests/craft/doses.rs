//! What tests of dials share: the setups that they start from, doses that are played on, and claims of more or less.

use std::sync::{Arc, Mutex};

use engine::film::Film;
use engine::setup::Setup;
use engine::{Arena, Measure, PossessionRecord};
use rayon::prelude::*;

use crate::looks::{Demand, Seen, Z_3_ERRORS, Z_3_ERRORS_IN_3, demand};
use crate::support::{matchup, paired, records, records_in};
use crate::trade::estimate::{Series, difference};

/// The seed of these tests. What is asked for was chosen on others; after a first look at this one the fouls of the
/// fly-by are asked for over its whole dial, more possessions of the trap are played, and no price of the match-up
/// degree is claimed.
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

/// Possessions of a setup from the first on.
type Played = Arc<Mutex<Vec<PossessionRecord>>>;

/// What these tests have played without a dose: many of them start from the same setup, and play it once.
static WITHOUT: Mutex<Vec<(Arc<Setup>, Played)>> = Mutex::new(Vec::new());

/// One dose: what is played, and what has been.
pub struct Dose {
    setup: Arc<Setup>,
    played: Played,
    /// What has been played of it.
    pub records: Vec<PossessionRecord>,
}

impl Dose {
    fn of(nth: usize, setup: Arc<Setup>) -> Self {
        let played = if nth == 0 { Self::without(&setup) } else { Played::default() };
        Self { setup, played, records: Vec::new() }
    }

    fn without(setup: &Arc<Setup>) -> Played {
        let mut all = WITHOUT.lock().expect("no test failed in between");
        if let Some((_, played)) = all.iter().find(|(own, _)| own == setup) {
            return played.clone();
        }
        let played = Played::default();
        all.push((setup.clone(), played.clone()));
        played
    }

    /// Plays on until there are so many possessions.
    fn play_to(&mut self, count: u64) {
        let mut played = self.played.lock().expect("no test failed in between");
        let have = played.len() as u64;
        if have < count {
            played.extend(records_in(&self.setup, SEED, have..count));
        }
        self.records = played[..count as usize].to_vec();
    }
}

/// More or less of a measure at one dose than at another, by their order.
#[derive(Clone, Copy, Debug)]
pub struct Claim {
    from: usize,
    to: usize,
    measure: Measure,
    /// 1 for more, -1 for less.
    sign: f64,
}

pub fn more(from: usize, to: usize, measure: Measure) -> Claim {
    Claim { from, to, measure, sign: 1.0 }
}

pub fn less(from: usize, to: usize, measure: Measure) -> Claim {
    Claim { from, to, measure, sign: -1.0 }
}

impl Claim {
    fn seen(&self, doses: &[Dose]) -> Seen {
        let [from, to] = [self.from, self.to].map(|dose| &doses[dose].records);
        let (difference, error) = paired(from, to, self.measure);
        let errors = self.sign * difference / error;
        println!("{self:?}: {difference:+.4}, {errors:.1} standard errors, {} possessions", from.len());
        Seen::within((errors - Z_3_ERRORS_IN_3, errors + Z_3_ERRORS_IN_3), 0.0, f64::INFINITY)
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

/// The doses as they were looked at last: every claim holds, in a first look, or in one at twice or four times as many
/// possessions, of which the first are those of the look before. Only doses of claims that are open are played on.
pub fn check(count: u64, claims: &[Claim], doses: impl IntoIterator<Item = Arc<Setup>>) -> Vec<Dose> {
    let mut doses: Vec<Dose> =
        doses.into_iter().enumerate().map(|(nth, setup)| Dose::of(nth, setup)).collect();
    let mut open = claims.to_vec();
    for many in [count, 2 * count, 4 * count] {
        for (nth, dose) in doses.iter_mut().enumerate() {
            if open.iter().any(|claim| claim.from == nth || claim.to == nth) {
                dose.play_to(many);
            }
        }
        let seen: Vec<Seen> = open.iter().map(|claim| claim.seen(&doses)).collect();
        let refuted = seen.contains(&Seen::Refuted);
        let mut shown = seen.iter().map(|seen| *seen == Seen::Shown);
        open.retain(|_| !shown.next().expect("one for each claim"));
        if refuted || open.is_empty() {
            break;
        }
    }
    assert!(open.is_empty(), "less than three standard errors: {open:?}");
    doses
}

/// The base with one key at each of these values.
pub fn doses(base: &[Set], key: &'static str, values: &[&'static str]) -> Vec<Arc<Setup>> {
    values.iter().map(|value| setup(base, &[(key, value)])).collect()
}

/// From each dose to the next a distance falls by more than this, by three standard errors over two looks.
pub fn nearer(first: u64, by_m: [f64; 2], doses: [&'static str; 3], metres: fn(&'static str, u64) -> Series) {
    demand(first, |count| {
        let found = doses.map(|dose| metres(dose, count));
        let steps = found.windows(2).zip(by_m);
        let step = |(pair, by_m): (&[Series], f64)| {
            Demand::at_least("nearer, m", difference(&pair[1], &pair[0]).interval(Z_3_ERRORS), by_m)
        };
        steps.map(step).collect()
    });
}

/// Adds up what one film shows, possession by possession.
pub fn filmed(setup: &Arc<Setup>, count: u64, of: impl Fn(&Film) -> (f64, f64) + Sync) -> Series {
    let one = |arena: &mut Arena, possession| of(&arena.film(setup, SEED, possession));
    (0..count).into_par_iter().map_init(|| Arena::new(1), one).collect()
}

/// The post is played from behind, from half round him, and from in front.
pub fn stances() -> [Arc<Setup>; 3] {
    let stance = |word: &str| format!("{{ wing = \"{word}\", slot = \"{word}\", corner = \"{word}\" }}");
    let with = |word| matchup(&[FLAT, RUN, ("zone.post_stance", &stance(word))]);
    ["behind", "three-quarter", "front"].map(with)
}
