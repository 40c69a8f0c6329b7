//! Moves that a zone finds late: a flash from behind, a drop to the corner, three above and two below.

use std::sync::Arc;

use engine::Measure::{BreakExposure, WidestSeam};
use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, Setup};

use super::estimate::Series;
use super::fact::{Fact, Part};
use super::watch::{Watched, space, tally, watch};
use super::{against, cornered, standing};
use crate::support::changed;

const ROVER: u8 = 2;

/// Nearest defender, m, where a post's program has just brought him: at each arrival in the high post of a post
/// without the ball.
fn room_at_arrival(w: &Watched<'_>, sum: &mut (f64, f64)) {
    let high = |at: Vec2| at.x.abs() < 1.0 && at.y > 3.9 && at.y < 4.7;
    for post in [3, 4] {
        for pair in w.film.frames.windows(2) {
            let arrives = !high(pair[0].players[post]) && high(pair[1].players[post]);
            if arrives && pair[1].holder.is_some_and(|by| usize::from(by) != post) {
                tally(sum, space(&pair[1], pair[1].players[post]));
            }
        }
    }
}

/// Fact 10.
pub const FLASH: Fact = Fact {
    number: 10,
    starred: false,
    claim: "A flash that starts behind a back's view is caught more often than one in his sight",
    cause: "the far post's flash against eyes that see all round, or as far as they do (head.whole_deg, notice_per_s)",
    measure: |count| {
        let usual = against("hold-wing", "{ far-flash = 1.0 }");
        let all_round = changed(&usual, |setup| {
            setup.defenders.head.whole_cos = -1.0;
            setup.defenders.head.notice_per_s = 1000.0;
        });
        let seen = [all_round, usual].map(|setup| {
            watch::<2>(&setup, count, |w, sums| {
                room_at_arrival(w, &mut sums[0]);
                let flashes = w.passes.iter().filter_map(|pass| pass.caught);
                let caught = flashes.filter(|(by, _, at)| *by > 2 && at.x.abs() <= 2.4 && at.y >= 3.0);
                tally(&mut sums[1], caught.count() as f64);
            })
        });
        let names = ["in sight", "unseen"];
        let [[room, caught], [unseen_room, unseen_caught]] = &seen;
        vec![
            Part::more(
                "a post's catches in the high post a possession",
                (names[0], caught),
                (names[1], unseen_caught),
                0.02,
            ),
            Part::more(
                "nearest defender as he gets there, m",
                (names[0], room),
                (names[1], unseen_room),
                0.05,
            ),
        ]
    },
};

/// At the rover's catches in the corner: how far from him the back of that side believed him to be when the pass was
/// thrown, and the nearest defender at the catch, m.
fn found_in_the_corner(setup: &Arc<Setup>, count: u64) -> [Series; 2] {
    watch::<2>(setup, count, |w, sums| {
        for pass in &w.passes {
            let Some((by, time_s, at)) = pass.caught else { continue };
            if by != usize::from(ROVER) || w.place(at) != BallPlace::Corner {
                continue;
            }
            let thrown = w.frame(pass.release_s);
            let back = if thrown.players[8].distance(at) < thrown.players[9].distance(at) { 8 } else { 9 };
            tally(&mut sums[0], thrown.views[back].players[by].distance(thrown.players[by]));
            tally(&mut sums[1], w.space(time_s, at));
        }
    })
}

/// Fact 22.
pub const DROP: Fact = Fact {
    number: 22,
    starred: false,
    claim: "A rover who drops from the wing to the corner becomes another defender's man and is found late",
    cause: "route corner-drop against a rover who stands in the corner all along",
    measure: |count| {
        let stands = found_in_the_corner(&cornered(&standing()), count);
        let drops = found_in_the_corner(&against("corner-drop", "{}"), count);
        let names = ["stands there", "drops"];
        vec![
            Part::more(
                "how far from the rover the near back believes him as the pass is thrown, m",
                (names[0], &stands[0]),
                (names[1], &drops[0]),
                0.1,
            ),
            Part::more(
                "nearest defender at the rover's catch in the corner, m",
                (names[0], &stands[1]),
                (names[1], &drops[1]),
                0.1,
            ),
        ]
    },
};

/// Fact 24.
pub const STRETCHED: Fact = Fact {
    number: 24,
    starred: false,
    claim: "With the rover above the arc and both guards in the corners the back line is stretched, and the break \
            is easier",
    cause: "homes: guards in the slots and rover on the wing, or guards in the corners and rover on top",
    measure: |count| {
        let usual = standing();
        let low = changed(&usual, |setup| {
            setup.attack.formation[0] = vec2(-6.4, -0.2);
            setup.attack.formation[1] = vec2(6.4, -0.2);
            setup.attack.formation[2] = vec2(0.0, 7.2);
            setup.attack.ball_starts_with = ROVER;
        });
        let setups = [usual, low];
        let seen = setups.map(|setup| {
            watch::<3>(&setup, count, |w, sums| {
                for frame in w.film.frames.iter().filter(|frame| frame.holder.is_some()) {
                    tally(&mut sums[0], frame.players[8].distance(frame.players[9]));
                }
                tally(&mut sums[1], w.film.record.real(WidestSeam));
                tally(&mut sums[2], w.film.record.real(BreakExposure));
            })
        });
        let [width, seam, exposed] =
            std::array::from_fn(|nth| seen.each_ref().map(|series| series[nth].clone()));
        let names = ["guards up", "guards low"];
        vec![
            Part::more(
                "distance between the two backs, m",
                (names[0], &width[0]),
                (names[1], &width[1]),
                0.2,
            ),
            Part::more("widest seam, m", (names[0], &seam[0]), (names[1], &seam[1]), 0.1),
            Part::more("break exposure", (names[0], &exposed[0]), (names[1], &exposed[1]), 0.005),
        ]
    },
};
