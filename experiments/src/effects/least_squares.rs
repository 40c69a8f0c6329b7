//! Least squares as weights: each coefficient is a weighted sum of the observations, whatever they turn out to be.
//!
//! Formula: `b = (X'X)^-1 X' y`. By Cholesky's decomposition, column by column; a column that the earlier ones make up (its
//! pivot falls below a billionth of itself) is left out, and its coefficient cannot be told.
//! Source: G. H. Golub and C. F. Van Loan, Matrix Computations, sections 4.2 and 5.3.

/// Part of a column's own size below which what the others leave of it counts as rounding.
const NOTHING: f64 = 1e-9;

/// A model's columns, each with a value an observation.
pub(super) struct Model {
    pub columns: Vec<Vec<f64>>,
}

impl Model {
    /// The weights of the observations in each coefficient; None where it cannot be told from the earlier ones.
    pub fn weights(&self) -> Vec<Option<Vec<f64>>> {
        let size = self.columns.len();
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
        let mut products = vec![vec![0.0; size]; size];
        for row in 0..size {
            for column in 0..=row {
                let product = dot(&self.columns[row], &self.columns[column]);
                products[row][column] = product;
                products[column][row] = product;
            }
        }
        let (root, kept) = cholesky(&products);
        let coefficient = |place: usize| {
            kept[place].then(|| {
                let inverse = solved(&root, &kept, place);
                let mut weights = vec![0.0; self.columns[0].len()];
                for (column, factor) in self.columns.iter().zip(inverse).filter(|(_, factor)| *factor != 0.0)
                {
                    weights.iter_mut().zip(column).for_each(|(weight, x)| *weight += factor * x);
                }
                weights
            })
        };
        (0..size).map(coefficient).collect()
    }
}

/// The lower root of a matrix, and which of its columns are no sums of earlier ones.
fn cholesky(matrix: &[Vec<f64>]) -> (Vec<Vec<f64>>, Vec<bool>) {
    let size = matrix.len();
    let (mut root, mut kept) = (vec![vec![0.0; size]; size], vec![false; size]);
    for column in 0..size {
        let dot = |root: &[Vec<f64>], row: usize| -> f64 {
            (0..column).map(|k| root[row][k] * root[column][k]).sum()
        };
        let whole = matrix[column][column];
        let pivot = whole - dot(&root, column);
        if pivot <= whole * NOTHING {
            continue;
        }
        kept[column] = true;
        let diagonal = pivot.sqrt();
        root[column][column] = diagonal;
        for row in column + 1..size {
            root[row][column] = (matrix[row][column] - dot(&root, row)) / diagonal;
        }
    }
    (root, kept)
}

/// A row of the inverse, left-out columns as 0.
fn solved(root: &[Vec<f64>], kept: &[bool], place: usize) -> Vec<f64> {
    let size = root.len();
    let mut half = vec![0.0; size];
    for row in (0..size).filter(|&row| kept[row]) {
        let known: f64 = (0..row).filter(|&k| kept[k]).map(|k| root[row][k] * half[k]).sum();
        half[row] = (f64::from(u8::from(row == place)) - known) / root[row][row];
    }
    let mut found = vec![0.0; size];
    for row in (0..size).rev().filter(|&row| kept[row]) {
        let known: f64 = (row + 1..size).filter(|&k| kept[k]).map(|k| root[k][row] * found[k]).sum();
        found[row] = (half[row] - known) / root[row][row];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn by_weights(model: &Model, y: &[f64]) -> Vec<Option<f64>> {
        let sum = |weights: Vec<f64>| weights.iter().zip(y).map(|(w, y)| w * y).sum();
        model.weights().into_iter().map(|weights| weights.map(sum)).collect()
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
    fn a_column_that_others_make_up_has_no_coefficient() {
        let columns =
            vec![vec![1.0; 4], vec![1.0, 0.0, 1.0, 0.0], vec![0.0, 1.0, 0.0, 1.0], vec![1.0, 1.0, 0.0, 0.0]];
        let found = by_weights(&Model { columns }, &[3.0, 2.0, 2.0, 1.0]);
        assert!(
            found[2].is_none()
                && (found[1].unwrap() - 1.0).abs() < 1e-12
                && (found[3].unwrap() - 1.0).abs() < 1e-12
        );
    }
}
