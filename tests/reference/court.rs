//! Every rule set, as loaded, is its book.

use std::collections::BTreeMap;

use engine::math::vec2;
use serde::Deserialize;

use super::bundled::{names, setup};
use super::{near, values};

/// The files are written to the millimetre.
const ROUNDING_M: f64 = 0.000_51;

#[derive(Deserialize)]
struct Book {
    book: String,
    figures: BTreeMap<String, Figure>,
}

#[derive(Deserialize)]
struct Figure {
    m: Option<f64>,
    ft: Option<(f64, f64)>,
    s: Option<f64>,
}

impl Book {
    fn metres(&self, key: &str) -> f64 {
        self.figures.get(key).and_then(|figure| figure.m).unwrap_or_else(|| panic!("{}: no {key}", self.book))
    }

    fn seconds(&self, key: &str) -> Option<f64> {
        self.figures.get(key).and_then(|figure| figure.s)
    }
}

fn books() -> BTreeMap<String, Book> {
    let books: BTreeMap<String, Book> = values("court");
    let mut bundled = names("rules");
    bundled.sort();
    assert_eq!(books.keys().cloned().collect::<Vec<_>>(), bundled, "a book for every rule set");
    books
}

#[test]
fn metres_are_the_feet_and_inches_of_the_book() {
    for (name, book) in books() {
        for (key, figure) in &book.figures {
            if let (Some(m), Some((feet, inches))) = (figure.m, figure.ft) {
                near(m, (12.0 * feet + inches) * 0.0254, ROUNDING_M, &format!("{name}, {key}"));
            }
        }
    }
}

#[test]
fn floors_are_the_books() {
    for (name, book) in books() {
        let setup = setup(&name, "high-school");
        let court = &setup.court;
        for (key, got) in [
            ("court_length", 2.0 * (court.midcourt_y_m - court.baseline_y_m)),
            ("court_width", 2.0 * court.half_width_m),
            ("lane_width", 2.0 * court.lane_half_m),
            ("free_throw_from_basket", court.free_throw_y_m),
            ("free_throw_from_baseline", court.free_throw_y_m - court.baseline_y_m),
            ("basket_from_baseline", -court.baseline_y_m),
            ("three_radius", court.three_radius_m),
            ("three_corner", court.three_corner_x_m),
            ("three_corner_from_sideline", court.half_width_m - court.three_corner_x_m),
        ] {
            near(got, book.metres(key), ROUNDING_M, &format!("{name}, {key}"));
        }
        // The end of the straight part moves by several times what the radius was rounded by.
        let straight = court.straight_end_y() - court.baseline_y_m;
        near(straight, book.metres("three_straight"), 0.005, &format!("{name}, three_straight"));
    }
}

#[test]
fn lines_part_what_they_should() {
    for (name, book) in books() {
        let setup = setup(&name, "high-school");
        let court = &setup.court;
        let [radius, corner] = ["three_radius", "three_corner"].map(|key| book.metres(key) as f32);
        let low = 0.5 - book.metres("basket_from_baseline") as f32;
        for side in [1.0, -1.0] {
            let threes = |off: f32| {
                let slant = (radius + off) * core::f32::consts::FRAC_1_SQRT_2;
                [vec2(0.0, radius + off), vec2(side * slant, slant), vec2(side * (corner + off), low)]
            };
            assert!(threes(0.01).iter().all(|&p| court.is_three(p)), "{name}: outside the line");
            assert!(!threes(-0.01).iter().any(|&p| court.is_three(p)), "{name}: inside the line");
            let lane = book.metres("lane_width") as f32 / 2.0;
            assert!(court.in_lane(vec2(side * (lane - 0.01), 0.0)), "{name}: in the lane");
            assert!(!court.in_lane(vec2(side * (lane + 0.01), 0.0)), "{name}: beside the lane");
        }
    }
}

#[test]
fn clocks_are_the_books() {
    for (name, book) in books() {
        let setup = setup(&name, "high-school");
        let ours = &setup.officials;
        for (key, got) in [
            ("shot_clock", ours.shot_clock_s),
            ("shot_clock_rebound", Some(ours.shot_clock_rebound_s)),
            ("three_seconds", Some(ours.three_seconds_s)),
            ("closely_guarded", ours.closely_guarded_s),
        ] {
            assert_eq!(got.map(f64::from), book.seconds(key), "{name}, {key}");
        }
        if ours.closely_guarded_s.is_some() {
            let within = book.metres("closely_guarded_within");
            near(ours.closely_guarded_m, within, ROUNDING_M, &format!("{name}, closely guarded"));
        }
    }
}
