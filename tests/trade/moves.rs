//! Moves that a zone finds late: a flash from behind, a drop to the corner, three above and two below.

use std::sync::Arc;

use engine::Arena;
use engine::Measure::{BreakExposure, WidestSeam};
use engine::arrange::{PassEnd, Scene};
use engine::math::{Vec2, vec2};
use engine::setup::{
    BallPlace, Condition, Frame, Locus, Pace, PassKind, Program, ProgramKind, RoleSet, Setup, SideChoice,
    Step, Then,
};
use rayon::prelude::*;

use super::estimate::Series;
use super::fact::{Fact, Part};
use super::watch::{tally, watch};
use super::{SEED, against, cornered, each, played, standing};
use crate::support::changed;

const ROVER: u8 = 2;
const FLASHER: u8 = 4;
const FAR_BACK: u8 = 9;

/// Where the flash ends: in front of the far back.
const OPEN_MIDDLE: Vec2 = vec2(0.6, 2.9);

/// A post who flashes at once.
fn flashing() -> Arc<Setup> {
    changed(&standing(), |setup| {
        setup.attack.side = SideChoice::Right;
        setup.attack.programs.push(Program {
            name: "flash".into(),
            kind: ProgramKind::PostOption,
            who: RoleSet(1 << FLASHER),
            weight: 1.0,
            when: vec![Condition::BallElsewhere],
            steps: vec![Step {
                to: Locus::Floor(vec2(-OPEN_MIDDLE.x, OPEN_MIDDLE.y), Frame::Start),
                pace: Pace::Sprint,
                within_m: 0.4,
                linger_s: 2.0,
                leave_when: Vec::new(),
                longest_s: 4.0,
            }],
            then: Then::Stay,
            rest_s: 9.0,
        });
    })
}

/// Share of passes to a flash that are caught, and the room at the catch: a flash that starts here, the far back
/// in his place with his eyes on the ball.
fn flash(from: Vec2, count: u64) -> [Series; 2] {
    let setup = changed(&flashing(), |setup| {
        let Locus::Floor(at, frame) = setup.attack.programs[0].steps[0].to else { return };
        // Both starts lead to the same place, whichever side its owner is on.
        let sign = if from.x < 0.0 { 1.0 } else { -1.0 };
        setup.attack.programs[0].steps[0].to = Locus::Floor(vec2(at.x * sign, at.y), frame);
    });
    let scene = Scene {
        stand: vec![(ROVER, vec2(5.2, 4.2)), (FLASHER, from), (FAR_BACK, vec2(0.2, 1.3))],
        rooted: vec![ROVER],
        ball: ROVER,
        pass: Some((FLASHER, PassKind::Chest, 1.0)),
    };
    let seen: Vec<[(f64, f64); 2]> = (0..count)
        .into_par_iter()
        .map_init(
            || Some(Arena::new(1)),
            |kept, possession| {
                let mut playing = scene.start(kept.take().expect("the arena came back"), &setup, SEED, possession);
                let mut end = PassEnd::Flying;
                for _ in 0..60 {
                    playing.step();
                    end = playing.pass_to(FLASHER);
                    if end != PassEnd::Flying {
                        break;
                    }
                }
                let room = f64::from(playing.at(FAR_BACK).distance(playing.at(FLASHER)));
                *kept = Some(playing.arena());
                let caught = if end == PassEnd::Caught { 1.0 } else { 0.0 };
                [(caught, 1.0), (caught * room, caught)]
            },
        )
        .collect();
    [0, 1].map(|n| seen.iter().map(|one| one[n]).collect())
}

/// Fact 10.
pub const FLASH: Fact = Fact {
    number: 10,
    starred: false,
    claim: "A flash that starts behind a back's view is caught more often than one in his sight",
    cause: "a scene: the same flash, as long, from behind the far back or from in front of him",
    possessions: 4000,
    measure: |count| {
        let behind = flash(vec2(-2.5, 0.6), count);
        let seen = flash(vec2(3.8, 0.9), count);
        vec![
            Part::more("passes caught", ("in sight", &seen[0]), ("behind", &behind[0]), 0.03),
            Part::more("the back's distance at the catch, m", ("in sight", &seen[1]), ("behind", &behind[1]), 0.1),
        ]
    },
};

/// Nearest defender at the rover's catches in the corner, m.
fn room_in_the_corner(setup: &Arc<Setup>, count: u64) -> Series {
    let [series] = watch::<1>(setup, count, |w, sums| {
        for (by, time_s, at) in w.passes.iter().filter_map(|pass| pass.caught) {
            if by == usize::from(ROVER) && w.place(at) == BallPlace::Corner {
                tally(&mut sums[0], w.space(time_s, at));
            }
        }
    });
    series
}

/// Fact 22.
pub const DROP: Fact = Fact {
    number: 22,
    starred: false,
    claim: "A rover who drops from the wing to the corner becomes another defender's man and is found late",
    cause: "route corner-drop against a rover who stands in the corner all along",
    possessions: 4000,
    measure: |count| {
        let stands = room_in_the_corner(&cornered(&standing()), count);
        let drops = room_in_the_corner(&against("corner-drop", "{}"), count);
        vec![Part::more(
            "nearest defender at the rover's catch in the corner, m",
            ("stands there", &stands),
            ("drops", &drops),
            0.1,
        )]
    },
};

/// Fact 24.
pub const STRETCHED: Fact = Fact {
    number: 24,
    starred: false,
    claim: "With the rover above the arc and both guards in the corners the back line is stretched, and the break \
            is easier",
    cause: "homes: guards in the slots and rover on the wing, or guards in the corners and rover on top",
    possessions: 3000,
    measure: |count| {
        let usual = standing();
        let low = changed(&usual, |setup| {
            setup.attack.formation[0] = vec2(-6.4, -0.2);
            setup.attack.formation[1] = vec2(6.4, -0.2);
            setup.attack.formation[2] = vec2(0.0, 7.2);
            setup.attack.ball_starts_with = ROVER;
        });
        let setups = [usual, low];
        let width = setups.each_ref().map(|setup| {
            let [series] = watch::<1>(setup, count, |w, sums| {
                for frame in w.film.frames.iter().filter(|frame| frame.holder.is_some()) {
                    tally(&mut sums[0], frame.players[8].distance(frame.players[9]));
                }
            });
            series
        });
        let records = setups.each_ref().map(|setup| played(setup, count));
        let seam = records.each_ref().map(|r| each(r, WidestSeam));
        let exposed = records.each_ref().map(|r| each(r, BreakExposure));
        let names = ["guards up", "guards low"];
        vec![
            Part::more("distance between the two backs, m", (names[0], &width[0]), (names[1], &width[1]), 0.2),
            Part::more("widest seam, m", (names[0], &seam[0]), (names[1], &seam[1]), 0.1),
            Part::more("break exposure", (names[0], &exposed[0]), (names[1], &exposed[1]), 0.005),
        ]
    },
};
