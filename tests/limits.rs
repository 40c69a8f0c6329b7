//! At its ends the model does what anyone can tell without it: a zone that never moves is shot over, a zone that
//! knows and reaches everything concedes nothing, hands that reach nothing take nothing, slow reactions cost
//! looks; and every possession ends in exactly one way, never as a fault.
//!
//! Against a frozen zone a good shot (a point and more) and free throws count as a look as well as an open one: an attack
//! that goes to the rim over a man who stands 1.2 m away is not short of looks. (Open looks alone: every pair but two, of the
//! 3-2 with posts who go to the rim from the short corner, .93 each.)
//!
//! A share is held to its bound by its interval (Wilson) at 95 % over two looks or three (`tests/looks.rs`): a share on the
//! wrong side of its bound passes at most 2.5 times in a hundred. Every single pair of attack and zone is judged by a study
//! (`tests/studied.rs`). What it has caught: nothing yet.

use std::sync::{Arc, LazyLock};

use engine::places::Mark;
use engine::setup::Setup;
use engine::{Arena, Measure, Outcome, PossessionRecord};
use rayon::prelude::*;

use crate::looks::{Demand, Seen, Z_3_ERRORS, Z_95, Z_95_IN_3, demand, share, short_in};
use crate::studied;
use crate::support::{changed, every_matchup, play, question, records, sum, variant};
use crate::trade::estimate::{Series, difference};

/// The bundled question, 7,000 possessions in all: names and records of its variants.
static ORDINARY: LazyLock<Vec<(String, Vec<PossessionRecord>)>> = LazyLock::new(|| {
    let variants = question().variants;
    let each = 7_000_u64.div_ceil(variants.len() as u64);
    variants.iter().map(|variant| (variant.name.clone(), records(&variant.setup, 31, each))).collect()
});

fn available(record: &PossessionRecord) -> bool {
    record.value(Measure::OpenLookAvailable) > 0
}

/// Three of the bundled variants with a change: the shares of possessions with an open look available.
fn looks_available(change: fn(&mut Setup), count: u64) -> [(&'static str, (f64, f64)); 3] {
    ["hold-wing", "seam-cross", "baseline-run"].map(|name| {
        let played = records(&changed(&variant(name), change), 1, count);
        (name, share(played.iter().filter(|record| available(record)).count(), played.len(), Z_95))
    })
}

#[test]
fn a_frozen_zone_concedes_an_open_look_nearly_always() {
    demand(1000, |count| {
        let shares = looks_available(frozen, count);
        shares.map(|(name, share)| Demand::at_least(name, share, 0.95)).to_vec()
    });
}

/// A zone that never moves, and an attack that loses no ball by itself: what it would lose so is no merit of the zone.
fn frozen(setup: &mut Setup) {
    setup.limits.frozen_zone = true;
    let skill = &mut setup.attackers.skill;
    (skill.travel_per_catch, skill.handling_loss_per_s) = (0.0, 0.0);
}

/// What is demanded of every route and attack against every zone.
struct End {
    name: &'static str,
    zone: fn(&mut Setup),
    /// What is counted.
    is: fn(&PossessionRecord) -> bool,
    /// Possessions of a pair at each look of the study.
    looks: &'static [u64],
    /// Standard errors to either side over so many looks, 95 %.
    z: f64,
    demand: fn(&str, (f64, f64)) -> Demand,
}

const ENDS: [End; 2] = [
    End {
        name: "a look against a frozen zone",
        zone: frozen,
        // A shot by the rim that is worth a point is a look as well, though a man stands a step away.
        is: |record| {
            record.value(Measure::OpenLookAvailable) + record.value(Measure::GoodShotTaken) > 0
                || record.outcome == Outcome::FreeThrows
        },
        // Shares lie between .95 and .99: most are shown by few possessions, those near the bound by 4,800.
        looks: &[300, 1200, 4800],
        z: Z_95_IN_3,
        demand: |name, share| Demand::at_least(name, share, 0.95),
    },
    End {
        name: "an open look against a perfect zone",
        zone: perfect,
        is: available,
        // None at all in 96 shows it; where there is one, four times as many are played.
        looks: &[96, 384],
        z: Z_95,
        demand: |name, share| Demand::at_most(name, share, 0.05),
    },
];

impl End {
    fn count(&self, setup: &Arc<Setup>, possessions: u64) -> usize {
        records(&changed(setup, self.zone), 1, possessions).iter().filter(|record| (self.is)(record)).count()
    }

    fn demand(&self, name: &str, hits: usize, of: usize) -> Demand {
        (self.demand)(name, share(hits, of, self.z))
    }
}

#[test]
#[ignore = "two minutes: every pair whole"]
fn study_of_every_pair_at_the_ends() {
    let (mut table, mut short) = (String::new(), Vec::new());
    for end in &ENDS {
        let own = every_matchup().into_iter().flat_map(|(name, setup)| {
            short_in(end.looks, |count| vec![end.demand(&name, end.count(&setup, count), count as usize)])
        });
        let own: Vec<String> = own.collect();
        let told =
            if own.is_empty() { "shown of all".into() } else { format!("not shown of {}", own.join("; ")) };
        table += &format!("\n{}: {} pairs; {told}.\n", end.name, every_matchup().len());
        short.extend(own);
    }
    studied::write("experiments/studies/limits.md", ["## What was found\n", "## Read with it\n"], &table);
    assert!(short.is_empty(), "not shown: {short:?}");
}

#[test]
fn every_route_finds_a_look_against_a_frozen_zone_and_next_to_none_against_a_perfect_one() {
    // No pair by itself refutes it, and all of them together show it.
    for end in &ENDS {
        let few = end.looks[0].div_ceil(studied::GLANCE);
        let pairs = every_matchup();
        // An arena for each thread: one for each pair would take longer to make than to play.
        let count = |arena: &mut Arena, (_, setup): &(String, Arc<Setup>)| {
            let played = play(arena, &changed(setup, end.zone), 1, 0..few);
            played.iter().filter(|record| (end.is)(record)).count()
        };
        let found: Vec<usize> = pairs
            .par_iter()
            .map_init(|| Arena::new(Arena::WIDTH), |arena, pair| count(arena, pair))
            .collect();
        for ((name, _), own) in pairs.iter().zip(&found) {
            let demand = end.demand(name, *own, few as usize);
            assert_ne!(demand.seen(), Seen::Refuted, "{}: {demand:?}", end.name);
        }
        let (hits, of) = (found.iter().sum(), few as usize * pairs.len());
        let demand = end.demand("all pairs", hits, of);
        assert_eq!(demand.seen(), Seen::Shown, "{}: {demand:?}", end.name);
    }
}

/// No delay, no mistakes, unlimited speed. Braking is only this large because a body takes a target nearer than
/// a hundredth of `braking * step^2` (here 1 cm) as reached.
fn perfect(setup: &mut Setup) {
    setup.limits.all_seeing_zone = true;
    let (body, head) = (&mut setup.defenders.body, &mut setup.defenders.head);
    (head.reaction_s, head.reaction_spread_s, head.choice_s) = (0.0, 0.0, 0.0);
    (body.sprint_m_s, body.sprint_spread_m_s, body.sprint_tau_s) = (50.0, 0.0, 0.001);
    (body.slide_share, body.backpedal_share, body.slide_tau_s) = (1.0, 1.0, 0.001);
    (body.braking_m_s2, body.lateral_m_s2, body.turn_rad_s) = (400.0, 400.0, 1000.0);
    (setup.attack.habits.fake_chance, setup.attack.habits.fakes_most) = (0.0, 0);
}

#[test]
fn a_perfect_zone_concedes_next_to_none() {
    demand(250, |count| {
        let shares = looks_available(perfect, count);
        shares.map(|(name, share)| Demand::at_most(name, share, 0.05)).to_vec()
    });
}

#[test]
fn hands_without_reach_take_no_pass() {
    let mut passes = 0;
    let handless = changed(&variant("seam-cross"), |setup| {
        let body = &mut setup.defenders.body;
        (body.arm_reach_m, body.lunge_reach_m, body.reach_spread_m) = (0.0, 0.0, 0.0);
    });
    for seed in 1.. {
        let played = records(&handless, seed, 4000);
        passes += sum(&played, Measure::Passes);
        for measure in [Measure::PassesTipped, Measure::PassesIntercepted, Measure::TurnoverSteal] {
            assert_eq!(sum(&played, measure), 0, "{} within {passes} passes", measure.key());
        }
        if passes >= 100_000 {
            return;
        }
        assert!(seed < 20, "only {passes} passes in {} possessions", 4000 * seed);
    }
}

#[test]
fn the_slower_the_zone_reacts_the_more_open_looks_there_are() {
    let looks = |reaction_s: f32, count: u64| -> Series {
        let setup = changed(&variant("seam-cross"), |setup| {
            setup.defenders.head.reaction_s = reaction_s;
            setup.defenders.head.reaction_spread_s = 0.0;
        });
        records(&setup, 1, count)
            .iter()
            .map(|record| (record.real(Measure::OpenLookAvailable), 1.0))
            .collect()
    };
    // Each step, and five points in all, by three standard errors over two looks.
    demand(2500, |count| {
        let doses = [0.0, 0.2, 0.4, 0.6].map(|reaction_s| looks(reaction_s, count));
        let [first, .., last] = &doses;
        let more = |a: &Series, b: &Series| difference(a, b).interval(Z_3_ERRORS);
        let steps = doses.windows(2).map(|pair| Demand::at_least("a step", more(&pair[0], &pair[1]), 0.0));
        steps.chain([Demand::at_least("in all", more(first, last), 0.05)]).collect()
    });
}

#[test]
fn every_possession_ends_in_exactly_one_way_and_none_as_a_fault() {
    for (name, played) in ORDINARY.iter() {
        let ended: i64 =
            Outcome::ALL.iter().map(|&outcome| sum(played, Measure::ALL[outcome as usize])).sum();
        assert_eq!(ended, played.len() as i64, "{name}");
        for record in played {
            assert_eq!(record.value(Measure::ALL[record.outcome as usize]), 1, "{name}: {record:?}");
        }
        assert_eq!(sum(played, Measure::Fault), 0, "{name}: numerical faults");
    }
}

/// A good look is counted as a measure, by its place, and for him who took it or was fouled.
#[test]
fn good_looks_by_place_and_by_player_are_those_of_the_measure() {
    for name in ["sunken-122", "plain-122"] {
        let setup = scenarios::scenario(std::path::Path::new(name)).expect("a scenario").setup;
        let mut arena = engine::Arena::new(4);
        let mut counted = 0;
        arena.play(&setup, 1, 0..400, &mut |record| counted += record.value(Measure::GoodLook));
        let places = arena.places();
        assert!(counted > 40, "{name}: {counted}");
        assert_eq!(places.total(Mark::GoodLook), counted, "{name}");
        assert_eq!(places.good_looks().iter().sum::<i64>(), counted, "{name}");
        // Worth what a good look is, all together.
        let points = places.total(Mark::GoodLookPoints) as f64 / 1e6 / counted as f64;
        assert!((0.95..2.5).contains(&points), "{name}: {points}");
    }
}

#[test]
fn what_is_counted_twice_agrees() {
    for (name, played) in ORDINARY.iter() {
        for record in played {
            let value = |measure| record.value(measure);
            let at_most = |part: Measure, whole: Measure| {
                let keys = (part.key(), whole.key());
                assert!(value(part) <= value(whole), "{name}, possession {}: {keys:?}", record.possession);
            };
            at_most(Measure::OpenLookTaken, Measure::OpenLookAvailable);
            at_most(Measure::WideOpenTaken, Measure::OpenLookTaken);
            at_most(Measure::ShotsMade, Measure::Shots);
            at_most(Measure::ThreesMade, Measure::Threes);
            at_most(Measure::Threes, Measure::Shots);
            at_most(Measure::OffensiveRebounds, Measure::Rebounds);
            at_most(Measure::FreeThrowsMade, Measure::FreeThrowAttempts);
            let scored =
                2 * value(Measure::ShotsMade) + value(Measure::ThreesMade) + value(Measure::FreeThrowsMade);
            assert_eq!(
                scored * 1_000_000,
                value(Measure::Points),
                "{name}, possession {}",
                record.possession
            );
            let kinds: i64 =
                Measure::ALL.iter().filter(|m| m.key().starts_with("turnover_")).map(|&m| value(m)).sum();
            assert_eq!(kinds, value(Measure::Turnover), "{name}, possession {}", record.possession);
        }
    }
}
