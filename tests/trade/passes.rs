//! What kind of pass it was: kick-outs, reversals, skips, passes after a fake.

use super::estimate::{Series, combination, like_for_like};
use super::fact::{Bound, Fact, Part, Way};
use super::watch::{Pass, Watched, tally, watch};
use super::{moving, standing};
use crate::support::changed;

/// Passes thrown before the one that is compared: like is compared with like up to so many.
const STRATA: usize = 6;
/// Strata with fewer events are left out.
const FEWEST: f64 = 20.0;

/// Pairs of series, stratum by stratum, from a flat list: first all of `a`, then all of `b`.
fn strata(flat: &[Series]) -> Vec<(Series, Series)> {
    let half = flat.len() / 2;
    (0..half).map(|n| (flat[n].clone(), flat[half + n].clone())).collect()
}

/// Sum of the strata, for the means that are shown.
fn together(series: &[Series]) -> Series {
    (0..series[0].len())
        .map(|i| series.iter().fold((0.0, 0.0), |sum, s| (sum.0 + s[i].0, sum.1 + s[i].1)))
        .collect()
}

fn compared(effect: &'static str, flat: &[Series], names: [&str; 2], least: f64) -> Part {
    let (a, b) = flat.split_at(flat.len() / 2);
    let (a, b) = (together(a), together(b));
    let whole = like_for_like(&strata(flat), FEWEST);
    Part::found(effect, &[(names[0], &a), (names[1], &b)], whole, Bound::AtLeast(least))
}

/// Whether the catch of a pass followed a touch in the post: 1 straight out of it, 0 no touch so far.
fn kicked_out(w: &Watched<'_>, nth: usize, pass: &Pass) -> Option<usize> {
    if w.in_post(pass.from_at) {
        return Some(1);
    }
    let touched = w.passes[..nth].iter().filter_map(|p| p.caught).any(|(_, _, at)| w.in_post(at));
    (!touched).then_some(0)
}

/// Fact 2.
pub const KICK_OUTS: Fact = Fact {
    number: 2,
    starred: true,
    claim: "A three off a pass out of the post is better than one after as many passes round the perimeter",
    cause: "within one run: kick-outs against perimeter passes, by the number of passes before",
    measure: |count| {
        // First the catches, then the shots; each by kind, then by passes before.
        let flat = watch::<{ 4 * STRATA }>(&moving(), count, |w, sums| {
            for (nth, pass) in w.passes.iter().enumerate() {
                let Some((_, time_s, at)) = pass.caught else { continue };
                if !w.setup.court.is_three(at) || nth >= STRATA {
                    continue;
                }
                if let Some(kick) = kicked_out(w, nth, pass) {
                    tally(&mut sums[kick * STRATA + nth], w.space(time_s, at));
                }
            }
            for shot in w.shots.iter().filter(|shot| shot.three && !shot.drove && shot.passes > 0) {
                let nth = shot.passes - 1;
                if nth < STRATA
                    && let Some(kick) = kicked_out(w, nth, &w.passes[nth])
                {
                    tally(&mut sums[(2 + kick) * STRATA + nth], shot.average);
                }
            }
        });
        let (room, worth) = flat.split_at(2 * STRATA);
        let names = ["perimeter passes", "kick-out"];
        vec![
            compared("nearest defender at the catch behind the arc, m", room, names, 0.2),
            compared("expected points of the threes taken, to an average shooter", worth, names, 0.01),
        ]
    },
};

/// Fact 3.
pub const REVERSALS: Fact = Fact {
    number: 3,
    starred: true,
    claim: "One reversal beats none and two beat one; a third adds little",
    cause: "within one run, by the reversals before: catches of an attack that does not shoot early \
            (head.patience_points 2); first shots of one that does",
    measure: |count| {
        // Nobody shoots early, so that possessions with more reversals are not those with fewer looks.
        let patient = changed(&standing(), |setup| setup.attackers.head.patience_points = 2.0);
        let [r0, r1, r2, r3] = watch::<4>(&patient, count, |w, sums| {
            for (nth, pass) in w.passes.iter().enumerate() {
                let Some((_, time_s, at)) = pass.caught else { continue };
                // Catches on the side, wing and below: where a reversal is to bring the ball.
                if w.setup.court.is_three(at) && at.x.abs() > 3.8 {
                    tally(&mut sums[w.reversals(nth + 1).min(3)], w.space(time_s, at));
                }
            }
        });
        let [w0, w1, w2, w3] = watch::<4>(&standing(), count, |w, sums| {
            if let Some(shot) = w.shots.first() {
                tally(&mut sums[w.reversals(shot.passes).min(3)], shot.worth);
            }
        });
        vec![
            Part::more(
                "nearest defender at a catch on the side, m: one over none",
                ("0", &r0),
                ("1", &r1),
                0.05,
            ),
            Part::more(
                "nearest defender at a catch on the side, m: two over one",
                ("1", &r1),
                ("2", &r2),
                0.05,
            ),
            Part::equal(
                "nearest defender at a catch on the side, m: three as two",
                ("2", &r2),
                ("3", &r3),
                0.15,
            ),
            Part::more("expected points of the first shot: one over none", ("0", &w0), ("1", &w1), 0.01),
            Part::more("expected points of the first shot: two over one", ("1", &w1), ("2", &w2), 0.01),
            Part::equal("expected points of the first shot: three as two", ("2", &w2), ("3", &w3), 0.06),
        ]
    },
};

/// Fact 4.
pub const SKIPS: Fact = Fact {
    number: 4,
    starred: true,
    claim: "A skip leaves a longer closeout than a swing to the same place, and is tipped more often",
    cause: "within one run: skips against swings, by the receiver's place (slot, wing, corner)",
    measure: |count| {
        use engine::setup::BallPlace::{Corner, Slot, Wing};
        const PLACES: usize = 3;
        let kind = |w: &Watched<'_>, pass: &Pass| {
            let to = w.frame(pass.release_s).players[pass.to];
            let place = [Slot, Wing, Corner].iter().position(|place| *place == w.place(to))?;
            (w.outside(pass.from_at) && w.outside(to))
                .then_some(usize::from(pass.metres >= 7.5) * PLACES + place)
        };
        let flat = watch::<{ 4 * PLACES }>(&standing(), count, |w, sums| {
            for pass in &w.passes {
                let Some(kind) = kind(w, pass) else { continue };
                if let Some((_, time_s, at)) = pass.caught {
                    tally(&mut sums[kind], w.space(time_s, at));
                }
                tally(&mut sums[2 * PLACES + kind], if pass.touched { 1.0 } else { 0.0 });
            }
        });
        let (room, tips) = flat.split_at(2 * PLACES);
        let names = ["swings", "skips"];
        vec![
            compared("nearest defender at the catch, m", room, names, 0.3),
            compared("share touched by a hand", tips, names, 0.01),
        ]
    },
};

/// Nearest defender at the catch of the first, second and third pass after a fake in a possession, m, where guards
/// fake before every pass to defenders who bite with this chance.
fn after_fakes(bite: f32, decay: f32, count: u64) -> [Series; 3] {
    let setup = changed(&standing(), |s| {
        s.attack.habits.fake_chance = 1.0;
        s.attack.habits.fakes_most = 1;
        s.defenders.head.bite_chance = bite;
        s.defenders.head.bite_decay = decay;
    });
    watch::<3>(&setup, count, |w, sums| {
        for (pass, sum) in w.passes.iter().filter(|pass| pass.fakes > 0).zip(sums) {
            if let Some((_, time_s, at)) = pass.caught {
                tally(sum, w.space(time_s, at));
            }
        }
    })
}

/// Fact 11.
pub const FAKES: Fact = Fact {
    number: 11,
    starred: false,
    claim: "A pass fake gains time; the less, the more disciplined the zone is and the more fakes it has seen",
    cause: "a fake before every guard's pass: bite_chance of the defenders 0, 0.45, 0.9 at the first fake of a \
            possession; bite_chance 0.9 with bite_decay 0.6 against no biting, first fake against third",
    measure: |count| {
        let doses = [("0", 0.0), ("0.45", 0.45), ("0.9", 0.9)];
        let [none, some, most] = doses.map(|(_, bite)| after_fakes(bite, 0.6, count));
        // Up to the first fake all three are the same possession; the later ones are compared with the same
        // possession of a zone that never bites, so that what is left is what biting gains.
        let gain = [(1.0, &most[0]), (-1.0, &none[0]), (-1.0, &most[2]), (1.0, &none[2])];
        let groups = [
            ("first, no biting", &none[0]),
            ("first, biting", &most[0]),
            ("third, no biting", &none[2]),
            ("third, biting", &most[2]),
        ];
        let faded = Part::found(
            "what biting gains, m: first fake over third",
            &groups,
            combination(&gain),
            Bound::AtLeast(0.02),
        );
        let [a, b, c] = [none, some, most].map(|[first, ..]| first);
        let first = [(doses[0].0, a), (doses[1].0, b), (doses[2].0, c)];
        vec![
            Part::dial(
                "nearest defender at the catch after the first fake, m: rises with biting",
                &first,
                Way::Rises,
                0.05,
            ),
            faded,
        ]
    },
};
