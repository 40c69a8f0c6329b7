//! A trade fact as a claim about the model: what is changed, what follows, by how much at least, how surely.

use experiments::stats::normal::quantile;
use experiments::stats::possessions_needed;

use super::estimate::{Estimate, Series, combination, difference, ratio};
use crate::looks::{Seen, Z_95, Z_99};

/// How often an effect is to be seen where it is said from what size, or from how many possessions on, it would be.
const NINE_IN_TEN: f64 = 0.9;

/// Of fewer events nothing is said, unless each possession is one: two shots that happen to be alike have hardly an error.
/// (assumed)
const LEAST_EVENTS: f64 = 20.0;

/// A claim of the trade, and how it is put to the model.
pub struct Fact {
    /// Number in the list of facts.
    pub number: u8,
    /// One of the strongest: held to 99 % instead of 95 %.
    pub starred: bool,
    /// The claim.
    pub claim: &'static str,
    /// The dial and its values, or what is compared within one run.
    pub cause: &'static str,
    /// Plays so many possessions and gives what was found of each effect.
    pub measure: fn(u64) -> Vec<Part>,
}

/// What an effect has to be.
#[derive(Clone, Copy, Debug)]
pub enum Bound {
    /// At least this much in the stated direction, and more with each step of the dial, each by its interval.
    AtLeast(f64),
    /// No more than this, either way.
    Within(f64),
}

/// One effect of a fact, as found.
pub struct Part {
    /// What is measured, with its unit and direction.
    pub effect: &'static str,
    /// The dial's values, or the groups, each with its mean.
    pub doses: Vec<(String, f64)>,
    /// From each dose to the next, in the stated direction.
    pub steps: Vec<Estimate>,
    /// The whole effect, in the stated direction.
    pub whole: Estimate,
    /// What it has to be.
    pub bound: Bound,
}

/// Which way an effect goes as the dial is turned up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// More.
    Rises,
    /// Less.
    Falls,
}

impl Fact {
    /// Standard errors to either side at each of the two looks.
    pub fn z(&self) -> f64 {
        if self.starred { Z_99 } else { Z_95 }
    }
}

impl Part {
    /// A dial turned up: the first dose against the last.
    pub fn dial(effect: &'static str, doses: &[(&str, Series)], way: Way, least: f64) -> Part {
        let sign = if way == Way::Rises { 1.0 } else { -1.0 };
        let step = |a: &Series, b: &Series| known(&[a, b], combination(&[(sign, b), (-sign, a)]));
        let (first, last) = (&doses[0].1, &doses[doses.len() - 1].1);
        Part {
            effect,
            doses: doses.iter().map(|(name, series)| ((*name).to_owned(), ratio(series))).collect(),
            steps: doses.windows(2).map(|pair| step(&pair[0].1, &pair[1].1)).collect(),
            whole: step(first, last),
            bound: Bound::AtLeast(least),
        }
    }

    /// Two groups: the second has more.
    pub fn more(effect: &'static str, less: (&str, &Series), more: (&str, &Series), least: f64) -> Part {
        Part::found(effect, &[less, more], difference(less.1, more.1), Bound::AtLeast(least))
    }

    /// Two groups that are as good as equal.
    pub fn equal(effect: &'static str, a: (&str, &Series), b: (&str, &Series), most: f64) -> Part {
        Part::found(effect, &[a, b], difference(a.1, b.1), Bound::Within(most))
    }

    /// Two groups: the second has no more than this beyond the first.
    pub fn no_more(effect: &'static str, a: (&str, &Series), b: (&str, &Series), margin: f64) -> Part {
        Part::found(effect, &[a, b], difference(b.1, a.1), Bound::AtLeast(-margin))
    }

    /// An effect worked out elsewhere, with the means of the groups it came from.
    pub fn found(effect: &'static str, groups: &[(&str, &Series)], whole: Estimate, bound: Bound) -> Part {
        let doses = groups.iter().map(|(name, series)| ((*name).to_owned(), ratio(series))).collect();
        let all: Vec<&Series> = groups.iter().map(|group| group.1).collect();
        Part { effect, doses, steps: Vec::new(), whole: known(&all, whole), bound }
    }

    /// What is seen of the effect, this many standard errors wide of doubt. A step of the dial is held to its own interval,
    /// as the whole is: what may be chance is neither a step the stated way nor one back.
    pub fn seen(&self, z: f64) -> Seen {
        let step = |step: &Estimate| Seen::within(step.interval(z), f64::MIN_POSITIVE, f64::INFINITY);
        match self.bound {
            Bound::AtLeast(least) => {
                let whole = Seen::within(self.whole.interval(z), least, f64::INFINITY);
                Seen::all(self.steps.iter().map(step).chain([whole]))
            }
            Bound::Within(most) => Seen::within(self.whole.interval(z), -most, most),
        }
    }

    /// How large an effect would have to be for these possessions to show it nine times in ten.
    pub fn seen_from(&self, z: f64) -> String {
        let beyond = (z + quantile(NINE_IN_TEN)) * self.whole.error;
        match self.bound {
            Bound::AtLeast(least) => format!("from {:.4}", least + beyond),
            Bound::Within(most) => format!("up to {:.4}", most - beyond),
        }
    }

    /// Whether some part of it is of too few events.
    pub fn unknown(&self) -> bool {
        self.steps.iter().chain([&self.whole]).any(|part| part.value.is_nan())
    }

    /// How many possessions of each setup would say nine times in ten whether the effect is as stated, were it as large
    /// as it was found to be in so many: one part of it that is not as stated settles it, or all that are.
    ///
    /// Of what is unknown no number says it.
    pub fn settled_by(&self, z: f64, played: u64) -> u64 {
        if self.unknown() {
            return u64::MAX;
        }
        let needed = |by: f64, error: f64| {
            possessions_needed(by, error * (played as f64).sqrt(), z, NINE_IN_TEN).unwrap_or(u64::MAX)
        };
        let spare = match self.bound {
            Bound::AtLeast(least) => self.whole.value - least,
            Bound::Within(most) => most - self.whole.value.abs(),
        };
        // What each part has beyond its bound, and its error.
        let parts = self.steps.iter().map(|step| (step.value, step.error)).chain([(spare, self.whole.error)]);
        let (good, bad): (Vec<_>, Vec<_>) = parts.partition(|(beyond, _)| *beyond > 0.0);
        let many = |part: &(f64, f64)| needed(part.0, part.1);
        // The first that is seen to fall short refutes the whole; where none does, it takes the last to be shown.
        bad.iter().map(many).min().or_else(|| good.iter().map(many).max()).unwrap_or(u64::MAX)
    }
}

/// An estimate from these groups; not a number where one of them is of events of which there are too few.
fn known(groups: &[&Series], estimate: Estimate) -> Estimate {
    let few = |series: &&Series| {
        let events: f64 = series.iter().map(|one| one.1).sum();
        events < LEAST_EVENTS.min(series.len() as f64)
    };
    if groups.iter().any(few) { Estimate { value: f64::NAN, error: f64::NAN } } else { estimate }
}

fn holds(part: &Part) -> bool {
    part.seen(1.96) == Seen::Shown
}

#[test]
fn a_bound_is_kept_by_the_interval_and_not_by_the_value() {
    let series = |values: [f64; 4]| values.map(|v| (v, 1.0)).to_vec();
    let few = series([1.0, 1.0, 1.0, 1.0]);
    let many = series([2.0, 2.2, 1.8, 2.0]);
    assert!(holds(&Part::more("count", ("few", &few), ("many", &many), 0.5)));
    assert!(!holds(&Part::more("count", ("few", &few), ("many", &many), 0.95)));
    assert!(!holds(&Part::more("count", ("many", &many), ("few", &few), 0.0)));
    assert!(holds(&Part::equal("count", ("few", &few), ("many", &many), 1.5)));
    assert!(!holds(&Part::equal("count", ("few", &few), ("many", &many), 1.05)));
}

#[test]
fn of_two_events_in_a_hundred_possessions_nothing_is_said() {
    let events = |count: usize, value: f64| -> Series {
        (0..100).map(|nth| if nth < count { (value, 1.0) } else { (0.0, 0.0) }).collect()
    };
    let (usual, two, twenty) = (events(100, 0.9), events(2, 1.2), events(20, 1.2));
    assert!(holds(&Part::more("points", ("usual", &usual), ("twenty", &twenty), 0.1)));
    assert_eq!(Part::more("points", ("usual", &usual), ("two", &two), 0.1).seen(1.96), Seen::Open);
    let doses = [("usual", usual), ("two", two), ("twenty", twenty)];
    let dial = Part::dial("points", &doses, Way::Rises, 0.1);
    assert_eq!(dial.seen(1.96), Seen::Open);
    assert!(dial.unknown() && !dial.whole.value.is_nan(), "its middle dose is unknown, its ends are not");
    assert_eq!(dial.settled_by(1.96, 100), u64::MAX);
}

#[test]
fn a_dial_has_to_work_at_each_step() {
    let flat = |value: f64| vec![(value, 1.0); 4];
    let up = [("a", flat(1.0)), ("b", flat(2.0)), ("c", flat(3.0))];
    assert!(holds(&Part::dial("count", &up, Way::Rises, 1.5)));
    assert!(!holds(&Part::dial("count", &up, Way::Falls, 0.0)));
    let back = [("a", flat(1.0)), ("b", flat(4.0)), ("c", flat(3.0))];
    assert!(!holds(&Part::dial("count", &back, Way::Rises, 1.5)));
    // A step by 0.1 with a standard error of 0.5 may as well be one back.
    let spread = [1.1, 3.1, 1.1, 3.1].map(|value| (value, 1.0)).to_vec();
    let unsure = [("a", flat(2.0)), ("b", spread), ("c", flat(9.0))];
    assert_eq!(Part::dial("count", &unsure, Way::Rises, 1.5).seen(1.96), Seen::Open);
}

#[test]
fn what_would_settle_an_effect_is_what_is_nearest_to_being_refuted() {
    // 3.64 standard errors have to fit in between: 2.36 for 98.2 %, and 1.28 for nine times in ten.
    let at = |value: f64, error: f64| Estimate { value, error };
    let part = |steps: &[Estimate], whole: Estimate, bound: Bound| Part {
        effect: "count",
        doses: Vec::new(),
        steps: steps.to_vec(),
        whole,
        bound,
    };
    let z = 3.64 - quantile(NINE_IN_TEN);
    let settled = |part: Part| part.settled_by(z, 100);
    // One standard error short of the bound, or beyond it: 3.64 squared times as many.
    assert_eq!(settled(part(&[], at(0.9, 0.1), Bound::AtLeast(1.0))), 1325);
    assert_eq!(settled(part(&[], at(1.1, 0.1), Bound::AtLeast(1.0))), 1325);
    assert_eq!(settled(part(&[], at(-0.9, 0.1), Bound::Within(1.0))), 1325);
    // A step back by two errors refutes a dial sooner than its whole effect shows or refutes it.
    let steps = [at(0.5, 0.1), at(-0.2, 0.1)];
    assert_eq!(settled(part(&steps, at(0.9, 0.1), Bound::AtLeast(1.0))), 332);
    assert_eq!(settled(part(&steps, at(9.0, 0.1), Bound::AtLeast(1.0))), 332);
    assert_eq!(settled(part(&[], at(1.0, 0.1), Bound::AtLeast(1.0))), u64::MAX);
    // Where nothing falls short, the last part to be shown settles it.
    assert_eq!(settled(part(&[at(0.1, 0.1), at(9.0, 0.1)], at(9.1, 0.1), Bound::AtLeast(1.0))), 1325);
}
