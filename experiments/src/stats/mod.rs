//! Statistics: exact totals that merge in any order, and what may be said from them.
//!
//! A run plays V variants over the same possession indices, so everything here is paired by index. The road
//! is: [`Totals`] (integers) -> [`Figure`] (which column) -> [`Joint`] (estimates with their covariance) ->
//! [`simultaneous`] claims, [`chance_of_being_best`], the set of [`leaders`]; several times over in a [`Race`]. No file here reads a clock, a
//! thread count or the platform's maths library, so the same totals give the same bytes on any machine.

mod best;
pub mod beta;
mod bootstrap;
mod cholesky;
mod correction;
mod draws;
mod false_discovery;
mod few;
mod figure;
mod holm;
mod interval;
mod joint;
mod linear;
pub mod normal;
mod paired;
mod predictive;
mod race;
mod simultaneous;
pub mod student;
mod totals;
mod two_shares;

pub use best::{chance_of_being_best, leaders, possessions_needed};
pub use beta::after_count;
pub use bootstrap::{BOOTSTRAP_SEED, BOOTSTRAPPED_MOST, Drawn, RESAMPLES, Statistic, bootstrap};
pub(crate) use cholesky::Root;
pub use correction::{CLAIMED_P, Correction};
pub use draws::Generator;
pub use false_discovery::benjamini_hochberg;
pub use figure::{Better, Figure};
pub use holm::holm;
pub use interval::{
    Interval, newcombe_interval, normal_interval, rate_interval, share_interval, wilson_interval,
};
pub use joint::Joint;
pub use linear::{Weights, linear_contrast, weighted_contrast, whole_weights};
pub use paired::{DEGREES_LEAST, Difference, paired_difference, pairing_gain};
pub use predictive::Predictive;
pub use race::{End, Look, Place, Race, SMALLEST_BUDGET, Standing, UntilSure, looks};
pub use simultaneous::{Against, Contrast, Simultaneous, simultaneous};
pub use totals::{LARGEST_POSSESSIONS, LARGEST_VALUE, LARGEST_VARIANTS, Totals};
pub use two_shares::possessions_for_two_shares;
