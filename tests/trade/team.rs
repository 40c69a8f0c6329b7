//! What a team can do: shooters, quick feet, long arms.

use engine::Measure::{
    ExpectedPoints, HighPostPasses, HighPostPassesCaught, OpenLookAvailable, PaintTouch, SkipPasses,
    SkipPassesCaught,
};
use engine::math::vec2;
use engine::setup::Setup;
use std::sync::Arc;

use super::estimate::{Series, combination, difference, ratio};
use super::fact::{Bound, Fact, Part, Way};
use super::tempo::quicker;
use super::watch::{tally, watch};
use super::{each, moving, per, played, standing};
use crate::support::{changed, matchup, question, records};

/// The bundled matchup with both guards worse at shooting by so much, logit, and a zone that honours it so far.
fn swapped(worse: f64, respect: f64) -> Arc<Setup> {
    matchup(&[
        ("attack.rover.route", "\"seam-cross\""),
        ("attack.posts.options", "{ far-flash = 1.0, seal-helper = 1.0 }"),
        ("attack.shooting", &format!("{{ lead-guard = {:?}, off-guard = {:?} }}", -worse, -worse)),
        ("zone.respect", &format!("{respect:?}")),
    ])
}

/// Distance of the defenders from the lane's middle while somebody has the ball, m, and touches in the paint.
fn shrunk(setup: &Arc<Setup>, count: u64) -> [Series; 2] {
    watch::<2>(setup, count, |w, sums| {
        for frame in w.film.frames.iter().filter(|frame| frame.holder.is_some()) {
            for defender in &frame.players[5..] {
                tally(&mut sums[0], defender.distance(vec2(0.0, 1.5)));
            }
        }
        tally(&mut sums[1], w.film.record.real(PaintTouch));
    })
}

/// Fact 6.
pub const SHOOTERS: Fact = Fact {
    number: 6,
    starred: true,
    claim: "With two shooters swapped for non-shooters the zone shrinks and touches in the paint fall",
    cause: "attack.shooting of both guards 0, -0.5, -1 with zone.respect 1; the same guards at -1 with zone.respect \
            0, 0.5, 1",
    measure: |count| {
        let [shooters, half, swapped, ignored, half_ignored] =
            [(0.0, 1.0), (0.5, 1.0), (1.0, 1.0), (1.0, 0.0), (1.0, 0.5)]
                .map(|(worse, respect)| shrunk(&swapped(worse, respect), count));
        let by_shooting =
            |n: usize| [("0", &shooters), ("-0.5", &half), ("-1", &swapped)].map(|(d, s)| (d, s[n].clone()));
        let by_respect = |n: usize| {
            [("0", &ignored), ("0.5", &half_ignored), ("1", &swapped)].map(|(d, s)| (d, s[n].clone()))
        };
        vec![
            Part::dial(
                "defenders' mean distance from the lane's middle, m, by shooting: falls",
                &by_shooting(0),
                Way::Falls,
                0.1,
            ),
            Part::dial(
                "possessions with a paint touch, by shooting: fall",
                &by_shooting(1),
                Way::Falls,
                0.02,
            ),
            Part::dial(
                "defenders' mean distance from the lane's middle, m, by respect: falls",
                &by_respect(0),
                Way::Falls,
                0.1,
            ),
            Part::dial("possessions with a paint touch, by respect: fall", &by_respect(1), Way::Falls, 0.02),
        ]
    },
};

/// Fact 17.
pub const QUICKNESS: Fact = Fact {
    number: 17,
    starred: false,
    claim: "A quicker zone lowers every variant and shrinks the gaps between them",
    cause: "the seven routes; defenders 10 % faster, reaction 0.18 s, choice 0.05 s",
    measure: |count| {
        let mut parts = Vec::new();
        let seeds = [super::SEED, super::SEED + 1];
        let play = |quick: bool, seed: u64, count: u64| -> Vec<Vec<engine::PossessionRecord>> {
            let variants = question().variants;
            let setup =
                |v: &scenarios::Variant| if quick { changed(&v.setup, quicker) } else { v.setup.clone() };
            variants.iter().map(|v| records(&setup(v), seed, count)).collect()
        };
        let (usual, quick) = (play(false, seeds[0], count), play(true, seeds[0], count));
        // Any choice is a fair one: half as many are enough to find routes that are far apart.
        let chosen_on = play(false, seeds[1], count.div_ceil(2));
        for (measure, lowers, shrinks, least) in [
            (
                ExpectedPoints,
                "expected points: least fall of any route",
                "expected points: gap best to worst, shrinks",
                0.0,
            ),
            (
                OpenLookAvailable,
                "an open look available: least fall of any route",
                "an open look available: gap best to worst, shrinks",
                0.0,
            ),
        ] {
            let series = |r: &[Vec<engine::PossessionRecord>]| -> Vec<Series> {
                r.iter().map(|r| each(r, measure)).collect()
            };
            let (a, b, chosen) = (series(&usual), series(&quick), series(&chosen_on));
            let falls = a.iter().zip(&b).map(|(a, b)| difference(b, a));
            let least_fall = falls.min_by(|x, y| x.value.total_cmp(&y.value)).expect("seven routes");
            // Best and worst are chosen on other possessions, so that chance in the choice adds nothing to the gap.
            let rank = |n: &usize| ratio(&chosen[*n]);
            let best = (0..a.len()).max_by(|x, y| rank(x).total_cmp(&rank(y))).expect("seven routes");
            let worst = (0..a.len()).min_by(|x, y| rank(x).total_cmp(&rank(y))).expect("seven routes");
            let groups = [
                ("best", &a[best]),
                ("worst", &a[worst]),
                ("best, quick zone", &b[best]),
                ("worst, quick zone", &b[worst]),
            ];
            let gap = combination(&[(1.0, &a[best]), (-1.0, &a[worst]), (-1.0, &b[best]), (1.0, &b[worst])]);
            parts.push(Part::found(lowers, &groups, least_fall, Bound::AtLeast(least)));
            parts.push(Part::found(shrinks, &groups, gap, Bound::AtLeast(least)));
        }
        parts
    },
};

/// Fact 19.
pub const ARMS: Fact = Fact {
    number: 19,
    starred: false,
    claim: "Longer arms: fewer skips and high-post entries are completed",
    cause: "reach of all defenders' hands, sideways and up (no single lines yet): 0, +0.1, +0.2 m",
    measure: |count| {
        let reach = |setup: &std::sync::Arc<engine::setup::Setup>, longer: f32| {
            changed(setup, |setup| {
                let body = &mut setup.defenders.body;
                body.arm_reach_m += longer;
                body.lunge_reach_m += longer;
                body.standing_reach_m += longer;
            })
        };
        let doses = [("as they are", 0.0), ("+0.1 m", 0.1), ("+0.2 m", 0.2)];
        // Entries are expected to fail, and not by a little: half as many show it.
        let moves = doses.map(|(name, longer)| (name, played(&reach(&moving(), longer), count.div_ceil(2))));
        let stands = doses.map(|(name, longer)| (name, played(&reach(&standing(), longer), count)));
        let skips = stands.each_ref().map(|(name, r)| (*name, each(r, SkipPassesCaught)));
        let skip_share = stands.each_ref().map(|(name, r)| (*name, per(r, SkipPassesCaught, SkipPasses)));
        let posts = moves.each_ref().map(|(name, r)| (*name, each(r, HighPostPassesCaught)));
        let post_share =
            moves.each_ref().map(|(name, r)| (*name, per(r, HighPostPassesCaught, HighPostPasses)));
        vec![
            Part::dial("skips caught a possession: fall", &skips, Way::Falls, 0.01),
            Part::dial("skips caught, of those thrown: fall", &skip_share, Way::Falls, 0.0),
            Part::dial("high-post entries caught a possession: fall", &posts, Way::Falls, 0.02),
            Part::dial("high-post entries caught, of those thrown: fall", &post_share, Way::Falls, 0.0),
        ]
    },
};
