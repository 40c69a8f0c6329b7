//! Zone craft works through places, speeds, sight, delay and contact: each dial moves what a coach would expect it
//! to move, the more the farther it is turned, and pays for it elsewhere; turned to its neutral value it changes
//! nothing at all.
//!
//! Differences are paired by possession; "more", and more than a bound, means by at least three standard errors (over two or
//! three looks, `tests/looks.rs`) unless it is said otherwise. What it has caught: a bump after which the back left the corner with
//! nobody there; a rim helper who left the far post alone; respect that moved defenders where everybody shoots alike.
//! No longer claimed: that help at the rim takes more of the lobs over a whole front than over half a front; that fly-bys
//! raise the number of contested threes (+.007 a possession, 1.7 standard errors of 12,000: who is flown at passes).

mod claims; // what each dial does to what
mod doses; // setups, doses, more and less
mod studies; // the dials judged whole, and glanced at

use engine::film::{Film, What};
use engine::slots::Slot;
use engine::{Measure, PossessionRecord};

use crate::looks::{Demand, Z_3_ERRORS, demand};
use crate::studied::glance;
use crate::support::{matchup, records, sum};
use crate::trade::estimate::{Series, combination, ratio};
use crate::trade::watch::tally;
use doses::*;

#[test]
fn neutral_dials_change_nothing() {
    let neutral = [
        ("zone.reversal_denial", "0.0"),
        ("zone.stunt_m", "0.0"),
        ("zone.fly_by", "0.0"),
        ("zone.dig", "0.0"),
        // Nobody shoots better than another, as far as the zone knows.
        ("zone.respect", "1.0"),
        ("zone.overload_rule", "\"danger\""),
        ("zone.trap", "[]"),
        // Nobody is burnt so often.
        ("zone.adjust_after", "50"),
        ("attack.shooting", "{ rover = 0.0 }"),
    ];
    // Posts shoot threes worse than their team, and full respect would see it.
    let alike = [SEAM, ("players.attack.skill.shot.post_three", "0.0")];
    assert!(played(&alike, &[], 300) == played(&alike, &neutral, 300));
}

/// Distance of the nearest front defender from a post who has held the ball inside for a second, m.
fn front_from_post_m(dig: &'static str, count: u64) -> Series {
    let posts = [RUN, ("zone.use", "\"1-3-1\""), ("zone.trap", "[]"), ("zone.dig", dig)];
    let setup = setup(&posts, &[]);
    filmed(&setup, count, |film| {
        let (mut held_s, mut sum) = (0.0, (0.0, 0.0));
        for frame in &film.frames {
            let inside = frame.holder.is_some_and(Slot::is_post) && frame.ball.len() < 3.2;
            held_s = if inside { held_s + setup.step_s } else { 0.0 };
            if held_s > 1.0 {
                let front = frame.players[5..8].iter().map(|at| at.distance(frame.ball));
                tally(&mut sum, front.fold(f32::INFINITY, engine::math::min));
            }
        }
        sum
    })
}

// What a dig changes in results is small: he is there a second after the catch, when most posts have moved.
const DIGS: u64 = 1200;

fn of_digs(count: u64) -> Vec<Demand> {
    nearer([0.1, 0.1], ["0.0", "0.5", "1.0"], |dig| front_from_post_m(dig, count))
}

#[test]
fn a_dig_brings_a_front_defender_down_to_the_ball() {
    glance(DIGS, of_digs);
}

/// Distance of the second-nearest defender from a perimeter player 0.8 s into his drive, m.
fn second_from_driver_m(stunt: &'static str, count: u64) -> Series {
    let drives = [HOLD, ("attack.guards.options", "{ drive-and-kick = 1.0 }"), ("zone.stunt_m", stunt)];
    let setup = setup(&drives, &[]);
    filmed(&setup, count, |film| {
        let mut sum = (0.0, 0.0);
        for event in &film.events {
            let What::DriveStart { by } = event.what else { continue };
            let later = film.frames.iter().find(|frame| frame.time_s >= event.time_s + 0.8);
            let Some(frame) = later.filter(|frame| frame.holder == Some(by) && event.at.len() > 4.6) else {
                continue;
            };
            let mut far: Vec<f32> = frame.players[5..].iter().map(|at| at.distance(frame.ball)).collect();
            far.sort_by(f32::total_cmp);
            tally(&mut sum, far[1]);
        }
        sum
    })
}

// What a stunt changes in results is small: a drive from outside lasts hardly longer than it takes to see it.
const STUNTS: u64 = 3000;

fn of_stunts(count: u64) -> Vec<Demand> {
    nearer([0.02, 0.01], ["0.0", "0.7", "1.4"], |stunt| second_from_driver_m(stunt, count))
}

#[test]
fn a_stunt_brings_a_neighbour_nearer_to_the_driver() {
    glance(STUNTS, of_stunts);
}

#[test]
fn an_extended_front_line_does_not_concede_the_top() {
    let top =
        |record: &PossessionRecord| record.real(Measure::ShotLeadGuard) + record.real(Measure::ShotOffGuard);
    demand(2000, |count| {
        let [near, far] = ["0.0", "1.0"].map(|metres| -> Series {
            let played = played(&[HOLD], &[("zone.extension_m", metres)], count);
            played.iter().map(|record| (top(record), 1.0)).collect()
        });
        let fewer = combination(&[(0.9, &near), (-1.0, &far)]).interval(Z_3_ERRORS);
        vec![Demand::at_least("last shots of the guards, fewer than nine tenths", fewer, 0.0)]
    });
}

#[test]
fn in_a_man_to_man_nobody_switches() {
    let setup = setup(&[HOLD, ("zone.use", "\"man-to-man\"")], &[]);
    let taken = filmed(&setup, 200, |film| {
        let mut taken = (0.0, 1.0);
        for event in &film.events {
            if let What::TakesBall { by, of } = event.what {
                assert_eq!(by, Slot::defender(of.in_team()));
                taken.0 += 1.0;
            }
        }
        taken
    });
    assert!(ratio(&taken) > 1.0, "{} balls taken a possession", ratio(&taken));
}

#[test]
fn in_a_two_three_the_guard_bumps_the_forward_off_on_the_wing() {
    // Slots by side: 5 and 6 the guards, 7 and 9 the forwards.
    let setup = setup(&[HOLD, ("zone.use", "\"2-3\"")], &[]);
    let bumps = |film: &Film| {
        let taken = film.events.iter().filter_map(|event| match event.what {
            What::TakesBall { by, of } => Some((by.index(), of)),
            _ => None,
        });
        let takes: Vec<(usize, Slot)> = taken.collect();
        let own = |forward: usize| if forward == 7 { 5 } else { 6 };
        let bumps = takes
            .windows(2)
            .filter(|t| t[0].1 == t[1].1 && [7, 9].contains(&t[0].0) && t[1].0 == own(t[0].0));
        (bumps.count() as f64, 1.0)
    };
    demand(400, |count| {
        let bumps = filmed(&setup, count, bumps);
        let mean = combination(&[(1.0, &bumps)]).interval(Z_3_ERRORS);
        vec![Demand::at_least("bumps a possession", mean, 0.05)]
    });
}

#[test]
fn every_zone_plays_without_a_fault() {
    for entry in scenarios::catalog().iter().filter(|entry| entry.kind == "zone") {
        let shape = format!("\"{}\"", entry.name);
        for route in [HOLD, SEAM] {
            let played = records(&matchup(&[route, ("zone.use", &shape)]), 9, 60);
            assert_eq!(sum(&played, Measure::Fault), 0, "{}", entry.name);
        }
    }
}
