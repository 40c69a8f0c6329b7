//! One column: how it is made from the totals, and how its values are told.

use engine::{Measure, Unit};

use super::COLUMNS;
use crate::row::Quantity;
use crate::stats::{
    Better, Difference, Figure, Interval, Joint, Totals, Weights, linear_contrast, normal_interval,
    paired_difference, pairing_gain, rate_interval, share_interval,
};

/// Confidence of every interval.
pub const CONFIDENCE: f64 = 0.95;

/// How a column is made from the totals, and with it its interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Share of possessions in which something happened: Wilson interval.
    Rate(Measure),
    /// Mean a possession: normal interval.
    Mean(Measure),
    /// Part of a random number of events: cluster interval between 0 and 1.
    Share(Measure, Measure),
    /// Ratio of two sums: cluster interval.
    Ratio(Quantity, Quantity),
}

/// One column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// Name in files.
    pub key: &'static str,
    /// How it is made.
    pub kind: Kind,
    /// Which way it is good for the attack.
    pub better: Better,
    /// What is counted or measured, in words that follow "more" or "fewer".
    pub words: &'static str,
}

impl Column {
    /// The column of this name.
    pub fn named(key: &str) -> Option<&'static Column> {
        COLUMNS.iter().find(|column| column.key == key)
    }

    /// What it is estimated from.
    pub fn figure(&self) -> Figure {
        match self.ratio() {
            None => match self.kind {
                Kind::Rate(measure) | Kind::Mean(measure) => Figure::Mean(measure as usize),
                Kind::Share(..) | Kind::Ratio(..) => unreachable!("it has a ratio"),
            },
            Some(pair) => Figure::Ratio(
                ratios().iter().position(|other| *other == pair).expect("every ratio is in the list"),
            ),
        }
    }

    /// Places of numerator and denominator in a row.
    fn ratio(&self) -> Option<(usize, usize)> {
        match self.kind {
            Kind::Rate(_) | Kind::Mean(_) => None,
            Kind::Share(part, whole) => Some((part as usize, whole as usize)),
            Kind::Ratio(above, below) => Some((above.index(), below.index())),
        }
    }

    /// Size of one integer unit of the figure.
    pub(crate) fn scale(&self) -> f64 {
        match self.kind {
            Kind::Rate(_) | Kind::Share(..) => 1.0,
            Kind::Mean(measure) => Quantity::Measured(measure).unit_size(),
            Kind::Ratio(above, below) => above.unit_size() / below.unit_size(),
        }
    }

    /// Estimate and interval for one variant; None without data. `z` is the half width in standard errors.
    pub fn interval(&self, totals: &Totals, variant: usize, z: f64) -> Option<Interval> {
        match (self.kind, self.figure()) {
            (Kind::Rate(measure), _) => rate_interval(totals, measure as usize, variant, z),
            (Kind::Share(..), Figure::Ratio(ratio)) => share_interval(totals, ratio, variant, z),
            (_, figure) => normal_interval(totals, figure, variant, self.scale(), z),
        }
    }

    /// Variant `v` less variant `w`, paired.
    pub fn difference(&self, totals: &Totals, v: usize, w: usize, z: f64) -> Option<Difference> {
        paired_difference(totals, self.figure(), (v, w), self.scale(), z)
    }

    /// A contrast of several variants, paired.
    pub fn contrast(&self, totals: &Totals, weights: &Weights, z: f64) -> Option<Difference> {
        linear_contrast(totals, self.figure(), weights, self.scale(), z)
    }

    /// How many times pairing cut the variance of that difference.
    pub fn variance_ratio(&self, totals: &Totals, v: usize, w: usize) -> Option<f64> {
        pairing_gain(totals, self.figure(), v, w)
    }

    /// All variants together, for claims that hold at once; None without data.
    pub fn joint(&self, totals: &Totals) -> Option<Joint> {
        Joint::new(totals, self.figure(), self.scale())
    }

    /// How its values are told to a reader.
    pub fn told(&self) -> Told {
        match self.kind {
            Kind::Rate(_) => Told::InTwenty,
            Kind::Share(..) => Told::Percent,
            Kind::Mean(measure) => match measure.unit() {
                Unit::Flag | Unit::Count | Unit::Points => Told::InTwenty,
                Unit::Seconds => Told::Seconds,
                Unit::Metres => Told::Metres,
                Unit::Share => Told::Percent,
            },
            Kind::Ratio(Quantity::Measured(above), _) if above.unit() == Unit::Seconds => Told::Seconds,
            Kind::Ratio(..) => Told::Number,
        }
    }
}

/// How values of a column are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// How many in 20 possessions, about what a half of a game has against a zone.
    InTwenty,
    /// In per cent.
    Percent,
    /// In seconds.
    Seconds,
    /// In metres.
    Metres,
    /// As it is.
    Number,
}

/// The ratios that the columns need, as pairs of row places, in column order.
pub fn ratios() -> Vec<(usize, usize)> {
    COLUMNS.iter().filter_map(Column::ratio).collect()
}

/// All names, for messages.
pub fn keys() -> Vec<&'static str> {
    COLUMNS.iter().map(|column| column.key).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_measure_is_reachable() {
        for &measure in Measure::ALL {
            let index = measure as usize;
            let shown = COLUMNS.iter().any(|column| match column.figure() {
                Figure::Mean(m) => m == index,
                Figure::Ratio(r) => ratios()[r].0 == index,
            });
            assert!(shown, "no column shows {}", measure.key());
        }
    }

    #[test]
    fn names_are_unique_and_kinds_fit_their_units() {
        for (place, column) in COLUMNS.iter().enumerate() {
            assert!(COLUMNS[..place].iter().all(|other| other.key != column.key), "{} twice", column.key);
            if let Kind::Rate(measure) = column.kind {
                assert_eq!(measure.unit(), Unit::Flag, "{}", column.key);
                assert!(column.key.ends_with("_rate"), "{}", column.key);
            }
            assert!(!column.words.is_empty());
        }
        let ratios = ratios();
        assert!((0..ratios.len()).all(|i| !ratios[..i].contains(&ratios[i])), "a ratio is kept twice");
    }

    #[test]
    fn effective_field_goals_count_a_three_one_and_a_half() {
        let column = Column::named("effective_field_goal_share").unwrap();
        let mut totals = Totals::new(1, crate::row::WIDTH, &ratios());
        // Three possessions with a made two, a made three and a miss: 2.5 effective makes of 3.
        for (makes, shots) in [(2, 1), (3, 1), (0, 1)] {
            let mut row = vec![0; crate::row::WIDTH];
            row[Quantity::EffectiveMakes.index()] = makes;
            row[Measure::Shots as usize] = shots;
            totals.add(&row);
        }
        let estimate = column.interval(&totals, 0, 1.96).unwrap().estimate;
        assert!((estimate - 2.5 / 3.0).abs() < 1e-12, "{estimate}");
    }
}
