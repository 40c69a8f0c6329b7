//! What one possession adds to the totals: the engine's measures, then quantities made from them.
//!
//! A row holds integers only, in the order of [`Quantity::index`]; every column of the table is a mean or a ratio
//! of these.

use engine::{Measure, PossessionRecord};

/// Integers that one possession of one variant adds.
pub const WIDTH: usize = Measure::COUNT + 1;

/// One additive quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// As the engine counts it.
    Measured(Measure),
    /// Field goals made, a three counting one and a half; kept in halves.
    EffectiveMakes,
}

impl Quantity {
    /// Place in a row.
    pub const fn index(self) -> usize {
        match self {
            Self::Measured(measure) => measure as usize,
            Self::EffectiveMakes => Measure::COUNT,
        }
    }

    /// Size of one integer unit: 1 for counts, 1e-6 for reals, one half for effective makes.
    pub fn unit_size(self) -> f64 {
        match self {
            Self::Measured(measure) => 1.0 / measure.unit().scale(),
            Self::EffectiveMakes => 0.5,
        }
    }
}

/// Writes a record's quantities into its place in a row.
pub fn fill(row: &mut [i64], record: &PossessionRecord) {
    row[..Measure::COUNT].copy_from_slice(&record.values);
    row[Quantity::EffectiveMakes.index()] =
        2 * record.value(Measure::ShotsMade) + record.value(Measure::ThreesMade);
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::Outcome;

    #[test]
    fn a_made_three_counts_one_and_a_half() {
        let mut record = PossessionRecord {
            possession: 0,
            outcome: Outcome::Made,
            values: [0; Measure::COUNT],
            digest: 0,
            forced: false,
        };
        record.values[Measure::ShotsMade as usize] = 2;
        record.values[Measure::ThreesMade as usize] = 1;
        let mut row = [7; WIDTH];
        fill(&mut row, &record);
        let makes = Quantity::EffectiveMakes;
        assert_eq!(row[makes.index()] as f64 * makes.unit_size(), 2.5);
        assert_eq!(row[Measure::Shots as usize], 0, "old values are overwritten");
    }
}
