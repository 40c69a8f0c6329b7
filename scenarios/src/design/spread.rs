//! Over which values a factor goes, and how they are spread: what a point between 0 and 1 stands for.

/// How values are spread between the ends of a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Shape {
    /// Every value alike.
    Uniform,
    /// Most at the mode, none at the ends.
    Triangular { mode: f64 },
    /// Normal, cut off at the ends of the range.
    Normal { mean: f64, deviation: f64 },
}

/// A range with a shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spread {
    pub low: f64,
    pub high: f64,
    pub shape: Shape,
    /// Whole numbers only.
    pub whole: bool,
}

/// Significant digits of a value: more than any key is known to, few enough to be read. What is told is what is played.
const DIGITS: usize = 6;
/// Halvings of a range until what is left is far below those digits.
const HALVINGS: usize = 80;

impl Spread {
    /// The value below which a share `u` (0-1) of all values lies.
    pub fn at(&self, u: f64) -> f64 {
        let Spread { low, high, shape, whole } = *self;
        // A whole number stands for the values that are nearest to it.
        let (a, b) = if whole { (low - 0.5, high + 0.5) } else { (low, high) };
        let value = match shape {
            Shape::Uniform => a + u * (b - a),
            Shape::Triangular { mode } => {
                let share = (mode - a) / (b - a);
                if u < share {
                    a + (u * (b - a) * (mode - a)).sqrt()
                } else {
                    b - ((1.0 - u) * (b - a) * (b - mode)).sqrt()
                }
            }
            Shape::Normal { mean, deviation } => cut_normal((a, b), (mean, deviation), u),
        };
        let value = if whole { value.round() } else { rounded(value) };
        value.clamp(low, high)
    }

    /// So many values from end to end, at even distances.
    pub fn levels(&self, count: usize) -> Vec<f64> {
        let step = |nth: usize| self.low + (self.high - self.low) * nth as f64 / (count - 1) as f64;
        let value = |nth| if self.whole { step(nth).round() } else { rounded(step(nth)) };
        let mut values: Vec<f64> = (0..count).map(value).collect();
        values.dedup();
        values
    }
}

/// A number with as many digits as are told of it.
fn rounded(value: f64) -> f64 {
    format!("{value:.*e}", DIGITS - 1).parse().unwrap_or(value)
}

/// A normal value cut off at both ends, by halving: its share below is known, its quantile is not needed often.
fn cut_normal((a, b): (f64, f64), (mean, deviation): (f64, f64), u: f64) -> f64 {
    let below = |x: f64| 0.5 * libm::erfc((mean - x) / deviation * core::f64::consts::FRAC_1_SQRT_2);
    let wanted = below(a) + u * (below(b) - below(a));
    let (mut low, mut high) = (a, b);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if below(middle) < wanted { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(spread: Spread) -> Vec<f64> {
        (0..10_000).map(|nth| spread.at((f64::from(nth) + 0.5) / 10_000.0)).collect()
    }

    fn moments(values: &[f64]) -> (f64, f64) {
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        (mean, values.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n)
    }

    #[test]
    fn each_shape_has_the_moments_that_its_formula_gives() {
        let of = |shape, whole| values(Spread { low: 1.0, high: 4.0, shape, whole });
        let near = |shape, mean: f64, variance: f64| {
            let got = moments(&of(shape, false));
            assert!((got.0 - mean).abs() < 1e-3 && (got.1 - variance).abs() < 2e-3, "{shape:?}: {got:?}");
        };
        near(Shape::Uniform, 2.5, 9.0 / 12.0);
        // (a + b + c) / 3 and (a^2 + b^2 + c^2 - ab - ac - bc) / 18.
        near(Shape::Triangular { mode: 2.0 }, 7.0 / 3.0, (1.0 + 16.0 + 4.0 - 4.0 - 2.0 - 8.0) / 18.0);
        // Cut off at one and a half deviations to both sides: 1 - 2 z pdf(z) / (cdf(z) - cdf(-z)).
        let (z, density, share) = (1.5, 0.129_517_595_665_892, 0.866_385_597_462_284);
        near(Shape::Normal { mean: 2.5, deviation: 1.0 }, 2.5, 1.0 - 2.0 * z * density / share);
        for shape in
            [Shape::Uniform, Shape::Triangular { mode: 1.0 }, Shape::Normal { mean: 9.0, deviation: 2.0 }]
        {
            let values = of(shape, false);
            assert!(values.is_sorted() && values[0] >= 1.0 && values[9_999] <= 4.0, "{shape:?}");
        }
    }

    #[test]
    fn whole_numbers_are_equally_likely_and_both_ends_are_reached() {
        let values = values(Spread { low: 1.0, high: 4.0, shape: Shape::Uniform, whole: true });
        for whole in [1.0, 2.0, 3.0, 4.0] {
            assert_eq!(values.iter().filter(|value| **value == whole).count(), 2500);
        }
    }

    #[test]
    fn levels_go_from_end_to_end_and_values_have_six_digits() {
        let spread = Spread { low: 0.0, high: 1.0, shape: Shape::Uniform, whole: false };
        assert_eq!(spread.levels(4), [0.0, 0.333333, 0.666667, 1.0]);
        assert_eq!(Spread { high: 3.0, whole: true, ..spread }.levels(9), [0.0, 1.0, 2.0, 3.0]);
        assert_eq!(spread.at(0.123_456_789), 0.123457);
    }
}
