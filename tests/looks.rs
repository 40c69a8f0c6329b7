//! Two looks: a test that demands an effect is played short first, and once more with four times as many possessions
//! where that decides nothing.
//!
//! The first look ends it only where the effect is shown, or its contrary is. The second contains the possessions of the
//! first (the same seed from 0 on), and there nothing but the effect shown is enough. Whoever looks twice has two chances
//! to be right by chance, so each look is held to half of the stated level (Bonferroni over the two looks): whatever the
//! two have to do with each other, both together are wrong no more often than was stated. Bounds are those of one look.
//!
//! Of an interval that has to lie above a bound only one end can be wrong: what is said at 95 % passes wrongly at most 2.5
//! times in a hundred, at 99 % once in two hundred, at three standard errors 1.4 times in a thousand. Where several are demanded, each has to be
//! shown, so that all together pass wrongly no more often than one.

use experiments::stats::wilson_interval;

use crate::played::keeping;

/// How many times as many possessions the second look has.
pub const AGAIN: u64 = 4;
/// Standard errors to either side of an interval at 95 % over two looks: 97.5 % each (one look alone: 1.960).
pub const Z_95: f64 = 2.2415;
/// The same at 99 %: 99.5 % each (one look alone: 2.576).
pub const Z_99: f64 = 2.8071;
/// The same for three standard errors (99.73 %): 99.865 % each.
pub const Z_3_ERRORS: f64 = 3.2052;
/// An interval at 95 % over three looks: 98.33 % each.
pub const Z_95_IN_3: f64 = 2.3940;
/// Three standard errors over three looks: 99.91 % each.
pub const Z_3_ERRORS_IN_3: f64 = 3.3204;

/// What a look says of an effect that is demanded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// As stated, beyond doubt.
    Shown,
    /// Beyond doubt not as stated.
    Refuted,
    /// Neither.
    Open,
}

impl Seen {
    /// By an interval that is to lie within bounds.
    pub fn within((low, high): (f64, f64), least: f64, most: f64) -> Seen {
        if low >= least && high <= most {
            Seen::Shown
        } else if high < least || low > most {
            Seen::Refuted
        } else {
            Seen::Open
        }
    }

    /// Whether what was looked at holds, as the tables of the studies have it.
    pub fn word(self) -> &'static str {
        match self {
            Seen::Shown => "yes",
            Seen::Refuted => "**no**",
            Seen::Open => "open",
        }
    }

    /// Of several effects together: all have to be shown, and one refuted is enough.
    pub fn all(each: impl IntoIterator<Item = Seen>) -> Seen {
        each.into_iter().fold(Seen::Shown, |sum, one| match (sum, one) {
            (Seen::Refuted, _) | (_, Seen::Refuted) => Seen::Refuted,
            (Seen::Open, _) | (_, Seen::Open) => Seen::Open,
            (Seen::Shown, Seen::Shown) => Seen::Shown,
        })
    }
}

/// Looks at so many possessions, and once more at four times as many where that leaves it open; the last look, and what
/// else it found.
pub fn two_looks<T>(count: u64, look: impl Fn(u64) -> (Seen, T)) -> (Seen, T) {
    looks(&[count, AGAIN * count], look)
}

/// Looks at so many possessions, one count after the other for as long as it is open; the last look, and what else it found.
fn looks<T>(counts: &[u64], look: impl Fn(u64) -> (Seen, T)) -> (Seen, T) {
    keeping(|| {
        let (first, more) = counts.split_first().expect("there is a look");
        more.iter().fold(look(*first), |last, count| if last.0 == Seen::Open { look(*count) } else { last })
    })
}

/// Ends of the interval of a share (Wilson), this many standard errors to either side.
pub fn share(hits: usize, of: usize, z: f64) -> (f64, f64) {
    let interval = wilson_interval(hits as u64, of as u64, z).expect("something was counted");
    (interval.low, interval.high)
}

/// Something that is demanded: an interval that has to lie within bounds.
#[derive(Clone, Debug)]
pub struct Demand {
    what: String,
    interval: (f64, f64),
    least: f64,
    most: f64,
}

impl Demand {
    /// No less than this.
    pub fn at_least(what: impl Into<String>, interval: (f64, f64), least: f64) -> Self {
        Self { what: what.into(), interval, least, most: f64::INFINITY }
    }

    /// No more than this.
    pub fn at_most(what: impl Into<String>, interval: (f64, f64), most: f64) -> Self {
        Self { what: what.into(), interval, least: f64::NEG_INFINITY, most }
    }

    /// No farther from nothing than this, either way.
    pub fn within(what: impl Into<String>, interval: (f64, f64), size: f64) -> Self {
        Self { what: what.into(), interval, least: -size, most: size }
    }

    /// What a look says of it.
    pub fn seen(&self) -> Seen {
        Seen::within(self.interval, self.least, self.most)
    }
}

/// What of that which is demanded is not shown in two looks, in words. The look is given how many possessions to play.
pub fn short_of(count: u64, look: impl Fn(u64) -> Vec<Demand>) -> Vec<String> {
    short_in(&[count, AGAIN * count], look)
}

/// The same in looks at so many possessions each; intervals are to be as wide as that many looks ask.
pub fn short_in(counts: &[u64], look: impl Fn(u64) -> Vec<Demand>) -> Vec<String> {
    let (_, (played, demands)) = looks(counts, |count| {
        let demands = look(count);
        assert!(!demands.is_empty(), "nothing is demanded");
        (Seen::all(demands.iter().map(Demand::seen)), (count, demands))
    });
    let told = |demand: &Demand| {
        let Demand { what, interval: (low, high), least, most } = demand;
        let told = format!("{what}: {low:.4} to {high:.4}, to be {least} to {most}; {played} possessions");
        println!("{told}");
        (demand.seen() != Seen::Shown).then_some(told)
    };
    demands.iter().filter_map(told).collect()
}

/// Fails where something that is demanded is not shown in two looks.
#[track_caller]
pub fn demand(count: u64, look: impl Fn(u64) -> Vec<Demand>) {
    let short = short_of(count, look);
    assert!(short.is_empty(), "not shown: {}", short.join("\n"));
}

#[test]
fn what_is_demanded_is_shown_by_its_interval_in_the_second_look_at_the_latest() {
    let half = |count: u64| share(count as usize / 2, count as usize, Z_95);
    demand(100, |count| {
        vec![Demand::at_least("half", half(count), 0.4), Demand::at_most("half", half(count), 0.6)]
    });
    // Half of a hundred is 0.39 to 0.61, of four hundred 0.44 to 0.56.
    assert_eq!(Demand::at_least("half", half(100), 0.4).seen(), Seen::Open);
    assert_eq!(Demand::within("half", half(400), 0.6).seen(), Seen::Shown);
}

#[test]
#[should_panic(expected = "not shown: half")]
fn a_share_that_is_only_just_over_its_bound_is_not_shown() {
    demand(100, |count| {
        vec![Demand::at_least("half", share(count as usize / 2, count as usize, Z_95), 0.49)]
    });
}

#[test]
fn only_what_is_left_open_is_looked_at_again_and_once() {
    let looks = |of: fn(u64) -> Seen| {
        let asked = std::cell::RefCell::new(Vec::new());
        let (seen, ()) = two_looks(10, |count| (of(count), asked.borrow_mut().push(count)));
        (seen, asked.into_inner())
    };
    assert_eq!(looks(|_| Seen::Shown), (Seen::Shown, vec![10]));
    assert_eq!(looks(|_| Seen::Refuted), (Seen::Refuted, vec![10]));
    assert_eq!(looks(|_| Seen::Open), (Seen::Open, vec![10, 40]));
    assert_eq!(looks(|count| if count > 10 { Seen::Shown } else { Seen::Open }), (Seen::Shown, vec![10, 40]));
}

#[test]
fn an_interval_over_the_bound_leaves_it_open() {
    assert_eq!(Seen::within((0.5, 0.9), 0.5, f64::INFINITY), Seen::Shown);
    assert_eq!(Seen::within((0.4, 0.9), 0.5, f64::INFINITY), Seen::Open);
    assert_eq!(Seen::within((0.1, 0.4), 0.5, f64::INFINITY), Seen::Refuted);
    assert_eq!(Seen::within((-0.1, 0.2), -0.3, 0.3), Seen::Shown);
    assert_eq!(Seen::within((0.2, 0.4), -0.3, 0.3), Seen::Open);
    assert_eq!(Seen::within((0.4, 0.5), -0.3, 0.3), Seen::Refuted);
    assert_eq!(Seen::all([Seen::Shown, Seen::Open, Seen::Shown]), Seen::Open);
    assert_eq!(Seen::all([Seen::Open, Seen::Refuted, Seen::Shown]), Seen::Refuted);
}
