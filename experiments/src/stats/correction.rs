//! Which correction for many comparisons marks and lists go by, where that is a choice.

use clap::ValueEnum;

/// A correction for many comparisons.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Correction {
    /// In at most 1 of 20 runs is any of what is marked false.
    #[default]
    Holm,
    /// Of what is marked at most 1 of 20 is false on average: for screening many.
    BenjaminiHochberg,
}

impl Correction {
    /// Its name, as headings have it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Holm => "Holm",
            Self::BenjaminiHochberg => "Benjamini-Hochberg",
        }
    }
}
