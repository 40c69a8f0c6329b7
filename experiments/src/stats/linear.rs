//! Contrasts of any number of variants: weighted sums of their figures, over the same possession indices.
//!
//! Formula: `C = sum c_v x_v / d` with whole weights c that sum to 0. Its variance is that of one possession's
//! weighted sum, `sum c_v c_w cov(x_v, x_w) / d^2`, over n, with the covariances from the Gram matrix; ratios by
//! their linear parts. Source: the textbook variance of a weighted sum; [`super::paired_difference`] is the contrast of
//! two.
//!
//! Sums over variants are taken in integers: for means the totals themselves, for ratios the terms rounded to a
//! common grid. Equal columns therefore cancel to exactly 0 whatever the weights.

use super::figure::Figure;
use super::paired::Difference;
use super::totals::Totals;

/// Largest sum of the sizes of a contrast's weights: 33 rules of two variants each.
const LARGEST_WEIGHTS: u64 = 128;
/// Largest number of possessions of a contrast: n^2 times the weights squared times the largest value squared
/// stays below 2^127.
const LARGEST_POSSESSIONS: u64 = 1 << 24;

/// Whole weights of variants, and what their sum is divided by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weights {
    terms: Vec<(usize, i64)>,
    divisor: i64,
}

impl Weights {
    /// Weights as (variant, weight); panics unless they sum to 0 and are small, and the divisor is above 0.
    pub fn new(terms: Vec<(usize, i64)>, divisor: i64) -> Self {
        assert_eq!(terms.iter().map(|(_, weight)| weight).sum::<i64>(), 0, "weights of a contrast sum to 0");
        let size: u64 = terms.iter().map(|(_, weight)| weight.unsigned_abs()).sum();
        assert!(size <= LARGEST_WEIGHTS && divisor > 0, "weights of size {size} over {divisor}");
        Self { terms, divisor }
    }

    fn pairs(&self) -> impl Iterator<Item = (usize, usize, i128)> + '_ {
        self.terms
            .iter()
            .flat_map(|&(v, a)| self.terms.iter().map(move |&(w, b)| (v, w, i128::from(a) * i128::from(b))))
    }
}

/// The contrast in units of `scale` (as in [`super::normal_interval`]); the interval reaches `z` standard errors.
/// None below two possessions or with a denominator of 0. Source: see the file's head.
pub fn linear_contrast(
    totals: &Totals,
    figure: Figure,
    weights: &Weights,
    scale: f64,
    z: f64,
) -> Option<Difference> {
    let n = totals.possessions();
    assert!(n <= LARGEST_POSSESSIONS, "a contrast of more than 2^24 possessions");
    let estimates: Vec<f64> =
        weights.terms.iter().map(|&(v, _)| figure.estimate(totals, v)).collect::<Option<_>>()?;
    if n < 2 {
        return None;
    }
    let divisor = weights.divisor as f64;
    let (sum, variance) = match figure {
        Figure::Mean(measure) => {
            let sum: i128 = weights.terms.iter().map(|&(v, c)| i128::from(c) * totals.sum(measure, v)).sum();
            let centred: i128 = weights.pairs().map(|(v, w, cc)| cc * totals.centred(measure, v, w)).sum();
            (sum as f64 / n as f64, totals.per_pair(centred))
        }
        Figure::Ratio(_) => {
            let covariances: Vec<f64> =
                weights.pairs().map(|(v, w, _)| figure.covariance(totals, v, w)).collect();
            let squares: Vec<i128> = weights.pairs().map(|(_, _, cc)| cc).collect();
            let single: Vec<i128> = weights.terms.iter().map(|&(_, c)| i128::from(c)).collect();
            (on_a_grid(&single, &estimates), on_a_grid(&squares, &covariances))
        }
    };
    let deviation = variance.max(0.0).sqrt() * scale / divisor;
    Some(Difference::new(sum * scale / divisor, deviation, n, z))
}

/// The same with weights that need not be whole, one a variant: they are rounded to 2^-24 and made to sum to 0, so that equal
/// columns cancel to exactly 0 here, too. At most 64 variants and weights of some units. Source: see the file's head.
pub fn weighted_contrast(
    totals: &Totals,
    figure: Figure,
    weights: &[f64],
    scale: f64,
    z: f64,
) -> Option<Difference> {
    assert_eq!(weights.len(), totals.variants(), "a weight a variant");
    let whole: Vec<i128> = whole_weights(weights, GRID).into_iter().map(i128::from).collect();
    let all = 0..totals.variants();
    let estimates: Vec<f64> = all.clone().map(|v| figure.estimate(totals, v)).collect::<Option<_>>()?;
    let n = totals.possessions();
    if n < 2 {
        return None;
    }
    let pairs = || all.clone().flat_map(|v| (0..totals.variants()).map(move |w| (v, w)));
    let covariances: Vec<f64> = pairs().map(|(v, w)| figure.covariance(totals, v, w)).collect();
    let squares: Vec<i128> = pairs().map(|(v, w)| whole[v] * whole[w]).collect();
    let sum = on_a_grid(&whole, &estimates) / GRID;
    let deviation = on_a_grid(&squares, &covariances).max(0.0).sqrt() / GRID;
    Some(Difference::new(sum * scale, deviation * scale, n, z))
}

/// What weights of [`weighted_contrast`] are rounded to.
const GRID: f64 = (1_u64 << 24) as f64;

/// Weights in so many parts of one, made to sum to 0: what rounding leaves is taken from the largest, the first of equals.
pub fn whole_weights(weights: &[f64], parts: f64) -> Vec<i64> {
    let mut whole: Vec<i64> = weights.iter().map(|weight| (weight * parts).round() as i64).collect();
    let rest: i64 = whole.iter().sum();
    let size = |place: &usize| (whole[*place].unsigned_abs(), std::cmp::Reverse(*place));
    if let Some(largest) = (0..whole.len()).max_by_key(size) {
        whole[largest] -= rest;
    }
    whole
}

/// `sum weight x value`, the values rounded to a grid of the largest one's last digits and summed in integers.
fn on_a_grid(weights: &[i128], values: &[f64]) -> f64 {
    let step = values.iter().fold(0.0_f64, |most, value| most.max(value.abs())) / (1_u64 << 52) as f64;
    if step == 0.0 {
        return 0.0;
    }
    let sum: i128 = weights.iter().zip(values).map(|(c, value)| c * (value / step).round() as i128).sum();
    sum as f64 * step
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::super::paired::paired_difference;
    use super::*;

    /// Options by rules: two options under three rules, each as numerator and denominator.
    const CELLS: usize = 6;

    fn row(random: &mut Generator) -> [i64; 2 * CELLS] {
        let common = random.uniform();
        core::array::from_fn(|place| match place % 2 {
            0 => (4e5 * (common + random.uniform() + place as f64)) as i64,
            _ => 1 + (common * 2.0 + 2.0 * random.uniform()) as i64,
        })
    }

    fn sample(n: usize) -> (Totals, Vec<[i64; 2 * CELLS]>) {
        let mut random = Generator::new(21);
        let rows: Vec<_> = (0..n).map(|_| row(&mut random)).collect();
        let mut totals = Totals::new(CELLS, 2, &[(0, 1)]);
        rows.iter().for_each(|row| totals.add(row));
        (totals, rows)
    }

    /// The second option's lead under the last rule less the mean of its leads under the two others.
    fn interaction() -> Weights {
        Weights::new(vec![(5, 2), (2, -2), (3, -1), (0, 1), (4, -1), (1, 1)], 2)
    }

    #[test]
    fn a_contrast_of_two_is_their_paired_difference() {
        let (totals, _) = sample(300);
        let two = Weights::new(vec![(4, 1), (1, -1)], 1);
        let of = |figure| linear_contrast(&totals, figure, &two, 1e-6, 2.5).unwrap();
        let paired = |figure| paired_difference(&totals, figure, (4, 1), 1e-6, 2.5).unwrap();
        assert_eq!(of(Figure::Mean(0)), paired(Figure::Mean(0)));
        let (own, pair) = (of(Figure::Ratio(0)), paired(Figure::Ratio(0)));
        assert!((own.interval.estimate / pair.interval.estimate - 1.0).abs() < 1e-9, "{own:?}, {pair:?}");
        assert!((own.standard_error / pair.standard_error - 1.0).abs() < 1e-9, "{own:?}, {pair:?}");
    }

    #[test]
    fn the_interval_is_that_of_the_possessions_own_contrasts() {
        let (totals, rows) = sample(500);
        for figure in [Figure::Mean(0), Figure::Ratio(0)] {
            let got = linear_contrast(&totals, figure, &interaction(), 1.0, 3.0).unwrap();
            // Each possession's contrast, written out; a ratio's by its linear parts.
            let value = |row: &[i64; 12], cell: usize| match figure {
                Figure::Mean(_) => row[2 * cell] as f64,
                Figure::Ratio(_) => {
                    let ratio = figure.estimate(&totals, cell).unwrap();
                    let rest = row[2 * cell] as f64 - ratio * row[2 * cell + 1] as f64;
                    ratio + rest / totals.mean(1, cell, 1.0)
                }
            };
            let lead = |row: &[i64; 12], rule: usize| value(row, 3 + rule) - value(row, rule);
            let own: Vec<f64> =
                rows.iter().map(|row| lead(row, 2) - (lead(row, 0) + lead(row, 1)) / 2.0).collect();
            let mean = own.iter().sum::<f64>() / 500.0;
            let variance = own.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / 499.0;
            let error = (variance / 500.0).sqrt();
            for (got, want) in [
                (got.interval.estimate, mean),
                (got.standard_error, error),
                (got.interval.low, mean - 3.0 * error),
                (got.interval.high, mean + 3.0 * error),
            ] {
                assert!((got - want).abs() < 1e-9 * error.max(mean.abs()), "{figure:?}: {got} is not {want}");
            }
        }
    }

    #[test]
    fn identical_variants_contrast_by_exactly_zero_whatever_the_weights() {
        let mut random = Generator::new(22);
        for n in [2, 3, 777, 1024] {
            // One option's columns and the other's, each the same under four rules.
            let mut totals = Totals::new(8, 2, &[(0, 1)]);
            for _ in 0..n {
                let own = row(&mut random);
                let row: [i64; 16] = core::array::from_fn(|place| own[place % 4]);
                totals.add(&row);
            }
            let rules = |option: usize, sign: i64| (0..3).map(move |rule| (2 * rule + option, -sign));
            let mut terms: Vec<(usize, i64)> = rules(0, 1).chain(rules(1, -1)).collect();
            terms.extend([(6, 3), (7, -3)]);
            for figure in [Figure::Mean(0), Figure::Mean(1), Figure::Ratio(0)] {
                let got =
                    linear_contrast(&totals, figure, &Weights::new(terms.clone(), 3), 1e-6, 1.96).unwrap();
                let told = (got.interval.estimate, got.interval.low, got.interval.high, got.p);
                assert_eq!(told, (0.0, 0.0, 0.0, 1.0), "{figure:?}, n = {n}");
            }
        }
    }

    #[test]
    fn the_limits_leave_room_for_a_contrast() {
        let top = super::super::totals::LARGEST_VALUE as i64;
        let mut totals = Totals::new(2, 1, &[]);
        [[top, -top], [-top, top]].iter().for_each(|row| totals.add(row));
        for _ in 0..23 {
            let same = totals.clone();
            totals.merge(&same);
        }
        assert_eq!(totals.possessions(), LARGEST_POSSESSIONS);
        let widest = Weights::new(vec![(0, 64), (1, -64)], 1);
        let got = linear_contrast(&totals, Figure::Mean(0), &widest, 1.0, 1.0).unwrap();
        assert!((got.deviation / (128.0 * top as f64) - 1.0).abs() < 1e-6, "{got:?}");
        let mut none = Totals::new(2, 1, &[]);
        none.add(&[1, 2]);
        assert_eq!(linear_contrast(&none, Figure::Mean(0), &widest, 1.0, 1.0), None);
    }

    #[test]
    fn weights_that_are_not_whole_give_the_same_contrast_and_equal_columns_exactly_nothing() {
        let (totals, _) = sample(300);
        let weights = interaction();
        let mut halves = [0.0; CELLS];
        weights.terms.iter().for_each(|&(v, c)| halves[v] = c as f64 / 2.0);
        for figure in [Figure::Mean(0), Figure::Ratio(0)] {
            let own = weighted_contrast(&totals, figure, &halves, 1.0, 2.0).unwrap();
            let whole = linear_contrast(&totals, figure, &weights, 1.0, 2.0).unwrap();
            for (a, b) in [
                (own.interval.estimate, whole.interval.estimate),
                (own.interval.low, whole.interval.low),
                (own.deviation, whole.deviation),
            ] {
                assert!((a / b - 1.0).abs() < 1e-9, "{own:?}, {whole:?}");
            }
        }
        let mut same = Totals::new(3, 2, &[(0, 1)]);
        (1..40).for_each(|x| same.add(&[x, 1 + x % 3, x, 1 + x % 3, x, 1 + x % 3]));
        for figure in [Figure::Mean(0), Figure::Ratio(0)] {
            let none =
                weighted_contrast(&same, figure, &[1.0 / 3.0, 1.0 / 3.0, -2.0 / 3.0], 1.0, 2.0).unwrap();
            assert_eq!((none.interval.estimate, none.deviation, none.p), (0.0, 0.0, 1.0));
        }
    }

    #[test]
    #[should_panic(expected = "sum to 0")]
    fn weights_that_do_not_sum_to_nothing_are_no_contrast() {
        Weights::new(vec![(0, 2), (1, -1)], 1);
    }
}
