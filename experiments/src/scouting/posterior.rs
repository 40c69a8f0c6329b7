//! What is believed of a rule or dial after some sightings: Bayes' rule over its values, all of them as likely beforehand.
//!
//! Sightings are taken for independent: one a possession. How likely each answer is under a value is itself known from so many
//! possessions only: its counts are those of a Dirichlet distribution (half a time beforehand, after Jeffreys), and the
//! sightings a draw from it, so that a short look at the model does not make sure of an opponent. Between the values of a dial
//! that were played chances are interpolated, and known as well as two looks together make them known. Some sightings are taken
//! to be mistaken: any answer may have been meant.

use super::likely::{Dial, Likely, Values};
use crate::stats::{Generator, Interval};

/// Values of a dial between which an interval is read.
const FINE: usize = 61;
/// What an answer counts before any was given.
const NEVER: f64 = 0.5;
/// Share of sightings that say nothing, since a scout errs. (assumed)
const MISTAKEN: f64 = 0.05;
/// Rules whose chances differ by less are as likely.
const TIE: f64 = 1e-9;
/// Confidence of intervals.
pub const CONFIDENCE: f64 = 0.9;

/// What is believed of a rule or dial.
#[derive(Clone, Debug, PartialEq)]
pub struct Posterior {
    /// Names of rules as a file has them, or numbers, with the chance of each.
    pub values: Vec<(Value, f64)>,
    /// `[value][answer]`: chance of each answer.
    chances: Vec<Vec<f64>>,
    /// Sightings.
    pub sightings: u32,
    /// In how many possessions there is something to be seen, as a share.
    pub comes_up: f64,
}

/// A value of a rule or dial.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A rule.
    Rule(String),
    /// A number.
    Number(f64),
}

impl Posterior {
    /// After so many of each answer.
    pub fn new(dial: &Dial, likely: &Likely, seen: &[u32]) -> Self {
        let (values, counts) = grid(dial, likely);
        let logs: Vec<f64> = counts.iter().map(|counts| log_likelihood(counts, seen)).collect();
        let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = logs.iter().map(|log| libm::exp(log - most)).collect();
        let sum: f64 = weights.iter().sum();
        let values = values.into_iter().zip(weights.into_iter().map(|weight| weight / sum)).collect();
        let chances = counts.iter().map(|counts| shares(counts)).collect();
        Self { values, chances, sightings: seen.iter().sum(), comes_up: likely.comes_up }
    }

    /// Median and ends of the interval of a dial; `None` of a rule.
    pub fn interval(&self) -> Option<Interval> {
        let tail = 0.5 * (1.0 - CONFIDENCE);
        Some(Interval {
            estimate: self.quantile(0.5)?,
            low: self.quantile(tail)?,
            high: self.quantile(1.0 - tail)?,
        })
    }

    /// The number below which a dial lies with a chance: each value stands for the stretch about it.
    fn quantile(&self, chance: f64) -> Option<f64> {
        let number = |at: usize| match self.values.get(at)?.0 {
            Value::Number(number) => Some(number),
            Value::Rule(_) => None,
        };
        let (first, last) = (number(0)?, number(self.values.len() - 1)?);
        let half = 0.5 * (last - first) / (self.values.len() - 1) as f64;
        let mut below = 0.0;
        for (at, (_, weight)) in self.values.iter().enumerate() {
            if below + weight >= chance {
                let within = if *weight > 0.0 { (chance - below) / weight } else { 0.5 };
                return Some((number(at)? + half * (2.0 * within - 1.0)).clamp(first, last));
            }
            below += weight;
        }
        Some(last)
    }

    /// What was seen of it speaks for: the median of a dial, the one likeliest rule. None where nothing was seen, or two rules
    /// are as likely.
    pub fn likeliest(&self) -> Option<Value> {
        if self.sightings == 0 {
            return None;
        }
        if let Some(interval) = self.interval() {
            return Some(Value::Number(interval.estimate));
        }
        let most = self.values.iter().map(|(_, chance)| *chance).fold(0.0, f64::max);
        let mut first = self.values.iter().filter(|(_, chance)| *chance >= most - TIE);
        first.next().filter(|_| first.next().is_none()).map(|(value, _)| value.clone())
    }

    /// A value drawn by its chance; None where there is none.
    pub fn drawn(&self, random: &mut Generator) -> Option<&Value> {
        let mut left = random.uniform();
        for (value, weight) in &self.values {
            left -= weight;
            if left <= 0.0 {
                return Some(value);
            }
        }
        self.values.last().map(|(value, _)| value)
    }

    /// What one sighting more is expected to tell of it, bits: how much less uncertain its answer is made by the value.
    pub fn information_bits(&self) -> f64 {
        let answers = self.chances.first().map_or(0, Vec::len);
        let entropy = |chances: &[f64]| -> f64 {
            chances.iter().filter(|chance| **chance > 0.0).map(|chance| -chance * libm::log2(*chance)).sum()
        };
        let both = || self.values.iter().map(|(_, weight)| *weight).zip(&self.chances);
        let mean: Vec<f64> = (0..answers)
            .map(|answer| both().map(|(weight, chances)| weight * chances[answer]).sum())
            .collect();
        (entropy(&mean) - both().map(|(weight, chances)| weight * entropy(chances)).sum::<f64>()).max(0.0)
    }
}

/// The values between which a dial is read, with the counts of the answers under each.
fn grid(dial: &Dial, likely: &Likely) -> (Vec<Value>, Vec<Vec<f64>>) {
    let played: Vec<Vec<f64>> = likely.counts.iter().map(|counts| believed(counts)).collect();
    let Values::Numbers(numbers, _) = &dial.values else {
        let rules = likely.values.iter().map(|name| Value::Rule(name.trim_matches('"').to_owned()));
        return (rules.collect(), played);
    };
    let (first, last) = (numbers[0], numbers[numbers.len() - 1]);
    let fine = |nth: usize| {
        let number = first + (last - first) * nth as f64 / (FINE - 1) as f64;
        let above = numbers.iter().position(|played| *played >= number).unwrap_or(numbers.len() - 1).max(1);
        let share = (number - numbers[above - 1]) / (numbers[above] - numbers[above - 1]);
        (Value::Number(number), between((&played[above - 1], &played[above]), share.clamp(0.0, 1.0)))
    };
    (0..FINE).map(fine).unzip()
}

/// Counts of the chances at a share of the way from one value to the next: as many as leave them with the variance that they
/// have as a mean of two independent shares.
fn between((below, above): (&[f64], &[f64]), share: f64) -> Vec<f64> {
    let (rest, sums) = (1.0 - share, [below, above].map(|counts| counts.iter().sum::<f64>()));
    let many = 1.0 / (rest * rest / sums[0] + share * share / sums[1]);
    let chances =
        below.iter().zip(above).map(|(below, above)| rest * below / sums[0] + share * above / sums[1]);
    chances.map(|chance| many * chance).collect()
}

/// The counts with what is assumed before any, and with mistakes.
fn believed(counts: &[f64]) -> Vec<f64> {
    let sum: f64 = counts.iter().map(|count| count + NEVER).sum();
    let mistaken = MISTAKEN * sum / counts.len() as f64;
    counts.iter().map(|count| (1.0 - MISTAKEN) * (count + NEVER) + mistaken).collect()
}

fn shares(counts: &[f64]) -> Vec<f64> {
    let sum: f64 = counts.iter().sum();
    counts.iter().map(|count| count / sum).collect()
}

/// Logarithm of the chance of sightings, drawn from a distribution of which so much was counted, but for a factor that is the
/// same for all: that of a Dirichlet-multinomial distribution.
fn log_likelihood(counts: &[f64], seen: &[u32]) -> f64 {
    let more = |had: f64, seen: f64| libm::lgamma(had + seen) - libm::lgamma(had);
    let each: f64 = counts.iter().zip(seen).map(|(had, seen)| more(*had, f64::from(*seen))).sum();
    let all: f64 = seen.iter().map(|seen| f64::from(*seen)).sum();
    each - more(counts.iter().sum(), all)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A dial whose answer is yes with its own chance.
    const DIAL: Dial = Dial { path: "a", words: "a", values: Values::Numbers(&[0.0, 1.0], "") };

    fn yes() -> Likely {
        Likely {
            values: vec!["0.0".into(), "1.0".into()],
            counts: vec![vec![0.0, 1e6], vec![1e6, 0.0]],
            comes_up: 0.5,
        }
    }

    #[test]
    fn a_share_is_believed_about_as_a_beta_distribution_has_it() {
        let mut wide = f64::INFINITY;
        for (made, missed) in [(2, 1), (12, 18), (160, 240)] {
            let interval = Posterior::new(&DIAL, &yes(), &[made, missed]).interval().unwrap();
            let (a, b) = (f64::from(made) + 1.0, f64::from(missed) + 1.0);
            for (quantile, chance) in [(interval.low, 0.05), (interval.estimate, 0.5), (interval.high, 0.95)]
            {
                // Mistakes move it a little.
                assert!(
                    (quantile - crate::stats::beta::quantile(chance, a, b)).abs() < 0.03,
                    "{made} {missed}"
                );
            }
            assert!(interval.high - interval.low < wide);
            wide = interval.high - interval.low;
        }
        let nothing = Posterior::new(&DIAL, &yes(), &[0, 0]).interval().unwrap();
        assert!((nothing.low - 0.05).abs() < 0.02 && (nothing.high - 0.95).abs() < 0.02);
    }

    #[test]
    fn two_looks_say_more_of_a_value_between_them_than_either() {
        let (below, above) = ([30.0, 70.0], [50.0, 50.0]);
        assert_eq!(between((&below, &above), 0.0), below);
        assert_eq!(between((&below, &above), 1.0), above);
        let half = between((&below, &above), 0.5);
        assert!((half[0] - 80.0).abs() < 1e-9 && (half[1] - 120.0).abs() < 1e-9, "{half:?}");
    }

    #[test]
    fn a_short_look_at_the_model_makes_less_sure() {
        let few = Likely { counts: vec![vec![0.0, 10.0], vec![10.0, 0.0]], ..yes() };
        let wide = |likely| {
            let interval = Posterior::new(&DIAL, likely, &[30, 30]).interval().unwrap();
            interval.high - interval.low
        };
        assert!(wide(&few) > 1.2 * wide(&yes()));
    }

    #[test]
    fn rules_are_told_apart_by_what_they_make_likely() {
        let rule = |name: &str| scenarios::ZoneRule { name: name.into(), line: String::new() };
        let dial = Dial { values: Values::Rules(vec![rule("one"), rule("two")]), ..DIAL };
        let likely = Likely {
            values: vec!["\"one\"".into(), "\"two\"".into()],
            counts: vec![vec![90.0, 10.0], vec![20.0, 80.0]],
            comes_up: 0.5,
        };
        let none = Posterior::new(&dial, &likely, &[0, 0]);
        assert_eq!((none.values[0].1, none.interval()), (0.5, None));
        let some = Posterior::new(&dial, &likely, &[3, 0]);
        assert!(some.values[0].1 > 0.95 && some.values[0].1 < 0.995, "{:?}", some.values);
        assert!(some.information_bits() < none.information_bits() && none.information_bits() > 0.3);
        assert_eq!((some.likeliest(), none.likeliest()), (Some(Value::Rule("one".into())), None));
    }
}
