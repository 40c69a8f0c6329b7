//! Which correction for many comparisons marks and lists go by, where that is a choice.

use clap::ValueEnum;

/// A corrected p is claimed up to here.
pub const CLAIMED_P: f64 = 0.05;

/// A correction for many comparisons.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Correction {
    /// In at most 1 of 20 runs is any of what is marked false.
    #[default]
    Holm,
    /// Over many runs at most 1 of 20 of what is marked is false, runs that mark nothing counted in: for screening many.
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
