//! Exact totals of a run: what every figure is computed from, flat in the number of possessions.
//!
//! For each measure: the sum over possessions of `x_v`, and of `x_v x_w` for each pair of variants (the Gram
//! matrix), from which the variance of any paired difference follows without keeping a single possession. For
//! each listed ratio also the sums of `numerator_v x denominator_w`. All are i128 integers, so parts merge in
//! any order and grouping into the very same bytes.
//!
//! Limits: values up to 2^32 units (4,294 at 1e-6) and 2^30 possessions. A sum is then below 2^62, a Gram
//! entry below 2^94, and `n gram - sum sum`, with the four such terms of a contrast, below 2^127. Both are
//! asserted, as an overflow would print a wrong figure and say nothing.

use serde::{Deserialize, Serialize};

/// Largest size of one value, in integer units.
pub const LARGEST_VALUE: u64 = 1 << 32;
/// Largest number of possession indices in one total.
pub const LARGEST_POSSESSIONS: u64 = 1 << 30;
/// Largest number of variants compared in one run.
pub const LARGEST_VARIANTS: usize = 64;

/// Sums over possessions of V variants' integer measures. Source: `//!` above; variances are the textbook
/// sample ones (divisor n - 1).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Totals {
    variants: usize,
    measures: usize,
    n: u64,
    /// `[measure][variant]`
    sums: Vec<i128>,
    /// `[measure][upper triangle of variant x variant]`
    gram: Vec<i128>,
    /// Measure indices (numerator, denominator).
    ratios: Vec<(usize, usize)>,
    /// `[ratio][numerator's variant][denominator's variant]`
    cross: Vec<i128>,
}

impl Totals {
    /// Nothing seen yet: `variants` (1-64) by `measures`, and the (numerator, denominator) measure pairs
    /// whose ratios will be asked for.
    pub fn new(variants: usize, measures: usize, ratios: &[(usize, usize)]) -> Self {
        assert!((1..=LARGEST_VARIANTS).contains(&variants), "{variants} variants; 1 to 64 are possible");
        assert!(ratios.iter().all(|&(x, y)| x < measures && y < measures), "a ratio names no measure");
        Self {
            variants,
            measures,
            n: 0,
            sums: vec![0; measures * variants],
            gram: vec![0; measures * triangle(variants)],
            ratios: ratios.to_vec(),
            cross: vec![0; ratios.len() * variants * variants],
        }
    }

    /// Adds one possession index: `row[v * measures + m]` is measure m of variant v, in integer units.
    pub fn add(&mut self, row: &[i64]) {
        assert_eq!(row.len(), self.variants * self.measures, "a row of another shape");
        // One test for the whole row: the bits of all sizes together exceed the limit if any one does.
        let sizes = row.iter().fold(0, |bits, x| bits | x.unsigned_abs().saturating_sub(1));
        assert!(sizes < LARGEST_VALUE, "a measure's value is beyond 2^32 units");
        assert!(self.n < LARGEST_POSSESSIONS, "more than 2^30 possessions");
        self.n += 1;
        let size = triangle(self.variants);
        let mut present = [(0, 0); LARGEST_VARIANTS];
        for measure in 0..self.measures {
            let present = nonzero(row, measure, self.measures, &mut present);
            let sums = &mut self.sums[measure * self.variants..][..self.variants];
            let gram = &mut self.gram[measure * size..][..size];
            for (place, &(v, x)) in present.iter().enumerate() {
                sums[v] += i128::from(x);
                let entries = &mut gram[row_start(self.variants, v)..][..self.variants - v];
                for &(w, y) in &present[place..] {
                    entries[w - v] += i128::from(x) * i128::from(y);
                }
            }
        }
        let mut below = [(0, 0); LARGEST_VARIANTS];
        for (ratio, &(numerator, denominator)) in self.ratios.iter().enumerate() {
            let above = nonzero(row, numerator, self.measures, &mut present);
            if above.is_empty() {
                continue;
            }
            let below = nonzero(row, denominator, self.measures, &mut below);
            let cross = &mut self.cross[ratio * self.variants * self.variants..];
            for &(v, x) in above {
                for &(w, y) in below {
                    cross[v * self.variants + w] += i128::from(x) * i128::from(y);
                }
            }
        }
    }

    /// Takes in the totals of other possessions: exact, in any order. Panics if the shapes differ.
    pub fn merge(&mut self, other: &Self) {
        assert!(
            (self.variants, self.measures, &self.ratios) == (other.variants, other.measures, &other.ratios),
            "totals of different shapes cannot be merged"
        );
        assert!(self.n + other.n <= LARGEST_POSSESSIONS, "more than 2^30 possessions");
        self.n += other.n;
        for (to, from) in
            [(&mut self.sums, &other.sums), (&mut self.gram, &other.gram), (&mut self.cross, &other.cross)]
        {
            to.iter_mut().zip(from).for_each(|(a, b)| *a += b);
        }
    }

    /// The totals of some of the variants, in this order, over the same possessions.
    #[must_use]
    pub fn only(&self, variants: &[usize]) -> Self {
        let mut own = Self::new(variants.len(), self.measures, &self.ratios);
        own.n = self.n;
        for measure in 0..self.measures {
            for (a, &v) in variants.iter().enumerate() {
                own.sums[measure * variants.len() + a] = self.sum(measure, v);
                for (b, &w) in variants.iter().enumerate().skip(a) {
                    let place = own.gram_place(measure, a, b);
                    own.gram[place] = self.gram[self.gram_place(measure, v, w)];
                }
            }
        }
        let of = |own: &Self, ratio: usize, v: usize, w: usize| (ratio * own.variants + v) * own.variants + w;
        for ratio in 0..self.ratios.len() {
            for (a, &v) in variants.iter().enumerate() {
                for (b, &w) in variants.iter().enumerate() {
                    let place = of(&own, ratio, a, b);
                    own.cross[place] = self.cross[of(self, ratio, v, w)];
                }
            }
        }
        own
    }

    /// Whether lengths fit the stated shape: to be asked of totals read from a file before they are used.
    pub fn is_well_formed(&self) -> bool {
        let Self { variants, measures, .. } = *self;
        (1..=LARGEST_VARIANTS).contains(&variants)
            && self.n <= LARGEST_POSSESSIONS
            && measures.checked_mul(variants) == Some(self.sums.len())
            && measures.checked_mul(triangle(variants)) == Some(self.gram.len())
            && self.ratios.len() * variants * variants == self.cross.len()
            && self.ratios.iter().all(|&(x, y)| x < measures && y < measures)
    }

    /// Number of variants.
    pub fn variants(&self) -> usize {
        self.variants
    }

    /// Number of measures.
    pub fn measures(&self) -> usize {
        self.measures
    }

    /// Number of possession indices added.
    pub fn possessions(&self) -> u64 {
        self.n
    }

    /// The (numerator, denominator) measure pairs, in the order given at the start.
    pub fn ratios(&self) -> &[(usize, usize)] {
        &self.ratios
    }

    /// Sum of a measure over possessions, in integer units.
    pub fn sum(&self, measure: usize, variant: usize) -> i128 {
        assert!(variant < self.variants, "no such variant");
        self.sums[measure * self.variants + variant]
    }

    /// Mean a possession; `scale` is the size of one integer unit (1 for counts, 1e-6 for quantised reals).
    /// NaN before the first possession.
    pub fn mean(&self, measure: usize, variant: usize, scale: f64) -> f64 {
        self.sum(measure, variant) as f64 / self.n as f64 * scale
    }

    /// Sample variance between possessions, in squared units of `scale`. NaN below two possessions.
    pub fn variance(&self, measure: usize, variant: usize, scale: f64) -> f64 {
        self.covariance(measure, variant, variant, scale)
    }

    /// Sample covariance of two variants over the same possession indices, in squared units of `scale`.
    pub fn covariance(&self, measure: usize, v: usize, w: usize, scale: f64) -> f64 {
        self.per_pair(self.centred(measure, v, w)) * scale * scale
    }

    /// `n sum(x_v x_w) - sum(x_v) sum(x_w)`, exactly: the covariance before its division.
    pub(super) fn centred(&self, measure: usize, v: usize, w: usize) -> i128 {
        let gram = self.gram[self.gram_place(measure, v, w)];
        i128::from(self.n) * gram - self.sum(measure, v) * self.sum(measure, w)
    }

    /// Where the sum of the products of two variants' values stands.
    fn gram_place(&self, measure: usize, v: usize, w: usize) -> usize {
        assert!(v < self.variants && w < self.variants, "no such variant");
        let (v, w) = (v.min(w), v.max(w));
        measure * triangle(self.variants) + row_start(self.variants, v) + w - v
    }

    /// The same between a ratio's numerator in variant `v` and its denominator in variant `w`.
    pub(super) fn centred_cross(&self, ratio: usize, v: usize, w: usize) -> i128 {
        assert!(v < self.variants && w < self.variants, "no such variant");
        let (numerator, denominator) = self.ratios[ratio];
        let cross = self.cross[(ratio * self.variants + v) * self.variants + w];
        i128::from(self.n) * cross - self.sum(numerator, v) * self.sum(denominator, w)
    }

    /// A centred sum turned into a sample covariance: divided by n (n - 1).
    pub(super) fn per_pair(&self, centred: i128) -> f64 {
        let n = i128::from(self.n);
        centred as f64 / (n * (n - 1)) as f64
    }
}

/// The variants whose value of `measure` is not 0, with the value: most are, and need no work.
fn nonzero<'a>(
    row: &[i64],
    measure: usize,
    measures: usize,
    into: &'a mut [(usize, i64); LARGEST_VARIANTS],
) -> &'a [(usize, i64)] {
    let mut found = 0;
    for (v, &x) in row[measure..].iter().step_by(measures).enumerate() {
        // Written always, kept only if not 0: no branch to mispredict.
        into[found] = (v, x);
        found += usize::from(x != 0);
    }
    &into[..found]
}

/// Entries in the upper triangle, diagonal included.
fn triangle(variants: usize) -> usize {
    variants * (variants + 1) / 2
}

/// Where row `v` of the upper triangle starts.
fn row_start(variants: usize, v: usize) -> usize {
    v * (2 * variants - v + 1) / 2
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::*;

    /// Possessions of 3 variants x 4 measures: correlated, some zero, some negative, one large.
    fn rows(n: usize) -> Vec<[i64; 12]> {
        let mut random = Generator::new(3);
        let draw = |random: &mut Generator| {
            let common = random.normal();
            core::array::from_fn(|place| match place % 4 {
                0 => i64::from(common + random.normal() > 1.0),
                1 => (1e9 + 1e3 * (common + 0.1 * random.normal())) as i64,
                2 => -((random.uniform() * 3.0) as i64),
                _ => (common * 1e6) as i64,
            })
        };
        (0..n).map(|_| draw(&mut random)).collect()
    }

    fn totals(rows: &[[i64; 12]]) -> Totals {
        let mut totals = Totals::new(3, 4, &[(0, 2), (1, 1)]);
        rows.iter().for_each(|row| totals.add(row));
        totals
    }

    #[test]
    fn any_split_merged_in_any_order_gives_the_same_bytes() {
        let rows = rows(200);
        let whole = serde_json::to_vec(&totals(&rows)).unwrap();
        for size in [1, 7, 64, 199] {
            let mut parts: Vec<Totals> = rows.chunks(size).map(totals).collect();
            for _ in 0..2 {
                let mut merged = totals(&[]);
                parts.iter().for_each(|part| merged.merge(part));
                assert_eq!(serde_json::to_vec(&merged).unwrap(), whole, "parts of {size}");
                let back: Totals = serde_json::from_slice(&whole).unwrap();
                assert!(back == merged && back.is_well_formed());
                parts.reverse();
            }
        }
    }

    #[test]
    fn some_of_the_variants_have_the_totals_of_their_own_rows() {
        let rows = rows(100);
        for kept in [&[2, 0][..], &[1], &[0, 1, 2]] {
            let mut own = Totals::new(kept.len(), 4, &[(0, 2), (1, 1)]);
            for row in &rows {
                let row: Vec<i64> = kept.iter().flat_map(|v| row[v * 4..][..4].to_vec()).collect();
                own.add(&row);
            }
            assert!(totals(&rows).only(kept) == own, "{kept:?}");
        }
    }

    #[test]
    fn gram_variance_equals_the_two_pass_variance() {
        let rows = rows(500);
        let totals = totals(&rows);
        let column = |v: usize, m: usize| rows.iter().map(move |row| row[v * 4 + m] as f64);
        for m in 0..4 {
            for (v, w) in [(0, 0), (1, 1), (0, 2), (2, 1)] {
                // Values near 1e9 with a spread of 1e3: a naive sum of squares in f64 would keep no digit.
                let (mean_v, mean_w) = (column(v, m).sum::<f64>() / 500.0, column(w, m).sum::<f64>() / 500.0);
                let sum: f64 = column(v, m).zip(column(w, m)).map(|(x, y)| (x - mean_v) * (y - mean_w)).sum();
                let (got, direct) = (totals.covariance(m, v, w, 1.0), sum / 499.0);
                let size = (totals.variance(m, v, 1.0) * totals.variance(m, w, 1.0)).sqrt();
                assert!((got - direct).abs() < 1e-9 * size, "measure {m}, {v} with {w}: {got}, {direct}");
                assert!((totals.mean(m, v, 2.0) - 2.0 * mean_v).abs() <= 1e-9 * mean_v.abs());
            }
        }
    }

    #[test]
    fn the_limits_leave_room_for_the_variance() {
        let mut totals = Totals::new(2, 1, &[(0, 0)]);
        let top = LARGEST_VALUE as i64;
        totals.add(&[top, -top]);
        totals.add(&[top, -top]);
        // 2^29 doublings of the same totals: the largest that is allowed.
        for _ in 0..29 {
            let same = totals.clone();
            totals.merge(&same);
        }
        assert_eq!(totals.possessions(), LARGEST_POSSESSIONS);
        assert_eq!(
            (totals.centred(0, 0, 0), totals.centred(0, 0, 1), totals.centred_cross(0, 0, 1)),
            (0, 0, 0)
        );
    }

    #[test]
    #[should_panic(expected = "beyond 2^32")]
    fn a_value_beyond_the_limit_is_refused() {
        Totals::new(1, 2, &[]).add(&[0, LARGEST_VALUE as i64 + 1]);
    }
}
