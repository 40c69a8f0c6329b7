//! Where the ball is caught while a run goes on, and when: what is on the side of the ball changes with it.

use maud::{Markup, html};

use super::drawing::{joined, label};
use super::floor::{Floor, beside, marked};
use super::labels::{self, Labels, covered};
use super::start::players_at;
use crate::marks::{self, At};
use crate::places::{Scene, Way};

/// A pass that is caught so near to a mark goes to it. (a choice: 1.7 m)
const AT_MARK: f64 = 170.0;
/// Two that are nearer to each other than this, or to the ball as it is at first, are one place. (a choice: 1 m)
const ONE_PLACE: f64 = 100.0;

/// The ball at later times, as a picture draws it.
#[derive(Debug, Default)]
pub(super) struct Later {
    /// The pass that is on its way at first.
    thrown: Option<[At; 2]>,
    /// Where the ball is at first.
    first: Option<At>,
    /// Then where, with whom (a slot), when, s.
    balls: Vec<(At, usize, f64)>,
}

impl Later {
    /// Those that are caught before the runner has arrived, beside the marks (`all`, units); `side` is -1 where the places are
    /// mirrored.
    pub fn new(floor: &Floor<'_>, scene: &Scene, (way, side): (&Way, f64), all: &[At]) -> Self {
        let until_s = way.led_s();
        let first = players_at(floor, side, scene.ball);
        let mut catches = scene.catches.iter();
        let thrown = scene.holder.is_none().then(|| catches.next()).flatten();
        let to = |at: At| all.iter().copied().find(|mark| marks::gap(*mark, at) < AT_MARK).unwrap_or(at);
        let thrown = thrown.map(|own| [first, to(players_at(floor, side, own.at))]);
        let mut last = thrown.map_or(first, |ends| ends[1]);
        let mut balls = Vec::new();
        for own in catches.filter(|own| own.time_s <= until_s) {
            let at = players_at(floor, side, own.at);
            if marks::gap(at, last) > ONE_PLACE {
                balls.push((beside(at, all, &[], floor.frame()), own.by, own.time_s));
                last = at;
            }
        }
        Self { thrown, first: Some(first), balls }
    }

    /// Whether a pass is on its way.
    pub fn is_thrown(&self) -> bool {
        self.thrown.is_some()
    }

    /// Whether there is no ball at a later time.
    pub fn is_empty(&self) -> bool {
        self.balls.is_empty()
    }

    /// Places that no word may cover.
    pub fn along(&self) -> Vec<At> {
        let thrown = self.thrown.map_or_else(Vec::new, labels::along);
        [covered(self.balls.iter().map(|(at, ..)| at)), thrown].concat()
    }

    /// The balls, each with its second.
    pub fn drawn(&self, labels: &mut Labels, off: &[At]) -> Markup {
        let mut one = |(at, by, time_s): &(At, usize, f64)| {
            let decimals = usize::from(*time_s < 1.0);
            let words = format!("{time_s:.decimals$} s: with {}", by + 1);
            let balls = self.balls.iter().map(|own| own.0).chain(self.first);
            let others: Vec<At> = balls.filter(|other| other != at).collect();
            // Nearer to its own ball than to another if there is room; a ball without words says nothing.
            let told = labels.beside((*at, &others), &words, (off, None));
            let Some((beside, _)) = told.or_else(|| labels.beside((*at, &[NOWHERE]), &words, (off, None)))
            else {
                return html! {};
            };
            html! {
                (marked(&[(at.0 / SMALLER, at.1 / SMALLER)], |at| {
                    format!("<g transform=\"scale({SMALLER})\">{}</g>", marks::ball((at[0].0, at[0].1), 0.0))
                }))
                (label("mid on", beside.0, beside.1 + 18.0, &words))
            }
        };
        let balls = joined(self.balls.iter().map(&mut one).collect::<Vec<_>>());
        html! {
            @if let Some(ends) = self.thrown { (marked(&ends, |at| marks::pass(at[0], at[1]))) }
            (balls)
        }
    }
}

/// A ball to which no word could be nearer: words beside one of these are off all marks, or there are none.
const NOWHERE: At = (f64::INFINITY, f64::INFINITY);

/// How much smaller than the ball they are.
const SMALLER: f64 = 0.75;
