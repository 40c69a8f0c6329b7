//! Two looks: a test that demands an effect is played short first, and once more with four times as many possessions
//! where that decides nothing.
//!
//! The first look ends it only where the effect is shown, or its contrary is. The second contains the possessions of the
//! first (the same seed from 0 on), and there nothing but the effect shown is enough. Whoever looks twice has two chances
//! to be right by luck, so each look is held to half of the stated level (Bonferroni over the two looks): whatever the
//! two have to do with each other, both together are wrong no more often than was stated. Bounds are those of one look.

/// How many times as many possessions the second look has.
const AGAIN: u64 = 4;
/// Standard errors to either side of an interval at 95 % over two looks: 97.5 % each (one look alone: 1.960).
pub const Z_95: f64 = 2.2415;
/// The same at 99 %: 99.5 % each (one look alone: 2.576).
pub const Z_99: f64 = 2.8071;
/// The same for three standard errors (99.73 %): 99.865 % each.
pub const Z_3_ERRORS: f64 = 3.2052;

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
    let first = look(count);
    if first.0 == Seen::Open { look(AGAIN * count) } else { first }
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
