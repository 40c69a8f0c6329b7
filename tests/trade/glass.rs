//! The glass: where misses fall, who gets them, and what sending one more costs.

use engine::Measure::{BreakExposure, OffensiveRebounds, Points, Rebounds};
use engine::PossessionRecord;
use engine::film::What;
use engine::math::Vec2;
use engine::setup::BallPlace;

use super::estimate::{Series, combination};
use super::fact::{Bound, Fact, Part, Way};
use super::watch::{Watched, tally, watch};
use super::{cornered, moving, per, played, standing};
use crate::support::{changed, matchup};

/// Fact 15.
pub const MISSES: Fact = Fact {
    number: 15,
    starred: false,
    claim: "The attack gets a larger share of its misses than against man-to-man; misses from the corner fall on \
            the weak side",
    cause: "zone.use man-to-man or 1-2-2, the same attack; within one run, misses from the corner",
    measure: |count| {
        let shares = ["man-to-man", "1-2-2"].map(|zone| {
            let setup = matchup(&[
                ("zone.use", &format!("\"{zone}\"")),
                ("zone.sink_back_m", "0.0"),
                ("attack.rover.route", "\"seam-cross\""),
                ("attack.posts.options", "{ far-flash = 1.0, seal-helper = 1.0 }"),
            ]);
            per(&played(&setup, count), OffensiveRebounds, Rebounds)
        });
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
            Part::more("offensive rebounds a miss", ("man-to-man", &shares[0]), ("zone", &shares[1]), 0.01),
            Part::more(
                "corner misses that fall on the weak side",
                ("even", &even),
                ("as played", &weak),
                0.1,
            ),
        ]
    },
};

/// Points of a possession with an offensive rebound: second-chance points.
fn second_chance(record: &PossessionRecord) -> f64 {
    if record.value(OffensiveRebounds) > 0 { record.real(Points) } else { 0.0 }
}

/// Whether two of the opponents are nearer to midcourt than the second attacker, once they have rebounded.
fn outnumbered(w: &Watched<'_>, sum: &mut (f64, f64)) {
    let caught = w.film.events.iter().find(|e| matches!(e.what, What::Rebound { offensive: false, .. }));
    let Some(caught) = caught else { return };
    let frame = w.frame(caught.time_s);
    let second = |lanes: &[Vec2]| {
        let mut far: Vec<f32> = lanes.iter().map(|at| w.setup.court.midcourt_y_m - at.y).collect();
        far.sort_by(f32::total_cmp);
        far[1]
    };
    let (ours, theirs) = (second(&frame.players[..5]), second(&frame.players[5..]));
    tally(sum, if theirs < ours { 1.0 } else { 0.0 });
}

/// Points of a possession in transition: all of them, not only what a break adds to an ordinary possession. (source: the
/// published figures, 1.10-1.16)
const TRANSITION_POINTS: f64 = 1.12;

/// Fact 16.
pub const STAYING_BACK: Fact = Fact {
    number: 16,
    starred: false,
    claim: "With fewer than two back the opponents' break gains more than the second chances do",
    cause: "skill.crash 2, 3, 4 of the attack: three, two, one back",
    measure: |count| {
        let setups = [("two", 2.0), ("three", 3.0), ("four", 4.0)]
            .map(|(name, crash)| (name, changed(&moving(), |setup| setup.attackers.skill.crash = crash)));
        let seen = setups.each_ref().map(|(_, setup)| {
            watch::<3>(setup, count, |w, sums| {
                tally(&mut sums[0], TRANSITION_POINTS * w.film.record.real(BreakExposure));
                tally(&mut sums[1], second_chance(&w.film.record));
                outnumbered(w, &mut sums[2]);
            })
        });
        let of = |nth: usize| -> [(&str, Series); 3] {
            std::array::from_fn(|dose| (setups[dose].0, seen[dose][nth].clone()))
        };
        let [lost, won, numbers] = std::array::from_fn(of);
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
            Part::dial(
                "defensive rebounds with two opponents ahead of the second man back: rise",
                &numbers,
                Way::Rises,
                0.02,
            ),
        ]
    },
};
