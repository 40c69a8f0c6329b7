//! Holding and cutting: a zone is hurt by a ball that moves and by people who move.

use engine::Measure::{ExpectedPoints, GoodShotTaken, LatenessMean, OpenLookAvailable, Shots};
use engine::setup::Setup;

use super::estimate::combination;
use super::fact::{Bound, Fact, Part, Way};
use super::watch::{Watched, tally, watch};
use super::{each, moving, played, standing};
use crate::support::changed;

/// How far the two backs are from where they belong, as a pass to which they have to go is thrown, m.
fn behind(w: &Watched<'_>, sum: &mut (f64, f64)) {
    for pass in &w.passes {
        let frame = w.frame(pass.release_s);
        // In the middle neither is the near one.
        if frame.ball.x.abs() < 1.0 {
            continue;
        }
        let side = frame.ball.x.signum();
        let row = &w.setup.zone.table.anchors[w.place(frame.ball) as usize];
        let backs = if side == w.film.side { [8, 9] } else { [9, 8] };
        for (back, column) in backs.into_iter().zip([3, 4]) {
            tally(sum, frame.players[back].distance(row[column].sided(side)));
        }
    }
}

/// Fact 1.
pub const HOLDS: Fact = Fact {
    number: 1,
    starred: true,
    claim: "A ball that is held for a second or less leaves the back line later and gets better shots than one \
            held for two and a half",
    cause: "head.first_decision_s of the attack",
    measure: |count| {
        let holds = [("0.3 s", 0.3), ("0.9 s", 0.9), ("1.6 s", 1.6), ("2.3 s", 2.3)];
        let all = holds.map(|(name, seconds)| {
            let setup = changed(&moving(), |s| s.attackers.head.first_decision_s = seconds);
            let seen = watch::<4>(&setup, count, |w, sums| {
                let record = &w.film.record;
                behind(w, &mut sums[0]);
                sums[1] = (record.real(ExpectedPoints), record.real(Shots));
                tally(&mut sums[2], record.real(GoodShotTaken));
                tally(&mut sums[3], record.real(LatenessMean));
            });
            (name, seen)
        });
        let of = |nth: usize| all.each_ref().map(|(name, seen)| (*name, seen[nth].clone()));
        let [behind, worth, good, late] = std::array::from_fn(of);
        vec![
            Part::dial(
                "backs' distance from their places as a pass is thrown, m: falls",
                &behind,
                Way::Falls,
                0.1,
            ),
            Part::dial("expected points a shot: falls", &worth, Way::Falls, 0.02),
            Part::dial("good shot a possession: falls", &good, Way::Falls, 0.02),
            Part::dial("back-line lateness, mean, s: falls", &late, Way::Falls, 0.01),
        ]
    },
};

/// A zone that is quicker on its feet and in the head.
pub fn quicker(setup: &mut Setup) {
    setup.defenders.body.sprint_m_s *= 1.1;
    setup.defenders.head.reaction_s = 0.18;
    setup.defenders.head.choice_s = 0.05;
}

/// Fact 14.
pub const CUTS: Fact = Fact {
    number: 14,
    starred: false,
    claim: "Against a quick zone passing alone is not enough, nor is cutting: both together break it",
    cause: "quick (0.3 s) or slow (1.6 s) hands, with or without route and post options; quick zone",
    measure: |count| {
        let play = |cuts: bool, hold: f32, count: u64| {
            let base = if cuts { moving() } else { standing() };
            let setup = changed(&base, |setup| {
                quicker(setup);
                setup.attackers.head.first_decision_s = hold;
            });
            played(&setup, count)
        };
        // With neither nothing is compared: its mean is shown.
        let neither = play(false, 1.6, count.div_ceil(5));
        let [passes, cuts, both] =
            [(false, 0.3), (true, 1.6), (true, 0.3)].map(|(cuts, hold)| play(cuts, hold, count));
        let mut parts = Vec::new();
        for (measure, [over_passes, over_cuts], [least, spare]) in [
            (
                ExpectedPoints,
                [
                    "expected points: passing and cutting over passing",
                    "expected points: passing and cutting over cutting",
                ],
                [0.02, 0.02],
            ),
            (
                OpenLookAvailable,
                [
                    "an open look available: passing and cutting over passing",
                    "an open look available: passing and cutting over cutting",
                ],
                [0.02, 0.02],
            ),
            (
                GoodShotTaken,
                [
                    "good shots: passing and cutting over passing",
                    "good shots: passing and cutting over cutting",
                ],
                [0.02, 0.02],
            ),
        ] {
            let series = [&neither, &passes, &cuts, &both].map(|r| each(r, measure));
            let groups = [
                ("neither", &series[0]),
                ("passing", &series[1]),
                ("cutting", &series[2]),
                ("both", &series[3]),
            ];
            let over = |other: usize| combination(&[(1.0, &series[3]), (-1.0, &series[other])]);
            parts.push(Part::found(over_passes, &groups, over(1), Bound::AtLeast(least)));
            parts.push(Part::found(over_cuts, &groups, over(2), Bound::AtLeast(spare)));
        }
        parts
    },
};
