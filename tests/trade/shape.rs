//! Where a zone's lines stand, and how many attackers stand in whose area.

use std::sync::Arc;

use engine::Measure::{GoodLook, HighPostTouch, LineGap};
use engine::film::Frame;
use engine::math::{Vec2, vec2};
use engine::setup::{Setup, SideChoice};

use super::estimate::{Series, combination};
use super::fact::{Bound, Fact, Part, Way};
use super::standing;
use super::watch::{Watched, tally, watch};
use crate::support::changed;

/// How near counts as near a two-on-one's lone defender, and how far everybody else is, m.
const HIS_M: f32 = 3.5;
const OTHERS_M: f32 = 2.0;

/// Two attackers whose nearest defender is the same one, with nobody else near either.
fn two_on_one(frame: &Frame) -> bool {
    let mut alone = [0; 5];
    for a in &frame.players[..5] {
        let far: Vec<f32> = frame.players[5..].iter().map(|d| d.distance(*a)).collect();
        for (nth, own) in far.iter().enumerate() {
            let others = far.iter().enumerate().any(|(d, m)| d != nth && *m < OTHERS_M);
            alone[nth] += i32::from(*own < HIS_M && !others && far.iter().all(|m| m >= own));
        }
    }
    alone.iter().any(|count| *count >= 2)
}

/// Whether there is a two-on-one below the free-throw line extended before the third pass.
fn soon_two_on_one(w: &Watched<'_>) -> bool {
    let end = w.passes.get(2).map_or(f32::INFINITY, |pass| pass.release_s);
    let shot = w.shots.first().map_or(f32::INFINITY, |shot| shot.time_s);
    let end = if shot < end { shot } else { end };
    w.film.frames.iter().filter(|frame| frame.time_s < end).any(two_on_one)
}

fn formation(setup: &Setup, homes: [Vec2; 5], ball: u8) -> Arc<Setup> {
    changed(setup, |setup| {
        setup.attack.side = SideChoice::Right;
        setup.attack.formation = homes;
        setup.attack.ball_starts_with = ball;
    })
}

/// Fact 5.
pub const OVERLOAD: Fact = Fact {
    number: 5,
    starred: true,
    claim: "Three attackers in the area of two defenders give a two-on-one within two passes",
    cause: "homes: off guard on the right wing; the rover on the left wing, or with him in the right corner",
    measure: |count| {
        let (top, posts) = (vec2(0.0, 6.9), [vec2(2.2, 0.8), vec2(-2.2, 0.8)]);
        let share = |rover: Vec2| {
            let homes = [top, vec2(5.2, 4.2), rover, posts[0], posts[1]];
            let [series] = watch::<1>(&formation(&standing(), homes, 0), count, |w, sums| {
                tally(&mut sums[0], if soon_two_on_one(w) { 1.0 } else { 0.0 });
            });
            series
        };
        let (level, three) = (share(vec2(-5.2, 4.2)), share(vec2(6.4, -0.2)));
        vec![Part::more(
            "possessions with a two-on-one within two passes",
            ("two in two's area", &level),
            ("three in two's area", &three),
            0.05,
        )]
    },
};

/// Fact 8.
pub const EXTENSION: Fact = Fact {
    number: 8,
    starred: false,
    claim: "A front line that picks the ball up a metre farther out gives fewer threes from the top and more \
            touches in the high post",
    cause: "zone.extension_m",
    measure: |count| {
        let doses = [("0 m", 0.0), ("0.5 m", 0.5), ("1 m", 1.0)];
        let setups = doses.map(|(name, metres)| {
            let setup = crate::support::matchup(&[
                ("attack.rover.route", "\"seam-cross\""),
                ("attack.posts.options", "{ far-flash = 1.0, seal-helper = 1.0 }"),
                ("zone.extension_m", &format!("{metres:?}")),
            ]);
            (name, setup)
        });
        let threes = setups.each_ref().map(|(name, setup)| {
            let series = watch::<2>(setup, count, |w, sums| {
                let top = |at: Vec2| at.x.abs() < 3.8 && at.y > 4.5;
                let shots = w.shots.iter().filter(|shot| shot.three && top(shot.at)).count();
                tally(&mut sums[0], shots as f64);
                tally(&mut sums[1], w.film.record.real(HighPostTouch));
            });
            (*name, series)
        });
        let touches = threes.each_ref().map(|(name, [_, touches])| (*name, touches.clone()));
        let threes = threes.map(|(name, [threes, _])| (name, threes));
        vec![
            Part::dial("threes from the top a possession: fall", &threes, Way::Falls, 0.005),
            Part::dial("possessions with a high-post touch: rise", &touches, Way::Rises, 0.02),
        ]
    },
};

/// Fact 9.
pub const TWO_GUARDS: Fact = Fact {
    number: 9,
    starred: false,
    claim: "Two guards against one point get more looks out front than one guard does",
    cause: "homes: both guards in the slots, or one on top and one on the far wing; 1-2-2",
    measure: |count| {
        let posts = [vec2(2.2, 0.8), vec2(-2.2, 0.8)];
        let looks = |lead: Vec2, off: Vec2| {
            let homes = [lead, off, vec2(5.2, 4.2), posts[0], posts[1]];
            let [series] = watch::<1>(&formation(&standing(), homes, 0), count, |w, sums| {
                let open = w.passes.iter().filter_map(|pass| pass.caught).filter(|(_, time_s, at)| {
                    let front = at.x.abs() < 3.8 && at.y > 4.5 && w.setup.court.is_three(*at);
                    front && w.space(*time_s, *at) >= 1.83
                });
                tally(&mut sums[0], open.count() as f64);
            });
            series
        };
        let one = looks(vec2(0.0, 6.9), vec2(-5.2, 4.2));
        let two = looks(vec2(-2.4, 6.3), vec2(2.4, 6.3));
        vec![Part::more(
            "wide-open catches out front a possession",
            ("one guard", &one),
            ("two guards", &two),
            0.1,
        )]
    },
};

/// Nearer than this a shot is one at the rim, m.
const RIM_M: f32 = 2.0;

/// Fact 25.
pub const SINK: Fact = Fact {
    number: 25,
    starred: false,
    claim: "The more the back line sinks, the more room and catches between the lines, the fewer low catches by pass, no \
            more shots at the rim and those more contested, the wider open the threes from wing and corner; the route \
            through the gap gains on one that stays outside",
    cause: "zone.sink_back_m; routes seam-cross and, to compare, hold-wing",
    measure: |count| {
        let doses = [("0 m", 0.0), ("0.6 m", 0.6), ("1.2 m", 1.2)];
        let seen = doses.map(|(_, metres)| {
            let [inside, outside] = ["seam-cross", "hold-wing"].map(|route| sunk(route, metres));
            (watch::<7>(&inside, count, lines_and_looks), good_looks(&outside, count))
        });
        let of = |nth: usize| -> [(&str, Series); 3] {
            std::array::from_fn(|dose| (doses[dose].0, seen[dose].0[nth].clone()))
        };
        let [room, between, low, rim, worth, space, good] = std::array::from_fn(of);
        let ends = [0, 2].map(|dose: usize| (rim[dose].0, &rim[dose].1));
        let [flat, sunk] = [0, 2].map(|dose: usize| (&good[dose].1, &seen[dose].1));
        let gains = combination(&[(1.0, sunk.0), (-1.0, sunk.1), (-1.0, flat.0), (1.0, flat.1)]);
        let groups = [
            ("seam-cross, 0 m", flat.0),
            ("hold-wing, 0 m", flat.1),
            ("seam-cross, 1.2 m", sunk.0),
            ("hold-wing, 1.2 m", sunk.1),
        ];
        vec![
            Part::dial("gap between the lines, m: rises", &room, Way::Rises, 0.1),
            Part::dial("catches between the lines a possession: rise", &between, Way::Rises, 0.02),
            Part::dial(
                "catches of passes low or in the short corner, a possession: fall",
                &low,
                Way::Falls,
                0.02,
            ),
            Part::no_more("shots at the rim a possession: no more", ends[0], ends[1], 0.015),
            Part::dial("points expected of a shot at the rim: fall", &worth, Way::Falls, 0.0),
            Part::dial(
                "nearest defender at threes from wing and corner, m: farther",
                &space,
                Way::Rises,
                0.05,
            ),
            Part::found(
                "good looks a possession: the route through the gap gains",
                &groups,
                gains,
                Bound::AtLeast(0.0),
            ),
        ]
    },
};

/// A back line that sinks so far, and a rover with this route.
fn sunk(route: &str, metres: f32) -> Arc<Setup> {
    crate::support::matchup(&[
        ("attack.rover.route", &format!("\"{route}\"")),
        ("attack.posts.options", "{ far-flash = 1.0, seal-helper = 1.0 }"),
        ("zone.sink_back_m", &format!("{metres:?}")),
    ])
}

/// Possessions that end in a good look.
fn good_looks(setup: &Arc<Setup>, count: u64) -> Series {
    let played = crate::support::records_in(setup, super::SEED, 0..count);
    played.iter().map(|record| (record.real(GoodLook), 1.0)).collect()
}

/// Room and catches between the lines, low catches, shots at the rim and what they are worth, room at threes, good looks.
fn lines_and_looks(w: &Watched<'_>, sums: &mut [(f64, f64); 7]) {
    let caught =
        |is: fn(Vec2) -> bool| w.passes.iter().filter_map(|p| p.caught).filter(|c| is(c.2)).count() as f64;
    tally(&mut sums[0], w.film.record.real(LineGap));
    tally(&mut sums[6], w.film.record.real(GoodLook));
    tally(&mut sums[1], caught(|at| at.x.abs() <= 2.4 && (3.0..=5.2).contains(&at.y)));
    // On the block, or in the short corner.
    let low = |at: Vec2| (1.2..=2.8).contains(&at.x.abs()) && at.y <= 2.2 || at.x.abs() <= 4.5 && at.y <= 0.9;
    tally(&mut sums[2], caught(low));
    let at_rim = w.shots.iter().filter(|shot| shot.at.len() < RIM_M);
    tally(&mut sums[3], at_rim.clone().count() as f64);
    at_rim.for_each(|shot| tally(&mut sums[4], shot.worth));
    for shot in w.shots.iter().filter(|shot| shot.three && shot.at.y < 4.8) {
        tally(&mut sums[5], w.space(shot.time_s, shot.at));
    }
}
