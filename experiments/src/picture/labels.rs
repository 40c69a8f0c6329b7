//! Words beside places of a floor: clear of marks and ways as far as there is room, and of one another.

use super::drawing::{HEAD, MARGIN};
use super::floor::LARGER;
use crate::marks::{self, At};

/// How far from its place a word may stand, the nearest first, in how many directions.
const RINGS: [f64; 7] = [70.0, 90.0, 110.0, 130.0, 170.0, 220.0, 280.0];
const TURNS: u32 = 16;

/// Words that have their places already.
#[derive(Debug)]
pub(super) struct Labels {
    taken: Vec<(At, f64)>,
    /// The right and the lower edge of what is drawn.
    edges: (f64, f64),
}

impl Labels {
    /// None yet, on a floor that is drawn as far as this, units.
    pub fn new(edges: (f64, f64)) -> Self {
        Self { taken: Vec::new(), edges }
    }

    /// A place for words beside another, and half of their width: off `along`, places that they may not cover, off the mark at
    /// `start`, and nearer to it than to `others`, of which they are not. None where there is no such place.
    pub fn beside(
        &mut self,
        ((x, y), others): (At, &[At]),
        words: &str,
        (along, start): (&[At], Option<&At>),
    ) -> Option<(At, f64)> {
        let half = 0.3 * 54.0 * words.chars().count() as f64 + 10.0;
        let spots = RINGS.into_iter().flat_map(|far: f64| {
            (0..TURNS).map(move |turn| {
                let angle = std::f64::consts::TAU * (f64::from(turn) - 4.0) / f64::from(TURNS);
                (x + (far + 0.7 * half) * libm::cos(angle), y + far * libm::sin(angle))
            })
        });
        let inside = |at: &At| {
            at.0 - half > MARGIN
                && at.0 + half < self.edges.0 - MARGIN
                && at.1 - 34.0 > HEAD
                && at.1 + 30.0 < self.edges.1
        };
        let clear = |at: &At| {
            let off = |other: &At, wide: f64, tall: f64| {
                (at.0 - other.0).abs() > wide || (at.1 - other.1).abs() > tall
            };
            along.iter().all(|place| off(place, half + 26.0, 58.0))
                && start.is_none_or(|place| off(place, half + 60.0 * LARGER, 90.0 * LARGER))
                && self.taken.iter().all(|(other, own)| off(other, half + own, 64.0))
        };
        let spots: Vec<At> = spots.filter(inside).collect();
        let is_own = |at: &At| others.iter().all(|other| marks::gap(*at, *other) > marks::gap(*at, (x, y)));
        // Beside another a word would be taken for that one's.
        let else_first = || spots.first().filter(|_| others.is_empty());
        let at = *spots.iter().find(|at| clear(at) && is_own(at)).or_else(else_first)?;
        self.taken.push((at, half));
        Some((at, half))
    }
}

/// Places that no word may cover: the middle and the edges of each mark.
pub(super) fn covered<'m>(all: impl IntoIterator<Item = &'m At>) -> Vec<At> {
    let far = 44.0 * LARGER;
    let of = |&(x, y): &At| [(x, y), (x - far, y), (x + far, y), (x, y - far), (x, y + far)];
    all.into_iter().flat_map(of).collect()
}

/// Places along a straight line, near enough to each other that no word stands between them.
pub(super) fn along([from, to]: [At; 2]) -> Vec<At> {
    let steps = (marks::gap(from, to) / 40.0).ceil().max(1.0) as usize;
    let at = |nth: usize| {
        let share = nth as f64 / steps as f64;
        (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1))
    };
    (0..=steps).map(at).collect()
}
