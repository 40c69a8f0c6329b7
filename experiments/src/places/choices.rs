//! `choices.csv`: what each position did with the ball, place by place, and what the possessions came to in which he did:
//! from films of the first possessions of the leaders.
//!
//! A possession counts once for each position, place and choice. A choice that is clearly worth less than what the position
//! gets at that place on average, or that is hardly ever made, is not worth telling: `told` is false. Nor is a guarded shot that
//! came to less than the average of all possessions, where a pass or a drive is told there: nobody is told to give up
//! what the rest of a possession brings.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use engine::Measure;
use engine::film::{Film, What};
use engine::setup::Setup;
use serde::{Deserialize, Serialize};

use super::names::{ATTACKERS, sideless};
use super::runs::watched;
use super::ways::{Moment, Scene};
use crate::columns::CONFIDENCE;
use crate::error::Error;
use crate::marks::gap;
use crate::output::{Decimal, FileLine};
use crate::stats::normal::two_sided_z;

/// Possessions that are looked at, at most.
pub const MOST_WATCHED: u64 = 2048;
/// A choice is told where it is made in this share of the possessions, and so often at least.
const LEAST_SHARE: f64 = 0.01;
const LEAST_TIMES: usize = 8;

/// What somebody does with the ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Doing {
    /// A shot with nobody near.
    ShootOpen,
    /// A shot with somebody near.
    ShootGuarded,
    /// A drive.
    Drive,
    /// A pass to this slot.
    Pass(usize),
}

impl Doing {
    /// Its name in the file.
    pub fn key(self) -> String {
        match self {
            Self::ShootOpen => "shoot-open".into(),
            Self::ShootGuarded => "shoot-guarded".into(),
            Self::Drive => "drive".into(),
            Self::Pass(to) => format!("pass-to-{}", ATTACKERS[to]),
        }
    }
}

/// One choice of a position at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Slot of the position.
    pub role: usize,
    /// Where, without its side: `the wing`.
    pub place: String,
    /// What he does.
    pub doing: Doing,
    /// Possessions in which he did.
    pub times: usize,
    /// Their expected points on average.
    pub worth: f64,
    /// Half width of its 95 % interval.
    pub half: f64,
    /// Whether it is worth telling.
    pub told: bool,
    /// Of a pass: where everyone is as one is thrown on whose line no defender stands, if there is one; of these that which lies nearest
    /// to all others, turned to the rover's side.
    pub scene: Option<Scene>,
    /// Of a shot: the room that three of four had or more, from the nearest defender as it is let go, m.
    pub room_m: Option<f64>,
}

/// What is done in one possession, and what that came to.
struct Done {
    points: f64,
    choices: BTreeSet<(usize, String, Doing)>,
    thrown: Vec<(usize, String, Doing, Scene)>,
    rooms: Vec<(usize, String, Doing, f64)>,
}

/// The choices of a variant: by position, the places where he has the ball most first, then by worth.
///
/// # Errors
/// No threads could be started.
pub fn choices(
    setup: &Arc<Setup>,
    seed: u64,
    possessions: u64,
    threads: usize,
) -> Result<Vec<Choice>, Error> {
    Ok(ranked(&watched(setup, (seed, possessions), threads, |film| done(film, setup))?))
}

fn done(film: &Film, setup: &Setup) -> Done {
    let (mut choices, mut thrown, mut rooms) = (BTreeSet::new(), Vec::new(), Vec::new());
    for event in &film.events {
        let (by, doing) = match event.what {
            What::Shot { by, open: true, .. } => (by, Doing::ShootOpen),
            What::Shot { by, open: false, .. } => (by, Doing::ShootGuarded),
            What::DriveStart { by } => (by, Doing::Drive),
            What::Pass { from, to, .. } => (from, Doing::Pass(usize::from(to))),
            _ => continue,
        };
        let place = sideless(setup, event.at);
        if let Doing::Pass(_) = doing {
            let frame = film.frames.iter().rev().find(|frame| frame.time_s <= event.time_s);
            let scene = frame.map(|frame| Scene {
                holder: Some(usize::from(by)),
                ..Scene::of(frame, Moment::Passes, (film.side, film.side))
            });
            thrown.extend(scene.map(|scene| (usize::from(by), place.clone(), doing, scene)));
        }
        if let What::Shot { space_m, .. } = event.what {
            rooms.push((usize::from(by), place.clone(), doing, f64::from(space_m)));
        }
        choices.insert((usize::from(by), place, doing));
    }
    Done { points: film.record.real(Measure::ExpectedPoints), choices, thrown, rooms }
}

/// Somebody nearer than this is in the way of a pass as it is drawn, m. (a choice: about the radius of a mark)
const IN_THE_WAY_M: f64 = 0.6;

/// Whether a pass from somebody to somebody can be drawn without going through a defender.
fn is_clear(scene: &Scene, to: usize) -> bool {
    let Some(from) = scene.holder else { return false };
    let (from, to) = (scene.players[from], scene.players[to]);
    let along = |share: f64| (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
    let steps = (1..20).map(|nth| along(f64::from(nth) / 20.0));
    let mut near = steps.flat_map(|at| scene.players[ATTACKERS.len()..].iter().map(move |own| gap(*own, at)));
    near.all(|gap| gap > IN_THE_WAY_M)
}

/// Passes that are held against one another, at most. (assumed: more of them move nobody)
const COMPARED: usize = 64;

/// The one that lies nearest to all others.
fn typical(own: &[&Scene]) -> Option<Scene> {
    let own = &own[..own.len().min(COMPARED)];
    let away = |scene: &Scene| -> f64 {
        let of =
            |other: &&Scene| scene.players.iter().zip(&other.players).map(|(a, b)| gap(*a, *b)).sum::<f64>();
        own.iter().map(of).sum()
    };
    let all = own.iter().map(|scene| (away(scene), *scene));
    all.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, scene)| scene.clone())
}

/// The most that three of four of them have; None of nothing.
fn three_of_four(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 4).copied()
}

/// Mean and half width of the 95 % interval of some values.
fn mean(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let variance = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (count - 1.0).max(1.0);
    (mean, two_sided_z(CONFIDENCE) * (variance / count).sqrt())
}

/// What was seen of one choice of a position at a place.
#[derive(Default)]
struct Own<'d> {
    /// Points of the possessions in which he made it.
    points: Vec<f64>,
    /// Of a pass: where everyone was, each time.
    scenes: Vec<&'d Scene>,
    /// Of a shot: its room, m.
    rooms: Vec<f64>,
}

/// All choices by position and place.
type ByPlace<'d> = BTreeMap<(usize, &'d str), BTreeMap<Doing, Own<'d>>>;

fn by_place(all: &[Done]) -> ByPlace<'_> {
    let mut seen = ByPlace::new();
    for done in all {
        for (role, place, doing) in &done.choices {
            own(&mut seen, (*role, place, *doing)).points.push(done.points);
        }
        for (role, place, doing, scene) in &done.thrown {
            own(&mut seen, (*role, place, *doing)).scenes.push(scene);
        }
        for (role, place, doing, room_m) in &done.rooms {
            own(&mut seen, (*role, place, *doing)).rooms.push(*room_m);
        }
    }
    seen
}

fn own<'s, 'd>(seen: &'s mut ByPlace<'d>, (role, place, doing): (usize, &'d str, Doing)) -> &'s mut Own<'d> {
    seen.entry((role, place)).or_default().entry(doing).or_default()
}

fn ranked(all: &[Done]) -> Vec<Choice> {
    let least = LEAST_TIMES.max((LEAST_SHARE * all.len() as f64) as usize);
    let whole = mean(&all.iter().map(|done| done.points).collect::<Vec<_>>()).0;
    let mut places: Vec<(usize, usize, Vec<Choice>)> = Vec::new();
    for ((role, place), by_doing) in by_place(all) {
        let here: Vec<f64> = by_doing.values().flat_map(|own| &own.points).copied().collect();
        let average = mean(&here).0;
        let choice = |(doing, own): (Doing, Own<'_>)| {
            let Own { points, scenes, rooms } = own;
            let (worth, half) = mean(&points);
            let (times, told) = (points.len(), points.len() >= least && worth + half >= average);
            // Who is shown a pass should not learn to throw through a man, where there are others.
            let clear =
                |to: usize| scenes.iter().copied().filter(|scene| is_clear(scene, to)).collect::<Vec<_>>();
            let clear = if let Doing::Pass(to) = doing { clear(to) } else { Vec::new() };
            let scene = typical(if clear.is_empty() { &scenes } else { &clear });
            let room_m = three_of_four(rooms);
            Choice { role, place: place.to_owned(), doing, times, worth, half, told, scene, room_m }
        };
        let mut own: Vec<Choice> = by_doing.into_iter().map(choice).collect();
        own.sort_by(|a, b| b.worth.total_cmp(&a.worth));
        let goes_on =
            own.iter().any(|other| other.told && matches!(other.doing, Doing::Pass(_) | Doing::Drive));
        let is_poor = |other: &Choice| other.doing == Doing::ShootGuarded && other.worth < whole;
        own.iter_mut().filter(|other| goes_on && is_poor(other)).for_each(|poor| poor.told = false);
        places.push((role, here.len(), own));
    }
    places.sort_by_key(|(role, times, _)| (*role, std::cmp::Reverse(*times)));
    places.into_iter().flat_map(|(_, _, own)| own).collect()
}

/// One row of `choices.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct ChoiceLine {
    pub variant: String,
    pub position: String,
    pub place: String,
    pub choice: String,
    pub possessions: usize,
    pub expected_points: Decimal,
    pub expected_points_low: Decimal,
    pub expected_points_high: Decimal,
    pub told: bool,
    /// Not in results of an earlier version.
    #[serde(default)]
    pub room_m: Decimal,
}

impl FileLine for ChoiceLine {
    const FILE: &'static str = "choices.csv";
}

/// One row for each choice of the variants that were looked at.
pub(crate) fn choice_lines(
    names: &[String],
    choices: &[(usize, Vec<Choice>)],
) -> impl Iterator<Item = ChoiceLine> {
    choices.iter().flat_map(move |(variant, choices)| {
        choices.iter().map(move |own| ChoiceLine {
            variant: names[*variant].clone(),
            position: ATTACKERS[own.role].to_owned(),
            place: own.place.clone(),
            choice: own.doing.key(),
            possessions: own.times,
            expected_points: own.worth.into(),
            expected_points_low: (own.worth - own.half).into(),
            expected_points_high: (own.worth + own.half).into(),
            told: own.told,
            room_m: Decimal(own.room_m),
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn done(points: f64, choices: &[(usize, &str, Doing)]) -> Done {
        let choices =
            choices.iter().map(|(role, place, doing)| (*role, (*place).to_owned(), *doing)).collect();
        Done { points, choices, thrown: Vec::new(), rooms: Vec::new() }
    }

    #[test]
    fn a_pass_is_clear_where_no_defender_stands_on_its_line() {
        let mut players = [(20.0, 20.0); 10];
        (players[0], players[1]) = ((0.0, 8.0), (6.0, 8.0));
        let scene = |at: (f64, f64)| {
            let mut players = players;
            players[7] = at;
            Scene {
                moment: Moment::Passes,
                time_s: 0.0,
                players,
                ball: players[0],
                holder: Some(0),
                catches: Vec::new(),
                side: 1.0,
            }
        };
        assert!(is_clear(&scene((3.0, 9.0)), 1), "a metre beside it");
        assert!(!is_clear(&scene((3.0, 8.4)), 1));
        assert!(is_clear(&scene((9.0, 8.0)), 1), "behind who catches it");
        assert!(!is_clear(&Scene { holder: None, ..scene((3.0, 9.0)) }, 1), "nobody has it");
    }

    #[test]
    fn three_of_four_shots_had_the_room_that_is_told_or_more() {
        let here = |nth: u32| (2, "the wing".to_owned(), Doing::ShootGuarded, 0.1 * f64::from(nth));
        let shot = |nth| Done {
            rooms: vec![here(nth)],
            ..done(1.0, &[(2, "the wing", Doing::ShootGuarded), (2, "the wing", Doing::Drive)])
        };
        let choices = ranked(&(1..=8).rev().map(shot).collect::<Vec<_>>());
        let of = |doing: Doing| choices.iter().find(|own| own.doing == doing).and_then(|own| own.room_m);
        assert!((of(Doing::ShootGuarded).unwrap() - 0.3).abs() < 1e-9, "six of these eight had .3 m or more");
        assert_eq!(of(Doing::Drive), None, "a drive has none");
    }

    #[test]
    fn choices_are_told_by_worth_and_what_is_clearly_worth_less_is_not() {
        let mut all = Vec::new();
        for nth in 0..200 {
            // Twenty good shots, ninety passes of middling worth, ninety drives that bring little.
            let (points, doing) = match nth % 20 {
                0 | 1 => (1.4, Doing::ShootOpen),
                2..=10 => (0.9, Doing::Pass(0)),
                _ => (0.4, Doing::Drive),
            };
            all.push(done(points + 0.01 * f64::from(nth % 3), &[(2, "the wing", doing)]));
        }
        all.push(done(2.0, &[(2, "the wing", Doing::ShootGuarded), (2, "the corner", Doing::Drive)]));
        let choices = ranked(&all);
        let told: Vec<(&str, Doing, bool)> =
            choices.iter().map(|own| (own.place.as_str(), own.doing, own.told)).collect();
        assert_eq!(
            told,
            [
                ("the wing", Doing::ShootGuarded, false),
                ("the wing", Doing::ShootOpen, true),
                ("the wing", Doing::Pass(0), true),
                ("the wing", Doing::Drive, false),
                ("the corner", Doing::Drive, false),
            ],
            "what happened once is no advice, and a drive is worth less than the average here"
        );
        assert_eq!(choices[1].times, 20);
    }

    #[test]
    fn a_guarded_shot_below_the_average_possession_is_told_only_where_nothing_else_is() {
        let told = |guarded: f64, pass: f64| {
            let mut all = Vec::new();
            for nth in 0..60 {
                let noise = 0.2 * f64::from(nth % 3);
                all.push(done(guarded + noise, &[(0, "the slot", Doing::ShootGuarded)]));
                all.push(done(pass + noise, &[(0, "the slot", Doing::Pass(1))]));
                all.push(done(1.2 + noise, &[]));
            }
            let all = ranked(&all);
            let of = |doing: Doing| all.iter().any(|own| own.doing == doing && own.told);
            [of(Doing::ShootGuarded), of(Doing::Pass(1))]
        };
        assert_eq!(told(0.84, 0.82), [false, true], "a little more than a pass, but less than a possession");
        assert_eq!(told(1.4, 1.38), [true, true]);
        assert_eq!(told(0.84, 0.2), [true, false], "nothing else is told there");
    }
}
