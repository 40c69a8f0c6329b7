//! A film is the very possession that the batch counted, and what it shows is on the floor and in order.
//!
//! Its looks and its stress are the ones that were counted, and its page is small and written whole.
//!
//! What it has caught: nothing yet.

use engine::film::{Event, Film, Stress, What};
use engine::setup::{BallPlace, CLOCK_S, Moved, Setup, State};
use engine::slots::Slot;
use engine::{Arena, Measure, film_possession};
use experiments::error::Exit;
use experiments::film::{Caption, Side, page};
use experiments::units::Units;
use rayon::prelude::*;

use crate::support::{argument, changed, every_matchup, folder, matchup, play, question, zoneprobe};

/// How far a body may be pushed over a line, m.
const OVER_THE_LINE_M: f32 = 1.0;

fn check(setup: &Setup, film: &Film) {
    let court = &setup.court;
    for frame in &film.frames {
        let at = frame.time_s;
        for (player, p) in frame.players.iter().enumerate() {
            let inside = p.x.abs() <= court.half_width_m + OVER_THE_LINE_M
                && p.y >= court.baseline_y_m - OVER_THE_LINE_M
                && p.y <= court.midcourt_y_m + OVER_THE_LINE_M;
            assert!(inside, "player {player} is at {p:?} at {at} s");
            let facing = frame.facing[player];
            assert!((facing.len() - 1.0).abs() < 1e-3, "player {player} faces {facing:?} at {at} s");
        }
        let ball = frame.ball;
        assert!(ball.x.is_finite() && ball.y.is_finite(), "the ball is at {ball:?} at {at} s");
        let height = frame.ball_height_m;
        assert!(height.is_finite() && height >= 0.0, "the ball is {height} m high at {at} s");
    }
    for pair in film.frames.windows(2) {
        let passed = pair[1].time_s - pair[0].time_s;
        assert!((passed - setup.step_s).abs() < 1e-4, "a step of {passed} s at {} s", pair[0].time_s);
    }
    // What happens inside a step carries its own time; stages of one step may tell it in their own order.
    let mut latest = f32::NEG_INFINITY;
    for event in &film.events {
        assert!(event.at.x.is_finite() && event.at.y.is_finite(), "{event:?}");
        assert!(event.time_s >= latest - setup.step_s - 1e-4, "{event:?} comes after {latest} s");
        latest = if event.time_s > latest { event.time_s } else { latest };
    }
    let first = film.events.first().map(|event| &event.what);
    assert!(matches!(first, Some(What::Start { .. })), "a film starts with {first:?}");
    let ends = film.events.iter().filter_map(|event| match event.what {
        What::End { outcome, .. } => Some(outcome),
        _ => None,
    });
    assert_eq!(ends.collect::<Vec<_>>(), [film.record.outcome], "one end, the record's");
    check_measures(film);
    check_views(film);
}

/// What the frames show of looks and stress is what the record counted. The first frame is before the first step.
fn check_measures(film: &Film) {
    let record = &film.record;
    let stress: Vec<_> = film.frames[1..].iter().filter_map(|frame| frame.stress).collect();
    let mean = |of: fn(&Stress) -> f32| {
        stress.iter().map(|s| f64::from(of(s))).sum::<f64>() / stress.len().max(1) as f64
    };
    for (measure, shown) in [
        (Measure::LatenessMean, mean(|s| s.late_s)),
        (Measure::LineGap, mean(|s| s.line_gap_m)),
        (Measure::WidestSeam, mean(|s| s.widest_seam_m)),
        (Measure::UnguardedShare, mean(|s| f32::from(u8::from(s.late_s > 0.0)))),
        (Measure::LatenessPeak, stress.iter().fold(0.0, |most: f64, s| most.max(f64::from(s.late_s)))),
    ] {
        let counted = record.real(measure);
        assert!((counted - shown).abs() < 2e-6, "{measure:?}: {counted} counted, {shown} shown");
    }
    assert!(stress.iter().all(|s| s.late_for.is_some() == (s.late_s > 0.0)), "who it is late for");
    let first = film.frames[1..].iter().find(|frame| frame.look.is_some_and(|look| look.open));
    if let Some(frame) = first {
        // An open shot, rebounded by the attack, may have come before any open hold.
        let counted = record.real(Measure::TimeToOpenLook);
        let shown = f64::from(frame.time_s);
        let shot = |event: &Event| {
            let early = counted - f64::from(event.time_s);
            matches!(event.what, What::Shot { open: true, .. }) && (-1e-4..0.06).contains(&early)
        };
        let told = counted < shown && film.events.iter().any(shot);
        assert!((counted - shown).abs() < 2e-6 || told, "{counted} s counted, {shown} s shown");
    }
    for frame in &film.frames {
        let alive = frame.look.is_some();
        assert!(!alive || frame.holder.is_some(), "a look without a ball at {} s", frame.time_s);
        let lanes = frame.lanes.iter().flatten().count();
        assert!(
            lanes == if frame.holder.is_some_and(Slot::attacks) { 4 } else { 0 },
            "{lanes} passing lanes"
        );
        assert!(frame.air.is_none() || frame.holder.is_none(), "in the air and held at {} s", frame.time_s);
    }
}

/// Who sees a player well believes him near where he is.
fn check_views(film: &Film) {
    for frame in &film.frames {
        for (player, view) in frame.views.iter().enumerate() {
            assert!((view.gaze.len() - 1.0).abs() < 1e-3, "player {player} looks {:?}", view.gaze);
            assert!(view.lost >> player & 1 == 0, "player {player} has lost himself");
            for other in 0..10 {
                let off = view.players[other].distance(frame.players[other]);
                let fresh = view.age_s[other] < 0.35 && other != player;
                assert!(!fresh || off < 3.5, "{player} sees {other} {off} m off at {} s", frame.time_s);
            }
        }
    }
}

#[test]
fn films_of_every_route_against_every_zone_are_the_possessions_of_the_batch() {
    every_matchup().par_iter().for_each(|(name, setup)| {
        for record in play(&mut Arena::new(Arena::WIDTH), setup, 22, 0..6) {
            let film = film_possession(setup, 22, record.possession);
            assert!(film.record == record, "{name}, possession {}", record.possession);
            check(setup, &film);
        }
    });
}

#[test]
fn films_are_the_possessions_of_the_batch() {
    let question = question();
    let variants = question.variants.len() as u64;
    let each = 200_u64.div_ceil(variants);
    question.variants.par_iter().for_each(|variant| {
        let batch = play(&mut Arena::new(Arena::WIDTH), &variant.setup, 21, 0..each);
        for record in batch {
            let film = film_possession(&variant.setup, 21, record.possession);
            assert!(film.record == record, "{}, possession {}", variant.name, record.possession);
            check(&variant.setup, &film);
        }
    });
}

#[test]
fn the_longest_possession_makes_a_small_page() {
    let caption = Caption { name: "long".into(), question: String::new(), seed: 1, command: String::new() };
    let lively = matchup(&[("clock.shot_clock_s", "\"none\""), ("attack.rover.route", "\"baseline-run\"")]);
    // Moving the ball is worth more than any shot, nothing goes wrong, and only the cap ends it.
    let restless = changed(&lively, |setup| {
        let every = BallPlace::ALL.into_iter().flat_map(|place| Moved::ALL.map(|moved| (place, moved)));
        for (place, moved) in every.filter(|(_, moved)| *moved != Moved::Little) {
            let first = State { place, moved, held_s: 0.0, left_s: 0.0 }.entry();
            setup.attackers.skill.continuation.points[first..first + CLOCK_S.len()].fill(9.0);
        }
        setup.officials.closely_guarded_s = None;
        setup.officials.three_seconds_s = 1000.0;
    });
    let records = play(&mut Arena::new(Arena::WIDTH), &lively, 3, 0..2000);
    let longest = records.iter().max_by_key(|record| record.value(Measure::SecondsUsed)).unwrap().possession;
    for (setup, possessions) in [(&restless, (0..24).collect()), (&lively, vec![longest])] {
        for possession in possessions {
            let film = film_possession(setup, 3, possession);
            let bytes = page(&Side { name: "long", film: &film, setup, units: Units::Ft }, &caption).len();
            let seconds = film.record.real(Measure::SecondsUsed);
            assert!(bytes < 500_000, "{bytes} bytes for {seconds} s");
        }
    }
}

/// The same seed gives the same bytes of every kind of film, in a new folder and never over an old one.
#[test]
fn films_of_every_kind_are_written_once_and_the_same_again() {
    let home = folder(&[]);
    // A short one: pictures are drawn for every moment of it.
    let setup = crate::support::variant("seam-cross");
    let frames = |possession: &u64| engine::film_possession(&setup, 1, *possession).frames.len();
    let possession = (0..40).min_by_key(frames).expect("some possession").to_string();
    let ask = |more: &[&str], out: &str| {
        let to = home.path().join(out);
        let asked = [
            "film",
            "routes-against-sink",
            "--variant",
            "seam-cross",
            "--possession",
            &possession,
            "--out",
            argument(&to),
        ];
        (zoneprobe(&[asked.as_slice(), more].concat()), to)
    };
    for (more, file) in [
        (["--as", "page"], "film.html"),
        (["--as", "gif"], "film.gif"),
        (["--as", "frames"], "frames/0001.png"),
        (["--as", "storyboard"], "storyboard.svg"),
        (["--beside", "hold-wing"], "film.html"),
    ] {
        let (told, to) = ask(&more, more[1]);
        assert_eq!(told.exit, Exit::Done, "{}", told.err);
        let bytes = std::fs::read(to.join(file)).unwrap();
        assert!((500..3_000_000).contains(&bytes.len()), "{file} has {} bytes", bytes.len());
        assert_eq!(std::fs::read_to_string(to.join("trace.txt")).unwrap(), told.out);
        let again = ask(&more, &format!("{}-again", more[1])).1;
        assert!(std::fs::read(again.join(file)).unwrap() == bytes, "{file} is another when it is made again");
        assert_eq!(ask(&more, more[1]).0.exit, Exit::Unusable, "nothing is written over");
    }
    let (told, to) = ask(&["--as", "storyboard", "--beside", "hold-wing"], "both");
    assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""));
    assert!(told.err.contains("leave out --beside") && !to.exists(), "{}", told.err);
}

/// Until they part two variants tell the same lines, and from then on each its own.
#[test]
fn a_film_beside_another_says_where_they_part() {
    let asked = ["film", "routes-against-sink", "--variant", "seam-cross", "--possession", "17"];
    let alone = zoneprobe(&asked);
    let both = zoneprobe(&[asked.as_slice(), &["--beside", "hold-wing"]].concat());
    assert_eq!((alone.exit, both.exit), (Exit::Done, Exit::Done), "{}{}", alone.err, both.err);
    assert!(
        both.out.contains("The two part at ") && both.out.contains("In the end: with seam-cross, "),
        "{}",
        both.out
    );
    let told = |text: &str| -> Vec<String> {
        let timed = |line: &&str| {
            line.starts_with("           ") || line.starts_with(' ') && line.get(5..7) == Some(" s")
        };
        text.lines().filter(timed).map(str::to_owned).collect()
    };
    let (own, beside) = (told(&alone.out), told(&both.out));
    assert!(own.len() > 8 && beside.starts_with(&own), "the first is told as it is told alone");
    let same = zoneprobe(&[asked.as_slice(), &["--beside", "seam-cross"]].concat());
    assert_eq!(same.exit, Exit::Unusable);
    assert!(same.err.contains("beside itself"), "{}", same.err);
}

#[test]
fn a_film_is_written_whole_or_not_at_all() {
    let home = folder(&[("mine.txt", "mine")]);
    let to = home.path().join("film");
    let told = zoneprobe(&["film", "sunken-122", "--possession", "17", "--out", argument(&to)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let text = std::fs::read_to_string(to.join("trace.txt")).unwrap();
    assert_eq!(text, told.out, "the trace is what the terminal shows");
    let html = std::fs::read_to_string(to.join("film.html")).unwrap();
    assert!(
        html.contains("zoneprobe film sunken-122 --variant as-given --seed 1 --possession 17"),
        "the command is on the page"
    );
    for (place, name) in [(home.path().to_path_buf(), "mine.txt"), (to, "film.html")] {
        let told = zoneprobe(&["film", "sunken-122", "--possession", "1", "--out", argument(&place)]);
        assert_eq!((told.exit, told.out.as_str()), (Exit::Unusable, ""));
        assert!(place.join(name).exists());
    }
    let told = zoneprobe(&[
        "film",
        "sunken-122",
        "--possession",
        "1",
        "--variant",
        "x",
        "--out",
        argument(&home.path().join("new")),
    ]);
    assert_eq!(told.exit, Exit::Unusable);
    assert!(!home.path().join("new").exists(), "nothing is half written");
}
