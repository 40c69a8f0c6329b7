//! How shots are taken in the model, by kind and position: the table by which a share that is stated of a player becomes a
//! parameter is measured, and what is measured anew agrees with it.
//!
//! What it has caught: a mix of the whole team's shots, by which a rover who was said to make .40 of open threes made .41.

use std::collections::BTreeMap;
use std::sync::Arc;

use engine::Arena;
use engine::film::What;
use engine::law::opening::MOST_DEVIATIONS;
use engine::law::shot::{FREE_M, WIDE_OPEN_M, class_of, make_chance};
use engine::math::{Vec2, min};
use engine::setup::{Individual, Licence, SHOT_CLASSES, Setup, Shooter, ShotClass};
use engine::slots::ATTACK;
use experiments::stats::Generator;
use rayon::prelude::*;

use crate::support::{changed, loaded, text_of, workspace};

const TABLE: &str = "scenarios/data/shots-taken.csv";
const HEAD: &str = "kind,by,off_catch,shots,distance_m,space_m,takers\n";
/// Where shots are watched: routes, attacks and zones of all kinds.
const WATCHED: [&str; 3] = ["routes-against-sink", "mixture", "attacks-by-zone"];
const BY: [(&str, &[usize]); 4] =
    [("guards", &[0, 1]), ("rover", &[2]), ("posts", &[3, 4]), ("everybody", &[0, 1, 2, 3, 4])];
/// Possessions of a team that is drawn: few, since who shoots how is what matters most. (a choice)
const OF_TEAM: u64 = 8;
/// A position with fewer of a kind has everybody's. (a choice)
const FEWEST: usize = 150;
/// Fewer are not divided by space. (a choice)
const DIVIDED: usize = 80;

/// A shot as it was taken.
#[derive(Clone, Copy, Debug)]
struct Shot {
    role: usize,
    class: ShotClass,
    off_catch: bool,
    /// From the rim, of threes from the arc, m.
    distance_m: f32,
    /// No more than matters, m.
    space_m: f32,
    /// How much better than his team the shooter is, logit.
    takers: f32,
}

/// A setup in which each attacker is known to differ from his team as one drawn of it does, and by how much.
fn drawn(setup: &Setup, seed: u64) -> (Arc<Setup>, [f32; 5]) {
    let mut random = Generator::new(seed);
    let spread = setup.attackers.skill.shooting_spread;
    let differ: [f32; 5] =
        std::array::from_fn(|_| (random.normal() as f32).clamp(-MOST_DEVIATIONS, MOST_DEVIATIONS) * spread);
    let setup = changed(setup, |setup| {
        for (role, slot) in ATTACK.into_iter().enumerate() {
            let own = setup.attack.role_shooting[role] + differ[role];
            let mut shooting = [Some(own); SHOT_CLASSES];
            if slot.is_post() {
                shooting[ShotClass::Three as usize] = Some(own + setup.attackers.skill.shot.post_three);
            }
            let own = setup.attackers.clone();
            let known = Individual {
                name: String::new(),
                own,
                shooting,
                licence: Licence::AnyGood,
                known: Vec::new(),
                zone: None,
            };
            setup.individuals[slot] = Some(Arc::new(known));
        }
    });
    (setup, differ)
}

/// The shots of so many possessions of each of [`WATCHED`].
fn shots(seed: u64, possessions: u64) -> Vec<Shot> {
    let mut all = Vec::new();
    for name in WATCHED {
        let variants = loaded(scenarios::experiment(name.as_ref())).variants;
        let teams = possessions / OF_TEAM;
        let of_team = |team: u64| {
            let own = &variants[(team % variants.len() as u64) as usize].setup;
            let (setup, differ) = drawn(own, seed << 32 | team);
            let mut arena = Arena::new(1);
            let mut taken = |nth| of_possession(&mut arena, (&setup, &differ), seed, team * OF_TEAM + nth);
            (0..OF_TEAM).flat_map(&mut taken).collect::<Vec<Shot>>()
        };
        let found: Vec<Vec<Shot>> = (0..teams).into_par_iter().map(of_team).collect();
        all.extend(found.concat());
    }
    all
}

fn of_possession(
    arena: &mut Arena,
    (setup, differ): (&Arc<Setup>, &[f32; 5]),
    seed: u64,
    possession: u64,
) -> Vec<Shot> {
    let film = arena.film(setup, seed, possession);
    let shot = |at: Vec2, what: &What| {
        let &What::Shot { by, metres, space_m, chance, three, .. } = what else { return None };
        let role = ATTACK.into_iter().position(|slot| slot == by)?;
        let own = setup.individuals[by].as_ref()?.shooting.map(|own| own.unwrap_or(0.0));
        let made = |off_catch| {
            make_chance(&setup.court, &setup.attackers.skill.shot, Shooter(own), at, space_m, off_catch).0
        };
        // By its chance alone it is told from a shot off the dribble; where the law makes no difference, it is none.
        let off_catch = (chance - made(true)).abs() <= (chance - made(false)).abs();
        let from = if three { setup.court.three_radius_m } else { 0.0 };
        Some(Shot {
            role,
            class: class_of(three, metres),
            off_catch,
            distance_m: metres - from,
            space_m: min(space_m, FREE_M),
            takers: differ[role],
        })
    };
    film.events.iter().filter_map(|event| shot(event.at, &event.what)).collect()
}

/// Whether a shot is of a kind, by the key of its share.
fn is_of(shot: &Shot, kind: &str) -> bool {
    match kind {
        "rim" => shot.class == ShotClass::Rim,
        "short" => shot.class == ShotClass::Short,
        "mid_range" => shot.class == ShotClass::Mid,
        "threes" => shot.class == ShotClass::Three,
        _ => shot.class == ShotClass::Three && shot.space_m >= WIDE_OPEN_M,
    }
}

const KINDS: [&str; 5] = ["rim", "short", "mid_range", "threes", "open_threes"];

/// The table of some shots.
fn table(all: &[Shot]) -> String {
    let mut text = HEAD.to_owned();
    for kind in KINDS {
        let of_kind: Vec<Shot> = all.iter().filter(|shot| is_of(shot, kind)).copied().collect();
        for (by, roles) in BY {
            let own: Vec<Shot> = of_kind.iter().filter(|shot| roles.contains(&shot.role)).copied().collect();
            let own = if own.len() < FEWEST { &of_kind } else { &own };
            for off_catch in [true, false] {
                let mut own: Vec<Shot> =
                    own.iter().filter(|shot| shot.off_catch == off_catch).copied().collect();
                own.sort_by(|a, b| a.space_m.total_cmp(&b.space_m));
                let pieces = if own.len() < DIVIDED { 1 } else { 4 };
                for piece in 0..pieces {
                    let group = &own[own.len() * piece / pieces..own.len() * (piece + 1) / pieces];
                    text += &row(kind, by, off_catch, group);
                }
            }
        }
    }
    text
}

/// A row of the table; none of no shots.
fn row(kind: &str, by: &str, off_catch: bool, group: &[Shot]) -> String {
    if group.is_empty() {
        return String::new();
    }
    let mean =
        |of: fn(&Shot) -> f32| group.iter().map(|shot| f64::from(of(shot))).sum::<f64>() / group.len() as f64;
    let (far, space, takers) =
        (mean(|shot| shot.distance_m), mean(|shot| shot.space_m), mean(|shot| shot.takers));
    format!("{kind},{by},{off_catch},{},{far:.3},{space:.3},{takers:.3}\n", group.len())
}

#[test]
#[ignore = "films 30,000 possessions; writes scenarios/data/shots-taken.csv"]
fn how_shots_are_taken() {
    let found = table(&shots(1, 10_000));
    print!("{found}");
    if std::env::var_os("ZONEPROBE_BLESS").is_some_and(|value| value == "1") {
        std::fs::write(workspace().join(TABLE), found).expect("it is written");
    }
}

#[test]
fn shots_are_taken_as_the_table_has_them() {
    let mut said: BTreeMap<(&str, &str), [f64; 4]> = BTreeMap::new();
    let text = text_of(TABLE);
    for line in text.lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |at: usize| cells[at].parse::<f64>().expect("a number");
        let sums = said.entry((cells[0], cells[1])).or_default();
        let own = [1.0, number(4), number(5), number(6)].map(|value| value * number(3));
        sums.iter_mut().zip(own).for_each(|(sum, own)| *sum += own);
    }
    let anew = shots(2, 700);
    for (kind, by, roles) in
        [("open_threes", "rover", BY[1].1), ("threes", "guards", BY[0].1), ("short", "posts", BY[2].1)]
    {
        let own: Vec<&Shot> =
            anew.iter().filter(|shot| is_of(shot, kind) && roles.contains(&shot.role)).collect();
        let [of, far, space, takers] = said[&(kind, by)];
        assert!(own.len() > 50, "{kind} by {by}: {}", own.len());
        let close = |words: &str, value: fn(&Shot) -> f32, said: f64| {
            let values: Vec<f64> = own.iter().map(|shot| f64::from(value(shot))).collect();
            let many = values.len() as f64;
            let mean = values.iter().sum::<f64>() / many;
            let error = (values.iter().map(|own| (own - mean).powi(2)).sum::<f64>() / many / many).sqrt();
            let said = said / of;
            assert!(
                (mean - said).abs() < 4.0 * error,
                "{kind} by {by}, {words}: {mean:.3} and not {said:.3}"
            );
        };
        close("distance", |shot| shot.distance_m, far);
        close("space", |shot| shot.space_m, space);
        close("takers", |shot| shot.takers, takers);
    }
}
