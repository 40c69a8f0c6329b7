//! Designs: at which combinations of values an experiment is played.
//!
//! A *cell* is one combination of the factors' values; the variants of an experiment are played in each. An experiment
//! without factors has one cell.

pub mod points;
pub(crate) mod spread;

/// The cells of an experiment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cells {
    /// What differs between them, in the order written.
    pub factors: Vec<Factor>,
    /// `[cell][factor]`
    pub values: Vec<Vec<Level>>,
}

/// A dotted key that goes over several values.
#[derive(Clone, Debug, PartialEq)]
pub struct Factor {
    /// The dotted key.
    pub key: String,
    /// The ends of the range, where it goes over one; None where it takes listed values.
    pub range: Option<(f64, f64)>,
    /// Its values in the order written, as they are told, where they are listed in the file; else none.
    pub levels: Vec<String>,
}

/// A factor's value in a cell.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// As it is told; [`BASE`] where the cell leaves it as the base scenario has it.
    pub told: String,
    /// The number, where it is one, in the key's unit.
    pub number: Option<f64>,
}

/// What is told of a factor that a cell leaves as it is.
pub const BASE: &str = "base";

/// How an experiment's cells were chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// The word of the file: `full`, `sobol` and so on.
    pub kind: &'static str,
    /// Pairs of dotted keys whose interaction is asked for; [`VARIANT`] stands for the variants. None: none was named.
    pub interactions: Option<Vec<(String, String)>>,
    /// Whether each cell is played on possessions of its own; else all are played on the same ones.
    pub own_draws: bool,
    /// How many of the leading variants are played afresh, for pictures and the report.
    pub leading: usize,
    /// What those who are played afresh begin from: the lines of the file that name the scenario and its units.
    pub head: String,
}

/// Stands for the variants among the keys of an interaction.
pub const VARIANT: &str = "variant";

impl Cells {
    /// One cell, of no factors.
    #[must_use]
    pub fn one() -> Self {
        Self { factors: Vec::new(), values: vec![Vec::new()] }
    }

    /// Number of cells.
    #[must_use]
    pub fn len(&self) -> usize {
        self.values.len()
    }

    /// True without a cell.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.values.is_empty()
    }
}
