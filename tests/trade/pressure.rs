//! Taking the chance: a zone that traps, an attack that does not wait until the zone is set.

use engine::Measure::{ExpectedPoints, GoodShotTaken, OpenLookAvailable, Points, Turnover};
use engine::PossessionRecord;

use super::estimate::{Series, ratio};
use super::fact::{Fact, Part};
use super::watch::{Watched, tally, watch};
use super::{each, played};
use crate::support::matchup;

/// Squared distance of each possession's points from the mean. What the mean's own error adds is of second order.
fn squares(records: &[PossessionRecord]) -> Series {
    let mean = ratio(&each(records, Points));
    records.iter().map(|r| ((r.real(Points) - mean).powi(2), 1.0)).collect()
}

/// Fact 18.
pub const TRAP: Fact = Fact {
    number: 18,
    starred: false,
    claim: "A zone that traps the corner takes more balls away and gives up more good shots; points spread more",
    cause: "zone.trap none or corner; 1-2-2 without sink, route baseline-run",
    measure: |count| {
        let [usual, trapped] = ["[]", "[\"corner\"]"].map(|trap| {
            let setup = matchup(&[
                ("attack.rover.route", "\"baseline-run\""),
                ("zone.sink_back_m", "0.0"),
                ("zone.trap", trap),
            ]);
            played(&setup, count)
        });
        let part = |effect: &'static str, series: fn(&[PossessionRecord]) -> Series, least: f64| {
            Part::more(effect, ("no trap", &series(&usual)), ("corner trapped", &series(&trapped)), least)
        };
        vec![
            part("turnovers a possession", |r| each(r, Turnover), 0.005),
            part("good shots a possession", |r| each(r, GoodShotTaken), 0.005),
            part("variance of points a possession", squares, 0.0),
        ]
    },
};

/// From here in the zone is set: nobody is farther from the rim, m.
const SET_M: f32 = 7.0;

/// Expected points of the first shot: first those before the zone is set, then those after.
fn first_shot(w: &Watched<'_>, sums: &mut [(f64, f64)]) {
    let Some(shot) = w.shots.first() else { return };
    let set = w.film.frames.iter().find(|frame| frame.players[5..].iter().all(|at| at.len() < SET_M));
    let after = set.is_some_and(|frame| frame.time_s < shot.time_s);
    tally(&mut sums[usize::from(after)], shot.worth);
}

/// Fact 20.
pub const EARLY: Fact = Fact {
    number: 20,
    starred: false,
    claim: "Attacking before the five are set beats attacking after",
    cause: "start.state set or arriving, ball with the lead guard, the bundled matchup; within the arriving run, \
            first shots before and after all five are within 7 m of the rim",
    measure: |count| {
        let setups = ["set", "arriving"]
            .map(|state| matchup(&[("start", &format!("{{ state = \"{state}\", ball = \"lead-guard\" }}"))]));
        let set = played(&setups[0], count);
        let [before, after, expected, good, open] = watch::<5>(&setups[1], count, |w, sums| {
            first_shot(w, sums);
            for (sum, measure) in sums[2..].iter_mut().zip([ExpectedPoints, GoodShotTaken, OpenLookAvailable])
            {
                tally(sum, w.film.record.real(measure));
            }
        });
        let part = |effect: &'static str, measure, arriving: &Series, least: f64| {
            Part::more(effect, ("set", &each(&set, measure)), ("arriving", arriving), least)
        };
        vec![
            part("expected points a possession", ExpectedPoints, &expected, 0.01),
            part("good shots a possession", GoodShotTaken, &good, 0.01),
            part("an open look available", OpenLookAvailable, &open, 0.01),
            Part::more(
                "expected points of the first shot",
                ("after the five are set", &after),
                ("before", &before),
                0.02,
            ),
        ]
    },
};
