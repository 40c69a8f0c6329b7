//! Least squares as weights: each coefficient is a weighted sum of the observations, whatever they turn out to be.
//!
//! Formula: `b = (X'X)^-1 X' y`, by the root of X'X ([`Root`]). A column that the earlier ones make up (they leave less than a
//! billionth of it) is left out. Then neither its coefficient nor those of the columns that make it up
//! can be told: whatever one of them is given may be taken from the others.
//! Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 5.3; what may be told ("estimable"): S. R.
//! Searle, Linear Models, 1971, section 5.4.

use crate::stats::Root;

/// Part of a column's own size below which what the others leave of it counts as rounding.
const NOTHING: f64 = 1e-9;
/// Share of a left-out column, by size, below which another's part in it counts as rounding.
const NO_PART: f64 = 1e-6;

/// A model's columns, each with a value an observation.
pub(super) struct Model {
    pub columns: Vec<Vec<f64>>,
}

/// A model's coefficients.
#[derive(Debug, PartialEq)]
pub(super) struct Solved {
    /// By column: the weights of the observations in its coefficient; None where it is left out.
    pub weights: Vec<Option<Vec<f64>>>,
    /// Columns that are not told apart: each that is left out, then those that make it up.
    pub alike: Vec<Vec<usize>>,
}

impl Solved {
    /// Whether a column's coefficient is the same however those left out are given one.
    pub fn is_told(&self, column: usize) -> bool {
        !self.alike.iter().any(|columns| columns.contains(&column))
    }
}

impl Model {
    /// The weights of the observations in each coefficient, and which of them are not told.
    pub fn solved(&self) -> Solved {
        let size = self.columns.len();
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
        let products: Vec<f64> = self
            .columns
            .iter()
            .flat_map(|row| self.columns.iter().map(move |column| dot(row, column)))
            .collect();
        let root = Root::new(&products, size, NOTHING);
        let length = |place: usize| products[place * size + place].sqrt();
        let coefficient = |place: usize| {
            root.keeps(place).then(|| {
                let mut one = vec![0.0; size];
                one[place] = 1.0;
                let mut weights = vec![0.0; self.columns[0].len()];
                let row = root.solved(&one);
                for (column, factor) in self.columns.iter().zip(row).filter(|(_, factor)| *factor != 0.0) {
                    weights.iter_mut().zip(column).for_each(|(weight, x)| *weight += factor * x);
                }
                weights
            })
        };
        let alike = (0..size).filter(|&place| !root.keeps(place)).map(|place| {
            let parts = root.parts(place);
            let has_part = |&other: &usize| parts[other].abs() * length(other) > length(place) * NO_PART;
            std::iter::once(place).chain((0..place).filter(has_part)).collect()
        });
        Solved { weights: (0..size).map(coefficient).collect(), alike: alike.collect() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn by_weights(model: &Model, y: &[f64]) -> Vec<Option<f64>> {
        let sum = |weights: Vec<f64>| weights.iter().zip(y).map(|(w, y)| w * y).sum();
        model.solved().weights.into_iter().map(|weights| weights.map(sum)).collect()
    }

    #[test]
    fn a_line_through_points_is_found_and_what_lies_off_it_averages_out() {
        let x = [0.0, 1.0, 2.0, 3.0, 4.0];
        let model = Model { columns: vec![vec![1.0; 5], x.to_vec()] };
        let found = by_weights(&model, &[1.0, 3.0, 5.0, 7.0, 9.0]);
        assert!((found[0].unwrap() - 1.0).abs() < 1e-12 && (found[1].unwrap() - 2.0).abs() < 1e-12);
        // The textbook slope: sum (x - mean)(y - mean) / sum (x - mean)^2 = 8 / 10.
        let found = by_weights(&model, &[1.0, 1.0, 4.0, 2.0, 4.0]);
        assert!((found[1].unwrap() - 0.7).abs() < 1e-12, "{found:?}");
    }

    #[test]
    fn what_columns_make_up_one_another_is_not_told_and_the_rest_is() {
        let columns =
            vec![vec![1.0; 4], vec![1.0, 0.0, 1.0, 0.0], vec![0.0, 1.0, 0.0, 1.0], vec![1.0, 1.0, 0.0, 0.0]];
        let model = Model { columns };
        let found = by_weights(&model, &[3.0, 2.0, 2.0, 1.0]);
        assert!(found[2].is_none() && (found[3].unwrap() - 1.0).abs() < 1e-12);
        // The second and third fill up the intercept; the fourth goes its own way.
        assert_eq!(model.solved().alike, [[2, 0, 1]]);
        assert_eq!([0, 1, 2, 3].map(|column| model.solved().is_told(column)), [false, false, false, true]);
        let empty = Model { columns: vec![vec![1.0; 3], vec![0.0, 1.0, 2.0], vec![0.0; 3]] };
        assert_eq!(empty.solved().alike, [[2]], "a column of nothing takes nothing from the others");
    }
}
