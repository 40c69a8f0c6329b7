//! Pairs of variants of which too little was seen for an interval by the normal distribution: an estimated variance of 0, or
//! of a handful of events, is no certainty.
//!
//! Events are counted from the totals. Of a mean: the possessions in which the two differ, `sum d^2 / size^2`, where the
//! size of an event is `sum x^2 / |sum x|`. Of yes and no that is the exact number; of what has sizes it is fewer than there
//! were. Of a ratio: the same above and below the line, and of a share of each variant alone what counts and what does not,
//! `(sum x)^2 / sum x^2`. Below [`ENOUGH`] the interval is that of a count: a count k may as well be of a mean of up to
//! `k + c^2 / 2 + c sqrt(k + c^2 / 4)`, which is never 0 wide and falls with the number of possessions.
//! Known limit: of what has both signs and a mean near 0 an event looks larger than it is, so that fewer are counted than there
//! were, and a race by it may go on to its budget. No column that questions are ranked by is one.
//! Source: the score interval of a Poisson mean, L. D. Brown, T. T. Cai and A. DasGupta, Statistica Sinica 13, 2003, 19-49,
//! from memory.

use super::figure::Figure;
use super::totals::Totals;

/// Events from which on sums are taken for normal. (a choice: the usual rule of thumb)
const ENOUGH: f64 = 10.0;

/// The few events of a pair, in one part or one for each variant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Few([Part; 2]);

/// How many events, and how much one of them moves the figure, in its unit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Part {
    count: f64,
    size: f64,
}

impl Part {
    /// How far up the count may reach, `critical` being the quantile.
    fn reach(self, critical: f64) -> f64 {
        let half = critical / 2.0;
        self.size * critical * (half + (self.count + half * half).sqrt())
    }
}

impl Few {
    /// Of two variants; None where enough was seen of them. `scale` is the figure's unit, as in [`super::Joint::new`].
    pub(super) fn of(totals: &Totals, figure: Figure, (v, w): (usize, usize), scale: f64) -> Option<Self> {
        match figure {
            Figure::Mean(measure) => {
                let differing = differing(totals, measure, v, w);
                let size = size(totals, measure, [v, w]).map_or(1.0, |size| size * scale);
                let part = Part { count: differing, size: size / totals.possessions() as f64 };
                (differing < ENOUGH).then_some(Self([part, Part::default()]))
            }
            Figure::Ratio(ratio) => {
                let own = [v, w].map(|variant| of_ratio(totals, ratio, variant, scale));
                if own.iter().any(|part| part.count < ENOUGH) {
                    return Some(Self(own));
                }
                let (above, below) = totals.ratios()[ratio];
                let count = differing(totals, above, v, w).max(differing(totals, below, v, w));
                let each = |variant| {
                    let size = |measure| size(totals, measure, [variant, variant]).unwrap_or(0.0);
                    let all = totals.sum(below, variant) as f64;
                    (size(above) + size(below) * (totals.sum(above, variant) as f64 / all).abs()) / all
                        * scale
                };
                let part = Part { count, size: each(v).max(each(w)) };
                (count < ENOUGH).then_some(Self([part, Part::default()]))
            }
        }
    }

    /// Half width of the interval of their difference.
    pub(super) fn half_width(&self, critical: f64) -> f64 {
        self.0.iter().map(|part| part.reach(critical)).sum()
    }
}

/// Possessions in which a measure of two variants differs, or fewer.
fn differing(totals: &Totals, measure: usize, v: usize, w: usize) -> f64 {
    let squares = squares(totals, measure, v) + squares(totals, measure, w)
        - 2.0 * products(totals, measure, v, w) as f64;
    size(totals, measure, [v, w]).map_or(0.0, |size| squares / (size * size))
}

/// How large an event of a measure is, in integer units: the larger of two variants; None where nothing was seen of either.
fn size(totals: &Totals, measure: usize, variants: [usize; 2]) -> Option<f64> {
    let of = |variant| {
        let sum = totals.sum(measure, variant).unsigned_abs() as f64;
        let squares = squares(totals, measure, variant);
        (squares > 0.0).then(|| squares / sum.max(1.0))
    };
    variants.into_iter().filter_map(of).max_by(f64::total_cmp)
}

/// Events of one variant's ratio: what counts, or of a share what does not, whichever is rarer.
fn of_ratio(totals: &Totals, ratio: usize, variant: usize, scale: f64) -> Part {
    let (above, below) = totals.ratios()[ratio];
    let n = i128::from(totals.possessions());
    let (x, y) = (totals.sum(above, variant), totals.sum(below, variant));
    let crossed = (totals.centred_cross(ratio, variant, variant) + x * y) / n;
    let other =
        products(totals, above, variant, variant) + products(totals, below, variant, variant) - 2 * crossed;
    let part = |sum: i128, squares: i128| {
        let (sum, squares) = (sum.unsigned_abs() as f64, squares as f64);
        let size = if squares > 0.0 { squares / sum.max(1.0) * scale } else { 1.0 };
        let count = if squares > 0.0 { sum * sum / squares } else { 0.0 };
        Part { count, size: size / y as f64 }
    };
    let counts = part(x, products(totals, above, variant, variant));
    // Above 1 it is no share, and nothing is left over.
    let others = (x <= y).then(|| part(y - x, other)).filter(|others| others.count < counts.count);
    others.unwrap_or(counts)
}

/// Sum of products of a measure of two variants.
fn products(totals: &Totals, measure: usize, v: usize, w: usize) -> i128 {
    let centred = totals.centred(measure, v, w) + totals.sum(measure, v) * totals.sum(measure, w);
    centred / i128::from(totals.possessions())
}

fn squares(totals: &Totals, measure: usize, variant: usize) -> f64 {
    products(totals, measure, variant, variant) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Totals of possessions, each so many times.
    fn totals<const W: usize>(variants: usize, rows: &[(u64, [i64; W])]) -> Totals {
        let measures = W / variants;
        let mut totals = Totals::new(variants, measures, if measures > 1 { &[(0, 1)] } else { &[] });
        for (times, row) in rows {
            (0..*times).for_each(|_| totals.add(row));
        }
        totals
    }

    #[test]
    fn possessions_that_differ_are_counted_exactly_for_yes_and_no_in_any_unit() {
        for unit in [1, 1_000_000] {
            let rows = [(500, [unit, unit]), (515, [0, 0]), (6, [unit, 0]), (3, [0, unit])];
            let few = Few::of(&totals(2, &rows), Figure::Mean(0), (0, 1), 1.0 / unit as f64).unwrap();
            assert!((few.0[0].count - 9.0).abs() < 1e-9 && (few.0[0].size * 1024.0 - 1.0).abs() < 1e-9);
            let more = [(500, [unit, unit]), (514, [0, 0]), (6, [unit, 0]), (4, [0, unit])];
            assert_eq!(Few::of(&totals(2, &more), Figure::Mean(0), (0, 1), 1.0), None);
        }
    }

    #[test]
    fn nothing_seen_reaches_as_far_as_a_count_of_none_may() {
        let none = Few::of(&totals(2, &[(1024, [0, 0])]), Figure::Mean(0), (0, 1), 1.0).unwrap();
        assert!((none.half_width(2.0) - 4.0 / 1024.0).abs() < 1e-12);
        // A count of 9 may be of a mean of up to 17.4: (17.3 - 9) / sqrt 17.3 is 2.
        let nine = Few([Part { count: 9.0, size: 1.0 }, Part::default()]).half_width(2.0);
        assert!(((nine) / (9.0 + nine).sqrt() - 2.0).abs() < 1e-12, "{nine}");
    }

    #[test]
    fn a_share_of_two_events_is_told_from_none_of_three_by_nobody() {
        // Numerator and denominator of the first variant, then of the second: 2 of 2, and 0 of 3.
        let rows = [(2, [1, 1, 0, 0]), (3, [0, 0, 0, 1]), (1019, [0; 4])];
        let few = Few::of(&totals(2, &rows), Figure::Ratio(0), (0, 1), 1.0).unwrap();
        assert!(few.half_width(1.96) > 1.0, "{few:?}");
        let many = [(50, [1, 1, 0, 0]), (40, [0, 1, 1, 1]), (30, [0, 0, 0, 1])];
        assert_eq!(Few::of(&totals(2, &many), Figure::Ratio(0), (0, 1), 1.0), None);
    }
}
