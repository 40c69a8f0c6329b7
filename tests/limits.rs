//! At its ends the model does what anyone can tell without it: a zone that never moves is shot over, a zone that
//! knows and reaches everything concedes nothing, hands that reach nothing take nothing, slow reactions cost
//! looks; and every possession ends in exactly one way, never as a fault.
//!
//! Against a frozen zone a good shot (a point and more) and free throws count as a look as well as an open one: an attack
//! that goes to the rim over a man who stands 1.2 m away is not short of looks. (Open looks alone: every pair but two, of the
//! 3-2 with posts who go to the rim from the short corner, .93 each.) What it has caught: nothing yet.

use std::sync::{Arc, LazyLock};

use engine::setup::Setup;
use engine::{Measure, Outcome, PossessionRecord};

use crate::looks::{Seen, Z_3_ERRORS, two_looks};
use crate::support::{changed, every_matchup, mean, paired, question, records, sum, variant};

/// The bundled question, 20,000 possessions in all: names and records of its variants.
static ORDINARY: LazyLock<Vec<(String, Vec<PossessionRecord>)>> = LazyLock::new(|| {
    let variants = question().variants;
    let each = 20_000_u64.div_ceil(variants.len() as u64);
    variants.iter().map(|variant| (variant.name.clone(), records(&variant.setup, 31, each))).collect()
});

/// The bundled variants with a change: the shares of possessions with an open look available.
fn available(change: fn(&mut Setup), count: u64) -> Vec<(&'static str, f64)> {
    let share = |name| {
        let setup = changed(&variant(name), change);
        (name, mean(&records(&setup, 1, count), Measure::OpenLookAvailable))
    };
    ["hold-wing", "seam-cross", "baseline-run"].map(share).to_vec()
}

#[test]
fn a_frozen_zone_concedes_an_open_look_nearly_always() {
    let shares = available(|setup| setup.limits.frozen_zone = true, 2000);
    println!("an open look available in {shares:?}");
    assert!(shares.iter().all(|(_, share)| *share >= 0.95), "an open look available in {shares:?}");
}

/// A zone that never moves, and an attack that loses no ball by itself: what it would lose so is no merit of the zone.
fn frozen(setup: &mut Setup) {
    setup.limits.frozen_zone = true;
    let skill = &mut setup.attackers.skill;
    (skill.travel_per_catch, skill.handling_loss_per_s) = (0.0, 0.0);
}

#[test]
fn every_route_finds_a_look_against_a_frozen_zone() {
    // A shot by the rim that is worth a point is a look as well, though a man stands a step away.
    let finds = |record: &PossessionRecord| {
        record.value(Measure::OpenLookAvailable) + record.value(Measure::GoodShotTaken) > 0
            || record.outcome == Outcome::FreeThrows
    };
    let share = |(name, setup): (String, Arc<Setup>)| {
        let records = records(&changed(&setup, frozen), 1, 500);
        (name, records.iter().filter(|record| finds(record)).count() as f64 / records.len() as f64)
    };
    let frozen: Vec<(String, f64)> = every_matchup().into_iter().map(share).collect();
    println!("frozen: a look in {frozen:?}");
    let short: Vec<_> = frozen.iter().filter(|(_, share)| *share < 0.95).collect();
    assert!(short.is_empty(), "frozen: {short:?}");
}

#[test]
fn every_route_finds_next_to_no_look_against_a_perfect_zone() {
    // None at all in 90: with one in twenty that would happen once in a hundred times (two looks at 95 %, one-sided
    // 98.75 % each). Where there is one, four times as many are played.
    let share = |(name, setup): (String, Arc<Setup>)| {
        let setup = changed(&setup, perfect);
        let (_, share) = two_looks(90, |count| {
            let share = mean(&records(&setup, 1, count), Measure::OpenLookAvailable);
            (if share == 0.0 { Seen::Shown } else { Seen::Open }, share)
        });
        (name, share)
    };
    let perfect: Vec<(String, f64)> = every_matchup().into_iter().map(share).collect();
    println!("perfect: an open look available in {perfect:?}");
    let over: Vec<_> = perfect.iter().filter(|(_, share)| *share > 0.05).collect();
    assert!(over.is_empty(), "perfect: {over:?}");
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
    let shares = available(perfect, 1000);
    println!("an open look available in {shares:?}");
    assert!(shares.iter().all(|(_, share)| *share <= 0.05), "an open look available in {shares:?}");
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
    let slow = |reaction_s: f32, count: u64| {
        let setup = changed(&variant("seam-cross"), |setup| {
            setup.defenders.head.reaction_s = reaction_s;
            setup.defenders.head.reaction_spread_s = 0.0;
        });
        records(&setup, 1, count)
    };
    let (seen, (all, steps)) = two_looks(2500, |count| {
        let played = [0.0, 0.2, 0.4, 0.6].map(|reaction_s| slow(reaction_s, count));
        let [first, .., last] = played.each_ref().map(|records| mean(records, Measure::OpenLookAvailable));
        let steps: Vec<(f64, f64)> =
            played.windows(2).map(|pair| paired(&pair[0], &pair[1], Measure::OpenLookAvailable)).collect();
        println!("{count} possessions, in all {:.4}, steps with standard errors {steps:.4?}", last - first);
        let seen = |(more, error): &(f64, f64)| {
            Seen::within((more - Z_3_ERRORS * error, more + Z_3_ERRORS * error), 0.0, f64::INFINITY)
        };
        (Seen::all(steps.iter().map(seen)), (last - first, steps))
    });
    assert!(seen == Seen::Shown, "a step is less than three standard errors: {steps:.4?}");
    assert!(all >= 0.05, "{all:.4}: less than 5 points in all");
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
