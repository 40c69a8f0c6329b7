//! A trade fact as a claim about the model: what is changed, what follows, by how much at least, how surely.

use super::estimate::{Estimate, Series, combination, difference, ratio};
use crate::looks::{Seen, Z_95, Z_99, two_looks};

/// Standard errors beyond what an interval needs at which an effect is seen nine times in ten.
const NINE_IN_TEN: f64 = 1.2816;

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
    /// Possessions of each setup for the table; a test may need fewer.
    pub possessions: u64,
    /// Plays so many possessions and gives what was found of each effect.
    pub measure: fn(u64) -> Vec<Part>,
}

/// What an effect has to be.
#[derive(Clone, Copy, Debug)]
pub enum Bound {
    /// At least this much in the stated direction, and more with each step of the dial.
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
    /// Standard errors to either side of the table's interval, which is one look.
    pub fn z(&self) -> f64 {
        if self.starred { 2.576 } else { 1.960 }
    }

    /// The same at each of the two looks of a test.
    fn z_of_a_look(&self) -> f64 {
        if self.starred { Z_99 } else { Z_95 }
    }

    /// Fails where one of these effects (by their order) is not as stated, in so many possessions of each setup or in
    /// four times as many.
    pub fn check(&self, effects: &[usize], possessions: u64) {
        self.judge(effects, &[], possessions);
    }

    /// A strict expected failure: fails as soon as one of these effects is as stated, so that it goes among those
    /// that hold and the table is made anew.
    pub fn fails(&self, effects: &[usize], possessions: u64) {
        self.judge(&[], effects, possessions);
    }

    /// Both on the same possessions: effects that hold, and effects that are expected not to. Only what is to hold and
    /// stays open asks for a second look; what is expected to fail is judged in whatever was played last.
    pub fn judge(&self, hold: &[usize], fail: &[usize], possessions: u64) {
        let z = self.z_of_a_look();
        let (_, (parts, played)) = two_looks(possessions, |count| {
            let parts = (self.measure)(count);
            (Seen::all(hold.iter().map(|nth| parts[*nth].seen(z))), (parts, count))
        });
        let expected = hold.iter().map(|nth| (nth, true)).chain(fail.iter().map(|nth| (nth, false)));
        for (nth, holds) in expected {
            let part = &parts[*nth];
            let (low, high) = part.whole.interval(z);
            let told = format!(
                "fact {}, {} possessions, {}: {:?}, {:.4} ({low:.4} to {high:.4}), steps {:?}, to be {:?}",
                self.number, played, part.effect, part.doses, part.whole.value, part.steps, part.bound
            );
            println!("{told}");
            if holds {
                assert!(part.seen(z) == Seen::Shown, "{}: {told}", self.claim);
            } else {
                println!("  not as stated; would be seen {}", part.resolution(z));
                let shown = part.seen(z) == Seen::Shown;
                assert!(!shown, "holds now, and the table of all facts is out of date: {told}");
            }
        }
    }
}

impl Part {
    /// A dial turned up: the first dose against the last.
    pub fn dial(effect: &'static str, doses: &[(&str, Series)], way: Way, least: f64) -> Part {
        let sign = if way == Way::Rises { 1.0 } else { -1.0 };
        let step = |a: &Series, b: &Series| combination(&[(sign, b), (-sign, a)]);
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

    /// An effect worked out elsewhere, with the means of the groups it came from.
    pub fn found(effect: &'static str, groups: &[(&str, &Series)], whole: Estimate, bound: Bound) -> Part {
        let doses = groups.iter().map(|(name, series)| ((*name).to_owned(), ratio(series))).collect();
        Part { effect, doses, steps: Vec::new(), whole, bound }
    }

    /// Whether the effect is as stated, this many standard errors wide of doubt.
    pub fn holds(&self, z: f64) -> bool {
        self.seen(z) == Seen::Shown
    }

    /// What is seen of the effect. A step of the dial the other way is none of luck's doing only where its own interval
    /// says so.
    fn seen(&self, z: f64) -> Seen {
        let step = |step: &Estimate| match step {
            step if step.value > 0.0 => Seen::Shown,
            step if step.interval(z).1 < 0.0 => Seen::Refuted,
            _ => Seen::Open,
        };
        match self.bound {
            Bound::AtLeast(least) => {
                let whole = Seen::within(self.whole.interval(z), least, f64::INFINITY);
                Seen::all(self.steps.iter().map(step).chain([whole]))
            }
            Bound::Within(most) => Seen::within(self.whole.interval(z), -most, most),
        }
    }

    /// How large an effect would have to be for these possessions to show it nine times in ten.
    fn resolution(&self, z: f64) -> String {
        let beyond = (z + NINE_IN_TEN) * self.whole.error;
        match self.bound {
            Bound::AtLeast(least) => format!("from {:.4} on", least + beyond),
            Bound::Within(most) => format!("up to {:.4}", most - beyond),
        }
    }
}

#[test]
fn a_bound_is_kept_by_the_interval_and_not_by_the_value() {
    let series = |values: [f64; 4]| values.map(|v| (v, 1.0)).to_vec();
    let few = series([1.0, 1.0, 1.0, 1.0]);
    let many = series([2.0, 2.2, 1.8, 2.0]);
    assert!(Part::more("count", ("few", &few), ("many", &many), 0.5).holds(1.96));
    assert!(!Part::more("count", ("few", &few), ("many", &many), 0.95).holds(1.96));
    assert!(!Part::more("count", ("many", &many), ("few", &few), 0.0).holds(1.96));
    assert!(Part::equal("count", ("few", &few), ("many", &many), 1.5).holds(1.96));
    assert!(!Part::equal("count", ("few", &few), ("many", &many), 1.05).holds(1.96));
}

/// A fact about nothing, for the tests of how facts are judged.
#[cfg(test)]
const PLAIN: Fact = Fact {
    number: 0,
    starred: false,
    claim: "two is more than one, and one is not more than two",
    cause: "none",
    possessions: 4,
    measure: |count| {
        let flat = |value: f64| vec![(value, 1.0); count as usize];
        let (one, two) = (flat(1.0), flat(2.0));
        vec![
            Part::more("count", ("one", &one), ("two", &two), 0.5),
            Part::more("count", ("two", &two), ("one", &one), 0.5),
        ]
    },
};

#[test]
fn what_holds_is_told_from_what_does_not() {
    PLAIN.judge(&[0], &[1], 4);
}

#[test]
#[should_panic(expected = "holds now")]
fn an_expected_failure_that_holds_is_a_failure() {
    PLAIN.fails(&[0], 4);
}

#[test]
#[should_panic(expected = "two is more than one")]
fn an_effect_that_does_not_hold_is_a_failure() {
    PLAIN.check(&[1], 4);
}

#[test]
fn what_is_open_is_played_again() {
    let fact = Fact {
        measure: |count| {
            // The effect is 1.0 with a standard error of about 0.7 in 4 possessions and a third in 16.
            let (low, high) = (vec![(0.0, 1.0); count as usize], [-0.2, 2.2].repeat(count as usize / 2));
            let high: Series = high.into_iter().map(|value| (value, 1.0)).collect();
            vec![Part::more("count", ("low", &low), ("high", &high), 0.1)]
        },
        ..PLAIN
    };
    assert!((fact.measure)(4)[0].seen(Z_95) == Seen::Open);
    fact.check(&[0], 4);
}

#[test]
fn a_dial_has_to_work_at_each_step() {
    let flat = |value: f64| vec![(value, 1.0); 4];
    let up = [("a", flat(1.0)), ("b", flat(2.0)), ("c", flat(3.0))];
    assert!(Part::dial("count", &up, Way::Rises, 1.5).holds(1.96));
    assert!(!Part::dial("count", &up, Way::Falls, 0.0).holds(1.96));
    let back = [("a", flat(1.0)), ("b", flat(4.0)), ("c", flat(3.0))];
    assert!(!Part::dial("count", &back, Way::Rises, 1.5).holds(1.96));
}
