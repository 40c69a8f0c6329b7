//! An opponent's zone from what was seen of it: how likely each answer is under each rule and dial is asked of the model itself,
//! so what a sighting says is what it would say of a zone that plays by the model. See [`likely`] and [`Posterior`].

mod crossed;
mod form;
mod likely;
mod posterior;
mod seen;
mod told;
mod written;

pub use crossed::{MOST, Row, Words, attacks, crossed};
pub use form::{blank_csv, blank_page};
pub use likely::{Dial, Likely, Played, Values, dials, likely, likely_of, rules, setup, watched_for};
pub use posterior::{Posterior, Value};
pub use seen::sightings;
pub use told::told;
pub use written::{EstimateLine, estimate_lines, scouted};
