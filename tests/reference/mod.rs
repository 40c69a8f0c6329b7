//! The program agrees with the outside world: with words of numpy's PCG64, worked values of statsmodels and scipy,
//! measured sprints, the flight of a ball, the rule books. The values lie beside this file, each with its source;
//! `tests/outside` makes or checks the same files with those libraries.
//!
//! What it has caught: the stated error of the normal quantile was a hundred times too small; long passes were too
//! quick, being straight and at one speed.

mod course;
mod court;
mod flight;
pub mod line;
mod movement;
pub mod outcomes;
mod sprint;
mod statistics;
mod streams;

#[path = "../outside/values/bundled.rs"]
mod bundled;
#[path = "../outside/values/runner.rs"]
mod runner;

use serde::de::DeserializeOwned;

use crate::support::text_of;

/// A file of reference values.
fn values<T: DeserializeOwned>(name: &str) -> T {
    let file = format!("tests/reference/{name}.toml");
    toml::from_str(&text_of(&file)).unwrap_or_else(|error| panic!("{file}: {error}"))
}

/// Asserts that two numbers differ by at most `within`.
#[track_caller]
fn near(got: impl Into<f64>, want: f64, within: f64, what: &str) {
    let got = got.into();
    assert!((got - want).abs() <= within, "{what}: {got}, not {want} (within {within})");
}
