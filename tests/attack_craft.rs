//! Promise: what the attack knows how to do works through bodies, sight and choice, and is gone when its cause is.
//!
//! A screen on the man on the ball, a shown shot, an unsettled zone, a face-up at the high post, a filled corner,
//! the movements of the bundled attacks: each is measured with its cause and without it. Has caught: a lob that no
//! passer believed could be contested, and passers who took the first hand for the only one.
//!
//! What is measured is held to its bound by its interval: at three standard errors over two looks (`tests/looks.rs`), where
//! it is not said otherwise.

use engine::arrange::Scene;
use engine::film::{Action, Film, What};
use engine::math::{Vec2, min, vec2};
use engine::setup::{Setup, SideChoice};
use engine::slots::Slot;
use engine::{Arena, Measure};
use rayon::prelude::*;
use std::sync::Arc;

use crate::looks::{Demand, Z_3_ERRORS, demand, share};
use crate::studied::glance;
use crate::support::{argument, changed, folder, matchup, records, sum, text_of};
use crate::trade::each;
use crate::trade::estimate::{Estimate, Series, combination, difference};
use crate::trade::watch::tally;

const LEAD_GUARD: Slot = Slot::of(0);
const NEAR_POST: Slot = Slot::of(3);
const POINT: Slot = Slot::of(5);

/// Possessions a comparison.
const MANY: u64 = 3_000;

/// Nearest distance from the rim that a guard on top gets to within two seconds, one defender on him and a post beside
/// that defender or not, m.
fn gets_to(radius_m: f32, screened: bool, count: u64) -> Series {
    let setup = changed(&matchup(&[]), |setup| {
        setup.attack.side = SideChoice::Right;
        setup.officials.whistle_m_s = 1e3;
        // A post in another place is another receiver. Whom he would rather pass to is no matter of screens, so he
        // cannot pass.
        setup.attackers.skill.pass.iter_mut().for_each(|pass| pass.error_rad = 10.0);
        setup.attackers.body.radius_m = radius_m;
        setup.defenders.body.radius_m = radius_m;
    });
    let mut scene = Scene {
        stand: vec![(LEAD_GUARD, vec2(0.0, 6.9)), (POINT, vec2(0.0, 5.7))],
        ball: LEAD_GUARD,
        decides: true,
        // The other four keep away: whom they come to look after depends on where the post is.
        rooted: [6, 7, 8, 9].map(Slot::of).to_vec(),
        ..Scene::default()
    };
    if screened {
        scene.stand.push((NEAR_POST, vec2(0.62, 5.6)));
        scene.rooted.push(NEAR_POST);
    }
    (0..count)
        .into_par_iter()
        .map_init(
            || Some(Arena::new(1)),
            |kept, possession| {
                let mut playing =
                    scene.start(kept.take().expect("the arena came back"), &setup, 1, possession);
                let mut nearest = f32::INFINITY;
                for _ in 0..40 {
                    if playing.over() {
                        break;
                    }
                    playing.step();
                    nearest = min(nearest, playing.at(LEAD_GUARD).distance(Vec2::RIM));
                }
                *kept = Some(playing.arena());
                (f64::from(nearest), 1.0)
            },
        )
        .collect()
}

/// Plays of each scene at the first look: without bodies the post costs the driver nearly a quarter of what he gains by
/// them, and it takes many to tell.
const SCREENED: u64 = 1000;

fn of_the_screen_on_the_point(count: u64) -> Vec<Demand> {
    let [free, screened] = [false, true].map(|screened| gets_to(0.23, screened, count));
    let [bodiless, unscreened] = [true, false].map(|screened| gets_to(0.0, screened, count));
    // A post beside the ball is also one man more to look after: a quarter of the gain may be due to that, either way.
    let spare = |sign: f64| {
        let terms = [(0.25, &free), (-0.25, &screened), (sign, &unscreened), (-sign, &bodiless)];
        combination(&terms).interval(Z_3_ERRORS)
    };
    vec![
        Demand::at_least(
            "nearer to the rim off the screen, m",
            difference(&screened, &free).interval(Z_3_ERRORS),
            1.0,
        ),
        Demand::at_least("a quarter of it less what is left without bodies, m", spare(-1.0), 0.0),
        Demand::at_least("and the other way, m", spare(1.0), 0.0),
    ]
}

#[test]
fn a_screen_on_the_point_frees_the_driver_by_bodies_alone() {
    glance(SCREENED, of_the_screen_on_the_point);
}

#[test]
#[ignore = "a minute: what the tests of these two only glance at"]
fn study_of_the_screen_on_the_point_and_of_posts_threes() {
    demand(SCREENED, of_the_screen_on_the_point);
    demand(POSTS_THREES, of_posts_threes);
}

/// The bundled matchup with a shot shown on every rushed catch, to defenders who bite with this chance.
fn shows_shots(bite: f32) -> Arc<Setup> {
    changed(&matchup(&[]), |setup| {
        setup.defenders.head.bite_chance = bite;
        setup.attack.habits.fake_chance = 0.0;
        setup.attack.habits.shot_fake_chance = 1.0;
    })
}

/// First bite on a shown shot in each possession, and how far the one who bit moves while he would be in the air, with
/// the bite and in the same possession played to defenders who never bite, m.
fn moves_in_the_air(count: u64) -> [Series; 2] {
    let setups = [1.0, 0.0].map(shows_shots);
    let moves: Vec<(f32, f32)> = (0..count)
        .into_par_iter()
        .map_init(
            || Arena::new(1),
            |arena, possession| {
                let films = setups.each_ref().map(|setup| arena.film(setup, 5, possession));
                let (who, at_s) = films[0].events.iter().find_map(|event| match event.what {
                    What::Fake { bitten, .. } if bitten != 0 => {
                        Some((bitten.trailing_zeros() as usize, event.time_s))
                    }
                    _ => None,
                })?;
                let at =
                    |film: &Film, s: f32| film.frames.iter().find(|f| f.time_s >= s).map(|f| f.players[who]);
                let moved = |film: &Film| Some(at(film, at_s + 0.1)?.distance(at(film, at_s + 0.45)?));
                Some((moved(&films[0])?, moved(&films[1])?))
            },
        )
        .flatten()
        .collect();
    [
        moves.iter().map(|moved| (f64::from(moved.0), 1.0)).collect(),
        moves.iter().map(|moved| (f64::from(moved.1), 1.0)).collect(),
    ]
}

#[test]
fn a_shown_shot_takes_those_who_bite_off_their_feet_and_nobody_else() {
    demand(4000, |count| {
        let [bitten, unmoved] = moves_in_the_air(count);
        assert!(bitten.len() > 60, "{} bites", bitten.len());
        let lost = difference(&bitten, &unmoved).interval(Z_3_ERRORS);
        vec![Demand::at_least("less in the air than on their feet, m", lost, 0.0)]
    });
    let played = records(&shows_shots(0.0), 5, MANY);
    assert!(sum(&played, Measure::Fakes) > 100, "shots are shown");
    assert_eq!(sum(&played, Measure::FakesBitten), 0, "nobody bites");
}

/// How many more open looks there are to an attack that arrives than to one that is set, against a zone with a change.
fn arriving_gains(change: fn(&mut Setup), count: u64) -> Estimate {
    let [set, arriving] = ["\"set\"", "\"arriving\""].map(|state| {
        let setup = matchup(&[("start", &format!("{{ state = {state}, ball = \"lead-guard\" }}"))]);
        each(&records(&changed(&setup, change), 3, count), Measure::OpenLookAvailable)
    });
    difference(&set, &arriving)
}

#[test]
fn arriving_beats_a_slow_zone() {
    demand(MANY, |count| {
        let slow = arriving_gains(|setup| setup.defenders.body.sprint_m_s *= 0.8, count);
        vec![Demand::at_least("against a slow zone", slow.interval(Z_3_ERRORS), 0.0)]
    });
}

#[test]
fn whether_arriving_means_nothing_to_a_frozen_zone_is_open() {
    // It should mean less than .03; the bound lies inside of the interval (.018 to .035 in 12,000 possessions).
    let (low, high) = arriving_gains(|setup| setup.limits.frozen_zone = true, MANY).interval(Z_3_ERRORS);
    assert!(low <= 0.03 && 0.03 < high, "not open any more: {low} to {high}");
}

#[test]
fn after_a_rebound_the_ball_is_under_the_rim_and_the_zone_round_it() {
    let setup = matchup(&[("start", "{ state = \"rebound\" }")]);
    demand(1000, |count| {
        let [set, rebound] = [&matchup(&[]), &setup].map(|setup| records(setup, 3, count));
        let touched = rebound.iter().filter(|record| record.value(Measure::PaintTouch) > 0).count();
        let rim = [&set, &rebound].map(|records| each(records, Measure::RimShots));
        let more = combination(&[(1.0, &rim[1]), (-1.5, &rim[0])]);
        vec![
            Demand::at_least("touched in the paint", share(touched, rebound.len(), Z_3_ERRORS), 0.98),
            Demand::at_least("rim shots beyond one and a half times as many", more.interval(Z_3_ERRORS), 0.0),
        ]
    });
    let film = Arena::new(1).film(&setup, 3, 0);
    let near = film.frames[0].players[5..].iter().filter(|at| at.len() < 4.0).count();
    assert!(near >= 4, "{near} defenders have collapsed");
    assert_eq!(film.frames[0].holder, Some(NEAR_POST));
}

/// Shortest time from a catch of a pass at the high post to the catcher's first decision, s.
fn soonest_decision(face_up_s: f32) -> f32 {
    let setup = changed(&matchup(&[]), |setup| setup.attackers.head.face_up_s = face_up_s);
    let mut soonest = f32::INFINITY;
    let mut arena = Arena::new(1);
    for possession in 0..200 {
        let film = arena.film(&setup, 11, possession);
        let mut caught: Option<(Slot, f32)> = None;
        for event in &film.events {
            match event.what {
                What::Catch { by, .. } => {
                    let high = event.at.x.abs() <= 2.3 && (3.1..=5.1).contains(&event.at.y);
                    caught = high.then_some((by, event.time_s));
                }
                What::Decision { by, .. } => {
                    if let Some((catcher, at_s)) = caught.take()
                        && catcher == by
                    {
                        soonest = min(soonest, event.time_s - at_s);
                    }
                }
                _ => {}
            }
        }
    }
    soonest
}

#[test]
fn a_catch_at_the_high_post_is_faced_up_first() {
    for face_up_s in [0.5, 0.9] {
        let soonest = soonest_decision(face_up_s);
        assert!((face_up_s..face_up_s + 0.2).contains(&(soonest + 0.01)), "{soonest} s after {face_up_s} s");
    }
}

#[test]
fn a_corner_is_filled_when_the_ball_goes_away_and_shot_from() {
    demand(MANY, |count| {
        let [empty, filled] = ["0.0", "1.0"].map(|chance| {
            let setup = matchup(&[
                ("attack.rover.route", "\"seam-cross\""),
                ("attack.habits", &format!("{{ fill_chance = {chance} }}")),
            ]);
            each(&records(&setup, 3, count), Measure::CornerShots)
        });
        let gain = difference(&empty, &filled).interval(Z_3_ERRORS);
        vec![Demand::at_least("more corner shots a possession", gain, 0.0)]
    });
}

/// A bundled attack as it stands.
fn attack(name: &str) -> Arc<Setup> {
    matchup(&[("attack.use", &format!("\"{name}\"")), ("attack.rover", "{}"), ("attack.posts.options", "{}")])
}

#[test]
fn every_attack_is_credited_with_what_it_moves_and_the_control_moves_nothing() {
    for entry in scenarios::catalog().iter().filter(|entry| entry.kind == "attack") {
        let setup = attack(&entry.name);
        let played = records(&setup, 3, 600);
        let credited = sum(&played, Measure::CreditSet);
        assert_eq!(credited > 0, !setup.attack.programs.is_empty(), "{}: {credited} looks", entry.name);
        assert_eq!(sum(&played, Measure::CreditRoute), 0, "{}", entry.name);
    }
}

#[test]
fn the_control_never_drives_from_outside() {
    let setup = attack("pass-only");
    let mut arena = Arena::new(1);
    let mut passes = 0;
    for possession in 0..150 {
        for event in arena.film(&setup, 3, possession).events {
            match event.what {
                What::Decision { ref options, chosen, .. } => {
                    let drives = options[chosen].action == Action::Drive;
                    assert!(
                        !drives || event.at.len() < 3.7,
                        "possession {possession}: drives from {:?}",
                        event.at
                    );
                }
                What::Pass { .. } => passes += 1,
                What::ProgramStart { .. } => panic!("possession {possession}: somebody cuts"),
                _ => {}
            }
        }
    }
    assert!(passes > 300, "{passes} passes");
}

/// Threes of the rover on one wing and of the post who stands where he does on the other, all shooting alike but for
/// what a post's three is short of, logit: their chances to go in.
fn threes_of_rover_and_post(post_three: &str, count: u64) -> [Series; 2] {
    let setup = matchup(&[
        ("zone.use", "\"2-3\""),
        ("attack.use", "\"four-out\""),
        ("attack.rover", "{}"),
        ("attack.posts.options", "{}"),
        ("players.attack.skill.shooting_spread", "0.0"),
        ("players.attack.skill.shot.post_three", post_three),
    ]);
    let of = |film: &Film| {
        [2, 4].map(Slot::of).map(|shooter| {
            let mut sum = (0.0, 0.0);
            for event in &film.events {
                if let What::Shot { by, chance, three: true, .. } = event.what
                    && by == shooter
                {
                    tally(&mut sum, chance);
                }
            }
            sum
        })
    };
    let seen: Vec<[(f64, f64); 2]> = (0..count)
        .into_par_iter()
        .map_init(|| Arena::new(1), |arena, n| of(&arena.film(&setup, 17, n)))
        .collect();
    [0, 1].map(|who| seen.iter().map(|threes| threes[who]).collect())
}

/// Possessions of each at the first look.
const POSTS_THREES: u64 = 1600;

fn of_posts_threes(count: u64) -> Vec<Demand> {
    let [alike, poorer, poorest] =
        ["0.0", "-0.5", "-1.0"].map(|post_three| threes_of_rover_and_post(post_three, count));
    // Shots of the post for one of the rover.
    let share = |[rover, post]: &[Series; 2]| -> Series {
        rover.iter().zip(post).map(|(rover, post)| (post.1, rover.1)).collect()
    };
    let [of_alike, of_poorer, of_poorest] = [&alike, &poorer, &poorest].map(share);
    let fewer = |a: &Series, b: &Series| combination(&[(0.8, a), (-1.0, b)]).interval(Z_3_ERRORS);
    let shots = |series: &Series| -> Series { series.iter().map(|threes| (threes.1, 1.0)).collect() };
    let short = |[rover, post]: &[Series; 2]| difference(post, rover).interval(Z_3_ERRORS);
    let as_many = combination(&[(1.0, &shots(&poorest[0])), (-0.9, &shots(&alike[0]))]);
    vec![
        Demand::at_least("less than four fifths of the post's shots", fewer(&of_alike, &of_poorer), 0.0),
        Demand::at_least("and again", fewer(&of_poorer, &of_poorest), 0.0),
        Demand::within("his chance falls short where all shoot alike", short(&alike), 0.02),
        // The poorest hardly shoots at all.
        Demand::at_least("his chance falls short where posts shoot worse", short(&poorer), 0.05),
        Demand::at_least("the rover shoots no less for it", as_many.interval(Z_3_ERRORS), 0.0),
    ]
}

#[test]
fn a_posts_three_is_rarer_than_anybody_elses_from_the_same_place_and_falls_less_often() {
    glance(POSTS_THREES, of_posts_threes);
}

/// Screens of the bundled ball screen against a 2-3 that have come to within arm's reach of the man on the ball when
/// their first leg or the lead guard's hold ends, by possession and defender, the file saying whom to screen.
fn screens_on_the_ball(whom: &str) -> Vec<[usize; 10]> {
    let text =
        text_of("scenarios/data/attacks/point-screen.toml").replace("\"on ball\"", &format!("\"{whom}\""));
    let home = folder(&[("screen.toml", &text)]);
    let setup = matchup(&[
        ("zone.use", "\"2-3\""),
        ("attack.use", &format!("{:?}", argument(&home.path().join("screen.toml")))),
        ("attack.rover", "{}"),
        ("attack.posts.options", "{}"),
    ]);
    let one = |arena: &mut Arena, possession: u64| {
        let mut screened = [0; 10];
        let film = arena.film(&setup, 19, possession);
        for (nth, event) in film.events.iter().enumerate() {
            let What::ProgramStart { by: NEAR_POST, .. } = event.what else { continue };
            let ends = film.events[nth + 1..].iter().find(|later| {
                matches!(
                    later.what,
                    What::ProgramStep { by: NEAR_POST, .. } | What::ProgramEnd { by: NEAR_POST, .. }
                )
            });
            let until_s = ends.map_or(f32::INFINITY, |end| end.time_s);
            let mut leg = film.frames.iter().filter(|frame| (event.time_s..=until_s).contains(&frame.time_s));
            let beside = leg.rfind(|frame| frame.holder == Some(LEAD_GUARD)).and_then(|frame| {
                let far = |lane: usize| frame.players[lane].distance(frame.ball);
                let guard = (5..10).min_by(|a, b| far(*a).total_cmp(&far(*b))).expect("five defenders");
                let metres = frame.players[guard].distance(frame.players[NEAR_POST]);
                (metres < 1.2).then_some(guard)
            });
            if let Some(guard) = beside {
                screened[guard] += 1;
            }
        }
        screened
    };
    (0..400_u64).into_par_iter().map_init(|| Arena::new(1), one).collect()
}

#[test]
fn a_screen_on_the_ball_is_set_on_whoever_guards_it() {
    let [on_ball, elsewhere] = ["on ball", "near back"].map(screens_on_the_ball);
    let all = |screens: &[[usize; 10]]| -> Series {
        screens.iter().map(|screened| (screened.iter().sum::<usize>() as f64, 1.0)).collect()
    };
    let more = combination(&[(1.0, &all(&on_ball)), (-3.0, &all(&elsewhere))]);
    // One look at three standard errors.
    let (least, _) = more.interval(3.0);
    assert!(least > 0.0, "three times as many as where the file names another: {more:?}");
    let by_guard: [usize; 10] =
        std::array::from_fn(|guard| on_ball.iter().map(|screened| screened[guard]).sum());
    println!("{more:?}, on the ball {by_guard:?}");
    assert!(by_guard.iter().sum::<usize>() >= 100, "{by_guard:?}");
    assert!(by_guard.iter().filter(|count| **count >= 10).count() >= 2, "whoever it is: {by_guard:?}");
}
