//! The glass: where misses fall, who gets them, and what sending one more costs.

use engine::Measure::{BreakPoints, OffensiveRebounds, Points, Rebounds};
use engine::PossessionRecord;
use engine::film::What;
use engine::setup::BallPlace;

use super::estimate::{Series, combination};
use super::fact::{Bound, Fact, Part, Way};
use super::watch::{tally, watch};
use super::{cornered, each, moving, per, played, standing};
use crate::support::changed;

/// Fact 15, as far as it needs no man-to-man.
pub const MISSES: Fact = Fact {
    number: 15,
    starred: false,
    claim: "The attack gets a larger share of its misses than against man-to-man; misses from the corner fall on \
            the weak side",
    cause: "zone.match_up 0.3 with carry_m 1.5 against match_up 1 with carry_m 12 (a stand-in: no man-to-man \
            yet); within one run, misses from the corner",
    possessions: 6000,
    measure: |count| {
        let follow = changed(&moving(), |setup| (setup.zone.match_up, setup.zone.carry_m) = (1.0, 12.0));
        let shares = [moving(), follow].map(|setup| per(&played(&setup, count), OffensiveRebounds, Rebounds));
        let [weak, even] = watch::<2>(&cornered(&standing()), count, |w, sums| {
            let Some(shot) = w.shots.first().filter(|shot| w.place(shot.at) == BallPlace::Corner) else {
                return;
            };
            let down = w.film.events.iter().find(|event| matches!(event.what, What::Rebound { .. }));
            if let Some(down) = down {
                let ball = w.frame(down.time_s - w.setup.step_s).ball;
                tally(&mut sums[0], if ball.x * shot.at.x < 0.0 { 1.0 } else { 0.0 });
                tally(&mut sums[1], 0.5);
            }
        });
        vec![
            Part::more(
                "offensive rebounds a miss",
                ("following men", &shares[1]),
                ("zone", &shares[0]),
                0.01,
            ),
            Part::more(
                "corner misses that fall on the weak side",
                ("even", &even),
                ("as played", &weak),
                0.1,
            ),
        ]
    },
};

/// Points of possessions with an offensive rebound: second-chance points.
fn second_chance(records: &[PossessionRecord]) -> Series {
    let points = |r: &PossessionRecord| if r.value(OffensiveRebounds) > 0 { r.real(Points) } else { 0.0 };
    records.iter().map(|r| (points(r), 1.0)).collect()
}

/// Fact 16.
pub const STAYING_BACK: Fact = Fact {
    number: 16,
    starred: false,
    claim: "With fewer than two back the opponents' break gains more than the second chances do",
    cause: "skill.crash 2, 3, 4 of the attack: three, two, one back",
    possessions: 10000,
    measure: |count| {
        let all = [("two", 2.0), ("three", 3.0), ("four", 4.0)].map(|(name, crash)| {
            let setup = changed(&moving(), |setup| setup.attackers.skill.crash = crash);
            (name, played(&setup, count))
        });
        let lost = all.each_ref().map(|(name, r)| (*name, each(r, BreakPoints)));
        let won = all.each_ref().map(|(name, r)| (*name, second_chance(r)));
        let net = combination(&[(1.0, &lost[2].1), (-1.0, &lost[1].1), (-1.0, &won[2].1), (1.0, &won[1].1)]);
        let groups = [
            ("break, three sent", &lost[1].1),
            ("break, four sent", &lost[2].1),
            ("second chance, three", &won[1].1),
            ("second chance, four", &won[2].1),
        ];
        vec![
            Part::dial("break points a possession: rise", &lost, Way::Rises, 0.002),
            Part::dial("second-chance points a possession: rise", &won, Way::Rises, 0.0),
            Part::found(
                "points a possession: break's rise less second chances' rise, from three sent to four",
                &groups,
                net,
                Bound::AtLeast(0.0),
            ),
        ]
    },
};
