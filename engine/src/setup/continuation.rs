//! Continuation values: a table by state, computed by simulation and kept with a level.
//!
//! The state is what a holder knows of his own accord: where the ball is, what its last move did to the zone, how
//! long he has held it and how much of the shot clock is left. An entry is the mean of what possessions brought
//! from there on: expected points, less what the opponents' break is expected to bring them. So the price of the
//! clock, of a zone that has settled and of a poor place is found, not stated.

use crate::math::{Vec2, max, min, vec2};
use crate::setup::{BallPlace, Parameter};

/// Times left on the shot clock that have an entry, s. (assumed)
pub const CLOCK_S: [f32; 9] = [0.5, 1.5, 3.0, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0];
/// Times that the ball has been held that have an entry, s. (assumed)
pub const HELD_S: [f32; 4] = [0.25, 0.75, 1.5, 3.0];
/// Zones of a shot that is missed: near the rim, between, three. (assumed)
pub const MISSES: usize = 3;
/// A two from nearer than this is near the rim, m. (source: the fits of the shot curves, which change
/// there, 10 ft)
const NEAR_RIM_M: f32 = 3.05;
/// Nearer to the rim than this the ball is inside, m; between here and [`OUTSIDE_BEYOND_M`] it is neither inside nor
/// outside. (assumed)
const INSIDE_WITHIN_M: f32 = 4.6;
/// Farther from the rim than this the ball is outside, m. (assumed)
const OUTSIDE_BEYOND_M: f32 = 5.0;
/// Width of a zone, of which the ball's moves are taken as shares, m. (assumed)
const ZONE_WIDTH_M: f32 = 7.0;
/// What a metre of a move up or down the floor makes the zone travel, against a metre across, m/m. (assumed)
const UP_THE_FLOOR_PER_ACROSS: f32 = 0.6;
/// A move by less than this share of [`ZONE_WIDTH_M`] is a short one. (assumed)
const SHORT_BELOW_SHARE: f32 = 0.25;
/// A move by less than this share of [`ZONE_WIDTH_M`] that is not short goes to a neighbour; any longer one goes across
/// the floor. (assumed)
const ASIDE_BELOW_SHARE: f32 = 0.55;

/// Where a computation begins, before there is a table: from this long before the end of the shot clock on the points
/// fall evenly to 0 at its end, s. (assumed)
const FIRST_FALLS_FROM_S: f32 = 5.0;
/// Where a computation begins: net points that follow a missed shot, points. (assumed)
const FIRST_AFTER_MISS_POINTS: f32 = 0.1;
/// Where a computation begins: net points that follow a pass taken by the zone, points. (assumed)
const FIRST_AFTER_LOSS_POINTS: f32 = -0.5;
/// Where a computation begins: [`IMPATIENCE`] of a team, 1/s. (assumed)
const FIRST_IMPATIENCE_PER_S: f32 = 0.08;

/// What the ball's last move did to the zone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[repr(u8)]
pub enum Moved {
    /// Next to nothing: no pass, or a short one.
    #[default]
    Little,
    /// A pass to a neighbour.
    Aside,
    /// Across the floor.
    Across,
    /// From outside to the middle: all five turn their heads.
    In,
    /// From the middle back out.
    Out,
}

impl Moved {
    /// How many kinds there are.
    pub const COUNT: usize = 5;
    /// All kinds in order.
    pub const ALL: [Moved; 5] = [Moved::Little, Moved::Aside, Moved::Across, Moved::In, Moved::Out];
    /// Names as files write them, in the order of [`Moved::ALL`].
    pub const NAMES: [&str; 5] = ["little", "aside", "across", "in", "out"];

    /// The kind of a move of the ball.
    pub fn of(from: Vec2, to: Vec2) -> Self {
        let (before, after) = (from.len2(), to.len2());
        if after < INSIDE_WITHIN_M * INSIDE_WITHIN_M && before > OUTSIDE_BEYOND_M * OUTSIDE_BEYOND_M {
            return Moved::In;
        }
        if before < INSIDE_WITHIN_M * INSIDE_WITHIN_M && after > OUTSIDE_BEYOND_M * OUTSIDE_BEYOND_M {
            return Moved::Out;
        }
        let share = vec2(to.x - from.x, (to.y - from.y) * UP_THE_FLOOR_PER_ACROSS).len() / ZONE_WIDTH_M;
        match share {
            share if share < SHORT_BELOW_SHARE => Moved::Little,
            share if share < ASIDE_BELOW_SHARE => Moved::Aside,
            _ => Moved::Across,
        }
    }
}

/// A state of the possession as its holder knows it.
#[derive(Clone, Copy, Debug)]
pub struct State {
    /// Where the ball is.
    pub place: BallPlace,
    /// What its last move did.
    pub moved: Moved,
    /// How long he has held it, s.
    pub held_s: f32,
    /// Time left on the shot clock, s; infinite without one.
    pub left_s: f32,
}

impl State {
    /// The place of the table nearest to a ball.
    pub fn place_of(places: &[Vec2; BallPlace::COUNT], ball: Vec2) -> BallPlace {
        let here = vec2(ball.x.abs(), ball.y);
        let mut best = (f32::INFINITY, BallPlace::Top);
        for (place, there) in BallPlace::ALL.into_iter().zip(places) {
            let off = (here - *there).len2();
            if off < best.0 {
                best = (off, place);
            }
        }
        best.1
    }

    /// The entry nearest to this state.
    pub fn entry(&self) -> usize {
        entry(
            self.place as usize,
            self.moved as usize,
            nearest(&HELD_S, self.held_s),
            nearest(&CLOCK_S, self.left_s),
        )
    }
}

/// Entries of a table.
pub const ENTRIES: usize = BallPlace::COUNT * Moved::COUNT * HELD_S.len() * CLOCK_S.len();

/// The number of an entry, the clock changing fastest.
pub const fn entry(place: usize, moved: usize, held: usize, clock: usize) -> usize {
    ((place * Moved::COUNT + moved) * HELD_S.len() + held) * CLOCK_S.len() + clock
}

/// Which of rising values is nearest.
fn nearest(knots: &[f32], value: f32) -> usize {
    let mut at = 0;
    while at + 1 < knots.len() && value > 0.5 * (knots[at] + knots[at + 1]) {
        at += 1;
    }
    at
}

/// Between which rising values a value lies: the lower one, and how far on to the next (0-1).
fn between(knots: &[f32], value: f32) -> (usize, f32) {
    let mut at = 0;
    while at + 2 < knots.len() && value > knots[at + 1] {
        at += 1;
    }
    (at, max(min((value - knots[at]) / (knots[at + 1] - knots[at]), 1.0), 0.0))
}

/// The kind of a shot that is missed, for what follows it.
pub fn miss_of(three: bool, shot_m: f32) -> usize {
    match (three, shot_m < NEAR_RIM_M) {
        (true, _) => 2,
        (false, true) => 0,
        (false, false) => 1,
    }
}

/// Impatience where no shot clock is in force, 1/s. (bounds assumed)
pub const IMPATIENCE: Parameter = Parameter {
    name: "impatience_per_s",
    unit: "1/s",
    low: 0.0,
    high: 1.0,
    doc: "Hazard beyond 15 s with no shot clock.",
    whole: false,
};

/// The continuation value by state, and what a miss and a live turnover leave behind.
#[derive(Clone, Debug, PartialEq)]
pub struct Continuation {
    /// Net points from a state on, by [`entry`].
    pub points: Box<[f32; ENTRIES]>,
    /// Net points that follow a missed shot, by [`miss_of`]: second chances less the break.
    pub after_miss: [f32; MISSES],
    /// Net points that follow a pass taken by the zone: the break, so below zero.
    pub after_loss: f32,
    /// How impatient a team grows where no shot clock is in force ([`IMPATIENCE`]).
    pub impatience_per_s: f32,
}

impl Continuation {
    /// Net points from a state on, interpolated over the clock and the hold. At the end of the clock it is 0;
    /// without a clock it is that of the longest.
    pub fn worth(&self, state: State) -> f32 {
        let (held, later) = between(&HELD_S, state.held_s);
        let (clock, more) = between(&CLOCK_S, state.left_s);
        let at = |held, clock| self.points[entry(state.place as usize, state.moved as usize, held, clock)];
        let over_clock = |held| {
            let low = at(held, clock);
            low + (at(held, clock + 1) - low) * more
        };
        let low = over_clock(held);
        let worth = low + (over_clock(held + 1) - low) * later;
        worth * max(min(state.left_s / CLOCK_S[0], 1.0), 0.0)
    }

    /// A table of one value, falling to nothing at the end of the clock: where a computation begins.
    pub fn flat(points: f32) -> Self {
        let mut table = Box::new([points; ENTRIES]);
        for (nth, entry) in table.iter_mut().enumerate() {
            let left_s = CLOCK_S[nth % CLOCK_S.len()];
            *entry = points * min(left_s / FIRST_FALLS_FROM_S, 1.0);
        }
        Self {
            points: table,
            after_miss: [FIRST_AFTER_MISS_POINTS; MISSES],
            after_loss: FIRST_AFTER_LOSS_POINTS,
            impatience_per_s: FIRST_IMPATIENCE_PER_S,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn state(held_s: f32, left_s: f32) -> State {
        State { place: BallPlace::Wing, moved: Moved::Across, held_s, left_s }
    }

    #[test]
    fn a_state_at_a_knot_has_that_entry_and_one_between_lies_between() {
        let mut table = Continuation::flat(0.0);
        table.points[state(0.75, 8.0).entry()] = 0.8;
        table.points[state(1.5, 8.0).entry()] = 0.6;
        assert_eq!(table.worth(state(0.75, 8.0)), 0.8);
        assert!((table.worth(state(1.125, 8.0)) - 0.7).abs() < 1e-6);
        assert!((table.worth(state(0.75, 10.0)) - 0.4).abs() < 1e-6, "half way to an entry of 0");
        assert_eq!(table.worth(state(0.75, 8.0)), table.worth(State { held_s: 0.75, ..state(0.0, 8.0) }));
    }

    #[test]
    fn it_is_nothing_at_the_end_of_the_clock_and_ends_where_the_table_does() {
        let table = Continuation::flat(0.9);
        assert_eq!(table.worth(state(0.5, 0.0)), 0.0);
        assert_eq!(table.worth(state(0.5, f32::INFINITY)), table.worth(state(0.5, 30.0)));
        assert_eq!(table.worth(state(-1.0, 9.0)), table.worth(state(0.0, 9.0)));
        assert_eq!(table.worth(state(99.0, 9.0)), table.worth(state(3.0, 9.0)));
    }

    #[test]
    fn every_state_has_an_entry_of_its_own() {
        let mut seen = vec![false; ENTRIES];
        for place in BallPlace::ALL {
            for moved in Moved::ALL {
                for held_s in HELD_S {
                    for left_s in CLOCK_S {
                        let entry = State { place, moved, held_s, left_s }.entry();
                        assert!(!std::mem::replace(&mut seen[entry], true), "{entry}");
                    }
                }
            }
        }
        assert!(seen.into_iter().all(|seen| seen));
    }

    #[test]
    fn moves_are_told_apart() {
        let (slot, far_slot, wing) = (vec2(2.4, 6.3), vec2(-2.4, 6.3), vec2(5.2, 4.2));
        let (elbow, block) = (vec2(0.3, 4.2), vec2(2.2, 0.8));
        assert_eq!(Moved::of(slot, slot), Moved::Little);
        assert_eq!(Moved::of(slot, wing), Moved::Aside);
        assert_eq!(Moved::of(slot, far_slot), Moved::Across);
        assert_eq!(Moved::of(slot, elbow), Moved::In);
        assert_eq!(Moved::of(block, wing), Moved::Out);
    }
}
