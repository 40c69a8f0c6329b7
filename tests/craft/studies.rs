//! Effects of dials that take long to be seen, as studies: run by hand, with result and date in
//! `experiments/studies/craft.md`, by
//!
//!     cargo test --workspace --test promises craft::studies -- --ignored --nocapture
//!
//! What the same dials do plainly is held by the tests beside this file.

use engine::Measure;

use super::doses::*;

#[test]
#[ignore = "a study of 36,000 possessions"]
fn a_fronted_post_is_lobbed_to() {
    // Half round him or in front of him, he is lobbed over.
    check(12_000, &[more(0, 1, Measure::Lobs), more(0, 2, Measure::Lobs)], stances());
}

#[test]
#[ignore = "a study of 66,000 possessions"]
fn each_step_of_the_match_up_degree_brings_interceptions_and_the_whole_of_it_turnovers() {
    let mut claims = steps(3, &[Measure::PassesIntercepted], &[]);
    claims.push(more(0, 2, Measure::Turnover));
    check(5500, &claims, doses(&[HOLD], "zone.match_up", &["0.0", "0.5", "1.0"]));
}
