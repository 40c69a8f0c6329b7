//! The root of a symmetric semidefinite matrix, and equations solved by it.
//!
//! Formula: L L' = the matrix, L lower triangular, column by column. A column of which the earlier ones leave (nearly) nothing
//! is left out, with 0 in its column of L and in every solution, so what is identical or a sum of others needs no jitter.
//! Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 4.2 (semidefinite case).

/// The lower root of a matrix.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Root {
    size: usize,
    /// Row by row, zeros left in.
    lower: Vec<f64>,
    kept: Vec<bool>,
}

impl Root {
    /// Of a matrix given row by row (`size` x `size`). `nothing` is the part of a column's own size (0-1) below which what the
    /// others leave of it counts as rounding.
    pub fn new(matrix: &[f64], size: usize, nothing: f64) -> Self {
        assert_eq!(matrix.len(), size * size, "a symmetric matrix is square");
        let (mut lower, mut kept) = (vec![0.0; size * size], vec![false; size]);
        for column in 0..size {
            let dot = |lower: &[f64], row: usize| -> f64 {
                (0..column).map(|k| lower[row * size + k] * lower[column * size + k]).sum()
            };
            let whole = matrix[column * size + column];
            let pivot = whole - dot(&lower, column);
            if pivot <= whole * nothing {
                continue;
            }
            kept[column] = true;
            let diagonal = pivot.sqrt();
            lower[column * size + column] = diagonal;
            for row in column + 1..size {
                lower[row * size + column] = (matrix[row * size + column] - dot(&lower, row)) / diagonal;
            }
        }
        Self { size, lower, kept }
    }

    /// A row up to its diagonal.
    pub fn row(&self, row: usize) -> &[f64] {
        &self.lower[row * self.size..][..=row]
    }

    /// Whether a column is no sum of earlier ones.
    pub fn keeps(&self, column: usize) -> bool {
        self.kept[column]
    }

    /// The x of matrix x = `right`, with 0 for what is left out.
    pub fn solved(&self, right: &[f64]) -> Vec<f64> {
        let mut half = vec![0.0; self.size];
        for row in self.kept_rows() {
            let known: f64 = (0..row).map(|k| self.at(row, k) * half[k]).sum();
            half[row] = (right[row] - known) / self.at(row, row);
        }
        self.back(&half)
    }

    /// How much of each kept column there is in one that is left out.
    pub fn parts(&self, left_out: usize) -> Vec<f64> {
        let mut half = self.row(left_out).to_vec();
        half.resize(self.size, 0.0);
        self.back(&half)
    }

    /// The x of L' x = `half`.
    fn back(&self, half: &[f64]) -> Vec<f64> {
        let mut found = vec![0.0; self.size];
        for row in self.kept_rows().rev() {
            let known: f64 = (row + 1..self.size).map(|k| self.at(k, row) * found[k]).sum();
            found[row] = (half[row] - known) / self.at(row, row);
        }
        found
    }

    fn kept_rows(&self) -> impl DoubleEndedIterator<Item = usize> {
        (0..self.size).filter(|&row| self.kept[row])
    }

    fn at(&self, row: usize, column: usize) -> f64 {
        self.lower[row * self.size + column]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equations_are_solved_and_what_others_make_up_is_left_out() {
        let root = Root::new(&[4.0, 1.0, 1.0, 3.0], 2, 0.0);
        let x = root.solved(&[1.0, 2.0]);
        assert!((x[0] - 1.0 / 11.0).abs() < 1e-12 && (x[1] - 7.0 / 11.0).abs() < 1e-12, "{x:?}");

        // The third value is twice the first less the second.
        let matrix = [2.0, 0.5, 3.5, 0.5, 1.0, 0.0, 3.5, 0.0, 7.0];
        let root = Root::new(&matrix, 3, 1e-9);
        assert_eq!([0, 1, 2].map(|column| root.keeps(column)), [true, true, false]);
        let parts = root.parts(2);
        assert!((parts[0] - 2.0).abs() < 1e-12 && (parts[1] + 1.0).abs() < 1e-12, "{parts:?}");
        let x = root.solved(&[2.5, 1.5, 3.5]);
        assert!((x[0] - 1.0).abs() < 1e-12 && (x[1] - 1.0).abs() < 1e-12 && x[2] == 0.0, "{x:?}");
        for (row, column) in [(0, 0), (1, 0), (2, 1), (2, 2)] {
            let product: f64 = root.row(row).iter().zip(root.row(column)).map(|(a, b)| a * b).sum();
            assert!((product - matrix[row * 3 + column]).abs() < 1e-12);
        }
    }
}
