//! What is said of two rovers who are equals, through all of it: tried, raced, and in words.

use std::ops::Range;

use super::tests::squad;
use super::*;
use crate::columns::{Column, ratios};
use crate::digest::ResultDigest;
use crate::error::Error;
use crate::run::Played;
use crate::selection::Selected;
use crate::stats::{Figure, Generator, Totals, UntilSure, wilson_interval};

const RUNS: u64 = 60;
/// Spread of one possession's value, points; half of its variance is shared by all line-ups.
const SPREAD: f64 = 0.3;

/// What is told of a squad whose players are worth so much in each place, and how many line-ups were raced.
fn told_of(plays: &[&str], worth: &dyn Fn(usize, usize) -> f64, seed: u64) -> (Vec<String>, usize) {
    let squad = squad(plays).candidates;
    let all = lineups(&squad);
    let column = Column::named("expected_net_points").unwrap();
    let Figure::Mean(measure) = column.figure() else { panic!("a mean") };
    let sum =
        |own: &Lineup| own.0.iter().zip(PLACES).map(|(player, place)| worth(*player, place)).sum::<f64>();
    let mut random = Generator::new(seed);
    let tried = to_try(all.len(), seed);
    let error = SPREAD / (TRIED_POSSESSIONS as f64).sqrt();
    let seen: Vec<(usize, f64)> =
        tried.iter().map(|&nth| (nth, sum(&all[nth]) + error * random.normal())).collect();
    let raced: Vec<(usize, Lineup)> =
        best(&all, squad.len(), &seen, MOST).into_iter().map(|nth| (nth + 1, all[nth])).collect();
    let names: Vec<String> = raced.iter().map(|(number, _)| format!("line-up {number}")).collect();
    let (ratios, width) = (ratios(), crate::row::WIDTH);
    let play = |left: &[usize], possessions: Range<u64>| -> Result<Played, Error> {
        let mut totals = Totals::new(left.len(), width, &ratios);
        let mut row = vec![0; left.len() * width];
        for _ in possessions {
            let shared = random.normal();
            for (at, nth) in left.iter().enumerate() {
                let noise = SPREAD * (shared + random.normal()) / std::f64::consts::SQRT_2;
                row[at * width + measure] = ((1.0 + sum(&raced[*nth].1) + noise) * 1e6) as i64;
            }
            totals.add(&row);
        }
        Ok(Played {
            totals,
            digest: ResultDigest::default(),
            crashes: Vec::new(),
            places: Vec::new(),
            first: Vec::new(),
        })
    };
    let until = UntilSure { margin: 0.02, budget: 2048 };
    let selected = Selected::race(&names, column, until, play).unwrap();
    let left = selected.left();
    let (all, tried) = (all.len(), Some(tried.len()));
    let found = Told {
        squad: &squad,
        all,
        tried,
        raced: &raced,
        // Nobody is an individual here, so there are no counts to doubt.
        setups: &[],
        selected: &selected,
        left,
        measured: (0, &[]),
        column,
    };
    (told(&found).1, raced.len())
}

#[test]
fn of_two_equal_rovers_neither_is_said_to_be_better_and_everybody_is_told_of() {
    // 72 line-ups: more than are raced. Guards and posts differ, the rovers do not.
    let plays = ["rover", "rover", "guard", "guard", "guard", "guard", "post", "post", "post", "post"];
    let worth = |player: usize, _: usize| if player < 2 { 0.0 } else { 0.01 * (player % 4) as f64 };
    let mut wrong = 0;
    for seed in 0..RUNS {
        let (words, raced) = told_of(&plays, &worth, seed);
        let of = |head: &str| words.iter().find(|line| line.starts_with(head)).unwrap();
        assert!(raced >= MOST, "{raced}");
        for (player, places) in plays.iter().enumerate() {
            let line = of(match *places {
                "rover" => "Rover: ",
                "guard" => "Guards: ",
                _ => "Posts: ",
            });
            assert!(line.contains(&format!("p{player}")), "p{player}: {line}");
        }
        wrong += u64::from(of("Rover: ").contains(" Worse there: "));
    }
    let found = wilson_interval(wrong, RUNS, 3.0).unwrap();
    assert!(found.low <= 0.05, "{wrong} of {RUNS} call one of two equals worse than the other");
}

#[test]
fn of_two_rovers_the_better_one_is_named_and_the_other_is_behind_with_the_same_players_beside_him() {
    let plays = ["rover", "rover", "guard", "guard", "guard", "guard", "post", "post", "post", "post"];
    let worth = |player: usize, _: usize| if player == 1 { 0.3 } else { 0.0 };
    for seed in 0..5 {
        let (words, _) = told_of(&plays, &worth, seed);
        let rover = words.iter().find(|line| line.starts_with("Rover: ")).unwrap();
        assert!(rover.starts_with("Rover: p1.") && rover.contains("p0"), "{rover}");
    }
}

#[test]
fn who_was_raced_beside_others_only_is_not_called_behind() {
    let [a, b, c] = [Lineup([0, 1, 2, 3, 4]), Lineup([0, 1, 5, 3, 4]), Lineup([0, 6, 5, 3, 4])];
    assert!(a.is_but_one(&b, ROVER) && !a.is_but_one(&c, ROVER) && b.is_but_one(&c, GUARD));
    assert!(!a.is_but_one(&a, ROVER));
}
