//! Screens on the zone: on the far wing for a skip, on the near back for the corner.

use std::sync::Arc;

use engine::Arena;
use engine::arrange::{PassEnd, Scene};
use engine::math::{Vec2, vec2};
use engine::setup::{
    BallPlace, Condition, Frame, Locus, Pace, PassKind, PlaceSet, Program, ProgramKind, Relative, RoleSet,
    Setup, SideChoice, Step, Then,
};
use engine::slots::{ATTACK, DEFENCE, Slot};
use rayon::prelude::*;

use super::estimate::Series;
use super::fact::{Fact, Part};
use super::watch::{tally, watch};
use super::{SEED, cornered, standing};
use crate::support::{changed, matchup};

const SCREENER: Slot = Slot::of(4);
/// A catch-and-shoot three is away this long after the catch, s.
const RELEASE_S: f32 = 0.9;

/// Attackers and sunk 1-2-2 with the ball in the right slot or on the right wing, by lane.
const BALL_IN_SLOT: [(Slot, Vec2); 5] = [
    (Slot::of(5), vec2(1.9, 5.5)),
    (Slot::of(6), vec2(3.5, 4.5)),
    (Slot::of(7), vec2(-1.1, 4.6)),
    (Slot::of(8), vec2(1.9, 0.3)),
    (Slot::of(9), vec2(-1.0, 0.4)),
];
const BALL_ON_WING: [(Slot, Vec2); 5] = [
    (Slot::of(5), vec2(2.0, 4.7)),
    (Slot::of(6), vec2(4.4, 3.5)),
    (Slot::of(7), vec2(-0.7, 3.6)),
    (Slot::of(8), vec2(2.4, 0.2)),
    (Slot::of(9), vec2(0.2, 0.3)),
];

/// A pass thrown past a screen on the far wing, or past nobody.
struct Throw {
    zone: [(Slot, Vec2); 5],
    from: Slot,
    to: Slot,
    kind: PassKind,
}

/// Distance of the nearest defender from the receiver when he can shoot, m.
fn room(throw: &Throw, screened: bool, count: u64) -> Series {
    let setup = changed(&standing(), |setup| {
        setup.attack.side = SideChoice::Right;
        // He catches and keeps it: what is measured is how far the zone gets.
        setup.attackers.head.first_decision_s = 5.0;
    });
    let far_wing = throw.zone[2].1;
    let far_man = vec2(-5.2, 4.2);
    let screen = far_wing.toward(far_man, 0.6 / far_wing.distance(far_man));
    let mut stand = vec![
        (Slot::of(0), far_man),
        (Slot::of(1), vec2(2.4, 6.3)),
        (Slot::of(2), vec2(5.2, 4.2)),
        (Slot::of(3), vec2(2.2, 0.8)),
    ];
    stand.push((SCREENER, if screened { screen } else { vec2(-2.2, 0.8) }));
    stand.extend(throw.zone);
    let rooted = ATTACK.to_vec();
    let scene =
        Scene { stand, rooted, ball: throw.from, decides: false, pass: Some((throw.to, throw.kind, 0.3)) };
    (0..count)
        .into_par_iter()
        .map_init(
            || Some(Arena::new(1)),
            |kept, possession| {
                let mut playing =
                    scene.start(kept.take().expect("the arena came back"), &setup, SEED, possession);
                let mut end = PassEnd::Flying;
                let mut steps = 0;
                while end == PassEnd::Flying && steps < 80 {
                    playing.step();
                    end = playing.pass_to(throw.to);
                    steps += 1;
                }
                for _ in 0..(RELEASE_S / setup.step_s) as u32 {
                    playing.step();
                }
                let at = playing.at(throw.to);
                let far = DEFENCE.into_iter().map(|d| playing.at(d).distance(at));
                let room = far.fold(f32::INFINITY, |a, b| if b < a { b } else { a });
                *kept = Some(playing.arena());
                if end == PassEnd::Caught { (f64::from(room), 1.0) } else { (0.0, 0.0) }
            },
        )
        .collect()
}

/// The far post screens the far wing while the ball is on the other wing or slot.
fn screening(setup: &Setup) -> Arc<Setup> {
    let places = PlaceSet(1 << BallPlace::Slot as u8 | 1 << BallPlace::Wing as u8);
    changed(setup, |setup| {
        setup.attack.programs.push(Program {
            name: "far-wing-screen".into(),
            kind: ProgramKind::PostOption,
            who: RoleSet(0b1_1000),
            weight: 1.0,
            when: vec![Condition::NearPost(false), Condition::BallBound(places, Relative::Any)],
            steps: vec![Step {
                // Column 2 is the far wing; he would run to the wing opposite the ball.
                to: Locus::Screen(2, vec2(-5.2, 4.2), Frame::Ball, 0.6),
                pace: Pace::Sprint,
                within_m: 0.3,
                linger_s: 1.5,
                leave_when: Vec::new(),
                longest_s: 3.0,
            }],
            then: Then::GoHome,
            rest_s: 2.0,
        });
    })
}

/// Wide-open catches of skips a possession.
fn open_skips(setup: &Arc<Setup>, count: u64) -> Series {
    let [series] = watch::<1>(setup, count, |w, sums| {
        let open = w.passes.iter().filter(|pass| {
            pass.metres >= 7.5
                && w.outside(pass.from_at)
                && pass.caught.is_some_and(|(_, time_s, at)| w.outside(at) && w.space(time_s, at) >= 1.83)
        });
        tally(&mut sums[0], open.count() as f64);
    });
    series
}

/// Fact 12.
pub const FAR_WING: Fact = Fact {
    number: 12,
    starred: false,
    claim: "A screen on the far wing opens the skip, and does nothing for a swing on the same side",
    cause: "a scene (a fifth as many): the far post beside the far wing or at home, skip wing to wing or swing slot to wing; then the \
            same screen as an option in play, the off guard on the far wing",
    measure: |count| {
        let skip = Throw { zone: BALL_ON_WING, from: Slot::of(2), to: Slot::of(0), kind: PassKind::Overhead };
        let swing = Throw { zone: BALL_IN_SLOT, from: Slot::of(1), to: Slot::of(2), kind: PassKind::Chest };
        // In scenes hardly anything is left to luck: fewer of them say more.
        let scenes = count.div_ceil(5);
        let skips = [room(&skip, false, scenes), room(&skip, true, scenes)];
        let swings = [room(&swing, false, scenes), room(&swing, true, scenes)];
        // In play the skip needs a man on the far wing: one guard on top, the other there.
        let usual = changed(&standing(), |setup| {
            setup.attack.formation[0] = vec2(0.0, 6.9);
            setup.attack.formation[1] = vec2(-5.2, 4.2);
            setup.attack.ball_starts_with = 0;
        });
        let open = [open_skips(&usual, count), open_skips(&screening(&usual), count)];
        vec![
            Part::more(
                "nearest defender 0.9 s after the skip's catch, m",
                ("no screen", &skips[0]),
                ("screen", &skips[1]),
                0.3,
            ),
            Part::equal(
                "nearest defender 0.9 s after the swing's catch, m",
                ("no screen", &swings[0]),
                ("screen", &swings[1]),
                0.1,
            ),
            Part::more(
                "skips caught wide open a possession",
                ("option off", &open[0]),
                ("option on", &open[1]),
                0.01,
            ),
        ]
    },
};

/// Fact 23.
pub const NEAR_BACK: Fact = Fact {
    number: 23,
    starred: false,
    claim: "A screen on the near back delays the closeout to the corner",
    cause: "post option back-line-screen off and on; the rover in the corner",
    measure: |count| {
        let room = ["{}", "{ back-line-screen = 1.0 }"].map(|posts| {
            let setup = matchup(&[("attack.rover.route", "\"hold-wing\""), ("attack.posts.options", posts)]);
            let [series] = watch::<1>(&cornered(&setup), count, |w, sums| {
                for (by, time_s, at) in w.passes.iter().filter_map(|pass| pass.caught) {
                    if by == 2 && w.place(at) == BallPlace::Corner {
                        tally(&mut sums[0], w.space(time_s + 0.4, at));
                    }
                }
            });
            series
        });
        vec![Part::more(
            "nearest defender 0.4 s after a catch in the corner, m",
            ("no screen", &room[0]),
            ("screen", &room[1]),
            0.1,
        )]
    },
};
